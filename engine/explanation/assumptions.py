"""What was taken for granted where nobody stated it: told with every answer."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from engine.evaluation.result import CheckResult
from engine.explanation.amounts import of_input
from engine.explanation.citing import Citations, citations
from engine.explanation.words import inside_a_sentence
from grammar.sheet import Input, Role, Stage


@dataclass(frozen=True, slots=True)
class Assumption:
    """Something that the answer takes for granted; ``taken`` is absent where no single value is."""

    input: Input
    taken: Fraction | str | None
    sentence: str


def assumptions(result: CheckResult) -> tuple[Assumption, ...]:
    """Every place taken as empty, taxi fuel taken as none, and a trip fuel that is not stated."""
    cited = citations(result.sheet)
    made = [
        Assumption(item, item.assumed, _taken(item, item.assumed, cited))
        for item in result.sheet.inputs
        if item.assumed is not None and is_assumed(item, result)
    ]
    trip = _whole_burn(result)
    return (*made, trip) if trip is not None else tuple(made)


def is_assumed(item: Input, result: CheckResult) -> bool:
    """Whether the value of an input was taken for granted."""
    return item.assumed is not None and item.name not in result.loading.stated


def _taken(item: Input, assumed: Fraction | str, cited: Citations) -> str:
    label = inside_a_sentence(item.label)
    is_load = item.role in (Role.LOAD, Role.TANK)
    value = "empty" if is_load and assumed == 0 else "none" if assumed == 0 else str(of_input(item, assumed))
    if isinstance(assumed, str):
        return f"{label} not said to be weighed, taken as {value}"
    source = f" ({cited.named(item.source)})" if item.source is not None else ""
    return f"{label} not stated, taken as {value}{source}"


def _whole_burn(result: CheckResult) -> Assumption | None:
    """Without a trip fuel, what holds throughout is followed down to no usable fuel."""
    burn = result.sheet.burn
    is_swept = any(limit.stage is Stage.THROUGHOUT for limit in result.sheet.limits)
    if burn is None or not is_swept or burn.trip.name in result.loading.stated:
        return None
    label = inside_a_sentence(burn.trip.label)
    words = f"{label} not stated, so what must hold throughout was followed down to no usable fuel"
    return Assumption(burn.trip, None, words)
