"""A slip of the pen in a limit is noticed: the sheet no longer reads, or a worked example no longer comes out."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from engine.evaluation.examples import run_examples
from grammar.pipeline import read_sheet
from limits_demo import sheet_names, sheet_text

_FIGURE = re.compile(r'"[^"\n]*"|\b\d+(?:\.\d+)?\b')
_LIMIT = re.compile(r"^(?:limit|caution) .*\n(?:  .*\n)+", re.MULTILINE)
_OPPOSITES = {"at most": "at least", "at least": "at most"}


def _slips(text: str) -> Iterator[tuple[str, str]]:
    """Each slip with what it is called: two digits swapped, a last digit one off, or the relation turned."""
    for limit in _LIMIT.finditer(text):
        for start, end, wrong in _in_statement(limit.group()):
            at = limit.start() + start
            yield (
                f"{limit.group().split()[1]}: {limit.group()[start:end]} as {wrong}",
                "".join((text[:at], wrong, text[limit.start() + end :])),
            )


def _in_statement(statement: str) -> Iterator[tuple[int, int, str]]:
    for figure in _FIGURE.finditer(statement):
        if not figure.group().startswith('"'):
            yield from ((figure.start(), figure.end(), wrong) for wrong in _misread(figure.group()))
    for said, other in _OPPOSITES.items():
        yield from ((found.start(), found.end(), other) for found in re.finditer(said, statement))


def _misread(figure: str) -> set[str]:
    swapped = {figure[:at] + figure[at + 1] + figure[at] + figure[at + 2 :] for at in range(len(figure) - 1)}
    off = figure[:-1] + str((int(figure[-1]) + 1) % 10)
    return {wrong for wrong in swapped | {off} if re.fullmatch(r"\d+(\.\d+)?", wrong)} - {figure}


def _is_noticed(text: str) -> bool:
    outcome = read_sheet(text, "slip.limits")
    return outcome.sheet is None or bool(outcome.problems) or bool(run_examples(outcome.sheet))


NOT_NOTICED = {"corrin_t2": {"soft_field: 2000 as 2001"}}
"""No example is set between 2000 and 2001 ft."""


@pytest.mark.parametrize("name", sheet_names())
def test_slips_in_the_limits_are_noticed(name: str) -> None:
    slips = dict(_slips(sheet_text(name)))
    assert len(slips) >= 15
    assert {what for what, text in slips.items() if not _is_noticed(text)} == NOT_NOTICED.get(name, set())
