"""Weighings, tares and the place of a centre of gravity on the chord: published results."""

from __future__ import annotations

from fractions import Fraction

from tests.outside.bench import check, page
from tests.outside.rows import Row, checks, decimal

NOSE_WHEEL = """
load nose "Nose-wheel scale" from 0 lb to 1000 lb
  arm {main} in - {base} in                    source book "ch. 3"
load mains "Main-wheel scales" from 1 lb to 5000 lb
  arm {main} in                                source book "ch. 3"
let weighed = nose + mains
let weighed_arm = (nose * ({main} in - {base} in) + mains * ({main} in)) / weighed
  source book "ch. 3"
limit aft "Room for any balance, so that it is worked out"
  weighed_arm at most 500 in                   source book "ch. 3"
"""

TAIL_WHEEL = """
load tail "Tail-wheel scale" from 0 lb to 1000 lb
  arm {main} in + {base} in                    source book "ch. 3"
load mains "Main-wheel scales" from 1 lb to 5000 lb
  arm {main} in                                source book "ch. 3"
let weighed = tail + mains
let weighed_arm = (tail * ({main} in + {base} in) + mains * ({main} in)) / weighed
  source book "ch. 3"
limit aft "Room for any balance, so that it is worked out"
  weighed_arm at most 500 in                   source book "ch. 3"
"""


@checks("C02", "C03")
def test_nose_wheel(row: Row) -> None:
    """The distance from the datum to the main wheels is ahead of them in one row, behind in the other."""
    given = row.given
    main = f"({decimal(given['D'])}" if row.id == "C02" else f"(-{decimal(given['D'])}"
    sheet = page(row.topic, NOSE_WHEEL.format(main=main, base=decimal(given["L"])).replace(" in", " in"))
    answer = check(
        sheet, nose=f"{decimal(given['F'])} lb", mains=f"{decimal(given['W'] - given['F'])} lb"
    )
    assert answer.value("weighed", "lb") == given["W"]
    row.agrees("cg_in", answer.value("weighed_arm", "in"))
