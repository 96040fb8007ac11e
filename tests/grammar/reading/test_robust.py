"""No text whatever makes reading fail, hang or lose its place; large ones are refused in words."""

from pathlib import Path
from time import process_time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from grammar.diagnostics.catalogue import CATALOGUE
from grammar.reading import Reading, read_file, sizes
from grammar.reading.figure_slips import DIGITS
from grammar.reading.label_slips import NAME_LETTERS
from grammar.tree import Group, Limit
from tests.strategies import mangled, sheet_like_text

CORRIN = (Path(__file__).parent / "sheets" / "corrin_t2.limits").read_text(encoding="utf-8")
BURSTS = (
    "(" * 300,
    "- " * 600,
    "not " * 600,
    '"' * 99,
    "|" * 99,
    "“" * 99,
    "3,4 " * 99,
    "at most " * 99,
    "\ud800",
    "\x00",
)


def is_sound(reading: Reading) -> bool:
    """Whether every problem has its words and every place lies in the text."""
    length = len(reading.source.text)
    spans = [problem.span for problem in reading.problems]
    spans += [statement.span for statement in reading.file.statements]
    spans += [problem.mend.span for problem in reading.problems if problem.mend is not None]
    in_words = all(
        CATALOGUE[problem.code].says.format_map(problem.facts)
        and CATALOGUE[problem.code].remedy.format_map(problem.facts)
        for problem in reading.problems
    )
    return in_words and all(0 <= span.start <= span.end <= length for span in spans)


@settings(deadline=None)
@given(st.text())
def test_any_text_is_read_or_reported(text: str) -> None:
    reading = read_file(text, "any")
    assert is_sound(reading)
    assert reading.file.statements or reading.problems


@settings(deadline=None)
@given(sheet_like_text())
def test_any_mixture_of_the_languages_words_is_read_or_reported(text: str) -> None:
    reading = read_file(text, "any")
    assert is_sound(reading)
    assert not reading.file.unread or reading.problems


@settings(max_examples=60, deadline=None)
@given(mangled(CORRIN))
def test_a_mangled_sheet_is_read_or_reported(text: str) -> None:
    reading = read_file(text, "mangled")
    assert is_sound(reading)
    assert not reading.file.unread or reading.problems


@pytest.mark.parametrize("burst", BURSTS, ids=range(len(BURSTS)))
@pytest.mark.parametrize("head", ["", "limit a\n  ", "envelope e of cg in mm against mass in kg\n  | ", "load a "])
def test_a_burst_of_one_sign_is_reported(burst: str, head: str) -> None:
    reading = read_file(head + burst, "burst")
    assert is_sound(reading)
    assert reading.problems or (burst.startswith("|") and head.startswith("envelope"))


@pytest.mark.parametrize("depth", [1, 50, 200])
def test_brackets_in_brackets_are_read(depth: int) -> None:
    reading = read_file("limit a\n  " + "(1 kg + " * depth + "mass" + ")" * depth + " at most 5 kg", "deep")
    assert reading.problems == ()
    (limit,) = reading.file.statements
    assert isinstance(limit, Limit)
    value, depth_found = limit.claim.left, 0
    while isinstance(value, Group):
        value, depth_found = value.of.right, depth_found + 1
    assert depth_found == depth


@pytest.mark.parametrize(
    ("code", "text"),
    [
        ("901", "-" * (sizes.LETTERS + 1)),
        ("902", 'datum "d"\n' * (sizes.STATEMENTS + 1)),
        ("903", 'datum "' + "d" * sizes.LINE + '"'),
        ("904", "limit a\n  " + ("mass +\n" + " " * 80) * (sizes.STATEMENT // 80) + "mass at most 5 kg"),
        ("905", "limit a\n  " + "(" * 20_000 + "\n " + "mass" + ")" * 20_000 + " at most 5 kg"),
        ("905", "limit a\n  mass" + "\n  + mass" * sizes.DEPTH + " at most 5 kg"),
        ("905", "limit a\n  " + "not\n  " * (sizes.DEPTH + 1) + "engine is standard"),
        ("906", "let a = " + "1" * (DIGITS + 1)),
        ("906", "let a = 0." + "1" * DIGITS),
        ("907", "let " + "a" * (NAME_LETTERS + 1) + " = 1"),
        ("908", "envelope e of cg in mm against mass in kg" + "\n  | 1 | 2 |" * (sizes.CELLS // 2 + 1)),
        ("909", "datum §\n" * (sizes.PROBLEMS + 1)),
        ("920", "let a = 1\n" * (sizes.WORDS // 4) + "let a = 1\n"),
    ],
)  # fmt: skip
def test_what_is_too_large_is_refused_in_words(code: str, text: str) -> None:
    if code == "905" and "(" in text:
        text = text.replace("(" * 100, "(" * 100 + "\n ").replace(")" * 100, ")" * 100 + "\n ")
    reading = read_file(text, "large")
    codes = [problem.code for problem in reading.problems]
    assert codes[-1] == code
    assert codes.count(code) == 1
    assert code == "909" or len(codes) == 1
    assert is_sound(reading)


ROWS_200 = "\n".join(
    ["  | | " + " | ".join(str(wind) for wind in range(200)) + " |"]
    + [f"  | {height} | " + " | ".join(f"{400 + height}.5" for _ in range(200)) + " |" for height in range(200)]
)
LARGE_SHEETS = {
    "a table of 200 rows and columns": f"table t of height in ft and wind in kt gives kg\n{ROWS_200}",
    "an envelope of 500 corners": "envelope e of cg in mm against mass in kg"
    + "".join(f"\n  | {900 + corner} | {corner} |" for corner in range(500)),
    "4,000 limits": "\n".join(
        f'limit limit_{number} "The limit number {number} of them"\n  at takeoff\n  mass at most {number} kg\n'
        f'  source fm "2.{number}"'
        for number in range(4_000)
    ),
    "values nested 200 deep": "limit a\n  mass at most " + "max(1 kg,\n    " * 200 + "2 kg" + ")" * 200,
}


@pytest.mark.parametrize("sheet", LARGE_SHEETS)
def test_large_sheets_are_read(sheet: str) -> None:
    reading = read_file(LARGE_SHEETS[sheet], "large")
    assert reading.problems == ()
    assert reading.file.unread == ()


HOSTILE_SIGNS = ('"', "(", "|| ||", "“", "3,4 ", "1/2/", "at ", "\x00", "'", "[")
SECONDS = 5
"""Far more than the second or so that each takes; it is there for what would take minutes."""


@pytest.mark.parametrize("sign", HOSTILE_SIGNS)
@pytest.mark.parametrize("indent", ["", "  ", "  | "])
def test_a_hostile_file_is_answered_soon(sign: str, indent: str) -> None:
    line = indent + (sign * 1_000)[:1_000]
    text = "table t of a in ft gives kg\n" + "\n".join([line] * (sizes.LETTERS // 1_010))
    start = process_time()
    reading = read_file(text, "hostile")
    assert process_time() - start < SECONDS
    assert reading.problems


def test_mistakes_at_the_ends_of_long_statements_are_answered_soon() -> None:
    statement = "limit a\n" + "  b + b + b + b +\n" * 500 + "  b at mots 5 kg\n"
    start = process_time()
    reading = read_file(statement * (sizes.WORDS // 4_010), "long")
    assert process_time() - start < SECONDS
    assert {problem.code for problem in reading.problems} <= {"223", "909"}


def test_what_is_just_small_enough_is_read() -> None:
    assert read_file("let a = " + "1" * DIGITS, "large").problems == ()
    assert read_file("let " + "a" * NAME_LETTERS + " = 1", "large").problems == ()
    assert read_file('datum "' + "d" * (sizes.LINE - 8) + '"', "large").problems == ()
    rows = ("\n  " + "| 1 " * 250 + "|") * (sizes.CELLS // 250)
    assert read_file("table t of height in ft and wind in kt gives kg" + rows, "large").problems == ()


def test_a_byte_order_mark_and_foreign_line_ends_change_nothing() -> None:
    plain = read_file(CORRIN, "s")
    marked = read_file("\ufeff" + CORRIN.replace("\n", "\r\n"), "s")
    assert marked.problems == ()
    assert [type(one) for one in marked.file.statements] == [type(one) for one in plain.file.statements]
    assert [one.span.line for one in marked.file.statements] == [one.span.line for one in plain.file.statements]
    assert [one.text for one in marked.file.comments] == [one.text for one in plain.file.comments]
