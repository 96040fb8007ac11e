"""The syntax tree of a sheet: every kind of statement, the places of its parts, the independence of statements."""

from dataclasses import fields, is_dataclass
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from grammar import tree
from grammar.reading import read_file
from grammar.reading.statements import lay_out

CORRIN = (Path(__file__).parent / "sheets" / "corrin_t2.limits").read_text(encoding="utf-8")


def only(text: str) -> tree.Statement:
    reading = read_file(text, "s")
    assert reading.problems == ()
    (statement,) = reading.file.statements
    return statement


def words(node: object) -> object:
    """A part of the tree without its places: names and figures as plain text."""
    match node:
        case tree.Word(text=text) | tree.Day(text=text):
            return text
        case tree.Figure(amount=amount, unit=unit):
            return (amount, unit.text if unit else None)
        case tuple():
            return tuple(words(one) for one in node)
        case _ if is_dataclass(node):
            return (type(node).__name__, *(words(getattr(node, f.name)) for f in fields(node) if f.name != "span"))
        case _:
            return node


def test_the_whole_sheet_reads() -> None:
    reading = read_file(CORRIN, "corrin_t2.limits")
    assert reading.problems == ()
    assert len(reading.file.statements) == sum(
        not line.startswith((" ", "-", "\n")) for line in CORRIN.splitlines(True)
    )
    assert [comment.text for comment in reading.file.comments] == [
        "-- An invented tandem two-seat gyroplane. Every figure here is made up."
    ]


def test_a_header() -> None:
    text = 'sheet t2 revision 3 "T2"\n  effective 2026-04-01\n  until 2026-06-30\n  replaces revision 2'
    assert words(only(text)) == (
        "SheetHeader", "t2", (3, None), "T2",
        (("Effective", "2026-04-01"), ("Until", "2026-06-30"), ("Replaces", (2, None))),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("text", "information"),
    [
        ("is one of hard, grass", ("OneOf", ("hard", "grass"))),
        ("is yes or no", ("YesOrNo",)),
        ("is a date", ("ADate",)),
        ("in ft", ("Measured", "ft", None)),
        ("in degC from -20 degC to 45 degC", ("Measured", "degC", ("Range", (-20, "degC"), (45, "degC")))),
        ("from 0 to 5", ("Measured", None, ("Range", (0, None), (5, None)))),
        ("in in from 0 in to 5 in", ("Measured", "in", ("Range", (0, "in"), (5, "in")))),
    ],
)
def test_what_a_given_or_a_fact_can_be(text: str, information: object) -> None:
    assert words(only(f'given x "X" {text} note "n"')) == ("Given", "x", "X", information, (("Note", "n"),))
    assert words(only(f'fact x {text} source fm "1"')) == (
        "Fact",
        "x",
        None,
        information,
        (("Source", "fm", "1"),),
    )


def test_a_load_with_all_its_clauses() -> None:
    text = (
        'load a "A" from 0 kg to 5.5 kg arm 610 mm lateral arm -3 mm in steps of 2.5 kg floor area 0.5 m2 '
        'assumed empty source fm "1"'
    )
    assert words(only(text)) == (
        "Load", "a", "A", ("Range", (0, "kg"), (Fraction(11, 2), "kg")),
        (
            ("Arm", ("Quantity", (610, "mm"))), ("LateralArm", ("Negative", ("Quantity", (3, "mm")))),
            ("Steps", (Fraction(5, 2), "kg")), ("FloorArea", (Fraction(1, 2), "m2")), ("AssumedEmpty",),
            ("Source", "fm", "1"),
        ),
    )  # fmt: skip


def test_a_tank_a_burn_order_and_a_chord() -> None:
    tank = only("fuel main from 0 L to 80 L density 0.72 kg/L arm 1390 mm")
    assert words(tank)[4] == (
        ("Density", ("Quantity", (Fraction(18, 25), "kg/L"))), ("Arm", ("Quantity", (1390, "mm"))),
    )  # fmt: skip
    assert words(only('burn main down to 20 L, then left with right, then main source fm "7"')) == (
        "Burn",
        (("BurnStep", ("main",), (20, "L")), ("BurnStep", ("left", "right"), None), ("BurnStep", ("main",), None)),
        (("Source", "fm", "7"),),
    )  # fmt: skip
    assert words(only("chord from 2200 mm length 1400 mm")) == ("Chord", (2200, "mm"), (1400, "mm"), ())


def test_a_table_with_two_axes_and_an_envelope_with_a_heading() -> None:
    table = only("table t of a in ft and b in degC gives kg\n  |   | 10 | -20 | -- top\n  | 1 | 2 | 3 |\n")
    assert words(table) == (
        "Table", "t", None, (("Axis", "a", "ft"), ("Axis", "b", "degC")), "kg", (),
        (("Row", (None, (10, None), (-20, None))), ("Row", ((1, None), (2, None), (3, None)))),
    )  # fmt: skip
    envelope = only('envelope e "E" of cg in %MAC against mass in kg\n  | cg | mass |\n  | 9.5 | 290 |')
    assert words(envelope) == (
        "Envelope", "e", "E", ("Axis", "cg", "%MAC"), ("Axis", "mass", "kg"), (),
        (("Row", ("cg", "mass")), ("Row", ((Fraction(19, 2), None), (290, None)))),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("claim", "meant"),
    [
        ("a at most b", ("Comparison", tree.Relation.AT_MOST, ("Reference", "a"), ("Reference", "b"))),
        ("a at  least 5 in", ("Comparison", tree.Relation.AT_LEAST, ("Reference", "a"), ("Quantity", (5, "in")))),
        ("a between 1 and 2", ("Between", ("Reference", "a"), ("Quantity", (1, None)), ("Quantity", (2, None)))),
        ("(cg, mass) inside e", ("Inside", ("Reference", "cg"), ("Reference", "mass"), ("Reference", "e"))),
        ("a is occupied", ("Is", ("Reference", "a"), "occupied", False)),
        ("a is not empty", ("Is", ("Reference", "a"), "empty", True)),
        ("a is not b", ("Is", ("Reference", "a"), ("Reference", "b"), True)),
        ("not a is yes", ("Not", ("Is", ("Reference", "a"), "yes", False))),
        ("fuel at landing at least 5 L",
         ("Comparison", tree.Relation.AT_LEAST, ("AtStage", ("Reference", "fuel"), "landing"),
          ("Quantity", (5, "L")))),
        ("a is 2026-05-03", ("Is", ("Reference", "a"), ("DateLiteral", "2026-05-03"), False)),
        ("max(a, 1) is b",
         ("Is", ("Call", "max", (("Reference", "a"), ("Quantity", (1, None)))), ("Reference", "b"), False)),
        ("a is round_up -b to 10 kg",
         ("Is", ("Reference", "a"), ("Round", ("Negative", ("Reference", "b")), (10, "kg"), True), False)),
        ("a is round_down b to 5",
         ("Is", ("Reference", "a"), ("Round", ("Reference", "b"), (5, None), False), False)),
    ],
)  # fmt: skip
def test_claims(claim: str, meant: object) -> None:
    assert words(only(f"limit x\n  {claim}")) == ("Limit", "x", None, None, meant, (), False)


def test_multiplication_binds_closer_than_addition_and_and_closer_than_or() -> None:
    one, two, three = (("Reference", name) for name in "pqr")
    assert words(only("let x = p - q * r")) == (
        "Let", "x",
        ("Arithmetic", tree.Operation.SUBTRACT, one, ("Arithmetic", tree.Operation.MULTIPLY, two, three)), (),
    )  # fmt: skip
    assert words(only("let x = p - q - r"))[2] == (
        "Arithmetic", tree.Operation.SUBTRACT, ("Arithmetic", tree.Operation.SUBTRACT, one, two), three,
    )  # fmt: skip
    assert words(only("let x = p or q and r"))[2] == ("AnyOf", (one, ("AllOf", (two, three))))


def test_a_guarded_choice_and_a_caution() -> None:
    text = 'caution x "X"\n  at takeoff\n  a at most (5 when b is c, 6 when d < 3, 7 otherwise)\n  when e is f'
    guard = ("Is", ("Reference", "b"), ("Reference", "c"), False)
    below = ("Comparison", tree.Relation.BELOW, ("Reference", "d"), ("Quantity", (3, None)))
    branches = (("Branch", ("Quantity", (5, None)), guard), ("Branch", ("Quantity", (6, None)), below))
    assert words(only(text)) == (
        "Limit", "x", "X", ("At", "takeoff"),
        ("Comparison", tree.Relation.AT_MOST, ("Reference", "a"), ("Choice", branches, ("Quantity", (7, None)))),
        (("When", ("Is", ("Reference", "e"), ("Reference", "f"), False)),), True,
    )  # fmt: skip


def test_a_worked_example() -> None:
    text = (
        "example e\n  given m 288 kg, d 2026-01-02, g boosted, h yes\n  load a 82 kg declared\n  load b 60 L\n"
        "  expect mass at takeoff 487.2 kg give or take 0.1 kg, a not applicable\n  expect b outside by 7 kg"
    )
    assert words(only(text)) == (
        "Example", "e", None,
        (("Setting", "m", (288, "kg"), None), ("Setting", "d", "2026-01-02", None),
         ("Setting", "g", "boosted", None), ("Setting", "h", "yes", None)),
        (("Setting", "a", (82, "kg"), "declared"), ("Setting", "b", (60, "L"), None)),
        (
            ("ExpectValue", ("AtStage", ("Reference", "mass"), "takeoff"), (Fraction("487.2"), "kg"),
             (Fraction("0.1"), "kg")),
            ("ExpectVerdict", "a", "not applicable", None),
            ("ExpectVerdict", "b", "outside", (7, "kg")),
        ),
        (),
    )  # fmt: skip


@pytest.mark.parametrize("gap", ["\n  ", "  -- as the manual has it\n  ", "\n-- a = b\n  "])
@pytest.mark.parametrize("keyword", ["let", "amend let"])
def test_the_sign_behind_the_name_of_a_let_may_stand_on_the_next_line(keyword: str, gap: str) -> None:
    assert words(only(f"{keyword} x{gap}= 5 kg")) == words(only(f"{keyword} x = 5 kg"))
    assert words(only(f"{keyword}{gap}x = 5 kg")) == words(only(f"{keyword} x = 5 kg"))


# ---- supplements, orders, permits; configurations and declared masses


@pytest.mark.parametrize(
    ("keyword", "clauses", "meant"),
    [
        ("supplement", "applies when pod is yes after radio, skis",
         (("Applies", ("Is", ("Reference", "pod"), "yes", False)), ("After", ("radio", "skis")))),
        ("order", 'issued by "Head of training" until 2026-06-30',
         (("IssuedBy", "Head of training"), ("Until", "2026-06-30"))),
        ("permit", 'airframe "QF-COB" replaces revision 1',
         (("ForAirframe", "QF-COB"), ("Replaces", (1, None)))),
    ],
)  # fmt: skip
def test_headers_of_what_builds_on_a_sheet(keyword: str, clauses: str, meant: object) -> None:
    header = only(f'{keyword} pod revision 2 to corrin_t2 "Pod"\n  effective 2026-05-10 {clauses}')
    kind = tree.LayerKind(keyword)
    assert words(header) == (
        "LayerHeader", kind, "pod", (2, None), "corrin_t2", "Pod", (("Effective", "2026-05-10"), *meant),
    )  # fmt: skip


def test_what_a_supplement_and_a_permit_change() -> None:
    claim = "at takeoff mass at most 505 kg"
    amend, loosen = only(f"amend limit m {claim}"), only(f"loosen limit m {claim}")
    assert isinstance(amend, tree.Amend) and isinstance(loosen, tree.Loosen)
    assert words(amend.statement) == words(loosen.statement) == words(only(f"limit m {claim}"))
    assert words(only('withdraw load rear_seat source cp "2.2" note "floor"')) == (
        "Withdraw", "load", "rear_seat", (("Source", "cp", "2.2"), ("Note", "floor")),
    )  # fmt: skip


AMENDED = (
    "chord from 1 mm length 2 mm",
    "fact x is yes or no",
    "given x in ft",
    "configuration x is one of a, b",
    "load x from 0 kg to 5 kg",
    "fuel x from 0 L to 5 L",
    "burn x then y".replace(" then", ", then"),
    "declared x add 4 kg",
    "let x = 5",
    "table x of a in ft gives kg\n  | 1 | 2 |",
    "envelope x of cg in mm against mass in kg\n  | 1 | 2 |",
    "limit x mass at most 5 kg",
    "caution x mass at most 5 kg",
)


@pytest.mark.parametrize("text", AMENDED)
def test_whatever_can_be_amended_reads_as_it_does_by_itself(text: str) -> None:
    amend = only(f"amend {text}")
    assert isinstance(amend, tree.Amend)
    assert words(amend.statement) == words(only(text))


def test_a_configuration_with_what_its_ways_of_fitting_do() -> None:
    text = (
        "configuration gear is one of wheels, skis, floats\n"
        '  floats weighed apart\n  skis adds 12 kg arm 2300 mm lateral arm -5 mm\n  source fm "6.5"'
    )
    arms = (("Arm", ("Quantity", (2300, "mm"))), ("LateralArm", ("Negative", ("Quantity", (5, "mm")))))
    assert words(only(text)) == (
        "Configuration", "gear", None, ("wheels", "skis", "floats"),
        (("WeighedApart", "floats"), ("Adds", "skis", (12, "kg"), *arms)), (("Source", "fm", "6.5"),),
    )  # fmt: skip


def test_a_table_along_choices_read_by_the_next_row() -> None:
    table = only("table t of surface and wind in kt gives kg\n  use the next higher\n  | | 1 |\n  | grass | 2 |")
    assert words(table) == (
        "Table", "t", None, (("Axis", "surface", None), ("Axis", "wind", "kt")), "kg", (("Taken", "higher"),),
        (("Row", (None, (1, None))), ("Row", ("grass", (2, None)))),
    )  # fmt: skip


def test_declared_masses() -> None:
    declared = only('declared front_seat, rear_seat add 4 kg source lo "3"')
    assert isinstance(declared, tree.Declared)
    assert words((declared.places, declared.add, declared.clauses)) == (
        ("front_seat", "rear_seat"), (4, "kg"), (("Source", "lo", "3"),),
    )  # fmt: skip
    assert words(only("limit a\n  front_seat is not declared"))[4] == (
        "Is", ("Reference", "front_seat"), "declared", True,
    )  # fmt: skip
    assert words(only("let a = rear_seat is weighed"))[2] == ("Is", ("Reference", "rear_seat"), "weighed", False)


def test_a_claim_for_some_airframes_only() -> None:
    limit = only("limit a\n  mass at most 5 kg\n  applies when serial between 1001 and 1045")
    assert isinstance(limit, tree.Limit)
    assert [type(clause) for clause in limit.clauses] == [tree.Applies]


@pytest.mark.parametrize("name", ["camera_pod", "solo_students"])
def test_a_supplement_and_an_order_read_without_a_problem(name: str) -> None:
    reading = read_file((Path(__file__).parent / "sheets" / f"{name}.limits").read_text(encoding="utf-8"), name)
    assert reading.problems == ()
    assert isinstance(reading.file.statements[0], tree.LayerHeader)


@pytest.mark.parametrize(
    "keyword", ["order", "permit", "supplement", "configuration", "amend", "withdraw", "after"]
)
def test_words_that_nothing_can_be_mistaken_for_may_be_names(keyword: str) -> None:
    assert words(only(f"load {keyword} from 0 kg to 5 kg"))[1] == keyword


@pytest.mark.parametrize(
    ("text", "known"),
    [
        ("amend limit max_mass\n  mass at most at most", ("amend", "max_mass")),
        ("withdraw load rear_seat from 5 kg", ("withdraw", "rear_seat")),
        ("amned limit max_mass\n  mass at most 5 kg", ("amend", "max_mass")),
    ],
)
def test_a_change_that_could_not_be_read_is_known_by_what_it_changes(text: str, known: tuple[str, str]) -> None:
    (unread,) = read_file(text, "s").file.unread
    assert (unread.keyword, unread.name) == known


def parts(node: object) -> list[tuple[tree.Word | tree.Figure | tree.Day, int, int]]:
    """Every word, figure and day below a node with the bounds of the node that holds it."""
    if isinstance(node, tuple):
        return [part for one in node for part in parts(one)]
    if not is_dataclass(node) or type(node).__name__ == "Span":
        return []
    own = [(node, node.span.start, node.span.end)] if isinstance(node, tree.Word | tree.Figure | tree.Day) else []
    return own + [part for field in fields(node) for part in parts(getattr(node, field.name))]


def test_every_word_and_figure_stands_where_its_place_says() -> None:
    found = parts(read_file(CORRIN, "s").file.statements)
    assert len(found) > 200
    for part, start, end in found:
        typed = CORRIN[start:end]
        if isinstance(part, tree.Figure):
            number = typed.removesuffix(part.unit.text if part.unit else "").replace(" ", "")
            assert Fraction(number) == part.amount
        else:
            assert typed in {part.text, f'"{part.text}"'}
        line = CORRIN.splitlines()[part.span.line - 1]
        assert line[part.span.column - 1 :].startswith(typed.split("\n")[0])


PASSAGES = [CORRIN[one.start : one.end] for one in lay_out(CORRIN).passages]


@settings(max_examples=40, deadline=None)
@given(st.integers(0, len(PASSAGES) - 1), st.data())
def test_a_mistake_in_one_statement_leaves_the_others_as_they_were(which: int, data: st.DataObject) -> None:
    at = data.draw(st.integers(1, len(PASSAGES[which]) - 1))
    junk = data.draw(st.sampled_from([")", " at ", '"', "§", " 5 ", "|", " is ", ",", "\n  source"]))
    broken = PASSAGES[which][:at] + junk + PASSAGES[which][at:]
    texts = [*PASSAGES[:which], broken, *PASSAGES[which + 1 :]]
    whole = read_file("\n".join(texts), "s")
    alone = read_file(broken, "s")
    expected = [words(read_file(text, "s").file.statements) for text in texts]
    assert words(whole.file.statements) == tuple(one for some in expected for one in some)
    assert [problem.code for problem in whole.problems] == [problem.code for problem in alone.problems]


def test_all_mistaken_statements_are_reported_at_once() -> None:
    text = 'limt a\n  mass at most 5 kg\n\ndatum "ok"\nload b from 0 kg\n\nfact c is one of d e\nlet f = 3 §\n'
    reading = read_file(text, "s")
    assert [(problem.code, problem.span.line) for problem in reading.problems] == [
        ("202", 1), ("204", 5), ("228", 7), ("129", 8),
    ]  # fmt: skip
    assert [(one.keyword, one.name) for one in reading.file.unread] == [
        ("limit", "a"), ("load", "b"), ("fact", "c"), ("let", "f"),
    ]  # fmt: skip
    assert len(reading.file.statements) == 1


def test_several_certain_slips_of_one_statement_are_reported_at_once() -> None:
    text = "load front-seat “Front seat” From 0 kg - 1\u202f300 kg\n  arm 61,5 mm"
    codes = [problem.code for problem in read_file(text, "s").problems]
    assert codes == ["121", "101", "120", "226", "107", "105"]


def test_behind_a_slip_that_is_not_certain_nothing_more_is_looked_for() -> None:
    text = "load front-seat “Front seat” from 0 kg to 1 300 kg"
    assert [problem.code for problem in read_file(text, "s").problems] == ["101", "107"]


def test_a_statement_swallowed_by_another_is_known_by_name() -> None:
    reading = read_file("let a = 3\n  load rear_seat from 0 kg to 5 kg", "s")
    assert [(one.keyword, one.name) for one in reading.file.unread] == [("let", "a"), ("load", "rear_seat")]
