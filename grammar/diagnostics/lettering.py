"""Text made fit to show: control characters escaped, templates filled, columns counted."""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping
from typing import Final

from grammar.diagnostics.entry import Entry
from grammar.diagnostics.problem import Problem

_NEVER_SENT: Final = frozenset({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})
"""Kinds of character that steer a terminal, reorder its text or show nothing: they are shown as <U+001B>."""

_NO_COLUMN: Final = frozenset({"Mn", "Me"})
"""Kinds of character that stand on the one before them."""


def shown(text: str) -> str:
    """The text with every character that must not reach a terminal escaped as ``<U+001B>``."""
    return "".join(_escaped(letter) if _is_unshowable(letter) else letter for letter in text)


def shown_with_spaces(text: str) -> str:
    """The text as ``shown`` makes it, with every space other than the plain one escaped too."""
    return "".join(
        _escaped(letter) if _is_unshowable(letter) or _is_odd_space(letter) else letter for letter in text
    )


def _is_unshowable(letter: str) -> bool:
    """Whether the character must not be sent to a terminal as it is."""
    return unicodedata.category(letter) in _NEVER_SENT


def _is_odd_space(letter: str) -> bool:
    return letter != " " and unicodedata.category(letter) == "Zs"


def _escaped(letter: str) -> str:
    """The character's number as Unicode writes it, such as ``<U+00A0>``."""
    return f"<U+{ord(letter):04X}>"


def columns(text: str) -> int:
    """How many columns of a terminal the text takes: two for a wide character, none for an accent by itself."""
    return sum(_columns_of(letter) for letter in text)


def _columns_of(letter: str) -> int:
    if unicodedata.category(letter) in _NO_COLUMN:
        return 0
    return 2 if unicodedata.east_asian_width(letter) in {"W", "F"} else 1


class _Facts(dict[str, str]):
    """The facts of a problem as shown; one that is not there shows as its own name in braces."""

    def __missing__(self, name: str) -> str:
        return "{" + name + "}"


def filled(template: str, facts: Mapping[str, str]) -> str:
    """The template with its facts put in; braces within a fact are only text."""
    return template.format_map(_Facts({name: shown(fact) for name, fact in facts.items()}))


def says(entry: Entry, problem: Problem) -> str:
    """What is wrong, in words."""
    return _as_sentence(filled(entry.says, problem.facts))


def remedy(entry: Entry, problem: Problem) -> str:
    """What to do about it, in words."""
    return _as_sentence(filled(entry.remedy, problem.facts))


def _as_sentence(words: str) -> str:
    """The words with a capital article; what the officer typed keeps its small letters, also at the beginning."""
    return "The " + words.removeprefix("the ") if words.startswith("the ") else words
