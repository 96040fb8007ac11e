"""What an officer calls each kind of word and sign, and how several of them are listed."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from types import MappingProxyType
from typing import Final

from grammar.reading.parsing import words

VALUE: Final = frozenset({"NAME", "NUMBER", "LPAR"})
"""What is wanted together wherever a value is wanted, and nowhere else."""

_GROUPS: Final = (
    (VALUE, VALUE | {"DATE", "SIGN", "ROUND_UP", "ROUND_DOWN", "NOT"}, "a value"),
    (
        frozenset({"OCCUPIED", "EMPTY"}),
        frozenset({"OCCUPIED", "EMPTY", "YES", "NO", "DECLARED", "WEIGHED"}),
        "a state such as `occupied`",
    ),
    (
        frozenset({"AT_MOST", "BETWEEN"}),
        frozenset({"AT_MOST", "AT_LEAST", "BETWEEN", "LESSTHAN", "MORETHAN", "IS"}),
        "a relation such as `at most`",
    ),
    (frozenset({"NUMBER", "SIGN"}), frozenset({"NUMBER", "SIGN"}), "a figure"),
    (frozenset({"STAR", "SLASH"}), frozenset({"STAR", "SLASH", "PLUS", "SIGN"}), "a sign of arithmetic"),
    (frozenset({"VBAR", "END_OF_ROW"}), frozenset({"VBAR", "END_OF_ROW"}), "a bar `|`"),
)
"""Terminals that go together: those that show that the group is wanted, all that it covers, its words."""

_SPECIAL: Final[Mapping[str, str]] = MappingProxyType(
    {
        "NAME": "a name",
        "NUMBER": "a figure",
        "UNIT": "a unit",
        "LABEL": "a label in quotation marks",
        "DATE": "a date such as 2026-04-01",
        "DATE_WORD": "`date`",
        "AT_MOST": "`at most`",
        "AT_LEAST": "`at least`",
        "SIGN": "`-`",
        "PLUS": "`+`",
        "STAR": "`*`",
        "SLASH": "`/`",
        "LESSTHAN": "`<`",
        "MORETHAN": "`>`",
        "EQUAL": "`=`",
        "COMMA": "a comma",
        "LPAR": "an opening bracket",
        "RPAR": "a closing bracket",
        "VBAR": "a bar `|`",
        "END_OF_ROW": "the bar `|` that ends a row",
        "$END": "the end of the statement",
    }
)
_SIGNS: Final = frozenset(_SPECIAL)


def word_for(terminal: str) -> str:
    """What an officer calls a kind of word or sign."""
    special = _SPECIAL.get(terminal)
    if special is not None:
        return special
    spelling = terminal.lower()
    if spelling not in words():
        raise KeyError(terminal)
    return f"`{spelling}`"


def spellings(wanted: Iterable[str]) -> dict[str, str]:
    """The words of the language among the wanted terminals, each with its terminal's name."""
    special = {"AT_MOST": "at most", "AT_LEAST": "at least", "DATE_WORD": "date"}
    plain = {terminal.lower(): terminal for terminal in wanted if terminal.lower() in words()}
    return plain | {special[terminal]: terminal for terminal in wanted if terminal in special}


def listed(wanted: Collection[str]) -> str:
    """Everything that can stand at a place, in words: the language's own words first, the end last."""
    left = set(wanted)
    groups: list[str] = []
    for signs, covered, name in _GROUPS:
        if signs <= left:
            groups.append(name)
            left -= covered
    special = sorted(word_for(terminal) for terminal in left & _SIGNS if terminal != "$END")
    plain = sorted(word_for(terminal) for terminal in left - _SIGNS)
    end = [word_for("$END")] if "$END" in left else []
    return either([*groups, *special, *plain, *end])


def either(things: Collection[str]) -> str:
    """``a``, ``a or b``, ``a, b or c``."""
    *first, last = things
    return f"{', '.join(first)} or {last}" if first else last
