"""Things that are missing: values, words, commas, units, dates."""

from __future__ import annotations

from typing import Final

from lark import Token

from grammar.diagnostics.problem import Mend, Problem
from grammar.reading.parsing import reserved_words, wanted_after
from grammar.reading.stop import CHANGES, CLAUSES, RELATIONS, STATEMENT_WORDS, Stop
from grammar.reading.wording import spellings, word_for

_FEW: Final = 500
"""How many words of a statement are at most read again and again in search of one that is missing."""


def condition_missing(stop: Stop) -> Problem | None:
    """``when`` with nothing behind it."""
    return stop.problem("216", stop.line_end) if stop.last == "WHEN" and _nothing_follows(stop) else None


def claim_missing(stop: Stop) -> Problem | None:
    """A limit that does not say what must hold."""
    if stop.statement not in {"limit", "caution"} or not stop.wants_value or not _nothing_follows(stop):
        return None
    kinds = [token.type for token in stop.read]
    in_head = {"AMEND", "LOOSEN", "LIMIT", "CAUTION", "NAME", "LABEL", "AT", "THROUGHOUT"}
    return stop.problem("214", stop.line_end) if set(kinds) <= in_head and stop.last != "AT" else None


def value_missing(stop: Stop) -> Problem | None:
    """A word or sign with no value behind it."""
    if not stop.wants_value or not _nothing_follows(stop):
        return None
    return stop.problem("231", stop.line_end)


def unit_missing(stop: Stop) -> Problem | None:
    """``in`` or ``gives`` with no unit behind it."""
    if stop.last not in {"IN", "GIVES"} or "UNIT" not in stop.wanted:
        return None
    return stop.problem("219", stop.line_end)


def name_after_figure(stop: Stop) -> Problem | None:
    """A name or a bracket right behind a figure: the sign of multiplication is missing."""
    if (
        (stop.last != "NUMBER" and stop.read[-1:] != (Token("UNIT", "x"),))
        or "STAR" not in stop.wanted
        or stop.gap
    ):
        return None
    if stop.kind not in {"NAME", "LPAR", "UNIT", ""} or not (stop.word[:1].isalpha() or stop.kind == "LPAR"):
        return None
    if stop.read[-1] in {"x", "X"}:
        sign = stop.span_of(stop.read[-1])
        return stop.problem("115", sign, mend=Mend(sign, "*"), found=str(stop.read[-1]), sign="`*`")
    return stop.problem("218", stop.source.span(stop.after_last, stop.after_last), suggestion=f"* {stop.word}")


def range_without_to(stop: Stop) -> Problem | None:
    """``from 0 kg - 130 kg``."""
    if "TO" not in stop.wanted or "FROM" not in {token.type for token in stop.read}:
        return None
    if stop.kind == "SIGN":
        before = "" if stop.text[stop.at - 1].isspace() else " "
        after = "" if stop.text[stop.at + 1 : stop.at + 2].isspace() else " "
        is_certain = not _range_may_go_down(stop)
        return stop.problem("226", mend=Mend(stop.here, f"{before}to{after}") if is_certain else None)
    return stop.problem("226") if stop.kind in {"NUMBER", "COMMA"} else None


def _range_may_go_down(stop: Stop) -> bool:
    """Whether the range begins below zero, so that a sign behind it may belong to its other end."""
    kinds = [token.type for token in stop.read]
    return kinds[len(kinds) - kinds[::-1].index("FROM") :][:1] == ["SIGN"]


def between_without_and(stop: Stop) -> Problem | None:
    """``between 5 kg to 10 kg``."""
    pending = 0
    for token in stop.read:
        pending += (token.type == "BETWEEN") - (token.type == "AND" and pending > 0)
    if pending == 0 or "AND" not in stop.wanted or stop.gap:
        return None
    mend = Mend(stop.here, "and") if stop.kind == "TO" else None
    return stop.problem("235", mend=mend) if stop.kind in {"TO", "COMMA"} else None


def comma_missing(stop: Stop) -> Problem | None:
    """Two things of a list with no comma between them."""
    starts = stop.kind in {"NAME", "NUMBER"} or (stop.kind == "UNIT" and stop.word.islower())
    if "COMMA" not in stop.wanted or not starts or stop.gap:
        return None
    if len(stop.read) <= _FEW and stop.kind not in wanted_after((*stop.read, Token("COMMA", ","))):
        return None
    return stop.problem("228", stop.line_end)


def comma_before(stop: Stop) -> Problem | None:
    """Two choices of a configuration with no comma between them: the second was taken to begin its own clause."""
    if stop.wanted != {"ADDS", "WEIGHED"} or not (stop.gap or stop.kind in {"COMMA", "NAME"}):
        return None
    before, word = stop.read[-2:]
    end = stop.offset(before) + len(before)
    if before.type != "NAME" or "\n" in stop.text[end : stop.offset(word)]:
        return None
    return stop.problem("228", stop.source.span(end, end), after=str(before), found=str(word))


def comma_too_many(stop: Stop) -> Problem | None:
    """A list that ends in a comma."""
    if stop.kind == "COMMA" and "COMMA" not in stop.wanted:
        rest = stop.text[stop.at + 1 : stop.passage.end].split("--")[0]
        ends = not rest.strip() or "\n" in rest[: len(rest) - len(rest.lstrip())]
        return stop.problem("238", mend=Mend(stop.here, "")) if ends else None
    if stop.last != "COMMA" or not (stop.gap or stop.kind in {"COMMA", "RPAR"}):
        return None
    return stop.problem("238", stop.span_of(stop.read[-1]), found=",")


def figure_missing(stop: Stop) -> Problem | None:
    """Something else where only a figure can stand."""
    if "NUMBER" not in stop.wanted or not stop.wanted <= {"NUMBER", "SIGN"}:
        return None
    return stop.problem("244", stop.line_end if stop.gap or stop.kind == "LABEL" else None)


def date_missing(stop: Stop) -> Problem | None:
    """Something else where only a date can stand."""
    if stop.wanted != {"DATE"}:
        return None
    return stop.problem("245", stop.line_end if stop.gap else None)


def inches_not_meant(stop: Stop) -> Problem | None:
    """``from 0 to 5 in steps of 1``: behind a plain figure ``in`` is taken for inches."""
    if stop.last != "IN" or len(stop.read) < 2 or stop.read[-2].type != "NUMBER" or stop.word != "steps":
        return None
    return stop.problem("242", stop.span_of(stop.read[-1]), found="in", figure=str(stop.read[-2]))


def word_missing(stop: Stop) -> Problem | None:
    """Everything goes on well if one certain word of the language stood before what stands here."""
    if stop.gap or len(stop.read) > _FEW:
        return None
    candidates = [
        terminal
        for terminal in sorted(stop.wanted - {"NAME", "LABEL", "NUMBER", "UNIT", "DATE", "$END", "NOT"})
        if stop.kind in wanted_after((*stop.read, Token(terminal, "")))
    ]
    if len(stop.wanted) == 1 and not candidates and spellings(stop.wanted):
        is_another = stop.word in reserved_words()
        return None if is_another else stop.problem("241", stop.line_end, word=stop.wanted_words)
    if len(candidates) != 1 or candidates[0] in {"COMMA", "LPAR", "RPAR", "VBAR"}:
        return None
    word = word_for(candidates[0])
    return stop.problem("241", stop.line_end, suggestion=f"{word.strip('`')} {stop.word}", word=word)


def kind_missing(stop: Stop) -> Problem | None:
    """``withdraw rear_seat`` for ``withdraw load rear_seat``."""
    if str(stop.read[-1]) not in CHANGES or len(stop.read) > 1 or stop.gap or stop.kind != "NAME":
        return None
    if stop.word in STATEMENT_WORDS:
        return None
    only = f"{stop.wanted_words.strip('`')} {stop.word}" if len(stop.wanted) == 1 else None
    return stop.problem("241", stop.line_end, word=stop.wanted_words, suggestion=only)


def end_missing(stop: Stop) -> Problem | None:
    """Whatever else is missing at the end of a line."""
    return stop.problem("204", stop.line_end) if stop.gap and "$END" not in stop.wanted else None


def _nothing_follows(stop: Stop) -> bool:
    """Whether no value begins here, but the statement goes on with something else or ends."""
    if stop.ended:
        return True
    return stop.kind in CLAUSES | RELATIONS | {
        "RPAR",
        "COMMA",
        "LABEL",
        "AND",
        "OR",
        "VBAR",
        "STAR",
        "SLASH",
        "PLUS",
    }
