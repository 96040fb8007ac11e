"""Putting layers on a sheet: one file of statements, each of which still says where it stood.

Statements keep their spans, so that every figure leads back to its file and line. What a layer amends takes the
place of what was there; a load that is withdrawn stays, and must be empty, so that the limits that speak of it
still mean something.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Final

from grammar import tree
from grammar.diagnostics.problem import Elsewhere, Problem
from grammar.layering.headings import Heading, Volume, names_below
from grammar.layering.rules import keyword_of
from grammar.sheet import Displaced, LayerKind, Origin

_SINGLE: Final = (tree.Datum, tree.Chord, tree.Burn)


_HINTS: Final = {
    "amend": "Correct the name; to add a new statement leave `amend` out.",
    "loosen": "Correct the name; to add a new limit leave `loosen` out.",
    "withdraw": "Correct the name, or take the statement out.",
}
"""What to do where nothing stands under a name, by what was to be done with it."""


@dataclass(frozen=True, slots=True)
class Merged:
    """The statements of a sheet with its layers on it, where each came from, and what went wrong."""

    file: tree.File
    origins: tuple[Origin, ...]
    problems: tuple[Problem, ...]


@dataclass(slots=True)
class _Standing:
    """A statement as it stands so far, the layer it stands in, and what it displaced, the latest first."""

    statement: tree.Statement
    volume: Volume
    displaced: tuple[Displaced, ...] = ()


@dataclass(slots=True)
class _Pile:
    """The statements so far, by name where they have one."""

    sheet: Volume
    below: Mapping[str, frozenset[str]]
    standing: dict[str, _Standing] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)


def merge(sheet: Volume, layers: tuple[Volume, ...], examples_of: Volume | None = None) -> Merged:
    """Put the layers on the sheet in the order given.

    A worked example belongs to the file that it stands in: only those of ``examples_of`` are kept.
    """
    pile = _Pile(sheet, names_below(layers))
    for statement in _without_examples(sheet, examples_of):
        pile.standing[_key(statement)] = _Standing(statement, sheet)
    for layer in layers:
        for statement in _without_examples(layer, examples_of):
            if not isinstance(statement, Heading):
                _put_on(pile, layer, statement)
    return Merged(_file(pile, layers), tuple(_origins(pile)), tuple(pile.problems))


def _without_examples(volume: Volume, examples_of: Volume | None) -> Iterator[tree.Statement]:
    for statement in volume.reading.file.statements:
        if volume is examples_of or not isinstance(statement, tree.Example):
            yield statement


def name_of(statement: tree.Statement) -> str | None:
    """The name under which a statement stands; one that may stand only once goes by its keyword."""
    if isinstance(statement, tree.Amend | tree.Loosen):
        return name_of(statement.statement)
    if isinstance(statement, _SINGLE):
        return keyword_of(statement)
    if isinstance(statement, tree.Declared):
        return "declared " + ", ".join(place.text for place in statement.places)
    return statement.name.text


def _key(statement: tree.Statement) -> str:
    """A key that is the name, or for a second statement of a name (an error that checking reports) its place."""
    name = "sheet" if isinstance(statement, Heading) else name_of(statement)
    return name if name is not None else str(statement.span)


# ---- one statement at a time


def _put_on(pile: _Pile, layer: Volume, statement: tree.Statement) -> None:
    match statement:
        case tree.Amend():
            _displace(pile, layer, statement.statement, "amend")
        case tree.Loosen():
            _loosen(pile, layer, statement)
        case tree.Withdraw():
            _withdraw(pile, layer, statement)
        case _:
            _add(pile, layer, statement)


def _add(pile: _Pile, layer: Volume, statement: tree.Statement) -> None:
    name = name_of(statement)
    there = pile.standing.get(name) if name is not None else None
    if there is None:
        pile.standing[_key(statement)] = _Standing(statement, layer)
    elif isinstance(statement, tree.Document) and _is_same_document(there.statement, statement):
        return
    else:
        _write(pile, "764", _name_word(statement), there, name=name or "", to=there.volume.layer.name)


def _is_same_document(one: tree.Statement, other: tree.Document) -> bool:
    return isinstance(one, tree.Document) and one.title.text == other.title.text


def _name_word(statement: tree.Statement) -> tree.Word:
    if isinstance(statement, tree.Datum):
        return statement.text
    if isinstance(statement, tree.Chord | tree.Burn | tree.Declared | tree.Amend | tree.Loosen):
        return tree.Word(keyword_of(statement), statement.span)
    return statement.name


def _write(pile: _Pile, code: str, word: tree.Word, there: _Standing | None, **facts: str) -> None:
    where = () if there is None else (Elsewhere(_name_word(there.statement).span, "it stands here"),)
    pile.problems.append(Problem(code, word.span, facts, where))


def _found(pile: _Pile, layer: Volume, word: tree.Word, name: str, what: str, verb: str) -> _Standing | None:
    """What stands under a name, where it is of the sort that its keyword says and the layer may change it."""
    there = pile.standing.get(name)
    to = pile.sheet.layer.name
    if there is not None and _is_conflict(pile, layer, there, word, name):
        return None
    if there is None or isinstance(there.statement, tree.Withdraw):
        _write(pile, "753", word, None, what=what, name=name, to=to, verb=verb, hint=_HINTS[verb])
        return None
    if keyword_of(there.statement) != what:
        is_now = _with_article(keyword_of(there.statement))
        _write(pile, "755", word, there, name=name, what=is_now, another=_with_article(what))
        return None
    return there


def _with_article(keyword: str) -> str:
    return f"an {keyword}" if keyword[0] in "aeiou" else f"a {keyword}"


def _displace(pile: _Pile, layer: Volume, statement: tree.Amendable, verb: str) -> None:
    name = name_of(statement) or ""
    there = _found(pile, layer, _name_word(statement), name, keyword_of(statement), verb)
    if there is None:
        return
    displaced = (_displaced(there), *there.displaced)
    pile.standing[name] = _Standing(statement, layer, displaced)


def _is_conflict(pile: _Pile, layer: Volume, there: _Standing, word: tree.Word, name: str) -> bool:
    """Whether another layer changed the statement before, and this one is not said to come after it."""
    other = there.volume.layer
    if other.kind is LayerKind.SHEET or layer.layer.kind is LayerKind.PERMIT:
        return False
    if other.name in pile.below[layer.layer.name]:
        return False
    _write(pile, "754", word, there, name=name, other=other.name)
    return True


def _displaced(there: _Standing) -> Displaced:
    return Displaced(there.volume.layer, _source(there.statement), there.statement.span)


def _source(statement: tree.Statement) -> str:
    """The document and paragraph that a statement names, as typed."""
    if isinstance(statement, tree.Document | tree.Datum | tree.Amend | tree.Loosen):
        return ""
    for clause in statement.clauses:
        if isinstance(clause, tree.Source):
            return f"{clause.document.text} {clause.paragraph.text}"
    return ""


def _loosen(pile: _Pile, layer: Volume, statement: tree.Loosen) -> None:
    there = pile.standing.get(statement.statement.name.text)
    if there is not None and there.volume.layer.kind is LayerKind.ORDER:
        other = there.volume.layer
        word = statement.statement.name
        _write(pile, "765", word, there, name=word.text, kind=other.kind.value, other=other.name)
        return
    _displace(pile, layer, statement.statement, "loosen")


def _withdraw(pile: _Pile, layer: Volume, statement: tree.Withdraw) -> None:
    thing, name = statement.thing.text, statement.name
    there = _found(pile, layer, name, name.text, thing, "withdraw")
    if there is None:
        return
    displaced = (_displaced(there), *there.displaced)
    match there.statement:
        case tree.Load() | tree.Fuel():
            kept = _emptied(there.statement, statement)
            pile.standing[name.text] = _Standing(kept, layer, displaced)
        case _:
            pile.standing[name.text] = _Standing(statement, layer, displaced)


def _emptied(load: tree.Load | tree.Fuel, withdrawn: tree.Withdraw) -> tree.Load | tree.Fuel:
    """A load or a tank that must be empty, on the authority of whoever withdrew it."""
    most = load.range.most
    none = tree.Figure(Fraction(0), most.unit, most.span)
    kept = tuple(one for one in load.clauses if not isinstance(one, tree.Source | tree.AssumedEmpty | tree.Steps))
    clauses = (*kept, tree.AssumedEmpty(withdrawn.span), *withdrawn.clauses)
    return replace(load, range=tree.Range(none, none, load.range.span), clauses=clauses, span=withdrawn.span)


# ---- what comes out


def _file(pile: _Pile, layers: tuple[Volume, ...]) -> tree.File:
    statements = tuple(
        one.statement for one in pile.standing.values() if not isinstance(one.statement, tree.Withdraw)
    )
    volumes = (pile.sheet, *layers)
    unread = tuple(one for volume in volumes for one in volume.reading.file.unread)
    return tree.File(statements, unread, ())


def _origins(pile: _Pile) -> Iterator[Origin]:
    for name, one in pile.standing.items():
        if one.volume is not pile.sheet:
            yield Origin(name, one.volume.layer, one.displaced)
