"""Answers for the tests of the explanation: small sheets in the language, and what is stated for them."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

from engine.evaluation.exact import evaluate
from engine.evaluation.loading import Loading
from engine.evaluation.result import CheckResult, LimitResult
from engine.explanation.sentences import sentences
from engine.explanation.text import find_limit
from grammar.checking import check_file
from grammar.reading.reading import read_file
from grammar.sheet import CalendarDate, Input, Option, Sheet
from grammar.units import known_unit

CORRIN = """
sheet corrin_t2 revision 3 "Corrin T2 light gyroplane"
  effective 2026-04-01

document fm "Corrin T2 flight manual, CT2-FM, issue 4"
document sb7 "Corrin service bulletin 7, rear locker floor"
document lo "Quillmere order 14"

datum "rear face of the nose bulkhead; arms positive aft"

fact engine "Engine" is one of standard, boosted   source fm "1.4"
fact pod_fitted "Camera pod fitted" is yes or no   source sb7 "2"

given pressure_altitude in ft from 0 ft to 10000 ft
given outside_air_temperature in degC from -20 degC to 45 degC
given airfield is one of hard, grass

load front_seat "Front seat" from 0 kg to 130 kg
  arm 610 mm                                       source fm "6.3"
load rear_seat "Rear seat" from 0 kg to 130 kg
  arm 1480 mm                                      source fm "6.3"
load nose_locker "Nose locker" from 0 kg to 15 kg
  arm -120 mm assumed empty                        source fm "6.3"
load left_pannier "Left pannier" from 0 kg to 8 kg
  arm 1620 mm assumed empty                        source fm "6.3"
load right_pannier "Right pannier" from 0 kg to 8 kg
  arm 1620 mm assumed empty                        source fm "6.3"
fuel main_tank "Main tank" from 0 L to 80 L
  density 0.72 kg/L arm 1390 mm                    source fm "6.4"

let panniers = left_pannier + right_pannier
let front_allowance = 115 kg - 3 * nose_locker     source fm "2.4"

table hot_and_high of pressure_altitude in ft and outside_air_temperature in degC gives kg
  source fm "5.2"
  |         | -20 |   0 |  20 |  35 |  45 |
  |    0    | 540 | 540 | 540 | 525 | 510 |
  | 4000    | 540 | 535 | 515 | 495 | 480 |
  | 8000    | 510 | 495 | 470 | 450 | 435 |

envelope fore_and_aft of cg in mm against mass in kg
  source fm "6.2"
  |  cg  | mass |
  |  980 |  290 |
  |  980 |  420 |
  | 1020 |  540 |
  | 1180 |  540 |
  | 1210 |  420 |
  | 1210 |  290 |

limit max_takeoff_mass "Maximum take-off mass"
  at takeoff
  mass at most (500 kg when engine is standard, 540 kg when engine is boosted)
  source fm "2.3"

limit front_seat_max "Front seat, less three times the nose locker"
  front_seat at most 115 kg - 3 * nose_locker
  source fm "2.4"
  note "placard on the front bulkhead"

limit solo_front "Solo from the front seat only"
  front_seat is occupied
  source fm "2.4"

limit climb_mass "Mass for the height and temperature of the day"
  at takeoff
  mass at most hot_and_high(pressure_altitude, outside_air_temperature)
  source fm "5.2"

limit balance "Centre of gravity, fore and aft"
  throughout
  (cg, mass) inside fore_and_aft
  source fm "6.2"

limit reserve "Fuel left at landing"
  at landing
  volume(main_tank) at least 8 L
  source fm "2.9"

limit pod_floor "Pod only with the nose locker empty"
  nose_locker is empty or pod_fitted is no
  source sb7 "3"

limit crew "Crew and panniers"
  front_seat + rear_seat between 60 kg and 210 kg and panniers at most 12 kg
  source fm "2.5"

limit allowance "Front seat within the allowance"
  front_seat at most front_allowance
  source fm "2.4"

limit weighing "Weighed within four years"
  flight_date at most weighed_on + 48 months
  source fm "8.1"

limit in_hand "Five per cent in hand"
  at takeoff
  mass at most 0.95 * bound(max_takeoff_mass)
  when airfield is grass
  source lo "2"

caution uneven_panniers "Panniers loaded unevenly"
  abs(left_pannier - right_pannier) at most 2 kg
  source fm "4.1"

caution soft_field "Heavy on grass"
  at takeoff
  mass at most 480 kg
  when airfield is grass and pressure_altitude > 2000 ft
  source fm "5.4"
"""
"""An invented gyroplane with every kind of limit."""

TWO_UP = {
    "empty_mass": "288 kg",
    "empty_arm": "1240 mm",
    "weighed_on": "2025-02-28",
    "engine": "boosted",
    "pod_fitted": "no",
    "pressure_altitude": "1000 ft",
    "outside_air_temperature": "20 degC",
    "airfield": "hard",
    "flight_date": "2026-05-03",
    "front_seat": "82 kg",
    "rear_seat": "74 kg",
    "main_tank": "60 L",
    "trip_fuel": "30 L",
}
"""Two up with the boosted engine: within every limit."""


def read_sheet(text: str) -> Sheet:
    """The checked sheet of a text, which must have nothing wrong with it."""
    reading = read_file(text, "corrin_t2.limits")
    checked = check_file(reading.file, reading.source)
    assert checked.sheet is not None, (reading.problems, checked.problems)
    return checked.sheet


def stated(sheet: Sheet, texts: dict[str, str | Fraction]) -> Loading:
    """What the texts state: "98 kg", "2026-05-03", "boosted", or an amount in base units as it is."""
    inputs = {item.name: item for item in sheet.inputs}
    return Loading({name: _value(inputs[name], text) for name, text in texts.items()})


def _value(item: Input, text: str | Fraction) -> Fraction | str:
    if isinstance(text, Fraction) or isinstance(item.kind, Option):
        return text
    if isinstance(item.kind, CalendarDate):
        return Fraction(date.fromisoformat(text).toordinal())
    figure, unit = text.split(" ")
    return known_unit(unit).to_base(Fraction(figure))


SHEET = read_sheet(CORRIN)


def answer(*leave_out: str, **changed: str | Fraction) -> CheckResult:
    """The answer for two up, with some values changed or left out."""
    texts = {name: text for name, text in (TWO_UP | changed).items() if name not in leave_out}
    return evaluate(SHEET, stated(SHEET, texts))


def answer_of(text: str, **texts: str | Fraction) -> CheckResult:
    """The answer of a sheet of its own."""
    sheet = read_sheet(text)
    return evaluate(sheet, stated(sheet, texts))


def sentence(result: CheckResult, name: str) -> str:
    """The sentence for the limit of that name."""
    return sentences(result).sentence(outcome(result, name))


def outcome(result: CheckResult, name: str) -> LimitResult:
    """How the limit of that name came out."""
    return find_limit(result, name)
