"""The code of an encoder: from the whole numbers of an answer to its published JSON.

One function a sheet is written. It puts figures into frames made beforehand; sentences come from those
learned for the same turn of events. Only names of its own making, whole numbers and fixed words are
written as code: every text of the sheet stands beside the code as data.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import groupby

from engine.evaluation.compiling.layout import Chosen, Divided, Known, Layout, Scaled, Settled
from engine.explanation.encoding_amounts import WholeAmount, constant_amount
from engine.explanation.encoding_figures import MOST_IN_A_TABLE, decimal_text, ends, shown_ratio
from engine.explanation.encoding_frames import pieces_of
from engine.explanation.encoding_runtime import day_text, quantity_frames
from grammar.figures import unit_word
from grammar.sheet import CalendarDate, Condition, Expression, Numeric, Option
from grammar.units import PURE, Unit

Node = Expression | Condition


@dataclass(slots=True)
class EncodingCode:
    """The body of an encoder as it grows.

    ``figures`` has for each slot with a figure its number among those that sentences may take; ``leaning``
    the slots whose figure may have to be rounded, in the order of their leans; ``rounded`` has by the frames
    and the figure the quantity last made of them and its lean.
    """

    layout: Layout
    lines: list[str] = field(default_factory=list)
    data: dict[str, object] = field(default_factory=dict)
    figures: dict[int, int] = field(default_factory=dict)
    figure_codes: list[str] = field(default_factory=list)
    leaning: list[int] = field(default_factory=list)
    rounded: dict[tuple[str, str], tuple[str, str]] = field(default_factory=dict)
    depth: int = 1
    _names: list[dict[str, str]] = field(default_factory=lambda: [{}])
    _count: int = 0
    _frames: dict[str, str] = field(default_factory=dict)
    _places: dict[object, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.data |= {"text": decimal_text, "ratio": shown_ratio, "day": day_text}

    def line(self, text: str) -> None:
        """One line at the present indentation."""
        self.lines.append("    " * self.depth + text)

    @contextmanager
    def block(self, head: str) -> Iterator[None]:
        """An indented block; what is named in it is not known after it."""
        self.line(head)
        self.depth += 1
        self._names.append({})
        yield
        self._names.pop()
        self.depth -= 1

    def fresh(self) -> str:
        """A new name."""
        self._count += 1
        return f"g{self._count}"

    def let(self, text: str) -> str:
        """The name of what a piece of code comes to; the same name for the same piece."""
        for known in self._names:
            if text in known:
                return known[text]
        name = self.fresh()
        self._names[-1][text] = name
        self.line(f"{name} = {text}")
        return name

    def add(self, piece: object) -> str:
        """The name of a piece of data."""
        key = (type(piece), piece if isinstance(piece, (str, tuple)) else id(piece))
        if key not in self._places:
            name = f"K{len(self._places)}"
            self._places[key] = name
            self.data[name] = piece
        return self._places[key]

    def pieces(self, frame: str, places: list[list[str]]) -> list[str]:
        """A frame with its places filled, as code for one piece of text after the other."""
        texts = pieces_of(frame)
        if len(texts) != len(places) + 1:
            raise ValueError("a frame with more or fewer places than there is text for")
        found = [self.add(texts[0])]
        for place, text in zip(places, texts[1:], strict=True):
            found += [*place, self.add(text)]
        return found

    def merged(self, pieces: list[str]) -> list[str]:
        """The pieces with fixed texts that stand side by side made one."""
        merged: list[str] = []
        for is_fixed, run in groupby(pieces, lambda piece: isinstance(self.data.get(piece), str)):
            if is_fixed:
                merged.append(self.add("".join(str(self.data[piece]) for piece in run)))
            else:
                merged += run
        return merged

    def together(self, pieces: list[str]) -> str:
        """Code for the pieces as one text."""
        return 'f"' + "".join(f"{{{piece}}}" for piece in self.merged(pieces)) + '"'

    # ---- amounts

    def amount(self, slot: int) -> WholeAmount:
        """A slot's value in base units. Errors: TypeError for a slot that holds no amount."""
        match self.layout.slots[slot]:
            case Known(value=Fraction() as value):
                return constant_amount(value)
            case Scaled(at=at, scale=scale):
                return WholeAmount(f"p{at}", "1", scale)
            case Divided(at=at, below=below, scale=scale):
                return WholeAmount(f"p{at}", f"p{below}", scale)
            case _:
                raise TypeError(f"slot {slot} holds no amount")

    def decimal(self, amount: WholeAmount, decimals: int) -> str:
        """The name of the text of an amount that is a decimal beforehand."""
        scaled = amount.scaled(decimals)
        if amount.above == "1":
            return self.add(decimal_text(int(scaled), decimals))
        return self.text(scaled, decimals)

    def text(self, whole: str, decimals: int) -> str:
        """The name of the text of a whole number of the last decimal."""
        if not decimals or decimals > MOST_IN_A_TABLE:
            return self.let(self.positive(whole, decimals))
        number = whole if whole.isalnum() else self.let(whole)
        return self.let(f"{self.positive(number, decimals)} if {number} >= 0 else text({number}, {decimals})")

    def positive(self, number: str, decimals: int) -> str:
        """Code for the text of a whole number of the last decimal that is not below zero."""
        if not decimals:
            return f"str({number})"
        if decimals > MOST_IN_A_TABLE:
            return f"text({number}, {decimals})"
        table, ten = self.add(ends(decimals)), 10**decimals
        return f'f"{{{number} // {ten}}}{{{table}[{number} % {ten}]}}"'

    def pair(self, amount: WholeAmount) -> str:
        """The name of an amount as a numerator and a denominator."""
        above, below = amount.ratio()
        return self.let(f"({above}, {below})")

    def quantities(self, unit: Unit) -> str:
        """The frames of a quantity in a unit."""
        return self.frames(unit_word(unit))

    def frames(self, word: str) -> str:
        """The frames of a quantity in a unit, by its word."""
        if word not in self._frames:
            self._frames[word] = self.add(quantity_frames(word))
        return self._frames[word]

    # ---- figures of slots

    def take_figure(self, node: Node) -> None:
        """Make the figure of a slot ready for sentences and for the list of values."""
        if not isinstance(node, Numeric) or node.slot in self.figures or isinstance(node.kind, Option):
            return
        self.figures[node.slot] = len(self.figure_codes)
        self.figure_codes.append(self._figure(node))

    def _figure(self, node: Expression) -> str:
        if isinstance(node.kind, CalendarDate):
            return self._day(node)
        amount = self.amount(node.slot).in_unit(node.unit or PURE)
        decimals = amount.decimals
        if decimals is not None:
            return self.decimal(amount, decimals)
        self.leaning.append(node.slot)
        return self.pair(amount)

    def _day(self, node: Expression) -> str:
        match self.layout.slots[node.slot]:
            case Known(value=Fraction() as value):
                return self.add(day_text(int(value)))
            case Scaled(at=at):
                return self.let(f"day(p{at})")
            case _:
                raise TypeError("a day that is no whole number")

    def figure(self, slot: int) -> str:
        """The code of a slot's figure."""
        return self.figure_codes[self.figures[slot]]

    # ---- truths and options

    def truth(self, slot: int) -> str:
        """The code of a condition's truth."""
        match self.layout.slots[slot]:
            case Settled(at=at):
                return f"p{at}"
            case Known(value=value):
                return str(value)
            case _:
                raise TypeError(f"slot {slot} holds no truth")

    def option(self, slot: int) -> str:
        """The code of the number of an option's word, or of the word itself where it is known beforehand."""
        match self.layout.slots[slot]:
            case Chosen(at=at):
                return f"p{at}"
            case Known(value=str() as word):
                return self.add(word)
            case _:
                raise TypeError(f"slot {slot} holds no option")
