"""Certain corrections applied to a sheet's text."""

from __future__ import annotations

from collections.abc import Iterable

from grammar.diagnostics.problem import Mend, Problem
from grammar.text import SourceText


def mends_of(source: SourceText, problems: Iterable[Problem]) -> tuple[Mend, ...]:
    """The mends that can be applied to this file together, by place.

    Of two that overlap the earlier one counts; the other is found again when the mended sheet is read.
    """
    mends = {problem.mend for problem in problems if problem.mend is not None}
    chosen: list[Mend] = []
    for mend in sorted(mends, key=_order):
        if mend.span.file == source.file and (not chosen or _is_clear(chosen[-1], mend)):
            chosen.append(mend)
    return tuple(chosen)


def mended(source: SourceText, problems: Iterable[Problem]) -> str:
    """The text of the file with every certain mend applied."""
    text = source.text
    for mend in reversed(mends_of(source, problems)):
        text = text[: mend.span.start] + mend.replacement + text[mend.span.end :]
    return text


def _order(mend: Mend) -> tuple[int, int, str]:
    return (mend.span.start, mend.span.end, mend.replacement)


def _is_clear(before: Mend, after: Mend) -> bool:
    """Whether two mends touch no common text; two insertions at one place do not stand together."""
    return before.span.end <= after.span.start and before.span.start < after.span.start
