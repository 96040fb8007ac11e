"""Tidying: one layout for what is said, and nothing of what is said changes."""

from __future__ import annotations

import re
from dataclasses import fields, is_dataclass
from pathlib import Path
from textwrap import dedent

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from grammar.reading import read_file
from grammar.reading.sizes import DEPTH, LINE
from grammar.text import Span
from grammar.tidy import tidy

CORRIN = """\
-- An invented tandem two-seat gyroplane. Every figure here is made up.
sheet corrin_t2 revision 3 "Corrin T2 light gyroplane"
  effective 2026-04-01
  replaces revision 2

document fm "Corrin T2 flight manual, CT2-FM, issue 4"
document sb7 "Corrin service bulletin 7, rear locker floor"

datum "rear face of the nose bulkhead; arms positive aft"
chord from 2200 mm length 1400 mm                  source fm "6.1"

fact engine is one of standard, boosted            source fm "1.4"
fact pannier_floor is one of original, reinforced  source sb7 "2"
fact pod_fitted is yes or no                       source fm "1.5"
  note "as delivered"

given pressure_altitude in ft from 0 ft to 8000 ft
given outside_air_temperature in degC from -20 degC to 45 degC
given last_swing is a date

load front_seat "Front seat" from 0 kg to 130 kg
  arm 610 mm                                       source fm "6.3"
load nose_locker "Nose locker" from 0 kg to 15 kg
  arm -120 mm lateral arm 40 mm in steps of 2.5 kg assumed empty  source fm "6.3"
load pod from 0 kg to 12 kg                        source fm "3"
fuel main_tank "Main tank" from 0 L to 80.00 L
  density 0.72 kg/L arm 1390 mm                    source fm "6.4"

-- Used one after the other.
burn main_tank down to 20 L, then left_tank with right_tank, then main_tank  source fm "7.2"
let panniers = left_pannier + right_pannier

table hot_and_high of pressure_altitude in ft and outside_air_temperature in degC gives kg
  source fm "5.2"
  |      | -20 |   0   |  45 |
  |    0 | 540 | 540.5 | 510 |
  -- beyond this nothing is printed
  | 8000 | 510 | 495   | 435 |  -- read off the chart

envelope fore_and_aft of cg in mm against mass in kg
  source fm "6.2"
  |  cg  | mass |
  |  980 |  290 |
  | 1210 |  420 |
  | 1210 |  290 |

limit max_takeoff_mass "Maximum take-off mass"
  at takeoff
  mass at most (500 kg when engine is standard, 540 kg when engine is boosted)
  source fm "2.3"

limit front_seat_max "Front seat, less three times the nose locker"
  front_seat at most 115 kg - 3 * nose_locker
  source fm "2.4"
  note "placard on the front bulkhead"

limit balance "Centre of gravity, fore and aft"
  throughout
  (cg, mass) inside fore_and_aft
  when not (pod_fitted is yes) and max(pod, -(nose_locker - 2 kg)) > 1 kg
  source fm "6.2"

caution soft_field "Heavy on grass"
  at takeoff
  mass at most 480 kg  -- the club says 470 kg
  when airfield is grass and pressure_altitude > 2000 ft
  source fm "5.4"

example two_up "Two up, boosted engine" source fm "6.6, example 1"
  given empty_mass 288 kg, empty_arm 1260 mm, engine boosted
  load front_seat 82 kg, rear_seat 74 kg, main_tank 60 L
  expect mass at takeoff 487.2 kg
  expect cg at takeoff 1195.5 mm give or take 0.1 mm
  expect max_takeoff_mass within, front_seat_max outside by 7 kg
-- End of the sheet.
"""


def tidied(text: str) -> str:
    return tidy(read_file(text, "corrin_t2.limits"))


def meaning(node: object) -> object:
    """What a tree says, without the places where it says it."""
    if isinstance(node, tuple):
        return tuple(meaning(each) for each in node)
    if is_dataclass(node) and not isinstance(node, Span):
        kept = [each.name for each in fields(node) if each.name not in {"span", "comments"}]
        return type(node).__name__, *((name, meaning(getattr(node, name))) for name in kept)
    return None if isinstance(node, Span) else node


def comments(text: str) -> list[str]:
    return [comment.text.rstrip() for comment in read_file(text, "").file.comments]


def assert_only_the_layout_differs(text: str) -> None:
    before, tidy_text = read_file(text, ""), tidied(text)
    after = read_file(tidy_text, "")
    assert meaning(after.file) == meaning(before.file)
    assert comments(tidy_text) == comments(text)
    assert tidied(tidy_text) == tidy_text


# ---- the layout


def test_a_tidy_sheet_stays_as_it_is() -> None:
    reading = read_file(CORRIN, "")
    assert (reading.problems, reading.file.unread) == ((), ())
    assert tidied(CORRIN) == CORRIN


def laid_out(text: str) -> str:
    return tidied(dedent(text).lstrip("\n")).rstrip("\n")


def test_clauses_go_to_lines_of_their_own_and_the_words_of_a_line_come_together() -> None:
    scattered = """
        limit   max_takeoff_mass at takeoff mass
            at  most 500kg  source fm
             "2.3"   note "placard"
        """
    assert laid_out(scattered).splitlines() == [
        "limit max_takeoff_mass",
        "  at takeoff",
        "  mass at most 500 kg",
        '  source fm "2.3"',
        '  note "placard"',
    ]


def test_figures_stay_as_they_were_typed() -> None:
    assert "from 0.50 kg to 0130.0 kg" in laid_out('load seat from 0.50kg to 0130.0kg source fm "1"')


@pytest.mark.parametrize(
    ("typed", "laid"),
    [
        ("a+b-c*d/2 at most 5kg/L", "a + b - c * d / 2 at most 5 kg/L"),
        ("-( a ) at most - -b", "-(a) at most - -b"),
        ("abs ( a-b )at most 2%MAC", "abs(a - b) at most 2 %MAC"),
        ("not(a is yes)", "not (a is yes)"),
        ("a at zero_fuel between 1kg and 2 kg", "a at zero_fuel between 1 kg and 2 kg"),
        ("round_up a to 10kg at least b/c", "round_up a to 10 kg at least b / c"),
        ("(cg,mass)inside balance", "(cg, mass) inside balance"),
        ("weighed_on+48months>flight_date", "weighed_on + 48 months > flight_date"),
        ("a at most 3 in", "a at most 3 in"),
    ],
)
def test_spaces_of_a_claim(typed: str, laid: str) -> None:
    assert laid_out(f"limit x\n  {typed}").splitlines() == ["limit x", f"  {laid}"]


def test_sources_stand_below_each_other_through_the_whole_file() -> None:
    text = laid_out("""
        fact pod is yes or no source fm "1"
        fact engine is one of standard, boosted source fm "2"
        """)
    assert len({line.index("source") for line in text.splitlines()}) == 1


def test_a_source_that_would_stand_too_far_out_goes_to_a_line_of_its_own() -> None:
    options = ", ".join(f"choice_{number:02}" for number in range(7))
    *_, last = laid_out(f'fact engine is one of {options} source fm "2"').splitlines()
    assert last == '  source fm "2"'


def test_a_choice_that_is_too_long_stands_with_one_case_on_a_line() -> None:
    cases = ", ".join(f"{500 + 10 * number} kg when engine is engine_number_{number}" for number in range(3))
    assert laid_out(f"limit x mass at takeoff at most ({cases}, 400 kg otherwise)").splitlines()[1:] == [
        "  mass at takeoff at most (500 kg when engine is engine_number_0,",
        "    510 kg when engine is engine_number_1,",
        "    520 kg when engine is engine_number_2,",
        "    400 kg otherwise)",
    ]


def test_a_sum_that_is_too_long_breaks_before_its_signs() -> None:
    terms = " + ".join(f"locker_number_{number}" for number in range(8))
    lines = laid_out(f"let lockers = {terms}").splitlines()
    assert [line.split()[0] for line in lines] == ["let", "+"]
    assert max(map(len, lines)) <= 100


def test_columns_of_a_table_are_aligned_at_their_decimal_points() -> None:
    rows = laid_out('envelope e of cg in mm against mass in kg source fm "1"\n  |cg|mass|\n|1|20.25|\n|100.5|3|')
    assert rows.splitlines()[2:] == [
        "  |  cg   | mass  |",
        "  |   1   | 20.25 |",
        "  | 100.5 |  3    |",
    ]


def test_blank_lines_are_kept_at_most_one_together() -> None:
    assert laid_out('\n\ndatum "a"\ndocument b "c"\n\n\n\ndocument d "e"') == (
        'datum "a"\ndocument b "c"\n\ndocument d "e"'
    )


def test_an_empty_file_stays_empty() -> None:
    assert tidied("") == ""
    assert tidied("\n \n") == ""


def test_the_files_own_line_endings_are_kept() -> None:
    text = CORRIN.replace("\n", "\r\n")
    assert tidied(text) == text


# ---- supplements, orders, permits; configurations and declared masses

POD = """\
-- An invented camera pod.
supplement camera_pod revision 1 to corrin_t2 "Camera pod CP-1"
  effective 2026-05-10
  applies when pod_fitted is yes and serial between 1001 and 1045
  after radio, skis

document cp "Camera pod CP-1, manual supplement, issue 2"

fact pod_fitted is yes or no                            source cp "1"
load pod "Camera pod" from 0 kg to 12 kg
  arm 300 mm                                            source cp "3"

configuration gear "Gear" is one of wheels, skis, floats
  floats weighed apart
  skis adds 12 kg arm 2300 mm lateral arm -3 mm
  source cp "4"

amend limit max_takeoff_mass "Maximum take-off mass, pod fitted"
  at takeoff
  mass at most 505 kg  -- as certified
  applies when serial > 5
  source cp "2.1"
  note "placard"
amend load rear_seat "Rear seat" from 0 kg to 110 kg
  arm 1480 mm                                           source cp "2.1"
amend table crosswind of surface and wind in kt gives kg
  use the next higher
  source cp "4"
  |       | 10 | 20   |
  | grass |  5 |  6.5 |
  | hard  | 15 |  6   |  -- read off the chart
amend chord from 5 mm length 3 mm                       source cp "4"
amend let panniers = left_pannier
amend declared front_seat, rear_seat add 4 kg by order  source cp "4"
withdraw load nose_locker                               source cp "2.2"
  note "the pod hangs there"
withdraw caution soft_field                             source cp "2.2"
"""

FERRY = """\
permit ferry revision 1 to corrin_t2 "Ferry flight"
  effective 2026-05-10
  until 2026-05-12
  airframe "QF-COB"
  issued by "Airworthiness office"

document fp "Permit 12"

declared front_seat, rear_seat add 4 kg  source fp "1"

loosen limit max_takeoff_mass
  at takeoff
  mass at most 600 kg
  source fp "2"

example alone source fp "3"
  given empty_mass 288 kg
  load front_seat 82 kg declared, rear_seat 74 kg weighed
  expect mass at takeoff 487.2 kg
"""


@pytest.mark.parametrize("text", [POD, FERRY], ids=["supplement", "permit"])
def test_a_tidy_supplement_and_permit_stay_as_they_are(text: str) -> None:
    reading = read_file(text, "")
    assert (reading.problems, reading.file.unread) == ((), ())
    assert tidied(text) == text


def test_what_is_amended_is_laid_out_as_it_is_by_itself() -> None:
    amendable = [words for words in pieces(CORRIN) if words[0] in {"limit", "load", "table", "envelope"}]
    assert len(amendable) > 6
    for words in amendable:
        text = "\n  ".join(words).replace("~", " ") + "\n"
        assert tidied("amend " + text) == "amend " + tidied(text)


def test_long_lists_of_layers_places_and_choices_are_broken() -> None:
    names = ", ".join(f"a_rather_long_name_{number:02}" for number in range(8))
    for head, tail in (
        ('supplement s revision 1 to t "T"\n  after', ""),
        ("declared", "add 4 kg"),
        ("configuration c is one of", ""),
    ):
        assert max(map(len, tidied(f"{head} {names} {tail}").splitlines())) <= 100


# ---- comments


def test_a_comment_inside_a_condition_keeps_its_place() -> None:
    text = laid_out("""
        limit x
          mass at takeoff at most (500 kg when engine is standard, -- as certified
            -- after the bulletin
            540 kg when engine is boosted)
        """)
    assert text.splitlines()[1:] == [
        "  mass at takeoff at most (500 kg when engine is standard,  -- as certified",
        "    -- after the bulletin",
        "    540 kg when engine is boosted)",
    ]


def test_an_indented_comment_behind_a_statement_stays_with_it() -> None:
    text = 'datum "nose"\n  -- measured by the maker\n-- The places.\ndocument fm "manual"\n'
    assert tidied(text) == text


def test_a_label_that_looks_like_a_comment_is_none() -> None:
    assert laid_out('document  fm "issue 4 -- draft"') == 'document fm "issue 4 -- draft"'


# ---- what could not be read


def test_a_statement_that_could_not_be_read_stays_exactly_as_it_is() -> None:
    broken = "limit  y  mass at   most   -- ?\n     source fm  \n"
    text = f'datum   "nose"\n{broken}document  fm "manual"\n'
    assert tidied(text) == f'datum "nose"\n{broken}document fm "manual"\n'


def test_text_that_belongs_to_no_statement_is_not_dropped() -> None:
    text = '   arm 610 mm\ndatum   "nose"\n'
    assert "arm 610 mm" in tidied(text)


def test_many_brackets_are_laid_out_like_one() -> None:
    deep = "(" * (DEPTH // 2) + "a" + ")" * (DEPTH // 2)
    assert laid_out(f"let b  =  {deep}") == f"let b = {deep}"


def test_a_line_that_could_not_be_read_again_is_not_made() -> None:
    product = "\n  * ".join([f"a_name_that_is_long_{'x' * 20}"] * (LINE // 40))
    text = f"let seats = {product}\n"
    assert read_file(text, "").file.unread == ()
    assert tidied(text) == text


# ---- sheets of the project


SHEETS = sorted(Path(__file__).parents[2].glob("limits_demo/sheets/*.limits"))


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_tidying_a_sheet_of_the_demo_changes_only_its_layout(path: Path) -> None:
    assert_only_the_layout_differs(path.read_text(encoding="utf-8"))


def test_the_demo_has_sheets() -> None:
    assert SHEETS


# ---- any layout


def pieces(text: str) -> list[list[str]]:
    """The words of each statement of a tidy sheet, so that they can be scattered anew."""
    statements: list[list[str]] = []
    for line in text.splitlines():
        words, _, _ = line.partition("--")
        if not words.strip():
            continue
        if not line.startswith(" "):
            statements.append([])
        whole = words.strip().startswith("|")
        statements[-1].extend([words.strip()] if whole else _words(words))
    return statements


_TOGETHER = re.compile(r"(?<=\bat) (?=most)")
"""The blank at which a line is not broken."""


def _words(line: str) -> list[str]:
    labelled = line.split('"')
    words: list[str] = []
    for number, part in enumerate(labelled):
        words.extend([f'"{part}"'] if number % 2 else _TOGETHER.sub("~", part).split())
    return words


gaps = st.sampled_from([" ", "   ", "\n  ", "\n\n      ", "  -- aside\n    ", "\n-- own line\n  "])
row_gaps = st.sampled_from(["\n", "\n  ", "\n\n   ", "  -- aside\n", "\n -- own line\n  "])
ends = st.sampled_from(["\n", "\n\n\n", "   -- end\n", "\n-- own line\n", "\n  -- indented\n\n"])


@st.composite
def scattered(draw: st.DrawFn) -> str:
    text = draw(st.sampled_from(["", "-- first\n", "\n\n"]))
    whole = pieces(CORRIN) + pieces(POD) + pieces(FERRY)
    for statement in draw(st.lists(st.sampled_from(whole), min_size=1, max_size=6)):
        for before, word in zip(["", *statement], statement, strict=False):
            is_row = before.startswith("|") or word.startswith("|")
            text += (draw(row_gaps if is_row else gaps) if before else "") + word.replace("~", " ")
        text += "\n" + draw(ends)
    return text


@given(scattered())
@settings(deadline=None)
def test_however_a_sheet_is_scattered_only_its_layout_changes(text: str) -> None:
    reading = read_file(text, "")
    assert reading.file.unread == ()
    assert_only_the_layout_differs(text)


@given(st.text(alphabet='abc limtod"-|()+,.<>=\n\t\r\ufeff1290%', max_size=80))
@settings(deadline=None)
def test_tidying_anything_loses_no_letter(text: str) -> None:
    tidy_text = tidied(text)
    assert [letter for letter in tidy_text if not letter.isspace()] == [
        letter for letter in text if not letter.isspace()
    ]
    assert tidied(tidy_text) == tidy_text


@given(st.data())
@settings(deadline=None)
def test_tidying_a_damaged_sheet_loses_no_letter(data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(CORRIN)))
    scrap = data.draw(st.sampled_from(['"', "\n", "(", "|", "--", "“", "\ufeff", "limit ", ",", "\n\n  ", "\r"]))
    upto = data.draw(st.integers(at, min(at + 12, len(CORRIN))))
    text = CORRIN[:at] + scrap + CORRIN[upto:]
    tidy_text = tidied(text)
    assert "".join(tidy_text.split()) == "".join(text.split())
    assert tidied(tidy_text) == tidy_text
