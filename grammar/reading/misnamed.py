"""Mistakes in names and labels."""

from __future__ import annotations

import re
from typing import Final

from grammar.diagnostics.problem import Mend, Problem
from grammar.reading.parsing import reserved_words
from grammar.reading.stop import STATEMENT_WORDS, Stop
from grammar.reading.wording import spellings

_HYPHENATED: Final = re.compile(r"[A-Za-z0-9_]+(?:-[A-Za-z0-9_]+)+")
_PARAGRAPH: Final = re.compile(r"[\w.()/-]*\w\)?")
_NAME: Final = re.compile(r"[a-z][a-z0-9_]*")
_FURTHEST_STAGE: Final = 4
"""How many words stand at most before the stage of a limit: `amend limit max_mass "Mass"`."""

_SOURCE: Final = re.compile(r'source[ \t]+\w+[ \t]+"')
_ENDS_LABEL: Final = re.compile(r'\s+(?:source|note|effective)\b|\s*--|\s*"|\s*$')
_ENDS_SHORT_LABEL: Final = re.compile(r'\s+(?:from|in|is|of|at|source|note|effective)\b|\s*--|\s*"|\s*$')


def capital_letter(stop: Stop) -> Problem | None:
    """A word with capital letters where a name or a word of the language belongs."""
    word = stop.word
    if word == word.lower() or not word.isidentifier():
        return None
    if word.lower() in spellings(stop.wanted):
        return stop.problem("120", mend=Mend(stop.here, word.lower()), lower=word.lower())
    if "LABEL" in stop.wanted or "NAME" not in stop.wanted:
        return None
    snake = re.sub(r"(?<=[a-z0-9])(?=[A-Z])", "_", word).lower()
    if not _NAME.fullmatch(snake) or snake in reserved_words():
        return None
    certain = Mend(stop.here, snake) if snake == word.lower() else None
    return stop.problem("120", mend=certain, suggestion=None if certain else snake, lower=snake)


def broken_name(stop: Stop) -> Problem | None:
    """A capital letter or a hyphen within the name just read: ``front-seat``, ``frontSeat``."""
    if stop.last != "NAME" or stop.at != stop.after_last or not stop.word:
        return None
    start = stop.offset(stop.read[-1])
    if stop.kind == "SIGN":
        found = _HYPHENATED.match(stop.text, start)
        if found is None:
            return None
        span = stop.source.span(found.start(), found.end())
        name = found[0].replace("-", "_").lower()
        is_stage = len(stop.read) > 1 and stop.read[-2].type == "AT"
        is_certain = not is_stage and not re.search(r"-\d", found[0])
        return stop.problem("121", span, mend=Mend(span, name) if is_certain else None, found=found[0], name=name)
    found = re.compile(r"\w+").match(stop.text, start)
    if found is None or not found[0].isascii() or found[0] == found[0].lower():
        return None
    snake = re.sub(r"(?<=[a-z0-9])(?=[A-Z])", "_", found[0]).lower()
    span = stop.source.span(found.start(), found.end())
    return stop.problem("120", span, suggestion=snake, found=found[0], lower=snake)


def stage_with_hyphen(stop: Stop) -> Problem | None:
    """``at take-off``, which was read as the stage ``take`` and a claim that begins with a minus."""
    kinds = [token.type for token in stop.read]
    at = kinds.index("AT") if "AT" in kinds else len(kinds)
    words = stop.read[at + 1 : at + 4]
    if at > _FURTHEST_STAGE or [token.type for token in words] != ["NAME", "SIGN", "NAME"]:
        return None
    span = stop.span_of(words[0]).to(stop.span_of(words[2]))
    written = stop.text[span.start : span.end]
    if len(written) != sum(map(len, words)):
        return None
    return stop.problem("121", span, found=written, name=written.replace("-", ""))


def digit_first(stop: Stop) -> Problem | None:
    """A name that begins with a figure: ``2nd_seat``."""
    if not stop.wants_name or stop.kind not in {"NUMBER", "DATE"}:
        return None
    found = re.compile(r"\d[\w.-]*").match(stop.text, stop.at)
    if found is None or found[0].replace(".", "").isdigit():
        return None
    return stop.problem("134", stop.source.span(found.start(), found.end()), found=found[0])


def reserved_word(stop: Stop) -> Problem | None:
    """A word of the language where a name of the officer's own belongs."""
    if not stop.wants_name or stop.first_on_line or stop.word not in reserved_words():
        return None
    if "NUMBER" in stop.wanted or _is_source(stop):
        return None
    if stop.last == "COMMA" and stop.word in STATEMENT_WORDS:
        return None
    return stop.problem("205")


def name_missing(stop: Stop) -> Problem | None:
    """A keyword without the name that belongs behind it."""
    if stop.wanted != {"NAME"} or not (stop.gap or not stop.word[:1].isalnum() or _is_source(stop)):
        return None
    return stop.problem("225", stop.line_end, what="The name of a stage" if stop.last == "AT" else "A name")


def paragraph_without_quotes(stop: Stop) -> Problem | None:
    """``source fm 2.4`` for ``source fm "2.4"``."""
    if stop.wanted != {"LABEL"} or len(stop.read) < 2 or stop.read[-2].type != "SOURCE" or stop.gap:
        return None
    found = _PARAGRAPH.match(stop.text, stop.at)
    if found is None or not any(letter.isdigit() for letter in found[0]):
        return None
    span = stop.source.span(found.start(), found.end())
    return stop.problem("227", span, mend=Mend(span, f'"{found[0]}"'), found=found[0])


def label_without_quotes(stop: Stop) -> Problem | None:
    """Words where a label belongs."""
    if "LABEL" not in stop.wanted or stop.gap or not stop.word[:1].isalnum():
        return None
    if stop.wanted != {"LABEL"} and not stop.word[:1].isupper():
        return None
    line = stop.text[stop.at :].split("\n", 1)[0]
    ends = _ENDS_LABEL if stop.wanted == {"LABEL"} else _ENDS_SHORT_LABEL
    inside = ends.split(line, maxsplit=1)[0]
    span = stop.source.span(stop.at, stop.at + max(len(inside), len(stop.word)))
    return stop.problem("209", span, found=stop.text[span.start : span.end])


def label_missing(stop: Stop) -> Problem | None:
    """A label that a statement cannot do without."""
    return stop.problem("208", stop.line_end) if stop.wanted == {"LABEL"} else None


def _is_source(stop: Stop) -> bool:
    """Whether a whole `source` clause begins here, so that the word is no name."""
    return _SOURCE.match(stop.text, stop.at) is not None
