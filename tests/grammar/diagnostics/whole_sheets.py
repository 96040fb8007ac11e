"""A whole sheet with nothing wrong in it, and pages' examples put into it."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date
from fractions import Fraction

from engine.resolution.selecting import Asked

_ESCAPED = re.compile(r"<U\+([0-9A-F]{4,6})>")
"""A character that a page shows by its number, because it cannot be seen."""

_RESOLVED = re.compile(
    r"resolved(?: for (?P<airframe>\S+))?(?: on (?P<day>\S+)| without a day)(?: with (?P<record>.+))?"
)

WHOLE = """\
sheet corrin_t2 revision 3 "Corrin T2 light gyroplane"
  effective 2026-04-01
  replaces revision 2

document fm "Corrin T2 flight manual, CT2-FM, issue 4"
datum "rear face of the nose bulkhead; arms positive aft"

fact engine is one of standard, boosted  source fm "1.4"
fact pod_fitted is yes or no             source fm "1.5"

given pressure_altitude in ft from 0 ft to 8000 ft
given airfield is one of hard, grass

load front_seat "Front seat" from 0 kg to 130 kg
  arm 610 mm                             source fm "6.3"
load rear_seat "Rear seat" from 0 kg to 130 kg
  arm 1480 mm                            source fm "6.3"
load nose_locker "Nose locker" from 0 kg to 15 kg
  arm -120 mm assumed empty              source fm "6.3"
fuel main_tank "Main tank" from 0 L to 80 L
  density 0.72 kg/L arm 1390 mm          source fm "6.4"

table climb_mass of pressure_altitude in ft gives kg
  source fm "5.2"
  | pressure_altitude | climb_mass |
  |                 0 |        540 |
  |              8000 |        510 |

envelope fore_and_aft of cg in mm against mass in kg
  source fm "6.2"
  |  cg  | mass |
  |  980 |  290 |
  | 1020 |  540 |
  | 1180 |  540 |
  | 1210 |  290 |

limit max_takeoff_mass "Maximum take-off mass"
  at takeoff
  mass at most (500 kg when engine is standard, 540 kg when engine is boosted)
  source fm "2.3"

limit climb "Mass for the height of the day"
  at takeoff
  mass at most climb_mass(pressure_altitude)
  source fm "5.2"

limit balance "Centre of gravity, fore and aft"
  throughout
  (cg, mass) inside fore_and_aft
  source fm "6.2"

limit pod_and_locker "Nose locker with the pod fitted"
  nose_locker at most 5 kg
  when pod_fitted is yes
  source fm "2.4"

caution soft_field "Heavy on grass"
  at takeoff
  mass at most 480 kg
  when airfield is grass and pressure_altitude > 2000 ft
  source fm "5.4"
"""


def whole_sheet(piece: str, remarks: Iterable[str] = (), base: str = WHOLE) -> str:
    """The piece of a page as a whole sheet.

    Its statements take the place of the base's of the same name, or are added at the end. A page may
    remark that its piece stands alone, or without which statements of the whole sheet (by keyword, or by
    keyword and name).
    """
    asked = tuple(remarks)
    text = _ESCAPED.sub(lambda found: chr(int(found[1], 16)), piece)
    if "alone" in asked:
        return text
    own = statements(text)
    left_out = {heading(statement) for statement in own}
    for remark in asked:
        if remark.startswith("without "):
            left_out.update(name.strip() for name in remark.removeprefix("without ").split(","))
    kept = [
        statement for statement in statements(base) if not left_out & {heading(statement), statement.split()[0]}
    ]
    is_header = bool(own) and own[0].startswith("sheet")
    return "".join([*own, "\n", *kept] if is_header else [*kept, "\n", *own])


def is_layer(piece: str) -> bool:
    """Whether a piece of a page is a file of its own that builds on the sheet."""
    return piece.startswith(("supplement ", "order ", "permit "))


def files_of(pieces: Iterable[str], remarks: Iterable[str], file: str) -> dict[str, str]:
    """The pieces of a page as files that are read together: the whole sheet, and what builds on it."""
    every = tuple(pieces)
    own = "\n".join(piece for piece in every if not is_layer(piece))
    texts = {file: whole_sheet(own, remarks)}
    for piece in filter(is_layer, every):
        _, name, _, revision, *_ = piece.split()
        known = f"{name}.limits" in texts
        texts[f"{name}_{revision}.limits" if known else f"{name}.limits"] = piece
    return texts


def asked_by(remarks: Iterable[str]) -> Asked | None:
    """For whom and when a page resolves its files: "resolved for QF-COB on 2026-06-03 with serial 57"."""
    found = next((one for one in map(_RESOLVED.fullmatch, remarks) if one is not None), None)
    if found is None:
        return None
    day = None if found["day"] is None else Fraction(date.fromisoformat(found["day"]).toordinal())
    stated = (fact.split(" ", 1) for fact in (found["record"] or "").split(", ") if fact)
    return Asked(day, found["airframe"], dict(stated))


def statements(text: str) -> list[str]:
    """The statements of a sheet, each with the lines that belong to it."""
    found: list[str] = []
    for line in re.findall(r".*\n", text):
        if line[0] in " \t\n" and found:
            found[-1] += line
        else:
            found.append(line)
    return found


def heading(statement: str) -> str:
    """What a statement is known by: its keyword and name."""
    return " ".join(statement.split()[:2])
