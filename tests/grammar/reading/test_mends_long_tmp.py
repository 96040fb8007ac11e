"""Mends are applied without anybody looking at them again, so no mend may change what a figure says.

Where two readings are possible there is a suggestion, or nothing. People load aircraft by these figures.
"""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from grammar.diagnostics.mending import mended
from grammar.reading import read_file
from tests.strategies import slipping_text

_COMMENT = re.compile(
    r'("[^"\n]*"|“[^”\n]*”|(?<![\d\'])\'[^\'\n]*\')|--[^\n]*|^[^\S\n]*#[^\n]*|^//[^\n]*|^––[^\n]*', re.MULTILINE
)
"""A label, which is kept, or a comment; the foreign ones only where nothing stands before them."""
_WITHIN_A_FIGURE = re.compile("(?<=\\d)[.,\u2009\u202f](?=\\d)")


def mend_once(text: str) -> str:
    reading = read_file(text, "s")
    return mended(reading.source, reading.problems)


def figures(text: str) -> list[str]:
    """The digits of each figure that counts; a thin blank, a comma or a point may stand within one."""
    counting = _COMMENT.sub(lambda found: found[1] or "", text)
    whole = re.sub(r"(?<!\d)\.(?=\d)", "0.", counting)
    return re.findall(r"\d+", _WITHIN_A_FIGURE.sub("", whole))


def rows(text: str) -> list[list[str]]:
    """The figures of each printed row, digits and points as they stand."""
    return [re.findall(r"\d+", line) for line in text.splitlines() if line.lstrip().startswith("|")]


@settings(max_examples=40000, deadline=None)
@given(slipping_text())
@example("envelope e of cg in mm against mass in kg\n  | cg | mass |\n  | 980 290 |\n")
@example("limit a\n  max(1,480.5, b) at most 5 kg")
@example("limit a\n  b at most 1 480½ kg")
@example("limit a\n  b at most 230 kg // 2")
@example("limit a\n  b at most 115 kg -− 5 kg")
@example("÷÷ 5 ")
@example("load a from -20 kg -5 kg")
@example("load a from 0 kg to 5 kg source fm 6.3.100.200")
def test_mending_never_changes_joins_or_parts_figures(text: str) -> None:
    for _ in range(3):
        after = mend_once(text)
        assert len(after.splitlines()) == len(text.splitlines())
        assert figures(after) == figures(text)
        text = after


@settings(max_examples=3000, deadline=None)
@given(slipping_text())
def test_mending_leaves_the_figures_of_a_row_alone(text: str) -> None:
    after = mend_once(text)
    zeros = [[re.sub("^0$", "", run) for run in row] for row in rows(after)]
    assert [[run for run in row if run] for row in zeros] == [
        [run for run in row if run.strip("0") or len(run) > 1] for row in rows(text)
    ]


@given(st.sampled_from(("arm {} mm", "arm -{} mm")), st.integers(1, 99), st.sampled_from("½¼¾⅛⅜⅝⅞"))
def test_a_mended_fraction_has_the_same_value(clause: str, whole: int, sign: str) -> None:
    after = mend_once(f"load a from 0 kg to 5 kg {clause.format(f'{whole}{sign}')}")
    decimals = after.split("-")[-1] if "-" in after else after.split("arm ")[1]
    assert Fraction(decimals.split()[0]) == whole + Fraction(unicodedata.numeric(sign))


@given(
    st.integers(1, 31),
    st.integers(1, 12),
    st.integers(1990, 2040),
    st.sampled_from("./-"),
    st.permutations([0, 1]),
)
def test_a_mended_date_has_the_same_day_month_and_year(
    day: int, month: int, year: int, sign: str, order: list[int]
) -> None:
    parts = [(day, month)[at] for at in order]
    after = mend_once(f'sheet s revision 1 "S"\n  effective {parts[0]}{sign}{parts[1]}{sign}{year}')
    mended_day = re.search(r"effective (\d{4})-(\d\d)-(\d\d)$", after)
    if day > 12 or day == month:
        assert mended_day is not None
        assert [int(part) for part in mended_day.groups()] == [year, month, day]
    else:
        assert mended_day is None


@pytest.mark.parametrize(
    "text",
    [
        "load a from 0 kg to 5 kg arm 1 480 mm",
        "load a from 0 kg to 5 kg arm 1\u00a0480 mm",
        "load a from 0 kg to 5 kg arm 1'480 mm",
        "load a from 0 kg to 5 kg arm 61·5 mm",
        "load a from 0 kg to 5 kg arm 5. mm",
        "load a from 0 kg to 5 kg 610 mm",
        "load a from 0 kg to 5 kg station 610 mm",
        "load a from -120 mm - 60 mm",
        "limit a\n  b at most max(3,4 kg",
        "limit a\n  b below 115 kg",
        "limit a\n  b = 115 kg",
        "limit a\n  b at most 115 kg # 3 * c",
        "limit a\n  b at most 115 kg –– 3 * c",
        "limit a\n  b at most 500–540 kg",
        "limit a\n  (b & c) at most 500 kg",
        "envelope e of cg in mm against mass in kg\n  | 980,29 |",
        "envelope e of cg in mm against mass in kg\n  | 980 | 29\n  | 990 | 300 |",
        "envelope e of cg in mm against mass in kg\n  | 980 | 290 |\n  90 | 300 |",
        "burn a and b",
        "let c = b²",
    ],
)
def test_what_can_be_read_in_two_ways_is_not_mended(text: str) -> None:
    reading = read_file(text, "s")
    assert reading.problems
    assert mended(reading.source, reading.problems) == text
