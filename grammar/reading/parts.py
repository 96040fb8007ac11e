"""What the parts of a rule are while the syntax tree is being built."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

from grammar.text import Span
from grammar.tree import (
    At,
    Axis,
    Branch,
    BurnStep,
    Clause,
    Day,
    Expectation,
    Expression,
    Figure,
    Fitting,
    Information,
    Range,
    Row,
    Setting,
    Statement,
    Throughout,
    Word,
)


@dataclass(frozen=True, slots=True)
class Sign:
    """A word or sign of the language that a rule has kept, such as the minus before a figure."""

    terminal: str
    span: Span


@dataclass(frozen=True, slots=True)
class Cell:
    """One cell of a row; an empty one holds nothing."""

    content: Figure | Word | None


@dataclass(frozen=True, slots=True)
class Settings:
    """The ``given`` or ``load`` clause of a worked example."""

    settings: tuple[Setting, ...]
    are_loads: bool


@dataclass(frozen=True, slots=True)
class Expectations:
    """One ``expect`` clause of a worked example."""

    expectations: tuple[Expectation, ...]


@dataclass(frozen=True, slots=True)
class ByOrder:
    """``by order``, after what is added to declared masses."""

    span: Span


@dataclass(frozen=True, slots=True)
class Tolerance:
    """``give or take 0.1 mm``."""

    figure: Figure


Part = (
    Word | Figure | Day | Expression | Branch | Clause | At | Throughout | Range | Information | BurnStep | Axis
    | Row | Fitting | Setting | Expectation | Statement | Sign | Cell | ByOrder | Settings | Expectations
    | Tolerance
)  # fmt: skip
"""Whatever a rule can yield while the tree is being built."""

Kind = TypeVar("Kind")


@dataclass(frozen=True, slots=True)
class Parts:
    """The parts that one rule was read from, in the order written, and the stretch of text they take."""

    parts: tuple[Part, ...]
    span: Span

    def all(self, kind: type[Kind]) -> tuple[Kind, ...]:
        """Every part of a kind."""
        return tuple(part for part in self.parts if isinstance(part, kind))

    def one(self, kind: type[Kind]) -> Kind:
        """The first part of a kind; the grammar sees to it that there is one."""
        return self.all(kind)[0]

    def maybe(self, kind: type[Kind]) -> Kind | None:
        """The first part of a kind, if there is one."""
        found = self.all(kind)
        return found[0] if found else None

    @property
    def name(self) -> Word:
        """The first word, which is the name in every rule that has one."""
        return self.all(Word)[0]

    @property
    def label(self) -> Word | None:
        """The second word, which is the label where one was written."""
        words = self.all(Word)
        return words[1] if len(words) > 1 else None

    @property
    def expressions(self) -> tuple[Expression, ...]:
        """Every part that is a value or a condition."""
        return tuple(part for part in self.parts if isinstance(part, Expression))

    @property
    def clauses(self) -> tuple[Clause, ...]:
        """Every part that is a clause."""
        return tuple(part for part in self.parts if isinstance(part, Clause))

    @property
    def expectations(self) -> tuple[Expectation, ...]:
        """Every part that says what is expected of an example."""
        return tuple(part for part in self.parts if isinstance(part, Expectation))

    @property
    def information(self) -> Information:
        """The part that says what a fact or a given can be."""
        return next(part for part in self.parts if isinstance(part, Information))

    @property
    def figure(self) -> Figure:
        """The figure that a number, its sign and its unit make together."""
        digits, *unit = self.all(Word)
        amount = Fraction(digits.text)
        is_negative = self.maybe(Sign) is not None
        return Figure(-amount if is_negative else amount, unit[0] if unit else None, self.span)
