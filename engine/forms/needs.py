"""Which inputs a sheet needs before every limit can be told."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from grammar.checking.declared_masses import manner_name
from grammar.sheet import (
    Choice,
    Condition,
    Constant,
    Expression,
    FuelAmount,
    Ground,
    Input,
    Limit,
    Read,
    Role,
    Same,
    Sheet,
    Stage,
    Stated,
    children,
)

Node = Expression | Condition


@dataclass(frozen=True, slots=True)
class Chosen:
    """An option of a configuration."""

    configuration: Input
    option: str


def below(limits: Iterable[Limit]) -> Iterator[Node]:
    """Every value and condition that the limits are made of, each once."""
    waiting: list[Node] = []
    for limit in limits:
        waiting.append(limit.claim)
        if limit.applies_when is not None:
            waiting.append(limit.applies_when)
    seen: set[int] = set()
    while waiting:
        node = waiting.pop()
        if node.slot not in seen:
            seen.add(node.slot)
            yield node
            waiting.extend(children(node))


def read_inputs(sheet: Sheet) -> frozenset[str]:
    """The names of the inputs that some limit reads, those that the burn reads for it included."""
    return frozenset(item.name for node in below(sheet.limits) for item in _read_by(node, sheet))


def _read_by(node: Node, sheet: Sheet) -> Iterator[Input]:
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
    """Whether leaving the input out would leave a limit undetermined, however the airframe is fitted.

    What is assumed when nobody states it may be left out. So may the trip fuel, unless a limit speaks of the
    landing or of the trip: without it what holds throughout is followed down to no fuel.
    """
    if sheet.burn is not None and item.name == sheet.burn.trip.name:
        return _speaks_of_the_trip(sheet)
    return item.assumed is None and item.name in read_inputs(sheet)


def _speaks_of_the_trip(sheet: Sheet) -> bool:
    """Whether some limit waits for the trip fuel; the arithmetic of the fuel applies only when it is stated."""
    for node in below(limit for limit in sheet.limits if limit.ground is not Ground.BURN):
        match node:
            case FuelAmount(stage=Stage.LANDING):
                return True
            case Read(input=item) if sheet.burn is not None and item.name == sheet.burn.trip.name:
                return True
            case _:
                continue
    return False


def weighed_apart(sheet: Sheet) -> Mapping[str, Chosen]:
    """The figures of a weighing of its own, by their names, each with the way of fitting that it is for."""
    found: dict[str, Chosen] = {}
    for node in below(sheet.limits):
        if isinstance(node, Choice):
            for case in node.cases:
                match case.guard, case.value:
                    case Same(left=Read(input=chooser), right=Constant(value=str() as option)), Read(input=item):
                        if item.role is Role.WEIGHING:
                            found[item.name] = Chosen(chooser, option)
                    case _:
                        continue
    return found


def is_declared_or_weighed(item: Input, sheet: Sheet) -> bool:
    """Whether it counts for some limit if the mass on a place is declared or weighed."""
    return item.role is Role.LOAD and any(one.name == manner_name(item.name) for one in sheet.inputs)


def is_manner(item: Input, sheet: Sheet) -> bool:
    """Whether an input says how the mass on a place is known; it is stated together with that mass."""
    return any(item.name == manner_name(place.input.name) for place in sheet.places)
