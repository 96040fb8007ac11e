"""Sheets of any length to be measured with, made of statements as a manual would give them."""

from __future__ import annotations

_HEAD = """\
sheet long_sheet revision 1 "A sheet of many statements"
  effective 2026-01-01
document fm "An invented flight manual, issue 1"
datum "the firewall; arms positive aft"
given height "Pressure altitude" in ft from 0 ft to 8000 ft
given surface is one of hard, grass
"""

_ROUND = """\
load place_{n} "Place {n}" from 0 kg to 20 kg
  arm {arm} mm
  assumed empty
  source fm "6.{n}"
let twice_{n} = 2 * place_{n}
table most_{n} of height in ft gives kg
  source fm "5.{n}"
  | height | most_{n} |
  |      0 |       20 |
  |   4000 |       18 |
  |   8000 |       12 |
limit place_most_{n} "Place {n} for the height"
  place_{n} at most most_{n}(height)
  source fm "5.{n}"
limit pair_{n} "Place {n} counted twice"
  twice_{n} at most 36 kg
  when surface is grass and height > 2000 ft
  source fm "2.{n}"
"""

_IN_HEAD, _IN_ROUND = 6, 5


def sheet_of_statements(number: int) -> str:
    """A sheet of about so many statements."""
    rounds = range((number - _IN_HEAD) // _IN_ROUND)
    return _HEAD + "".join(_ROUND.format(n=n, arm=500 + 7 * (n % 300)) for n in rounds)
