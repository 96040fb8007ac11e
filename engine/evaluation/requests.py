"""Reading a request: from what was written to a loading in base units, or every problem with it at once.

A request, and likewise an airframe's record, is a flat row of names and values: ``{"front_seat": "98 kg"}``.
A number is the decimal that was written, never a binary approximation. A number by itself counts in the
unit in which the sheet declares its place; a text carries its unit.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from engine.evaluation.exact import value_for
from engine.evaluation.loading import Loading
from engine.evaluation.quantities import Amount, Refusal, Written, read_value, shortened
from engine.evaluation.result import Gap
from grammar.checking.declared_masses import MANNERS, manner_name
from grammar.diagnostics.suggestions import nearest
from grammar.sheet import Expression, Input, Role, Sheet
from grammar.units import MASS, VOLUME

LONGEST_REQUEST: Final = 1_000_000
"""The longest request that is read, in bytes of UTF-8."""

MOST_PROBLEMS: Final = 100
"""After so many problems the rest of a request is not looked at."""

Stated = str | Written | bool
"""A value as it stands in a request: a text, a number by itself, or yes or no."""


@dataclass(frozen=True, slots=True)
class RequestProblem:
    """What is wrong with one entry of a request.

    ``pointer`` is the entry's JSON pointer (RFC 6901), empty for the request as a whole.
    """

    pointer: str
    name: str | None
    written: str | None
    says: str
    expected: str
    suggestion: str | None = None

    def __str__(self) -> str:
        hint = f" Did you mean {self.suggestion}?" if self.suggestion else ""
        return f"{self.says} Expected: {self.expected}.{hint}"


class RequestRefused(ValueError):
    """A request that was not understood; nothing was checked."""

    def __init__(self, problems: tuple[RequestProblem, ...]) -> None:
        self.problems = problems
        super().__init__(" ".join(str(problem) for problem in problems))


def read_loading(sheet: Sheet, *parts: str | Mapping[str, Stated]) -> Loading:
    """What the parts of a request state, each a JSON text or a row of names and values.

    A later part replaces what an earlier one states under the same name. Errors: RequestRefused with every
    problem found.
    """
    problems: list[RequestProblem] = []
    stated = _values(sheet, _entries(parts, problems), problems)
    if problems:
        raise RequestRefused(tuple(problems))
    return Loading(stated)


def read_entries(*parts: str | Mapping[str, Stated]) -> dict[str, Stated]:
    """The entries of the parts of a request as written, before any sheet is known.

    Errors: RequestRefused with every problem of their form.
    """
    problems: list[RequestProblem] = []
    entries = _entries(parts, problems)
    if problems:
        raise RequestRefused(tuple(problems))
    return entries


def _entries(parts: Iterable[str | Mapping[str, Stated]], problems: list[RequestProblem]) -> dict[str, Stated]:
    entries: dict[str, Stated] = {}
    for part in parts:
        entries |= _read_json(part, problems) if isinstance(part, str) else part
    return entries


# ---- the values


def _values(
    sheet: Sheet, entries: Mapping[str, Stated], problems: list[RequestProblem]
) -> dict[str, Fraction | str]:
    inputs = {item.name: item for item in sheet.inputs}
    entries = _with_manners(entries, inputs)
    stated: dict[str, Fraction | str] = {}
    waiting: list[tuple[Input, Amount]] = []
    for name, written in entries.items():
        if len(problems) >= MOST_PROBLEMS:
            break
        item = inputs.get(name)
        if item is None:
            problems.append(_unknown_name(name, written, inputs))
            continue
        value = read_value(item, written, _is_fuel(sheet, item))
        if isinstance(value, Refusal):
            problems.append(_refused(name, written, value))
        elif isinstance(value, Amount):
            waiting.append((item, value))
        else:
            stated[name] = value
    for item, amount in waiting:
        converted = _by_density(sheet, Loading(stated), item, amount)
        if isinstance(converted, Refusal):
            problems.append(_refused(item.name, entries[item.name], converted))
        else:
            stated[item.name] = converted
    return stated


def _with_manners(entries: Mapping[str, Stated], inputs: Mapping[str, Input]) -> dict[str, Stated]:
    """ "82 kg weighed" taken apart: the amount, and how it is known, where some limit of the sheet asks that."""
    apart: dict[str, Stated] = {}
    for name, written in entries.items():
        item = inputs.get(name)
        amount, _, manner = written.rpartition(" ") if isinstance(written, str) else ("", "", "")
        if item is None or item.role is not Role.LOAD or manner not in MANNERS:
            apart[name] = written
            continue
        apart[name] = amount
        if manner_name(name) in inputs:
            apart[manner_name(name)] = manner
    return apart


def _is_fuel(sheet: Sheet, item: Input) -> bool:
    return item.role is Role.TANK or _is_burned(sheet, item)


def _is_burned(sheet: Sheet, item: Input) -> bool:
    return sheet.burn is not None and item.name in (sheet.burn.taxi.name, sheet.burn.trip.name)


def _unknown_name(name: str, written: Stated, inputs: Iterable[str]) -> RequestProblem:
    return RequestProblem(
        pointer_to(name),
        shortened(name),
        shown(written),
        f"The sheet has nothing called {shortened(name)}.",
        "a name that the sheet declares",
        nearest(name, inputs) if len(name) <= _LONGEST_NAME else None,
    )


_LONGEST_NAME: Final = 80


def _refused(name: str, written: Stated, why: Refusal) -> RequestProblem:
    return RequestProblem(pointer_to(name), name, shown(written), why.says, why.expected, why.suggestion)


def pointer_to(name: str) -> str:
    """The JSON pointer of an entry."""
    return "/" + shortened(name).replace("~", "~0").replace("/", "~1")


def shown(written: Stated) -> str:
    """What was written, fit to show."""
    if isinstance(written, bool):
        return "true" if written else "false"
    return shortened(written.text if isinstance(written, Written) else written)


# ---- fuel stated in the other dimension


def _by_density(sheet: Sheet, known: Loading, item: Input, amount: Amount) -> Fraction | Refusal:
    """A volume from a mass or a mass from a volume, by the density of the fuel."""
    density = _density(sheet, known, item)
    if isinstance(density, Refusal):
        return density
    if amount.dimension == MASS:
        return amount.value / density
    return amount.value * density


def _density(sheet: Sheet, known: Loading, item: Input) -> Fraction | Refusal:
    tanks = [tank for tank in sheet.tanks if item.role is not Role.TANK or tank.input.name == item.name]
    found = [_density_in(sheet, known, item, tank.density) for tank in tanks]
    densities: set[Fraction] = set()
    for density in found:
        if isinstance(density, Refusal):
            return density
        densities.add(density)
    if len(densities) != 1:
        return _no_density(item, "the tanks hold fuel of different densities")
    return densities.pop()


def _density_in(sheet: Sheet, known: Loading, item: Input, density: Expression | None) -> Fraction | Refusal:
    if density is None:
        return _no_density(item, "the sheet states no density for it")
    value = value_for(sheet, known, density)
    if isinstance(value, Gap):
        return _no_density(item, "its density hangs on something that is not stated")
    if isinstance(value, str) or value <= 0:
        return _no_density(item, "its density is not more than zero")
    return value


def _no_density(item: Input, why: str) -> Refusal:
    wanted = "a volume" if item.unit is not None and item.unit.dimension == VOLUME else "a mass"
    unit = item.unit.name if item.unit is not None else ""
    return Refusal(f"{item.name} cannot be taken in this unit: {why}.", f"{wanted}, such as 20 {unit}")


# ---- JSON


@dataclass(frozen=True, slots=True)
class _Pairs:
    """The entries of a JSON object in the order written, doubled names included."""

    entries: tuple[tuple[str, object], ...]


@dataclass(frozen=True, slots=True)
class _NoNumber:
    """NaN or Infinity, which stand for no amount."""

    text: str


def _read_json(text: str, problems: list[RequestProblem]) -> dict[str, Stated]:
    """The entries of a JSON text, with the problems of its form added to ``problems``."""
    document = _loaded(text)
    if isinstance(document, RequestProblem):
        problems.append(document)
        return {}
    if not isinstance(document, _Pairs):
        problems.append(_as_a_whole("The request is not a row of names and values.", _SHAPE))
        return {}
    entries: dict[str, Stated] = {}
    for name, value in document.entries:
        if len(problems) >= MOST_PROBLEMS:
            break
        problem = _doubled(name) if name in entries else _wrong_form(name, value)
        if problem is not None:
            problems.append(problem)
        elif isinstance(value, (str, Written, bool)):
            entries[name] = value
    return entries


_SHAPE: Final = 'names and values such as {"front_seat": "82 kg"}'


def _loaded(text: str) -> object:
    if len(text) > LONGEST_REQUEST or len(text.encode("utf-8", "surrogatepass")) > LONGEST_REQUEST:
        return _as_a_whole(f"The request is longer than {LONGEST_REQUEST} bytes.", "a shorter request")
    try:
        return json.loads(
            text,
            object_pairs_hook=lambda pairs: _Pairs(tuple(pairs)),
            parse_float=Written,
            parse_int=Written,
            parse_constant=_NoNumber,
        )
    except json.JSONDecodeError as error:
        where = f"line {error.lineno}, column {error.colno}"
        return _as_a_whole(f"The request is not JSON: it cannot be read from {where} on.", _SHAPE)
    except RecursionError:
        return _as_a_whole("The request is nested too deeply.", _SHAPE)


def _as_a_whole(says: str, expected: str) -> RequestProblem:
    return RequestProblem("", None, None, says, expected)


def _doubled(name: str) -> RequestProblem:
    what = shortened(name)
    return RequestProblem(pointer_to(name), what, None, f"{what} is stated twice.", "each name once")


def _wrong_form(name: str, value: object) -> RequestProblem | None:
    for form, written, says in _forms(value):
        if form:
            what = shortened(name)
            expected = 'a text such as "82 kg", or a number'
            return RequestProblem(pointer_to(name), what, written, f"{what} {says}.", expected)
    return None


def _forms(value: object) -> Iterator[tuple[bool, str | None, str]]:
    """The forms of value that no entry may have, with what to say of them."""
    yield value is None, None, "has no value; leave out what is not known"
    yield isinstance(value, _Pairs), None, "holds further names; a request has one level only"
    yield isinstance(value, list), None, "holds a list; each name has one value"
    yield isinstance(value, _NoNumber), value.text if isinstance(value, _NoNumber) else None, "is no amount"
