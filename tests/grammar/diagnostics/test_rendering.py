"""How a problem is shown: in full, on one line, as JSON; and how certain ones are mended."""

from __future__ import annotations

import json
import string

import pytest
from hypothesis import given
from hypothesis import strategies as st

from grammar.diagnostics.catalogue import CATALOGUE
from grammar.diagnostics.entry import Entry, Severity
from grammar.diagnostics.excerpt import ROOM, excerpt
from grammar.diagnostics.lettering import columns
from grammar.diagnostics.listing import as_json
from grammar.diagnostics.mending import mended
from grammar.diagnostics.problem import Elsewhere, Mend, Problem
from grammar.diagnostics.rendering import Mark, closing, in_full, in_order, one_line, plain, report
from grammar.reading import read_file
from grammar.text import SourceText, Span

FILE = "corrin_t2.limits"
TEXT = """\
sheet corrin_t2 revision 3 "Corrin T2 light gyroplane"
load front_seat "Front seat" from 0 kg to 130 kg
  arm 610,5 mm
limit front_seat_max
  front_seet at most 115 kg - 3 * nose_locker
"""
SHEET = SourceText(FILE, TEXT)
SOURCES = {FILE: SHEET}
WORDS = {
    "901": Entry("901", Severity.ERROR, "Not declared", "{name} is not declared.", "Declare {name}."),
    "902": Entry("902", Severity.WARNING, "Never used", "Nothing uses {name}.", "Use it."),
}
"""Two entries of our own, so that these tests do not hang on the words of the catalogue."""


def place(words: str, sheet: SourceText = SHEET) -> Span:
    start = sheet.text.index(words)
    return sheet.span(start, start + len(words))


UNDECLARED = Problem(
    "901",
    place("front_seet"),
    {"name": "front_seet"},
    (Elsewhere(place("front_seat"), "declared here"),),
    suggestion="front_seat",
)
COMMA = Problem("901", place("610,5"), {"name": "610,5"}, mend=Mend(place(","), "."))
UNUSED = Problem("902", place("front_seat"), {"name": "front_seat"})


def full(problem: Problem, sheet: SourceText = SHEET) -> list[str]:
    return plain(in_full(problem, {sheet.file: sheet}, WORDS)).splitlines()


# ---- in full


def test_a_problem_in_full() -> None:
    assert full(UNDECLARED) == [
        "corrin_t2.limits, line 5, column 3",
        "  as typed:       front_seet at most 115 kg - 3 * nose_locker",
        "                  ==========",
        "  error 901:    front_seet is not declared.",
        "  see also:     line 2: declared here",
        '                load front_seat "Front seat" from 0 kg to 130 kg',
        "                     ==========",
        "  remedy:       Declare front_seet.",
        "                Did you mean front_seat?",
    ]


def test_a_mend_is_told_as_certain() -> None:
    assert full(COMMA)[-1] == "  certain:      `burthen read --mend` writes `.` in place of `,`."


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [("mm", "", "takes out `mm`."), ("\u00a0", " ", "writes ` ` in place of `<U+00A0>`.")],
)
def test_how_a_mend_is_told(old: str, new: str, told: str) -> None:
    sheet = SourceText(FILE, "arm 610\u00a0mm")
    assert full(Problem("901", place(old, sheet), mend=Mend(place(old, sheet), new)), sheet)[-1].endswith(told)


def test_what_is_missing_is_marked_at_its_place() -> None:
    sheet = SourceText(FILE, "  arm 610\n")
    problem = Problem("901", sheet.span(9, 9), mend=Mend(sheet.span(9, 9), " mm"))
    assert full(problem, sheet)[1:3] == ["  as typed:       arm 610", "                         +"]
    assert full(problem, sheet)[-1].endswith("writes ` mm` here.")


def test_words_over_several_lines_are_marked_on_the_first() -> None:
    lines = full(Problem("901", place(TEXT[TEXT.index("limit") : -1])))
    assert lines[0] == "corrin_t2.limits, lines 4 to 5, column 1"
    assert lines[1:3] == ["  as typed:     limit front_seat_max", "                ===================="]


def test_a_place_in_another_file_names_the_file() -> None:
    other = SourceText("pod.limits", "\n  load pod\n")
    problem = Problem("901", place("front_seet"), {}, (Elsewhere(other.span(3, 11), "amended here"),))
    text = plain(in_full(problem, {**SOURCES, "pod.limits": other}, WORDS))
    assert "see also:     pod.limits, line 2, column 3: amended here" in text


def test_a_file_whose_text_is_not_there_is_told_without_its_lines() -> None:
    text = plain(in_full(UNDECLARED, {}, WORDS))
    assert "as typed" not in text
    assert "front_seet is not declared" in text


def test_long_words_are_wrapped_below_each_other() -> None:
    words = {"901": Entry("901", Severity.ERROR, "", "word " * 60, "")}
    lines = plain(in_full(UNDECLARED, {}, words)).splitlines()
    assert all(columns(line) <= 100 for line in lines)
    assert lines[2].startswith(" " * 16 + "word")


def test_marks_tell_a_command_what_to_colour() -> None:
    marks = {piece.mark for piece in in_full(COMMA, SOURCES, WORDS)}
    assert {Mark.PLACE, Mark.TYPED, Mark.POINTER, Mark.ERROR, Mark.CERTAIN} <= marks
    assert Mark.WARNING in {piece.mark for piece in in_full(UNUSED, SOURCES, WORDS)}


# ---- what must never break the showing


@pytest.mark.parametrize("letter", ["\x1b", "\x07", "\x9b", "\u202e", "\u200b", "\u2028", "\ufeff", "\r"])
def test_control_characters_of_a_sheet_never_reach_the_terminal(letter: str) -> None:
    sheet = SourceText("bad" + letter, f"load {letter}[31m seat\n")
    problem = Problem(
        "901",
        sheet.span(5, 6),
        {"name": letter},
        (Elsewhere(sheet.span(5, 6), letter),),
        suggestion=letter,
        mend=Mend(sheet.span(5, 6), letter),
    )
    shown = plain(report(sheet.file, [problem], {sheet.file: sheet}, WORDS)) + one_line(problem, WORDS)
    assert letter not in shown
    assert f"<U+{ord(letter):04X}>" in shown
    assert letter not in as_json([problem], {sheet.file: sheet}, WORDS)


def test_the_mark_stands_below_an_escaped_character() -> None:
    seen = excerpt(SourceText("", "a \x1b b"), SourceText("", "a \x1b b").span(2, 3))
    assert (seen.line, seen.marks) == ("a <U+001B> b", "  ========")


def test_wide_characters_and_tabs_keep_the_marks_below_their_words() -> None:
    text = 'note "机翼"\tarm'
    sheet = SourceText("", text)
    seen = excerpt(sheet, sheet.span(text.index("arm"), len(text)))
    assert columns(seen.line[: seen.line.index("arm")]) == columns(seen.marks.rstrip("="))
    assert seen.marks.endswith("===")
    assert "\t" not in seen.line


def test_braces_in_a_fact_are_only_text() -> None:
    problem = Problem("901", place("front_seet"), {"name": "{name} {0} {{x}"})
    assert "{name} {0} {{x} is not declared." in plain(in_full(problem, SOURCES, WORDS))


def test_a_fact_that_is_not_given_shows_its_name() -> None:
    assert "{name} is not declared." in one_line(Problem("901", place("front_seet")), WORDS)


def test_a_sentence_begins_with_a_capital_but_a_name_stays_as_typed() -> None:
    spoken = Problem("901", place("front_seet"), {"name": "the arm of front_seat"})
    assert "The arm of front_seat is not declared." in one_line(spoken, WORDS)
    assert "901 front_seet is not declared." in one_line(UNDECLARED, WORDS)


def test_a_very_long_line_is_cut_on_both_sides() -> None:
    text = "x" * 500_000 + "HERE" + "y" * 500_000
    sheet = SourceText("", text)
    seen = excerpt(sheet, sheet.span(500_000, 500_004))
    assert seen.line.startswith("…x") and seen.line.endswith("y…")
    assert columns(seen.line) <= ROOM
    assert seen.line[seen.marks.index("=") :].startswith("HERE")


@given(
    st.text(alphabet="ab \t机\u0301\x1b\u00a0…", max_size=300),
    st.integers(0, 300),
    st.integers(0, 300),
)
def test_the_marks_stand_below_the_words_in_any_line(text: str, start: int, length: int) -> None:
    sheet = SourceText("", text)
    start = min(start, len(text))
    seen = excerpt(sheet, sheet.span(start, min(start + length, len(text))))
    assert columns(seen.line) <= ROOM + 1
    assert columns(seen.marks) <= ROOM + 9
    assert seen.marks.strip() != ""


@given(st.text(alphabet=string.ascii_letters, min_size=1, max_size=400), st.data())
def test_the_first_marked_letter_is_the_one_meant(text: str, data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(text) - 1))
    seen = excerpt(SourceText("", text), SourceText("", text).span(at, at + 1))
    assert seen.line[seen.marks.index("=")] == text[at]


# ---- a file's problems


def test_a_report_goes_by_place_and_ends_with_whether_the_sheet_can_be_published() -> None:
    text = plain(report(FILE, [UNDECLARED, COMMA, UNUSED], SOURCES, WORDS))
    places = [line for line in text.splitlines() if line.startswith(f"{FILE}, line")]
    assert [line.split(", ")[1] for line in places] == ["line 2", "line 3", "line 5"]
    assert "corrin_t2.limits: 2 errors and 1 warning. The sheet cannot be published." in text
    assert "the pilot in command decide" in text


def test_warnings_do_not_stop_a_sheet() -> None:
    assert "1 warning. The sheet can be published; look at each one first." in closing(FILE, [UNUSED], WORDS)


def test_a_sheet_without_problems_can_be_published() -> None:
    assert "no problems found. The sheet can be published." in closing(FILE, [], WORDS)


def test_problems_are_ordered_by_file_and_place() -> None:
    assert in_order([UNDECLARED, UNUSED, COMMA]) == (UNUSED, COMMA, UNDECLARED)


# ---- one line, JSON


def test_one_line() -> None:
    assert one_line(UNDECLARED, WORDS) == "corrin_t2.limits:5:3: 901 front_seet is not declared."


def test_json_has_everything_that_the_full_text_has() -> None:
    first, second = json.loads(as_json([UNDECLARED, COMMA], SOURCES, WORDS))
    assert first == {
        "code": "901",
        "severity": "error",
        "file": FILE,
        "line": 3,
        "column": 7,
        "end_line": 3,
        "end_column": 12,
        "says": "610,5 is not declared.",
        "remedy": "Declare 610,5.",
        "suggestion": None,
        "mend": {
            "file": FILE,
            "line": 3,
            "column": 10,
            "end_line": 3,
            "end_column": 11,
            "replacement": ".",
        },
        "elsewhere": [],
        "facts": {"name": "610,5"},
    }
    assert second["suggestion"] == "front_seat"
    assert [other["what"] for other in second["elsewhere"]] == ["declared here"]


# ---- mending


def mend(start: int, end: int, replacement: str) -> Problem:
    span = SHEET.span(start, end)
    return Problem("901", span, mend=Mend(span, replacement))


def test_all_certain_mends_are_applied() -> None:
    seet = Problem("901", place("front_seet"), mend=Mend(place("front_seet"), "front_seat"))
    expected = TEXT.replace("610,5", "610.5").replace("front_seet", "front_seat")
    assert mended(SHEET, [seet, UNUSED, COMMA]) == expected


def test_of_mends_that_overlap_the_first_counts() -> None:
    assert mended(SHEET, [mend(3, 8, "B"), mend(0, 5, "A"), mend(8, 9, "C")])[:5] == "A coC"


def test_the_same_mend_twice_is_applied_once() -> None:
    assert mended(SHEET, [mend(0, 0, "-- "), mend(0, 0, "-- ")]) == "-- " + TEXT


def test_mends_of_another_file_are_left_alone() -> None:
    assert mended(SourceText("other.limits", TEXT), [COMMA]) == TEXT


@given(st.lists(st.tuples(st.integers(0, 40), st.integers(0, 6), st.sampled_from(["", "X", "YY"]))))
def test_what_no_mend_touches_stays(stretches: list[tuple[int, int, str]]) -> None:
    problems = [mend(start, start + length, new) for start, length, new in stretches]
    touched = {at for start, length, _ in stretches for at in range(start, start + length)}
    kept = [letter for at, letter in enumerate(TEXT) if at not in touched]
    left = iter(mended(SHEET, problems))
    assert all(letter in left for letter in kept)


def test_a_certain_mend_never_joins_two_figures_of_a_row() -> None:
    row = "envelope e of cg in mm against mass in kg\n  | cg | mass |\n  | 980 290 |\n"
    reading = read_file(row, FILE)
    assert "980290" not in mended(reading.source, reading.problems)


# ---- the catalogue


@pytest.mark.parametrize("code", sorted(CATALOGUE))
def test_templates_name_their_facts_plainly(code: str) -> None:
    entry = CATALOGUE[code]
    for template in (entry.says, entry.remedy):
        for _, name, form, conversion in string.Formatter().parse(template):
            assert name is None or (name.isidentifier() and not form and not conversion)
