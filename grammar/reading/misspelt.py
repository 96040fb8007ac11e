"""Words that are nearly the language's, or that other people use for the language's."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from grammar.diagnostics.problem import Mend, Problem
from grammar.diagnostics.suggestions import SHORT_WORD, nearest
from grammar.reading.parsing import wanted_after
from grammar.reading.stop import STATEMENT_WORDS, Stop
from grammar.reading.wording import spellings

_SYNONYMS: Final[Mapping[str, tuple[str, ...]]] = MappingProxyType(
    {
        "AT_MOST": (
            "not more than", "no more than", "not to exceed", "must not exceed", "may not exceed", "not exceed",
            "shall not exceed", "does not exceed", "less than or equal to", "not above", "not over", "up to",
            "max", "maximum", "at the most",
        ),
        "AT_LEAST": (
            "not less than", "no less than", "more than or equal to", "greater than or equal to", "not below",
            "not under", "min", "minimum", "at the least",
        ),
        "LESSTHAN": ("less than", "lower than", "smaller than", "lighter than", "below", "under"),
        "MORETHAN": ("more than", "greater than", "higher than", "heavier than", "above", "over", "exceeds"),
        "IS": ("equals", "equal to", "is equal to", "are"),
        "EQUAL": ("is", "equals", "be"),
        "WHEN": ("if", "provided that", "provided", "where", "while"),
        "OTHERWISE": ("else", "or else"),
        "PLUS": ("plus",),
        "SIGN": ("minus", "less"),
        "STAR": ("times", "x", "multiplied by"),
        "SLASH": ("divided by", "over"),
        "SOURCE": ("reference", "ref", "see", "according to", "per", "sources", "paragraph"),
        "NOTE": ("remark", "remarks", "comment", "notes"),
        "REVISION": ("rev", "issue", "version", "edition"),
        "EFFECTIVE": ("valid from", "effective from", "in force from"),
        "UNTIL": ("valid until", "expires", "valid to"),
        "REPLACES": ("supersedes", "superseding", "instead of"),
        "ARM": ("station", "at", "moment arm", "lever arm", "lever"),
        "THROUGHOUT": ("always", "at all times", "in flight", "during flight"),
        "GIVES": ("yields", "returns", "giving", "gives in"),
        "AGAINST": ("versus", "vs"),
        "INSIDE": ("within", "in"),
        "GIVE": ("tolerance", "plus or minus", "within"),
        "APPLIES": ("when",),
        "USE": ("take", "using"),
        "HIGHER": ("greater", "larger", "bigger"),
        "LOWER": ("smaller", "lesser", "less"),
        "EACH": ("apiece", "a piece"),
        "APART": ("separately", "on its own"),
        "TO": ("for", "through", "till", "until", "up to"),
        "THEN": ("and then", "next"),
        "YES": ("true",),
        "NO": ("false",),
        "DENSITY": ("specific gravity", "weighs"),
        "ASSUMED": ("default",),
        "WITH": ("together with", "along with", "and"),
    }
)  # fmt: skip
"""What others say for a word of the language, by its terminal."""

_UNSURE: Final[Mapping[str, frozenset[str]]] = MappingProxyType(
    {
        "LESSTHAN": frozenset({"less than", "lower than", "smaller than", "lighter than", "below", "under"}),
        "MORETHAN": frozenset(
            {"more than", "greater than", "higher than", "heavier than", "above", "over", "exceeds"}
        ),
        "WHEN": frozenset({"where", "while"}),
        "SIGN": frozenset({"less"}),
        "SLASH": frozenset({"over"}),
        "SOURCE": frozenset({"see", "according to", "per", "paragraph"}),
        "REVISION": frozenset({"issue", "version", "edition"}),
        "UNTIL": frozenset({"expires"}),
        "ARM": frozenset({"station", "at"}),
        "THROUGHOUT": frozenset({"always", "at all times", "in flight", "during flight"}),
        "GIVE": frozenset({"within"}),
        "DENSITY": frozenset({"specific gravity", "weighs"}),
        "ASSUMED": frozenset({"default"}),
        "WITH": frozenset({"together with", "along with", "and"}),
        "LOWER": frozenset({"less"}),
    }
)
"""Those of them that may mean something else: a strict bound, another datum, another order of burning."""

_WORDS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "AT_MOST": "at most", "AT_LEAST": "at least", "LESSTHAN": "<", "MORETHAN": ">", "EQUAL": "=", "PLUS": "+",
        "SIGN": "-", "STAR": "*", "SLASH": "/", "GIVE": "give or take", "ASSUMED": "assumed empty",
        "APPLIES": "applies when",
    }
)  # fmt: skip
_RELATION: Final = re.compile(r"[ \t]+(?:at[ \t]+(?:most|least)|between|inside|[<>])")
_NEEDLESS: Final = re.compile(
    r"(?P<be>(?:must|shall|should|may|has to|have to|needs to|is to|will)(?: always)? be\b)"
    r"|(?:the|a|an)\b(?=[ \t]+\w)|for(?=[ \t]+airframe\b)"
)


_BLANKS: Final = re.compile(r"[ \t]*")


def unknown_keyword(stop: Stop) -> Problem | None:
    """A statement begins with a word that no statement begins with."""
    if stop.read:
        return None
    word = stop.word.lower()
    if word in STATEMENT_WORDS and stop.word != word:
        return stop.problem("120", mend=Mend(stop.here, word), lower=word)
    return stop.problem("202", suggestion=nearest(word, STATEMENT_WORDS))


def other_words(stop: Stop) -> Problem | None:
    """The words here are a common way of saying something that the language says in one way only."""
    rest = " ".join(stop.text[stop.at : stop.at + 60].split("\n")[0].lower().split())
    matches = (
        (phrase, terminal)
        for terminal in sorted(stop.wanted & _SYNONYMS.keys())
        for phrase in _SYNONYMS[terminal]
        if rest == phrase or (rest.startswith(phrase) and not _continues(rest[len(phrase)]))
    )
    phrase, terminal = max(matches, key=lambda match: len(match[0]), default=("", ""))
    if not phrase:
        return None
    words = _WORDS.get(terminal, terminal.lower())
    is_certain = phrase not in _UNSURE.get(terminal, ()) and not rest[len(phrase) :].lstrip().startswith("(")
    return _replaced("224", stop, _reach(stop, phrase), words, is_certain=is_certain)


def needless_words(stop: Stop) -> Problem | None:
    """Words that a sentence needs and the language does not: ``must be``, ``the``."""
    found = _NEEDLESS.match(stop.text, stop.at)
    if found is None:
        return None
    if found["be"] and "IS" in stop.wanted and not _RELATION.match(stop.text, found.end()):
        return _replaced("224", stop, len(found[0]), "is", is_certain=False)
    gap = _BLANKS.match(stop.text, found.end())
    return _replaced("239", stop, gap.end() - stop.at if gap else len(found[0]), "")


def relation_after_is(stop: Stop) -> Problem | None:
    """``is at most``: the relation says it all."""
    if stop.last != "IS" or stop.kind not in {"AT_MOST", "AT_LEAST", "BETWEEN", "LESSTHAN", "MORETHAN", "INSIDE"}:
        return None
    span = stop.span_of(stop.read[-1])
    mend = Mend(stop.source.span(span.start, stop.at), "")
    return stop.problem("239", span, mend=mend, found="is")


def misspelt_word(stop: Stop) -> Problem | None:
    """The word here is nearly one that could stand here."""
    if not stop.word[:1].isalpha() or ("LABEL" in stop.wanted and stop.word[0].isupper()):
        return None
    near = _near(stop.word.lower(), stop.wanted)
    return None if near is None else stop.problem("223", suggestion=near)


def misspelt_relation(stop: Stop) -> Problem | None:
    """``at mots 5 kg`` has been read as a stage called ``mots``."""
    if len(stop.read) < 2 or stop.read[-2].type != "AT" or stop.last != "NAME":
        return None
    near = nearest(str(stop.read[-1]), ("most", "least"))
    if near is None:
        return None
    span = stop.span_of(stop.read[-2]).to(stop.span_of(stop.read[-1]))
    return stop.problem("223", span, suggestion=f"at {near}", found=stop.text[span.start : span.end])


def misspelt_before(stop: Stop) -> Problem | None:
    """The word before was taken for a name, but is nearly a word of the language that could stand there."""
    if stop.last not in {"NAME", "UNIT"}:
        return None
    word = str(stop.read[-1])
    near = _near(word, wanted_after(stop.read[:-1]))
    return None if near is None else stop.problem("223", stop.span_of(stop.read[-1]), suggestion=near, found=word)


def _near(word: str, wanted: frozenset[str]) -> str | None:
    """The wanted word of the language nearest to ``word``; a short one must at least begin alike."""
    alike = (other for other in spellings(wanted) if len(word) > SHORT_WORD or other[0] == word[0])
    return nearest(word, alike)


def _continues(letter: str) -> bool:
    return letter.isalnum() or letter == "_"


def _reach(stop: Stop, phrase: str) -> int:
    """How far in the text the words of ``phrase`` reach, whatever blanks stand between them."""
    pattern = r"[ \t]+".join(re.escape(word) for word in phrase.split())
    found = re.compile(pattern, re.IGNORECASE).match(stop.text, stop.at)
    return len(found[0]) if found else len(stop.word)


def _replaced(code: str, stop: Stop, length: int, words: str, *, is_certain: bool = True) -> Problem:
    """The words here with the language's words in their place."""
    span = stop.source.span(stop.at, stop.at + length)
    found = stop.text[span.start : span.end].rstrip()
    exact = stop.source.span(span.start, span.start + len(found))
    mend = Mend(span if not words else exact, words) if is_certain else None
    advice = f"Write `{words}`."
    if not is_certain:
        advice = f"The language says `{words}`. Write that, if it is what the manual means."
    return stop.problem(code, exact, mend=mend, found=found, advice=advice)
