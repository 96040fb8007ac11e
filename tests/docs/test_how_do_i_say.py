"""The page "How do I say …": each fragment stands in a tested sheet, and each answer comes out as printed."""

from __future__ import annotations

import pytest

from grammar.pipeline import is_error, read_sheet
from tests.docs.pages import Block, blocks, sections
from tests.docs.printed import read_printed
from tests.kinds.kinds import LISTED, all_cases, all_kinds
from tests.kinds.page import PAGE, Fragment, fragments, is_verbatim, possible_lines, refilled, stated_in

FRAGMENTS = fragments()
ANSWERS = [(fragment, answer) for fragment in FRAGMENTS for answer in fragment.answers]


@pytest.mark.parametrize("fragment", FRAGMENTS, ids=str)
def test_a_fragment_stands_in_a_sheet_of_its_kind_word_for_word(fragment: Fragment) -> None:
    assert [part for part in fragment.paragraphs if not is_verbatim(part, fragment.files)] == []


@pytest.mark.parametrize("fragment", FRAGMENTS, ids=str)
def test_a_fragment_has_an_answer(fragment: Fragment) -> None:
    assert fragment.answers


@pytest.mark.parametrize(("fragment", "answer"), ANSWERS, ids=str)
def test_an_answer_comes_out_as_printed(fragment: Fragment, answer: Block) -> None:
    possible = possible_lines(fragment, answer)
    printed = read_printed(answer.text).lines
    assert printed, f"{answer} prints nothing that comes out"
    for line in printed:
        name = line[2:].split(":")[0]
        assert line in possible, [each for each in possible if each[2:].split(":")[0] == name]


@pytest.mark.parametrize(("fragment", "answer"), ANSWERS, ids=str)
def test_an_answer_states_a_case_worked_by_hand(fragment: Fragment, answer: Block) -> None:
    """What is printed beneath a fragment has been worked by somebody else than the program."""
    stated = stated_in(answer).items()
    worked = [case for case in all_cases() if case.kind == fragment.kind and case.way == fragment.way]
    whole = [{"airframe": case.written.get("airframe", "")} | {**case.record, **case.request} for case in worked]
    assert any(stated <= entries.items() for entries in whole)


def test_every_kind_that_is_listed_stands_on_the_page() -> None:
    named = {fragment.kind.number for fragment in FRAGMENTS}
    assert {kind.number for kind in all_kinds() if kind.number <= LISTED} <= named


def test_every_fragment_of_a_sheet_is_looked_at() -> None:
    limits = [block for block in blocks(PAGE) if block.language == "limits"]
    assert [fragment.block for fragment in FRAGMENTS] == limits


def test_writing_anew_changes_nothing_that_is_right() -> None:
    for fragment, answer in ANSWERS:
        assert " ".join(" ".join(refilled(fragment, answer)).split()) == " ".join(answer.text.split())


# ---- what cannot be said

HEAD = """\
sheet small revision 1 "Small sheet"
document fm "Invented manual"
datum "the nose"
given height in m
given warmth in degC
given angle in deg
given gear is one of wheels, skis
load cabin from 0 kg to 90 kg arm 1 m source fm "1"
"""

NOT_YET = {
    "a table that is stepped on one axis only, with values at uneven steps": """\
table most of height in m use the next higher and warmth in degC gives kg
  source fm "1"
  |     | 0  | 20 |
  |   0 | 90 | 80 |
  | 700 | 80 | 70 |
limit cabin_most cabin at most most(height, warmth) source fm "1"
""",
    "one table with several columns of different units": """\
table most of gear gives kg, m
  source fm "1"
  | gear   | mass | arm |
  | wheels |   90 | 2.4 |
  | skis   |   80 | 2.3 |
limit cabin_most cabin at most most(gear) source fm "1"
""",
    "the sine of an angle": 'limit across sin(angle) at most 0.5 source fm "1"\n',
    "a time of day, such as sunset": """\
given sunset is a time
limit light cabin is empty when sunset is 3 source fm "1"
""",
}
ASIDE = {"hours or flights counted over days"}
"""What no statement of a sheet could ever say, since a sheet sees one flight."""


@pytest.mark.parametrize("told", NOT_YET)
def test_what_the_page_says_cannot_be_said_cannot(told: str) -> None:
    assert any(is_error(problem) for problem in read_sheet(HEAD + NOT_YET[told], "small.limits").problems)


def test_the_head_of_what_cannot_be_said_reads() -> None:
    said = read_sheet(HEAD + 'limit most cabin at most 80 kg source fm "1"\n', "small.limits")
    assert [problem for problem in said.problems if is_error(problem)] == []


def test_every_row_of_what_cannot_be_said_is_tried() -> None:
    rows = [line for line in sections(PAGE)["What cannot be said yet"].splitlines() if line.startswith("| ")]
    told = {row.strip("| ").split(" | ")[0] for row in rows} - {"the manual prints", "---"}
    assert told == set(NOT_YET) | ASIDE
