"""Which layer comes on top of which, and that nothing else decides it."""

from __future__ import annotations

import random

import pytest

from tests.engine.resolution.layered import (
    SHEET,
    check,
    codes,
    order,
    permit,
    put_on,
    read_codes,
    resolved_sheet,
    supplement,
    verdict,
)

LESS = 'amend limit max_takeoff_mass at takeoff mass at most {} kg source s "1"'


def names(*layers: str, **record: str) -> list[str]:
    return [layer.name for layer in resolved_sheet(put_on(*layers, airframe="QF-COB", **record)).layers]


def test_supplements_then_orders_then_permits():
    three = (
        permit('limit a rear_seat is empty source p "1"', name="a_permit"),
        order('limit b front_seat at most 100 kg source local_o "1"'),
        supplement("z_pod", 'limit c front_seat at most 100 kg source s "1"'),
    )
    assert names(*three) == ["corrin_t2", "z_pod", "local", "a_permit"]


def test_one_that_comes_after_another_stands_on_it_whatever_their_days():
    early = supplement("early", LESS.format(500), clauses="effective 2026-01-01; after late")
    late = supplement("late", LESS.format(510), clauses="effective 2026-05-01")
    assert names(early, late) == ["corrin_t2", "late", "early"]
    assert verdict(put_on(early, late), "max_takeoff_mass", rear_seat="77 kg") == "within"


@pytest.mark.parametrize(
    "after",
    [("b", "a"), ("a", "")],
    ids=["two", "itself"],
)
def test_a_circle_is_told(after):
    layers = [
        supplement(name, clauses=f"after {below}" if below else "")
        for name, below in zip("ab", after, strict=True)
    ]
    assert "763" in codes(put_on(*layers))
    assert read_codes(*layers).count("763") == 1


def test_a_circle_of_many_is_told_and_ends():
    ring = [supplement(f"s{n}", clauses=f"after s{(n + 1) % 40}") for n in range(40)]
    assert codes(put_on(*ring)) == ["763"]
    assert read_codes(*ring) == ["763"]


def test_to_come_after_what_is_not_there_is_told_when_read():
    assert read_codes(supplement("pod", clauses="after skis")) == ["762"]
    assert codes(put_on(supplement("pod", LESS.format(500), clauses="after skis"))) == []


def test_the_order_of_statements_in_a_layer_does_not_matter():
    statements = [
        'load pod from 0 kg to 12 kg arm 300 mm assumed empty source s "3"',
        LESS.format(505),
        'withdraw load locker source s "2"',
        "let twice = 2 * pod",
        'limit pod_seat twice + front_seat at most 110 kg source s "4"',
        'amend load rear_seat from 0 kg to 100 kg arm 1480 mm source s "5"',
    ]
    shuffled = random.Random(4)
    answers = set()
    for _ in range(8):
        found = check(put_on(supplement("pod", *statements)), pod="10 kg")
        answers.add(tuple(sorted((each.limit.name, each.verdict.value) for each in found.limits)))
        shuffled.shuffle(statements)
    assert len(answers) == 1


def test_the_order_of_statements_in_the_sheet_does_not_matter():
    heading, *rest = _statements(SHEET)
    pod = supplement("pod", LESS.format(505), 'withdraw load locker source s "2"')
    shuffled = random.Random(5)
    answers = set()
    for _ in range(8):
        found = check(put_on(pod, sheet=heading + "".join(rest)))
        answers.add(tuple(sorted((each.limit.name, each.verdict.value) for each in found.limits)))
        shuffled.shuffle(rest)
    assert len(answers) == 1


def _statements(text: str) -> list[str]:
    found: list[str] = []
    for line in text.splitlines(keepends=True):
        if line.startswith(" "):
            found[-1] += line
        else:
            found.append(line)
    return found
