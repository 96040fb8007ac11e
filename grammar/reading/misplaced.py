"""Clauses, stages and statements in a place that is not theirs."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from grammar.diagnostics.problem import Mend, Problem
from grammar.reading.parsing import SOFT_WORDS
from grammar.reading.stop import CLAUSES, RELATIONS, STATEMENT_WORDS, Stop
from grammar.reading.wording import word_for
from grammar.text import Span

_ALL_WITH_SOURCE: Final = (
    "chord fact given configuration load fuel burn declared let table envelope limit caution example withdraw"
)
_HEADERS: Final = "sheet supplement order permit"
CLAUSES_OF: Final[Mapping[str, str]] = MappingProxyType(
    {
        "SOURCE": _ALL_WITH_SOURCE,
        "NOTE": _ALL_WITH_SOURCE,
        "WHEN": "limit caution",
        "AT": "limit caution",
        "THROUGHOUT": "limit caution",
        "ARM": "load fuel",
        "LATERAL": "load fuel",
        "ASSUMED": "load fuel",
        "DENSITY": "load fuel",
        "FLOOR": "load",
        "EFFECTIVE": _HEADERS,
        "UNTIL": _HEADERS,
        "REPLACES": _HEADERS,
        "APPLIES": "sheet supplement order limit caution",
        "AFTER": "supplement",
        "ISSUED": "order permit",
        "AIRFRAME": "permit",
        "USE": "table",
        "EXPECT": "example",
    }
)
"""For each clause, the statements that have it. A test holds it to the grammar."""

_CLAUSE_NAMES: Final[Mapping[str, str]] = MappingProxyType(
    {
        "LATERAL": "`lateral arm`",
        "FLOOR": "`floor area`",
        "ASSUMED": "`assumed empty`",
        "APPLIES": "`applies when`",
        "ISSUED": "`issued by`",
        "USE": "`use the next`",
    }
)
"""Clauses that begin with more than one word."""


def statement_inside(stop: Stop) -> Problem | None:
    """The keyword of another statement within this one."""
    if stop.word not in STATEMENT_WORDS or stop.wants_name or not stop.read:
        return None
    if "$END" not in stop.wanted:
        return stop.problem("217", stop.line_end) if stop.first_on_line else None
    if not stop.first_on_line:
        return stop.problem("232")
    line_start = stop.text.rfind("\n", 0, stop.at) + 1
    is_certain = stop.word not in SOFT_WORDS
    return stop.problem("222", mend=Mend(stop.source.span(line_start, stop.at), "") if is_certain else None)


def stage_again(stop: Stop) -> Problem | None:
    """A second stage clause where the claim belongs."""
    if stop.kind not in {"AT", "THROUGHOUT"} or not stop.wants_value:
        return None
    has_stage = stop.last == "THROUGHOUT" or (len(stop.read) > 1 and stop.read[-2].type == "AT")
    if not has_stage:
        return None
    span = _stage_span(stop)
    return stop.problem("213", span, found=stop.text[span.start : span.end])


def stage_afterwards(stop: Stop) -> Problem | None:
    """``throughout`` or ``at`` behind the claim."""
    if stop.statement not in {"limit", "caution"} or stop.kind not in {"AT", "THROUGHOUT"}:
        return None
    if not stop.wanted & (RELATIONS | {"SOURCE"}):
        return None
    span = _stage_span(stop)
    found = stop.text[span.start : span.end]
    return stop.problem("213" if _has_stage(stop) else "212", span, found=found)


def clause_elsewhere(stop: Stop) -> Problem | None:
    """A clause that this statement does not have, or has in another place."""
    if stop.kind not in CLAUSES or not stop.wanted & (CLAUSES | {"$END", "VBAR"}):
        return None
    homes = CLAUSES_OF[stop.kind].split()
    clause = _CLAUSE_NAMES.get(stop.kind, word_for(stop.kind))
    if stop.statement in homes:
        return stop.problem("233", clause=clause)
    return stop.problem("211", clause=clause, homes=", ".join(f"`{home}`" for home in homes))


def second_relation(stop: Stop) -> Problem | None:
    """A second relation in one claim."""
    if stop.kind not in RELATIONS or not any(token.type in RELATIONS for token in stop.read):
        return None
    return stop.problem("234") if not stop.wants_value else None


def inside_without_pair(stop: Stop) -> Problem | None:
    """``cg inside envelope`` or ``cg, mass inside envelope``: the pair of values wants brackets."""
    if stop.kind == "COMMA" and "COMMA" not in stop.wanted:
        line = stop.text[stop.at :].split("\n", 1)[0]
        return stop.problem("236") if re.search(r"\binside\b", line) else None
    return stop.problem("236") if stop.word == "inside" and "INSIDE" not in stop.wanted else None


def _stage_span(stop: Stop) -> Span:
    """The stage clause that begins at the stop."""
    found = re.compile(r"at[ \t]+\w+|\w+").match(stop.text, stop.at)
    return stop.source.span(stop.at, found.end()) if found else stop.here


def _has_stage(stop: Stop) -> bool:
    """Whether a stage clause stands before the claim already."""
    kinds = [token.type for token in stop.read[2:5]]
    return bool({"AT", "THROUGHOUT"} & set(kinds))
