"""The value of an expression from the values of its parts: one case for each kind of expression."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from math import floor

from engine.evaluation.calendar_days import later
from engine.evaluation.places import Place, compare, sign_of, value_near
from engine.evaluation.ratio import Amount, Ratio
from engine.evaluation.result import Gap, Missing, OutOfRange, Value, ZeroDivisor
from engine.evaluation.tables import read_table
from engine.evaluation.workings import Workings, gap_among
from grammar.sheet import (
    Absolute,
    Choice,
    Constant,
    Count,
    Expression,
    FuelAmount,
    Greatest,
    Input,
    LaterDate,
    Least,
    LookUp,
    Named,
    Product,
    Quotient,
    Read,
    Role,
    Rounded,
    Sum,
    TemperaturePoint,
)


def value_of(node: Expression, known: Workings) -> Amount | str | Gap:
    """The value of an expression whose parts have been worked out."""
    match node:
        case Constant():
            return node.value
        case Read():
            return read_input(node.input, known)
        case FuelAmount():
            return known.fuel[node.tank.input.name, node.stage]
        case Named():
            return known.value(node.body)
        case Sum():
            return _sum(node, known)
        case Product():
            return _product(node, known)
        case Quotient():
            return _quotient(node, known)
        case Least():
            return _extreme(node.values, -1, known)
        case Greatest():
            return _extreme(node.values, 1, known)
        case Absolute():
            return _absolute(known.amount(node.of), known.place)
        case Rounded():
            return _rounded(node, known)
        case LookUp():
            return _look_up(node, known)
        case Count():
            return _count(node, known)
        case LaterDate():
            date = known.amount(node.date)
            return date if isinstance(date, Gap) else _later(node, _still(date))
        case Choice():
            return _choice(node, known)


def _later(node: LaterDate, day: Fraction) -> Fraction:
    return later(day, node.months, node.days, node.to_month_end)


def read_input(which: Input, known: Workings) -> Value:
    """What is stated for an input, else what is assumed, else a gap; beyond what the manual covers a gap."""
    stated = known.loading.stated.get(which.name)
    if stated is None:
        return Gap((Missing(which),)) if which.assumed is None else which.assumed
    if isinstance(stated, str) or which.role in (Role.LOAD, Role.TANK):
        return stated
    below = which.least is not None and stated < which.least
    above = which.most is not None and stated > which.most
    return Gap((OutOfRange(which, stated),)) if below or above else stated


def _still(amount: Amount) -> Fraction:
    if isinstance(amount, Ratio):
        raise TypeError("a date does not move with the burn")
    return amount


def _amounts(nodes: Iterable[Expression], known: Workings) -> tuple[Amount, ...] | Gap:
    """The values of several expressions, or all their gaps."""
    amounts: list[Amount] = []
    gaps: list[Gap] = []
    for node in nodes:
        amount = known.amount(node)
        if isinstance(amount, Gap):
            gaps.append(amount)
        else:
            amounts.append(amount)
    return gap_among(gaps) or tuple(amounts)


def _sum(node: Sum, known: Workings) -> Amount | Gap:
    amounts = _amounts((term for _, term in node.terms), known)
    if isinstance(amounts, Gap):
        return amounts
    total: Amount = Fraction(0)
    for (sign, _), amount in zip(node.terms, amounts, strict=True):
        total = total + amount if sign > 0 else total - amount
    return total


def _product(node: Product, known: Workings) -> Amount | Gap:
    left, right = known.amount(node.left), known.amount(node.right)
    gap = gap_among((left, right))
    if gap is None:
        return _times(left, right)
    is_nothing = any(not isinstance(one, Gap) and one == 0 for one in (left, right))
    # Nothing times a value that only nobody knows is nothing; a quotient by zero has no value at all.
    return Fraction(0) if is_nothing and not any(isinstance(one, ZeroDivisor) for one in gap.causes) else gap


def _times(left: Amount | Gap, right: Amount | Gap) -> Amount | Gap:
    return left if isinstance(left, Gap) else right if isinstance(right, Gap) else left * right


def _quotient(node: Quotient, known: Workings) -> Amount | Gap:
    amounts = _amounts((node.dividend, node.divisor), known)
    if isinstance(amounts, Gap):
        return amounts
    if sign_of(amounts[1], known.place) == 0:
        return Gap((ZeroDivisor(node),))
    return amounts[0] / amounts[1]


def _extreme(nodes: tuple[Expression, ...], direction: int, known: Workings) -> Amount | Gap:
    """The greatest of the values (direction 1) or the least (-1)."""
    amounts = _amounts(nodes, known)
    if isinstance(amounts, Gap):
        return amounts
    extreme = amounts[0]
    for amount in amounts[1:]:
        if compare(amount, extreme, known.place) == direction:
            extreme = amount
    return extreme


def _absolute(amount: Amount | Gap, place: Place) -> Amount | Gap:
    if isinstance(amount, Gap):
        return amount
    return -amount if sign_of(amount, place) < 0 else amount


def _rounded(node: Rounded, known: Workings) -> Amount | Gap:
    amount = known.amount(node.of)
    if isinstance(amount, Gap):
        return amount
    is_point = isinstance(node.kind, TemperaturePoint) and node.unit is not None
    zero = node.unit.offset if is_point and node.unit is not None else Fraction(0)
    steps = (amount - zero) / node.step
    whole = -_floor(-steps, known.place) if node.upward else _floor(steps, known.place)
    return whole * node.step + zero


def _floor(amount: Amount, place: Place) -> int:
    """The greatest whole number that is no more than the amount."""
    whole = floor(value_near(amount, place))
    while compare(amount, Fraction(whole + 1), place) >= 0:
        whole += 1
    while compare(amount, Fraction(whole), place) < 0:
        whole -= 1
    return whole


def _look_up(node: LookUp, known: Workings) -> Amount | Gap:
    arguments = _amounts(node.arguments, known)
    return arguments if isinstance(arguments, Gap) else read_table(node.table, arguments, known.place)


def _count(node: Count, known: Workings) -> Amount | Gap:
    truths = tuple(known.truth(condition) for condition in node.conditions)
    return gap_among(truths) or Fraction(sum(truth is True for truth in truths))


def _choice(node: Choice, known: Workings) -> Amount | str | Gap:
    """The value of the first case that holds; with guards that cannot be told, what all that remain agree on."""
    remaining: list[Amount | str | Gap] = []
    guards: list[Gap] = []
    for case in node.cases:
        guard = known.truth(case.guard)
        if guard is False:
            continue
        remaining.append(known.value(case.value))
        if guard is True:
            break
        if isinstance(guard, Gap):
            guards.append(guard)
    else:
        if node.otherwise is not None:
            remaining.append(known.value(node.otherwise))
    return _agreed(remaining, guards, known.place)


def _agreed(remaining: list[Amount | str | Gap], guards: list[Gap], place: Place) -> Amount | str | Gap:
    first, *others = remaining
    if not others:
        return first
    if all(_are_same(first, other, place) for other in others):
        return first
    return gap_among((*guards, *remaining)) or first


def _are_same(a: Amount | str | Gap, b: Amount | str | Gap, place: Place) -> bool:
    if isinstance(a, Gap) or isinstance(b, Gap):
        return False
    if isinstance(a, str) or isinstance(b, str):
        return a == b
    return compare(a, b, place) == 0
