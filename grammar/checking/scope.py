"""What is known while a file is being checked: its names, its inputs, and what has been used so far."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

from grammar import sheet, tree
from grammar.checking.choice_tables import ChoiceTable
from grammar.checking.context import Context
from grammar.checking.notebook import Notebook
from grammar.checking.ranges import Ends, ends
from grammar.diagnostics.suggestions import nearest
from grammar.text import Span
from grammar.units import Unit, known_unit

NamedStatement = (
    tree.Document | tree.Fact | tree.Given | tree.Configuration | tree.Load | tree.Fuel | tree.Let | tree.Table
    | tree.Envelope | tree.Limit | tree.Example
)  # fmt: skip

Resolved = sheet.Expression | sheet.Condition


@dataclass(slots=True)
class Preferences:
    """The units in which the sheet's totals are best shown: those of its own loads and arms."""

    mass: Unit = field(default_factory=lambda: known_unit("kg"))
    length: Unit = field(default_factory=lambda: known_unit("mm"))

    @property
    def moment(self) -> Unit:
        """Mass times length in these units."""
        return known_unit(f"{self.mass.name}.{self.length.name}")


@dataclass(frozen=True, slots=True)
class DeclaredMass:
    """What is added to the mass on a place when it is declared and not weighed.

    ``by_order`` says that an order adds it: the limits of the manual then hold with and without it.
    """

    add: sheet.Constant
    source: sheet.Source | None
    span: Span
    by_order: bool


@dataclass(frozen=True, slots=True)
class Fitted:
    """What one way of fitting the airframe adds to its weighing."""

    mass: sheet.Constant
    arm: sheet.Constant | None
    lateral_arm: sheet.Constant | None


@dataclass(frozen=True, slots=True)
class Configuration:
    """The ways of fitting the airframe: what each adds, and which have a weighing of their own."""

    item: sheet.Input
    adds: Mapping[str, Fitted]
    weighed_apart: frozenset[str]
    source: sheet.Source | None
    span: Span


@dataclass(frozen=True, slots=True)
class Reach:
    """How deep a value goes: levels of values within values, and names that lean on one another."""

    levels: int = 0
    names: int = 0

    def and_also(self, other: Reach) -> Reach:
        """How deep two values go that stand beside one another."""
        return Reach(max(self.levels, other.levels), max(self.names, other.names))

    def deeper(self, levels: int = 1, names: int = 0) -> Reach:
        """How deep it goes with so many levels and names around it."""
        return Reach(self.levels + levels, self.names + names)


@dataclass(frozen=True, slots=True)
class Known:
    """What a value or condition as written stands for in a context.

    ``stages_asked`` and ``reach`` are what finding it adds to the scope's own counts.
    """

    written: tree.Expression
    found: Resolved | None
    stages_asked: int
    reach: Reach


@dataclass(slots=True)
class Scope:
    """The state of checking one file; it lives no longer than the check.

    A check that fails writes a problem down and leaves its thing out; ``faulty`` keeps the names of those,
    so that whoever leans on them is not blamed as well.
    """

    notebook: Notebook
    resolver: Callable[[Scope, tree.Expression, Context], Resolved | None]
    """What an expression of any sort stands for (``expressions.resolve``)."""
    order_files: frozenset[str] = frozenset()
    """The files that are orders: what they add to declared masses may loosen nothing."""
    declared: dict[str, NamedStatement] = field(default_factory=dict)
    faulty: set[str] = field(default_factory=set)
    used: set[str] = field(default_factory=set)
    units: Preferences = field(default_factory=Preferences)
    documents: dict[str, sheet.Document] = field(default_factory=dict)
    inputs: dict[str, sheet.Input] = field(default_factory=dict)
    places: dict[str, sheet.Place] = field(default_factory=dict)
    tanks: dict[str, sheet.Tank] = field(default_factory=dict)
    burn: sheet.Burn | None = None
    declared_masses: dict[str, DeclaredMass] = field(default_factory=dict)
    configurations: dict[str, Configuration] = field(default_factory=dict)
    chord: sheet.Chord | None = None
    tables: dict[str, sheet.Table] = field(default_factory=dict)
    choice_tables: dict[str, ChoiceTable] = field(default_factory=dict)
    envelopes: dict[str, sheet.Envelope] = field(default_factory=dict)
    limits: dict[str, sheet.Limit | None] = field(default_factory=dict)
    bounds: dict[tuple[str, bool], sheet.Condition] = field(default_factory=dict)
    """The claim of each limit as the manual states it, for whoever asks for its bound: with what orders add to
    declared masses, and without (True)."""
    instances: dict[tuple[str, sheet.Stage | None, str | None], Resolved | None] = field(default_factory=dict)
    reaches: dict[tuple[str, sheet.Stage | None, str | None], Reach] = field(default_factory=dict)
    """How deep each let goes, by the key of its instance, and each limit."""
    known: dict[tuple[int, Context], Known] = field(default_factory=dict)
    """What stands for what was written, by the identity of the tree's node: each is resolved once."""
    opened: list[str] = field(default_factory=list)
    """The lets and limits being resolved just now, outermost first: to see a circle."""
    slot_count: int = 0
    stages_asked: int = 0
    """How often a value was resolved that depends on the stage of its context."""
    reach: Reach = Reach()
    """How deep what was resolved goes, since it was last set to nothing."""
    known_ends: dict[int, Ends] = field(default_factory=dict)

    def slot(self) -> int:
        """A slot of its own for a new expression or condition."""
        self.slot_count += 1
        return self.slot_count - 1

    def begin_to_count(self) -> tuple[int, Reach]:
        """Count the stages asked and the reach from nothing; what was counted so far."""
        before = self.stages_asked, self.reach
        self.stages_asked, self.reach = 0, Reach()
        return before

    def ends(self, node: sheet.Expression) -> Ends:
        """Between which ends a value can lie, by the declared ranges."""
        return ends(node, self.known_ends)

    def unknown(self, code: str, word: tree.Word, known: Iterable[str]) -> None:
        """Write down that a name is not known, with the nearest known one."""
        self.notebook.write(code, word.span, suggestion=nearest(word.text, known), name=word.text)

    def is_faulty(self, name: str) -> bool:
        """Whether the name's own statement has a problem already."""
        return name in self.faulty

    def use(self, name: str) -> None:
        """Note that a declared name is used."""
        self.used.add(name)

    def typed(self, span: Span) -> str:
        """The words at a span as typed."""
        return self.notebook.typed(span)

    def a_document(self) -> str:
        """The name of a document to show in a remedy."""
        return next(iter(self.documents), "fm")
