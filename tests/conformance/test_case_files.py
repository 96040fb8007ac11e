"""The case files are whole: they obey their schema, their working is true, their names are their own."""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from tests.conformance.arithmetic import is_true
from tests.conformance.case_files import CASES, SCHEMA, SHEETS, Case, all_cases
from tests.conformance.interpretations import checked_sheet

FILES = sorted(CASES.glob("*.json"))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_the_file_obeys_the_schema(path: Path) -> None:
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    Draft202012Validator(schema).validate(json.loads(path.read_text(encoding="utf-8")))


def test_the_schema_refuses_a_slip() -> None:
    """A misspelt member would silently expect nothing; the schema does not let it pass."""
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    written = json.loads(FILES[0].read_text(encoding="utf-8"))
    next(iter(written["cases"][0]["expect"]["limits"].values()))["margn"] = "1 kg"
    assert not Draft202012Validator(schema).is_valid(written)


@pytest.mark.parametrize("case", all_cases(), ids=lambda case: case.name)
def test_the_working_is_true(case: Case) -> None:
    assert not [line for line in case.working if not is_true(line)]


def test_false_working_is_found() -> None:
    assert is_true("two seats: 82 + 74 = 156")
    assert not is_true("two seats: 82 + 74 = 156.001")
    assert not is_true("2 / 3 > 0.6667")


def test_no_two_cases_have_one_name() -> None:
    assert not [name for name, count in Counter(case.name for case in all_cases()).items() if count > 1]


@pytest.mark.parametrize("case", all_cases(), ids=lambda case: case.name)
def test_the_case_speaks_of_limits_and_inputs_that_its_sheet_has(case: Case) -> None:
    sheet = checked_sheet(case)
    assert case.expect["limits"].keys() <= {limit.name for limit in sheet.limits}
    assert case.loading.keys() <= {each.name for each in sheet.inputs}


def test_every_shared_sheet_is_used() -> None:
    used = {case.written.get("sheet_file") for case in all_cases()}
    assert {path.name for path in SHEETS.glob("*.limits")} <= used
