"""Every command with every exit status that is an answer."""

from __future__ import annotations

import json
import re
from pathlib import Path

import jsonschema
import pytest

from engine.explanation.caution import CAUTION

SCHEMA = Path(__file__).parents[3] / "docs" / "explanation.schema.json"

OVER = ("front_seat=98kg", "nose_locker=8kg")
EXACT_SENTENCE = (
    "front seat 98 kg, over 91 kg by 7 kg: 115 kg less three times the 8 kg in the nose locker "
    "(Corrin T2 flight manual, paragraph 2.4)"
)


# ---- check


def test_within_is_0(burthen, corrin, loaded):
    said = burthen("check", corrin, *loaded)
    assert said.status == 0
    assert said.out.startswith("WITHIN")
    assert CAUTION in said.out and not said.err


def test_outside_is_1_and_says_why(burthen, corrin, loaded):
    said = burthen("check", corrin, *loaded, *OVER)
    assert said.status == 1
    assert said.out.startswith("OUTSIDE")
    assert EXACT_SENTENCE in said.out


def test_what_cannot_be_told_is_2(burthen, corrin):
    said = burthen("check", corrin, "front_seat=80kg")
    assert said.status == 2
    assert said.out.startswith("UNDETERMINED")


@pytest.mark.parametrize(("more", "status"), [((), 0), (OVER, 1), (("trip_fuel=70 L", "main_tank=81 L"), 1)])
def test_the_json_is_as_its_schema_says_and_as_the_status(burthen, corrin, loaded, more, status):
    said = burthen("check", corrin, *loaded, *more, "--json")
    assert said.status == status
    document = json.loads(said.out)
    jsonschema.validate(document, json.loads(SCHEMA.read_text(encoding="utf-8")), jsonschema.Draft202012Validator)
    assert document["verdict"] == ("outside" if status else "within")


def test_why_goes_down_to_the_paragraph(burthen, corrin, loaded):
    said = burthen("check", corrin, *loaded, *OVER, "--why", "front_seat_max")
    assert said.status == 1
    assert "115 kg, printed [front_seat_max, line" in said.out
    assert "nose locker 8 kg, stated as loaded [nose_locker, line" in said.out


def test_a_limit_that_is_not_there_is_3_and_a_near_one_is_named(burthen, corrin, loaded):
    said = burthen("check", corrin, *loaded, "--why", "front_seat_mx")
    assert said.status == 3
    assert "Did you mean front_seat_max?" in said.err and not said.out


def test_a_loading_from_standard_input(burthen, corrin, group, loaded):
    text = (group / "bookings" / "Q-102.json").read_bytes()
    there = burthen("check", corrin, "-", *loaded[1:], stdin=text)
    assert there == burthen("check", corrin, *loaded)


def test_single_values_count_before_the_file_wherever_they_stand(burthen, corrin, loaded):
    file, *record = loaded
    first = burthen("check", corrin, *OVER, file, *record)
    assert first == burthen("check", corrin, file, *OVER, *record)
    assert first.status == 1


def test_the_loading_counts_before_the_record(burthen, corrin, loaded):
    said = burthen("check", corrin, *loaded, "engine=boosted")
    assert "540 kg for engine boosted" in said.out


# ---- layers


def test_an_order_counts_from_its_first_day(burthen, corrin, group, loaded):
    """Under the order a mass is declared unless it is said to be weighed, and 4 kg are added to a declared one."""
    order = ("--with", group / "layers" / "solo_students.limits")
    declared = burthen("check", corrin, *loaded, *order, "flight=hire", "flight_date=2026-05-20")
    assert declared.status == 1 and "with order solo_students revision" in declared.out
    assert "front seat 89 kg (85 kg declared plus 4 kg), over 85 kg by 4 kg" in declared.out
    weighed = burthen("check", corrin, *loaded, *order, "flight=hire", "front_seat=85 kg weighed")
    assert weighed.status == 0 and "front seat 85 kg weighed, exactly on the most allowed" in weighed.out
    before = burthen("check", corrin, *loaded, *order, "flight_date=2026-02-01")
    assert "solo_students" not in before.out


def test_a_layer_in_the_place_of_the_sheet_is_told_apart(burthen, group):
    said = burthen("check", group / "layers" / "solo_students.limits")
    assert said.status == 3
    assert "is an order to corrin_t2. Name the sheet first and this file after --with." in said.err


def test_resolve_prints_a_sheet_that_reads_and_says_the_same(burthen, corrin, group, tmp_path, loaded):
    order = group / "layers" / "solo_students.limits"
    whole = burthen("resolve", corrin, "--with", order, "--on", "2026-05-20", *loaded[1:])
    assert whole.status == 0
    resolved = tmp_path / "resolved.limits"
    resolved.write_text(whole.out, encoding="utf-8")
    asked = (*loaded, "flight=solo_student", "flight_date=2026-05-20")
    told = [burthen("check", sheet, *asked) for sheet in (resolved,)]
    told.append(burthen("check", corrin, "--with", order, *asked))
    assert told[0].status == told[1].status
    heads = [re.findall(r"^  [x?!=-] (\w+): ", said.out, flags=re.MULTILINE) for said in told]
    assert sorted(heads[0]) == sorted(heads[1])


def test_resolve_on_another_day_is_another_sheet(burthen, corrin, group):
    order = group / "layers" / "solo_students.limits"
    assert "student_mass" in burthen("resolve", corrin, "--with", order, "--on", "2026-05-20").out
    assert "student_mass" not in burthen("resolve", corrin, "--with", order, "--on", "2026-02-20").out


# ---- outline and form


def test_an_outline_for_a_day(burthen, corrin, group):
    said = burthen("outline", corrin, "--with", group / "layers" / "solo_students.limits", "--on", "2026-05-20")
    assert said.status == 0
    assert "order solo_students revision" in said.out and "[front_seat_max]" in said.out


def test_a_form_is_json_without_what_the_record_states(burthen, corrin, loaded):
    said = burthen("form", corrin, *loaded[1:])
    assert said.status == 0
    form = json.loads(said.out)
    jsonschema.Draft202012Validator.check_schema(form)
    assert "empty_mass" not in form["properties"] and "front_seat" in form["required"]


# ---- read, tidy, why


CERTAIN = """sheet small revision 1 "Small"
document fm "Manual"
load seat "Seat" from 0 kg to 130 kg source fm "1"
limit most "Most" seat at most 90,5 kg source fm "2"
limit other "Other" seat at most 95 kgs and seat at leest 0 kg source fm "3"
"""


def test_a_sheet_that_could_be_published_is_0(burthen, corrin):
    said = burthen("read", corrin)
    assert said.status == 0 and not said.err


def test_a_sheet_that_could_not_be_published_is_1(burthen, tmp_path):
    sheet = tmp_path / "small.limits"
    sheet.write_text(CERTAIN, encoding="utf-8")
    assert burthen("read", sheet).status == 1
    brief = burthen("read", sheet, "--brief")
    assert brief.status == 1
    assert all(line.startswith(f"{sheet}:") for line in brief.out.splitlines())
    problems = json.loads(burthen("read", sheet, "--json").out)
    assert len(problems) == len(brief.out.splitlines())
    assert sheet.read_text(encoding="utf-8") == CERTAIN


def test_mending_writes_what_is_certain_and_nothing_else(burthen, tmp_path):
    sheet = tmp_path / "small.limits"
    sheet.write_text(CERTAIN, encoding="utf-8")
    before = json.loads(burthen("read", sheet, "--json").out)
    certain = [problem for problem in before if problem["mend"] is not None]
    assert certain and len(certain) < len(before)
    said = burthen("read", sheet, "--mend")
    count = "1 correction" if len(certain) == 1 else f"{len(certain)} corrections"
    assert f"{count} written" in said.err
    changed = sheet.read_text(encoding="utf-8")
    assert "90.5 kg" in changed and "at leest" in changed
    again = json.loads(burthen("read", sheet, "--json").out)
    assert all(problem["mend"] is None for problem in again)
    assert list(tmp_path.iterdir()) == [sheet]


def test_mending_leaves_a_sheet_alone_that_has_nothing_certain_to_mend(burthen, corrin):
    before = corrin.read_bytes()
    said = burthen("read", corrin, "--mend")
    assert said.status == 0 and corrin.read_bytes() == before and not said.err


UNTIDY = CERTAIN.replace("90,5 kg", "90.5   kg").replace("95 kgs and seat at leest 0 kg", "95 kg")


def test_tidy_only_checks_and_then_lays_out(burthen, tmp_path):
    sheet = tmp_path / "small.limits"
    sheet.write_text(UNTIDY, encoding="utf-8")
    said = burthen("tidy", "--check", sheet)
    assert said.status == 1 and f"burthen tidy {sheet}" in said.err
    assert sheet.read_text(encoding="utf-8") == UNTIDY
    assert burthen("tidy", sheet).status == 0
    assert sheet.read_text(encoding="utf-8") != UNTIDY
    assert burthen("tidy", "--check", sheet).status == 0


def test_tidy_from_standard_input(burthen):
    said = burthen("tidy", "-", stdin=UNTIDY.encode())
    assert said.status == 0 and "90.5 kg" in said.out


def test_why_prints_the_page_of_a_code(burthen):
    said = burthen("why", "403")
    assert said.status == 0 and "403" in said.out


@pytest.mark.parametrize("code", ["999", "4O3", "", "\x1b[31m", "../../etc"])
def test_a_code_that_is_none_is_3(burthen, code):
    said = burthen("why", code)
    assert said.status == 3 and not said.out
    assert "\x1b" not in said.err


# ---- demo


def test_the_demonstration_shows_every_booking_one_refusal_and_what_to_try(burthen):
    said = burthen("demo")
    assert said.status == 0
    assert len(re.findall(r"^Q-\d{3}  QF-\w{3}  [=x?]  \S", said.out, flags=re.MULTILINE)) == 40
    assert EXACT_SENTENCE in said.out and CAUTION in said.out
    assert "burthen demo --into quillmere" in said.out.split("Try next")[1]


def test_what_the_demonstration_says_to_try_works(burthen, tmp_path):
    folder = tmp_path / "group"
    said = burthen("demo", "--into", folder)
    told = said.out.split("Try next")[1].replace("\\\n", "")
    commands = re.findall(r"burthen (.+)$", told, re.MULTILINE)
    assert len(commands) >= 5
    statuses = [burthen(*command.split()).status for command in commands]
    assert statuses == [1, 0, *[status for status in statuses[2:] if status in (0, 1)]]


def test_every_booking_comes_out_of_its_files_as_in_the_demonstration(burthen, group):
    shown = dict(re.findall(r"^(Q-\d{3})  \S+  ([=x?])", burthen("demo").out, flags=re.MULTILINE))
    sheets = {"CO": "corrin_t2", "VE": "vessary_s2", "AL": "aldermoor_a4", "PE": "pellow_h2", "TA": "tamsel_g1"}
    airframes = dict(re.findall(r"^(Q-\d{3})  QF-(\w\w)", burthen("demo").out, flags=re.MULTILINE))
    for number in ("Q-105", "Q-112", "Q-116", "Q-122", "Q-140"):
        sheet = group / f"{sheets[airframes[number]]}.limits"
        record = group / "records" / f"{number}.json"
        status = burthen("check", sheet, group / "bookings" / f"{number}.json", "--airframe", record).status
        assert "=x?"[status] == shown[number]


def test_a_folder_that_cannot_be_made_is_3(burthen, tmp_path):
    (tmp_path / "file").write_text("")
    said = burthen("demo", "--into", tmp_path / "file" / "folder")
    assert said.status == 3 and "cannot be made" in said.err
