"""A sheet's nodes on their way into code: what each came to, by its slot."""

from __future__ import annotations

from dataclasses import dataclass, field

from engine.evaluation.compiling.data import Data
from engine.evaluation.compiling.forms import Form
from engine.evaluation.compiling.writer import Writer
from grammar.sheet import Condition, Expression, Stage


@dataclass(frozen=True, slots=True)
class Test:
    """A condition as code. ``known`` is its truth where that is known beforehand."""

    text: str
    degree: int
    is_late: bool
    known: bool | None = None


KNOWN = {truth: Test(str(truth), 0, False, truth) for truth in (True, False)}
"""The conditions whose truth is known beforehand."""


@dataclass(slots=True)
class Translation:
    """What the nodes so far came to, and what the next ones are made from.

    ``inputs`` and ``flags`` are by the input's name, ``fuel`` by the tank's name and the stage. ``words`` are
    the numbers that stand for options. ``shared`` are the slots that more than one node is made from.
    """

    writer: Writer
    data: Data
    inputs: dict[str, Form]
    flags: dict[str, Test]
    words: dict[str, int]
    shared: frozenset[int]
    fuel: dict[tuple[str, Stage], Form] = field(default_factory=dict)
    forms: dict[int, Form] = field(default_factory=dict)
    tests: dict[int, Test] = field(default_factory=dict)

    def form(self, node: Expression) -> Form:
        """What an expression came to."""
        return self.forms[node.slot]

    def test(self, node: Condition) -> Test:
        """What a condition came to."""
        return self.tests[node.slot]

    def at(self, fuel: dict[tuple[str, Stage], Form]) -> Translation:
        """The same translation with other amounts of fuel, for what moves with the burn."""
        return Translation(
            self.writer,
            self.data,
            self.inputs,
            self.flags,
            self.words,
            self.shared,
            {**self.fuel, **fuel},
            dict(self.forms),
            dict(self.tests),
        )
