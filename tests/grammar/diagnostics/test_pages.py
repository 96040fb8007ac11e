"""The pages: each shows its slip and its remedy, and says both in an officer's words."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

import pytest
from syrupy.assertion import SnapshotAssertion

from engine.evaluation.proving import read_and_prove
from engine.resolution.reading import read_together
from engine.resolution.resolving import resolve
from grammar.checking.arithmetic import LONGEST_CHAIN
from grammar.checking.references import DEEPEST_CHAIN
from grammar.diagnostics.catalogue import CATALOGUE
from grammar.diagnostics.entry import Severity
from grammar.diagnostics.mending import mended
from grammar.diagnostics.pages import Page, find_page, page_codes, parse_page
from grammar.diagnostics.problem import Problem
from grammar.diagnostics.rendering import in_full, plain
from grammar.pipeline import Outcome, is_error
from grammar.reading import read_file, sizes
from grammar.reading.figure_slips import DIGITS
from grammar.reading.label_slips import NAME_LETTERS
from grammar.text import SourceText
from grammar.tidy import tidy
from tests.grammar.diagnostics.whole_sheets import WHOLE, asked_by, files_of

FILE = "corrin_t2.limits"
MADE_BY_THE_TEST = "made by the test"
"""The remark of a page whose example would be too large to print."""


def page(code: str) -> Page:
    found = find_page(code)
    assert found is not None
    return found


@dataclass(frozen=True)
class Found:
    """What reading the pieces of a page comes to."""

    sources: Mapping[str, SourceText]
    problems: tuple[Problem, ...]
    passes: bool


@cache
def slip(code: str) -> Found:
    """The example of a page, read as a whole sheet with what builds on it."""
    return read_pieces(page(code).example, page(code).remarks)


@cache
def set_right(code: str) -> Found:
    """The remedy of a page, read as a whole sheet with what builds on it."""
    return read_pieces(page(code).remedy, page(code).remarks)


def read_pieces(pieces: tuple[str, ...], remarks: tuple[str, ...]) -> Found:
    texts, asked = files_of(pieces, remarks, FILE), asked_by(remarks)
    if asked is not None:
        resolved = resolve(texts, "corrin_t2", asked)
        return Found(resolved.sources, resolved.problems, resolved.sheet is not None)
    if len(texts) > 1:
        together = read_together(texts)
        problems = tuple(problem for each in together.problems.values() for problem in each)
        return Found(together.sources, problems, not any(is_error(problem) for problem in problems))
    outcome = read_and_prove(texts[FILE], FILE)
    return Found({FILE: outcome.source}, outcome.problems, outcome.sheet is not None)


def codes(found: Found | Outcome) -> list[str]:
    return [problem.code for problem in found.problems]


PRINTED = [code for code in page_codes() if MADE_BY_THE_TEST not in page(code).remarks]

NOT_YET: dict[str, str] = {}
"""Pages whose example cannot be had as yet, and why. A page that comes right makes its test fail: take it out."""

AS_FAR_AS_THEY_GO = [
    pytest.param(code, marks=pytest.mark.xfail(strict=True, reason=NOT_YET[code])) if code in NOT_YET else code
    for code in PRINTED
]
SETTLED = [code for code in PRINTED if code not in NOT_YET]


# ---- pages and catalogue


def test_every_problem_has_a_page_and_every_page_a_problem() -> None:
    assert set(page_codes()) == set(CATALOGUE)


@pytest.mark.parametrize("code", page_codes())
def test_a_page_is_headed_as_the_catalogue_says(code: str) -> None:
    assert (page(code).code, page(code).title) == (code, CATALOGUE[code].title)
    assert "**Why it matters.**" in page(code).markdown
    assert "## Example" in page(code).markdown
    assert "## Remedy" in page(code).markdown


def test_there_is_no_page_for_another_code() -> None:
    assert find_page("000") is None
    assert find_page("../catalogue") is None


def test_a_text_without_a_heading_is_no_page() -> None:
    with pytest.raises(ValueError, match="begins with its code"):
        parse_page("Nothing here.")


def test_what_a_page_remarks_is_not_shown() -> None:
    shown = parse_page("# 703 No heading\n\n<!-- without sheet -->\n\nText.\n")
    assert shown.remarks == ("without sheet",)
    assert "without" not in shown.markdown


# ---- examples and remedies


def test_the_whole_sheet_has_nothing_wrong_and_is_tidy() -> None:
    assert read_and_prove(WHOLE, FILE).problems == ()
    assert tidy(read_file(WHOLE, FILE)) == WHOLE


@pytest.mark.parametrize("code", AS_FAR_AS_THEY_GO)
def test_an_example_has_the_problem_of_its_page_and_no_other(code: str) -> None:
    assert codes(slip(code)) == [code]


@pytest.mark.parametrize("code", PRINTED)
def test_a_remedy_has_no_problem(code: str) -> None:
    assert codes(set_right(code)) == []


@pytest.mark.parametrize("code", PRINTED)
def test_a_remedy_is_tidy(code: str) -> None:
    for piece in page(code).remedy:
        assert tidy(read_file(piece, FILE)) == piece


@pytest.mark.parametrize("code", SETTLED)
def test_an_error_holds_the_sheet_back_and_a_warning_does_not(code: str) -> None:
    assert slip(code).passes is (CATALOGUE[code].severity is Severity.WARNING)


def test_certain_mends_do_away_with_the_problem() -> None:
    with_mend = [code for code in SETTLED if any(problem.mend for problem in slip(code).problems)]
    left = {
        code: codes(read_and_prove(mended(slip(code).sources[FILE], slip(code).problems), FILE))
        for code in with_mend
    }
    assert left == {code: [] for code in with_mend}
    assert "105" in with_mend


@pytest.mark.parametrize("code", SETTLED)
def test_how_the_problem_of_a_page_is_shown(code: str, snapshot: SnapshotAssertion) -> None:
    found = slip(code)
    assert "\n".join(plain(in_full(problem, found.sources)) for problem in found.problems) == snapshot


# ---- examples too large to print

SEATS = 'limit seats "Both seats together"\n  front_seat{} at most 200 kg\n  source fm "2.4"\n'


def _rows(count: int) -> str:
    heading = 'table wide of front_seat in kg and rear_seat in kg gives kg\n  source fm "5.2"\n'
    row = "  " + "| 1 " * 100 + "|\n"
    return heading + row * count


def _names(count: int) -> str:
    rest = (f"let name_{number} = name_{number - 1}\n" for number in range(1, count))
    return "let name_0 = front_seat\n" + "".join(rest)


def _deep_names(count: int, depth: int) -> str:
    names = ["front_seat", *(f"name_{number}" for number in range(count))]
    deep = "(rear_seat\n + " * depth, ")" * depth
    return "".join(f"let {new} = {deep[0]}{old}{deep[1]}\n" for old, new in pairwise(names))


LARGE: dict[str, Callable[[], str]] = {
    "901": lambda: WHOLE + "-- \n" * (sizes.LETTERS // 4 + 1),
    "902": lambda: WHOLE + "".join(f'document d{number} "x"\n' for number in range(sizes.STATEMENTS + 1)),
    "903": lambda: WHOLE + SEATS.format(" + front_seat" * (sizes.LINE // 10)),
    "904": lambda: WHOLE + SEATS.format(("\n  + front_seat" + " " * 60) * (sizes.STATEMENT // 60)),
    "905": lambda: WHOLE + SEATS.format(" + " + "(" * sizes.DEPTH + "1 kg" + ")" * sizes.DEPTH),
    "906": lambda: WHOLE + SEATS.format(f" + {'9' * (DIGITS + 1)} kg"),
    "907": lambda: WHOLE + f'limit {"s" * (NAME_LETTERS + 1)} front_seat at most 200 kg source fm "1"\n',
    "908": lambda: WHOLE + _rows(sizes.CELLS // 100 + 2),
    "910": lambda: WHOLE + SEATS.format(" * 1" * (LONGEST_CHAIN + 1)),
    "911": lambda: WHOLE + _names(DEEPEST_CHAIN + 1) + SEATS.format(f" + name_{DEEPEST_CHAIN}"),
    "912": lambda: WHOLE + _deep_names(3, 200) + SEATS.format(" + name_2"),
    "909": lambda: WHOLE + "wrong\n" * (sizes.PROBLEMS + 1),
    "920": lambda: WHOLE + "let a = 1\n" * (sizes.WORDS // 4),
}
"""The example of each page that is made here, by code."""


def test_the_pages_made_by_the_test_are_these() -> None:
    assert set(LARGE) == set(page_codes()) - set(PRINTED)


@pytest.mark.parametrize("code", sorted(LARGE))
def test_what_is_too_large_is_refused(code: str) -> None:
    outcome = read_and_prove(LARGE[code](), FILE)
    assert code in codes(outcome)
    assert outcome.sheet is None


BOUNDS = {
    "901": sizes.LETTERS,
    "902": sizes.STATEMENTS,
    "903": sizes.LINE,
    "904": sizes.STATEMENT,
    "905": sizes.DEPTH,
    "906": DIGITS,
    "907": NAME_LETTERS,
    "908": sizes.CELLS,
    "909": sizes.PROBLEMS,
    "920": sizes.WORDS,
}


@pytest.mark.parametrize("code", sorted(BOUNDS))
def test_a_page_names_its_bound(code: str) -> None:
    assert f"more than {BOUNDS[code]:,} " in page(code).markdown.replace("More", "more")


# ---- the words

FORBIDDEN = [
    *("token", "parse", "parser", "parsing", "syntax", "expression", "type", "null", "boolean", "float"),
    *("exception", "identifier", "illegal", "invalid", "unexpected"),
]
"""Words of programming that an officer need not know (the words of our style)."""

_FORBIDDEN = re.compile(rf"\b(?:{'|'.join(FORBIDDEN)})(?:s|ed)?\b", re.IGNORECASE)
_NONE = re.compile(r"\bNone\b")


def programming_words(text: str) -> list[str]:
    return _FORBIDDEN.findall(text) + _NONE.findall(text)


@pytest.mark.parametrize("code", page_codes())
def test_no_word_of_programming_stands_in_a_page(code: str) -> None:
    text = re.sub(r"```.*?```", "", page(code).markdown, flags=re.DOTALL)
    assert programming_words(text) == []


def test_the_search_for_words_of_programming_finds_them() -> None:
    assert programming_words("An Unexpected token; None of the types") == ["Unexpected", "token", "types", "None"]
