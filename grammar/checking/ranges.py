"""Between which ends a value can lie, by the ranges that the sheet declares: enough to see what can be zero."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import product

from grammar import sheet


@dataclass(frozen=True, slots=True)
class Ends:
    """The least and the most that a value can be; None where there is no end."""

    low: Fraction | None = None
    high: Fraction | None = None

    @property
    def has_zero(self) -> bool:
        """Whether zero lies between the ends."""
        return (self.low is None or self.low <= 0) and (self.high is None or self.high >= 0)

    def __add__(self, other: Ends) -> Ends:
        low = None if self.low is None or other.low is None else self.low + other.low
        high = None if self.high is None or other.high is None else self.high + other.high
        return Ends(low, high)

    def negative(self) -> Ends:
        """The ends of the value with its sign changed."""
        return Ends(
            None if self.high is None else -self.high,
            None if self.low is None else -self.low,
        )

    def hull(self, other: Ends) -> Ends:
        """The ends of a value that is one or the other."""
        low = None if self.low is None or other.low is None else min(self.low, other.low)
        high = None if self.high is None or other.high is None else max(self.high, other.high)
        return Ends(low, high)

    def times(self, other: Ends) -> Ends:
        """The ends of the product."""
        corners = [one * two for one, two in product(self._known(), other._known())]
        if self._is_bounded and other._is_bounded:
            return Ends(min(corners), max(corners))
        if self._is_positive and other._is_positive:
            low = (self.low or Fraction(0)) * (other.low or Fraction(0))
            return Ends(low, None)
        return Ends()

    def inverse(self) -> Ends:
        """The ends of one divided by the value, which must not have zero between its ends."""
        low = Fraction(0) if self.high is None else 1 / self.high
        high = Fraction(0) if self.low is None else 1 / self.low
        return Ends(low, high)

    def _known(self) -> tuple[Fraction, ...]:
        return tuple(end for end in (self.low, self.high) if end is not None)

    @property
    def _is_bounded(self) -> bool:
        return self.low is not None and self.high is not None

    @property
    def _is_positive(self) -> bool:
        return self.low is not None and self.low >= 0


def ends(node: sheet.Expression, known: dict[int, Ends]) -> Ends:
    """Between which ends the value of an expression lies; ``known`` remembers by slot what was found before."""
    for one in _innermost_first(node, known):
        known[one.slot] = _ends(one, known)
    return known[node.slot]


def _innermost_first(node: sheet.Expression, known: Mapping[int, Ends]) -> Iterator[sheet.Expression]:
    """What has to be known for a value's ends and is not yet, parts first: no depth exhausts the stack."""
    waiting, opened = [node], set[int]()
    while waiting:
        one = waiting[-1]
        if one.slot in known or one.slot in opened:
            waiting.pop()
            if one.slot not in known:
                yield one
            continue
        opened.add(one.slot)
        waiting.extend(part for part in sheet.children(one) if isinstance(part, sheet.Numeric))


def _ends(node: sheet.Expression, known: dict[int, Ends]) -> Ends:
    match node:
        case sheet.Constant():
            return Ends(node.value, node.value) if isinstance(node.value, Fraction) else Ends()
        case sheet.Read():
            return Ends(node.input.least, node.input.most)
        case sheet.FuelAmount():
            return Ends(Fraction(0), node.tank.input.most)
        case sheet.Named():
            return ends(node.body, known)
        case sheet.Sum():
            return _sum(node, known)
        case sheet.Product():
            return ends(node.left, known).times(ends(node.right, known))
        case sheet.Quotient():
            return _quotient(node, known)
        case sheet.Least() | sheet.Greatest():
            return _extreme(node, known)
        case sheet.Absolute():
            return _absolute(ends(node.of, known))
        case sheet.Rounded():
            return _rounded(node, ends(node.of, known))
        case sheet.LookUp():
            printed = [value for row in node.table.rows for value in row]
            return Ends(min(printed), max(printed))
        case sheet.Count():
            return Ends(Fraction(0), Fraction(len(node.conditions)))
        case sheet.LaterDate():
            return Ends()
        case sheet.Choice():
            return _choice(node, known)


def _sum(node: sheet.Sum, known: dict[int, Ends]) -> Ends:
    found = Ends(Fraction(0), Fraction(0))
    for sign, term in node.terms:
        its = ends(term, known)
        found = found + (its if sign > 0 else its.negative())
    return found


def _quotient(node: sheet.Quotient, known: dict[int, Ends]) -> Ends:
    divisor = ends(node.divisor, known)
    return Ends() if divisor.has_zero else ends(node.dividend, known).times(divisor.inverse())


def _extreme(node: sheet.Least | sheet.Greatest, known: dict[int, Ends]) -> Ends:
    each = [ends(value, known) for value in node.values]
    lows = [one.low for one in each if one.low is not None]
    highs = [one.high for one in each if one.high is not None]
    if isinstance(node, sheet.Least):
        return Ends(min(lows) if len(lows) == len(each) else None, min(highs, default=None))
    return Ends(max(lows, default=None), max(highs) if len(highs) == len(each) else None)


def _absolute(of: Ends) -> Ends:
    negative = of.negative()
    tops = [end for end in (of.high, negative.high) if end is not None]
    high = max(tops) if len(tops) == 2 else None
    if of.has_zero:
        return Ends(Fraction(0), high)
    return Ends(max(end for end in (of.low, negative.low) if end is not None), high)


def _rounded(node: sheet.Rounded, of: Ends) -> Ends:
    def step(end: Fraction | None) -> Fraction | None:
        if end is None:
            return None
        count = end / node.step
        return (-(-count // 1) if node.upward else count // 1) * node.step

    return Ends(step(of.low), step(of.high))


def _choice(node: sheet.Choice, known: dict[int, Ends]) -> Ends:
    values = [case.value for case in node.cases]
    if node.otherwise is not None:
        values.append(node.otherwise)
    found = ends(values[0], known)
    for value in values[1:]:
        found = found.hull(ends(value, known))
    return found
