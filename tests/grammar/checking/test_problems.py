"""What checking says of an officer's slips: one cause, one message, at the very words."""

import pytest

from grammar.pipeline import read_sheet

HEAD = """sheet t revision 1 "Type"
document fm "Manual"
datum "the nose; arms positive aft"
given engine is one of standard, boosted
given dual is yes or no
given height in ft from 0 ft to 8000 ft
load seat "Seat" from 0 kg to 130 kg arm 600 mm source fm "1"
load locker "Locker" from 0 kg to 15 kg arm -120 mm source fm "1"
fuel tank "Tank" from 0 L to 80 L density 0.72 kg/L arm 1390 mm source fm "1"
limit stays "Stays" seat at most (100 kg when engine is standard, 90 kg when engine is boosted) source fm "1"
limit height_and_dual "Both" seat is empty when height > 500 ft and dual is yes source fm "1"
"""


def codes(text):
    return [problem.code for problem in read_sheet(HEAD + text, "t.limits").problems]


def found(text):
    outcome = read_sheet(HEAD + text, "t.limits")
    return [
        (problem.code, outcome.source.text[problem.span.start : problem.span.end]) for problem in outcome.problems
    ]


def test_the_common_head_reads_without_a_word():
    assert codes("") == []


def test_a_misspelled_name_is_pointed_at_and_the_right_one_offered():
    (problem,) = read_sheet(HEAD + 'limit l "L" seat at most 115 kg - 3 * loker source fm "2"\n', "t").problems
    assert (problem.code, problem.suggestion) == ("302", "locker")


def test_a_statement_that_cannot_be_read_is_blamed_once_and_nothing_that_leans_on_it():
    text = 'load bag frm 0 kg to 9 kg source fm "1"\nlimit l "L" bag + seat at most 9 kg source fm "1"\n'
    assert len(codes(text)) == 1


def test_a_let_with_a_mistake_is_blamed_once_however_often_it_is_used():
    text = (
        "let both = seat + nobody\n"
        'limit one "One" both at most 9 kg source fm "1"\n'
        'limit two "Two" at takeoff both at most 9 kg source fm "1"\n'
    )
    assert codes(text).count("302") == 1


def test_a_table_with_a_mistake_is_not_also_called_unused():
    text = (
        'table t of seat in kg gives kg source fm "1"\n  | seat | most |\n  | 0 | 9 |\n  | 0 | 8 |\n'
        'limit l "L" locker at most t(seat) source fm "1"\n'
    )
    assert codes(text) == ["504"]


@pytest.mark.parametrize(
    ("text", "code", "words"),
    [
        ('limit l "L" mass at most 500 kg source fm "1"', "606", "mass"),
        ('limit l "L" at takof mass at most 500 kg source fm "1"', "309", "takof"),
        ('limit l "L" at takeoff mass at most 500 source fm "1"', "403", "500"),
        ('limit l "L" at takeoff mass at most 5 m source fm "1"', "402", "mass at most 5 m"),
        ('limit l "L" at landing tank at least 8 L source fm "1"', "409", "tank"),
        ('limit l "L" seat < 90 kg source fm "1"', "609", "seat < 90 kg"),
        ('limit l "L" seat at least 200 kg source fm "1"', "513", "seat at least 200 kg"),
        ('limit l "L" seat between 90 kg and 60 kg source fm "1"', "512", "90 kg and 60 kg"),
        ('limit l "L" seat / locker at most 3 source fm "1"', "514", "locker"),
        ('limit l "L" seat at most 90 kg when dual source fm "1"', "418", "dual"),
        ('limit l "L" seat at most 90 kg', "701", "l"),
        ('limit l "L" seat at most 90 kilo source fm "1"', "401", "kilo"),
        ('limit l "L" seat at most 90 kg source mf "1"', "311", "mf"),
        ('limit l "L" seat + 3 at most 90 kg source fm "1"', "403", "3"),
        ('limit l "L" engine is turbo source fm "1"', "310", "turbo"),
        ('limit l "L" seat + locker is empty source fm "1"', "312", "seat + locker"),
        ('limit l "L" at takeoff seat at most 90 kg source fm "1"', "607", "at takeoff"),
        ('limit l "L" seat at landing at most 90 kg source fm "1"', "608", "landing"),
        ('limit l "L" fm at most 90 kg source fm "1"', "305", "fm"),
        ('limit mass "L" seat at most 90 kg source fm "1"', "304", "mass"),
        ('limit stays "L" seat at most 90 kg source fm "1"', "301", "stays"),
        ('let twice = 90 kg + seat\nlimit l "L" twice at most 190 kg source fm "1"', "702", "90 kg"),
        ('limit l "L" seat at most bound(l) source fm "1"', "308", "bound(l)"),
        ('limit l "L" seat at most bound(height_and_dual) source fm "1"', "614", "bound(height_and_dual)"),
        ('limit l "L" at takeoff cg_percent_mac at most 30 %MAC source fm "1"', "523", "cg_percent_mac"),
        ('limit l "L" at takeoff lateral_cg at most 30 mm source fm "1"', "519", None),
        ('let lone = seat', "303", "lone"),
        ('chord from 2 m length 0 m source fm "1"', "515", "0 m"),
        ('limit l "L" seat at most 9 kg source fm "1" source fm "2"', "707", 'source fm "2"'),
    ],
)  # fmt: skip
def test_a_slip_is_named_at_the_words_that_have_it(text, code, words):
    problems = found(text + "\n")
    assert code in [its for its, _ in problems], problems
    if words is not None:
        assert [(its, at) for its, at in problems if its == code] == [(code, words)]


@pytest.mark.parametrize(
    ("choice", "code"),
    [
        ("(9 kg when engine is standard)", "601"),
        ("(9 kg when engine is standard, 8 kg when not engine is boosted)", "602"),
        ("(9 kg when engine is standard, 8 kg when engine is boosted, 7 kg otherwise)", "604"),
        ("(9 kg when height > 500 ft, 8 kg when height < 500 ft)", "603"),
        ("(9 kg when engine is standard and engine is boosted, 8 kg otherwise)", "605"),
        ("(9 kg when engine is standard and dual is yes, 8 kg when engine is boosted)", "601"),
    ],
)
def test_a_choice_is_complete_and_free_of_overlap_or_the_case_is_named(choice, code):
    assert codes(f'limit l "L" seat at most {choice} source fm "1"\n') == [code]


def test_the_missing_case_is_named_in_the_sheets_own_words():
    text = 'limit l "L" seat at most (9 kg when engine is standard and dual is yes, 8 kg when engine is boosted) source fm "1"\n'
    (problem,) = read_sheet(HEAD + text, "t").problems
    assert problem.facts["case"] == "engine standard and dual no"


def test_what_moves_with_the_burn_belongs_to_one_limit():
    text = (
        'limit one "One" throughout mass at most 500 kg source fm "1"\n'
        'limit two "Two" throughout mass at most 490 kg source fm "1"\n'
        'limit three "Three" at takeoff mass at most 480 kg source fm "1"\n'
        'limit four "Four" at takeoff mass at least 80 kg source fm "1"\n'
    )
    sheet = read_sheet(HEAD + text, "t").sheet
    subject = {
        limit.name: limit.claim.subject.slot
        for limit in sheet.limits
        if limit.name in ("one", "two", "three", "four")
    }
    assert subject["one"] != subject["two"]
    assert subject["three"] == subject["four"]


def test_several_tanks_need_an_order():
    text = 'fuel aft "Aft" from 0 L to 20 L density 0.72 kg/L arm 2 m source fm "1"\n'
    assert codes(text) == ["611"]


@pytest.mark.parametrize(
    ("burn", "expected"),
    [
        ("tank, then aft", []),
        ("tank with aft", []),
        ("tank down to 20 L, then aft, then tank", []),
        ("tank", ["612"]),
        ("tank down to 20 L, then aft", ["612"]),
        ("tank down to 20 L, then aft, then tank down to 30 L, then tank", ["613"]),
        ("tank, then seat", ["305"]),
        ("tank, then aft down to 3 kg", ["404"]),
    ],
)
def test_an_order_of_burning_uses_every_tank_to_its_end(burn, expected):
    text = f'fuel aft "Aft" from 0 L to 20 L density 0.72 kg/L arm 2 m source fm "1"\nburn {burn} source fm "1"\n'
    assert sorted(set(codes(text))) == expected
