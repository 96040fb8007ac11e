"""Which kinds of value may meet: both halves, the legal and the refused, are made from the one table."""

from itertools import product

import pytest

from grammar.checking.kinds import LEGAL, Meeting, Sort
from grammar.pipeline import read_sheet

NAMES = {
    Sort.AMOUNT: "weight",
    Sort.DIFFERENCE: "rise",
    Sort.TEMPERATURE: "warmth",
    Sort.DATE: "day",
    Sort.OPTION: "colour",
}

HEAD = """sheet kinds revision 1 "Kinds"
document fm "Manual"
given weight in kg from 1 kg to 9 kg
given rise in K from 1 K to 9 K
given warmth in degC from 1 degC to 9 degC
given day is a date
given colour is one of red, blue
"""

CLAIMS = {
    Meeting.ADD: "{0} + {1} is {0} + {1}",
    Meeting.SUBTRACT: "{0} - {1} is {0} - {1}",
    Meeting.MULTIPLY: "{0} * {1} is {0} * {1}",
    Meeting.DIVIDE: "{0} / {1} is {0} / {1}",
    Meeting.ORDER: "{0} at most {1}",
    Meeting.SAME: "{0} is {1}",
}

ABOUT_THE_MEETING = {"310", "402", "403", "406"}


def problems_of(meeting, left, right):
    claim = CLAIMS[meeting].format(NAMES[left], NAMES[right])
    outcome = read_sheet(f'{HEAD}limit l "L" {claim} source fm "1"\n', "kinds.limits")
    return [problem for problem in outcome.problems if problem.code in ABOUT_THE_MEETING]


@pytest.mark.parametrize(("meeting", "left", "right"), list(product(Meeting, Sort, Sort)))
def test_a_pair_of_kinds_is_in_the_table_or_gives_a_diagnostic(meeting, left, right):
    found = problems_of(meeting, left, right)
    differ_in_dimension = {left, right} == {Sort.AMOUNT, Sort.DIFFERENCE}
    if (meeting, left, right) in LEGAL and not (
        differ_in_dimension and meeting not in (Meeting.MULTIPLY, Meeting.DIVIDE)
    ):
        assert found == []
    else:
        assert found, f"{left.value} and {right.value} met without a word"
        assert len({problem.span for problem in found}) == len(found)
