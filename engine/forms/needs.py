"""Which inputs a sheet needs before every limit can be told."""

from __future__ import annotations

from collections.abc import Iterator

from grammar.sheet import Condition, Expression, FuelAmount, Input, Read, Sheet, Stated, children


def read_inputs(sheet: Sheet) -> frozenset[str]:
    """The names of the inputs that some limit reads, those that the burn reads for it included."""
    found: set[str] = set()
    waiting: list[Expression | Condition] = []
    for limit in sheet.limits:
        waiting.append(limit.claim)
        if limit.applies_when is not None:
            waiting.append(limit.applies_when)
    seen: set[int] = set()
    while waiting:
        node = waiting.pop()
        if node.slot in seen:
            continue
        seen.add(node.slot)
        found.update(one.name for one in _read_by(node, sheet))
        waiting.extend(children(node))
    return frozenset(found)


def _read_by(node: Expression | Condition, sheet: Sheet) -> Iterator[Input]:
    match node:
        case Read() | Stated():
            yield node.input
        case FuelAmount():
            yield from (tank.input for tank in sheet.tanks)
            if sheet.burn is not None:
                yield from (sheet.burn.taxi, sheet.burn.trip)
        case _:
            return


def is_needed(item: Input, sheet: Sheet) -> bool:
    """Whether leaving the input out would leave a limit undetermined.

    What is assumed when nobody states it may be left out, and so may the trip fuel: without it what holds
    throughout is followed down to no fuel, and only limits at landing wait for it.
    """
    is_trip = sheet.burn is not None and item.name == sheet.burn.trip.name
    return item.assumed is None and not is_trip and item.name in read_inputs(sheet)
