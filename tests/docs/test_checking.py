"""The integrator's page names every field of an answer, every status and every bound as they are."""

from __future__ import annotations

import re

from pydantic import BaseModel

from engine.command_line.application import FAULT
from engine.command_line.check import STATUS
from engine.command_line.files import NOT_UNDERSTOOD
from engine.evaluation.requests import LONGEST_REQUEST, MOST_PROBLEMS, RequestProblem
from engine.explanation import document_models
from engine.explanation.document_models import FORMAT
from grammar.diagnostics.listing import ListedProblem
from grammar.figures import MOST_DIGITS
from grammar.sheet import Verdict
from tests.docs.pages import sections

PAGE = "docs/checking.md"


def named_in(section: str) -> set[str]:
    """What a section sets in the letters of a program."""
    return set(re.findall(r"`([^`\n]+)`", sections(PAGE)[section]))


def every_field() -> set[str]:
    shapes = [each for each in vars(document_models).values() if isinstance(each, type)]
    return {name for shape in shapes if issubclass(shape, BaseModel) for name in shape.model_fields}


def test_the_fields_of_an_answer_are_found() -> None:
    assert {"verdict", "made_from", "room", "is_exact", "nearest", "burned"} <= every_field()


def test_every_field_of_an_answer_is_told() -> None:
    told = named_in("The answer as JSON, field by field")
    assert every_field() - told == set()
    assert FORMAT in told


def test_every_status_is_told() -> None:
    rows = re.findall(
        r"^\| ([\w ]+) \| (\d+) \|", sections(PAGE)["What comes out, and what to do with it"], re.MULTILINE
    )
    told = {name: int(status) for name, status in rows}
    assert told == {
        "within": STATUS[Verdict.WITHIN],
        "outside": STATUS[Verdict.OUTSIDE],
        "undetermined": STATUS[Verdict.UNDETERMINED],
        "not understood": NOT_UNDERSTOOD,
        "a fault": FAULT,
    }


def test_the_bounds_of_a_request_are_those_of_the_program() -> None:
    told = " ".join(sections(PAGE)["The request"].split())
    assert f"at most {LONGEST_REQUEST} bytes" in told
    assert f"a figure at most {MOST_DIGITS} characters" in told
    assert f"up to {MOST_PROBLEMS} problems" in told


def test_every_part_of_a_problem_is_told() -> None:
    assert set(RequestProblem.__dataclass_fields__) - named_in("When a request is refused") == set()
    assert set(ListedProblem.__annotations__) - named_in("When a sheet is refused") == set()
