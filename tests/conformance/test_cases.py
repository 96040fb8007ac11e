"""Every interpretation of the language gives the answers of the conformance cases."""

from __future__ import annotations

from fractions import Fraction

import pytest

from grammar.reading import read_file
from tests.conformance.case_files import Case, all_cases, amount, differences
from tests.conformance.interpretations import INTERPRETATIONS
from tests.reference.evaluator import Evaluator

CASES = all_cases()


def put_to(interpretation: str, case: Case) -> object:
    """A case for an interpretation; where it is open for the program, it must fail until it is mended."""
    marks = []
    if case.open_point and interpretation != "reference":
        marks.append(pytest.mark.xfail(strict=True, raises=AssertionError, reason=case.open_point))
    return pytest.param(interpretation, case, id=f"{interpretation}: {case.name}", marks=marks)


@pytest.mark.parametrize(
    ("interpretation", "case"), [put_to(name, case) for name in INTERPRETATIONS for case in CASES]
)
def test_the_answer_is_the_one_worked_by_hand(interpretation: str, case: Case) -> None:
    answer = INTERPRETATIONS[interpretation](case)
    assert not list(differences(case, answer))


@pytest.mark.parametrize(
    "case", [case for case in CASES if "witness" in str(case.expect)], ids=lambda case: case.name
)
def test_the_limit_is_broken_at_the_fuel_state_named(case: Case) -> None:
    """A limit that is broken during the burn is broken at the moment that the case names, exactly there."""
    evaluator = Evaluator(read_file(case.sheet, case.sheet_name).file, case.loading)
    witnesses = {
        name: amount(each["witness"]) for name, each in case.expect["limits"].items() if "witness" in each
    }
    for name, burned in witnesses.items():
        outcome = evaluator.at_fuel_state(evaluator.sheet.limits[name], burned)
        assert outcome.verdict == "outside", name


@pytest.mark.parametrize("case", [case for case in CASES if case.published], ids=lambda case: case.name)
@pytest.mark.parametrize("interpretation", INTERPRETATIONS)
def test_the_value_is_the_one_printed(interpretation: str, case: Case) -> None:
    values = INTERPRETATIONS[interpretation](case).values
    for each in case.published:
        off: Fraction = abs(values[each["value"]] - amount(each["printed"]))
        assert off <= amount(each["give_or_take"]), each["source"]
