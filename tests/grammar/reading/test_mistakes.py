"""Each mistake in the writing of a sheet: its code, the exact words it is about, and the corrected text.

In a mistaken text ⟦ and ⟧ mark the words that must be underlined; with nothing between them they mark the
place where something is missing.
"""

from dataclasses import dataclass

import pytest

from grammar.diagnostics.mending import mended
from grammar.diagnostics.writing import LETTERS, SHAPE
from grammar.reading import read_file


@dataclass(frozen=True)
class Mistake:
    code: str
    written: str
    corrected: str
    suggestion: str | None = None
    is_certain: bool = False

    @property
    def text(self) -> str:
        return self.written.replace("⟦", "").replace("⟧", "")

    @property
    def place(self) -> tuple[int, int]:
        return self.written.index("⟦"), self.written.index("⟧") - 1


def certain(code: str, written: str, corrected: str) -> Mistake:
    return Mistake(code, written, corrected, is_certain=True)


SEAT = 'load front_seat "Front seat" from 0 kg to 130 kg\n'
HEAD = 'limit front_max "Front seat"\n  '
ROWS = "envelope e of cg in mm against mass in kg\n"
WIDE = "table t of height in ft and wind in kt gives kg\n  |   | 10 | 20 |\n"
POD = 'supplement pod revision 1 to corrin_t2 "Pod"'
ORDER = 'order solo revision 1 to corrin_t2 "Solo students"'
GEAR = "configuration gear is one of wheels, skis, floats"
BY_WIND = "table t of wind in kt gives kg\n"

MISTAKES = (
    # ---- letters and signs
    certain("101", "datum ⟦“rear face of the bulkhead”⟧", 'datum "rear face of the bulkhead"'),
    certain("101", 'datum ⟦"rear face”⟧', 'datum "rear face"'),
    certain("101", "datum ⟦„rear face“⟧", 'datum "rear face"'),
    certain("102", "datum ⟦'rear face'⟧", 'datum "rear face"'),
    certain("102", "datum ⟦‘rear face’⟧", 'datum "rear face"'),
    Mistake("103", 'datum ⟦"rear face of the bulkhead⟧', 'datum "rear face of the bulkhead"'),
    Mistake("103", "datum ⟦“rear face⟧\n", 'datum "rear face"\n'),
    certain("104", 'document fm⟦\u00a0⟧"Manual"', 'document fm "Manual"'),
    certain("105", SEAT + "  arm ⟦61,5⟧ mm", SEAT + "  arm 61.5 mm"),
    certain("105", "fuel main_tank from 0 L to 80 L density ⟦0,72⟧ kg/L",
            "fuel main_tank from 0 L to 80 L density 0.72 kg/L"),
    Mistake(
        "105",
        HEAD + "front_seat at most (⟦1,5⟧ * rear_seat)",
        HEAD + "front_seat at most (1.5 * rear_seat)",
        suggestion="1.5",
    ),
    Mistake("105", ROWS + "  | ⟦980,29⟧ |", ROWS + "  | 980 | 29 |", suggestion="980.29"),
    Mistake("106", SEAT + "  arm ⟦1,480⟧ mm", SEAT + "  arm 1480 mm"),
    Mistake("107", SEAT + "  arm ⟦1 480⟧ mm", SEAT + "  arm 1480 mm", suggestion="1480"),
    Mistake("107", SEAT + "  arm ⟦1\u00a0480⟧ mm", SEAT + "  arm 1480 mm", suggestion="1480"),
    Mistake("107", "load ballast from 0 kg to ⟦82 100⟧ kg", "load ballast from 0 kg to 82 kg", suggestion="82100"),
    Mistake("107", ROWS + "  | ⟦980 290⟧ |", ROWS + "  | 980 | 290 |"),
    Mistake("107", ROWS + "  | ⟦1\u202f480⟧ | 290 |", ROWS + "  | 1480 | 290 |"),
    certain("107", SEAT + "  arm ⟦1\u202f480⟧ mm", SEAT + "  arm 1480 mm"),
    Mistake("107", SEAT + "  arm ⟦1'480⟧ mm", SEAT + "  arm 1480 mm", suggestion="1480"),
    certain("108", SEAT + "  arm ⟦1,480.5⟧ mm", SEAT + "  arm 1480.5 mm"),
    certain("108", SEAT + "  arm ⟦1.480,5⟧ mm", SEAT + "  arm 1480.5 mm"),
    Mistake("108", SEAT + "  arm ⟦1.480.500⟧ mm", SEAT + "  arm 1480500 mm", suggestion="1480500"),
    Mistake("108", ROWS + "  | ⟦1,480.5⟧ |", ROWS + "  | 1 | 480.5 |", suggestion="1480.5"),
    certain("108", "given a in kg from 0 kg to ⟦1,000,000⟧ kg", "given a in kg from 0 kg to 1000000 kg"),
    certain("109", "given oat in degC from -20 degC to 45 ⟦°C⟧", "given oat in degC from -20 degC to 45 degC"),
    certain("109", "given oat in degF from 0 degF to 90⟦°F⟧", "given oat in degF from 0 degF to 90 degF"),
    certain("109", "given oat in ⟦℃⟧", "given oat in degC"),
    certain("109", "given oat in ⟦deg C⟧", "given oat in degC"),
    Mistake("109", "given oat in degC from 0 degC to 45 ⟦°⟧", "given oat in degC from 0 degC to 45 degC"),
    certain("110", HEAD + "front_seat ⟦≤⟧ 115 kg", HEAD + "front_seat at most 115 kg"),
    certain("110", HEAD + "front_seat⟦>=⟧60 kg", HEAD + "front_seat at least 60 kg"),
    certain("111", HEAD + "front_seat at most 115 kg when engine ⟦=⟧ standard",
            HEAD + "front_seat at most 115 kg when engine is standard"),
    certain("111", HEAD + "front_seat at most 115 kg when engine⟦==⟧standard",
            HEAD + "front_seat at most 115 kg when engine is standard"),
    Mistake("111", HEAD + "front_seat ⟦=⟧ 115 kg", HEAD + "front_seat at most 115 kg"),
    Mistake("111", SEAT + "  arm ⟦=⟧ 610 mm", SEAT + "  arm 610 mm"),
    Mistake("111", "example e\n  given engine ⟦=⟧ boosted", "example e\n  given engine boosted"),
    Mistake("110", HEAD + "front_seat ⟦=>⟧ 60 kg", HEAD + "front_seat at least 60 kg"),
    Mistake("112", HEAD + "front_seat is yes and engine ⟦~=⟧ standard",
            HEAD + "front_seat is yes and engine is not standard"),
    Mistake("113", HEAD + "front_seat ⟦&⟧ rear_seat at most 5 kg", HEAD + "front_seat + rear_seat at most 5 kg"),
    certain("111", "let both ⟦==⟧ front_seat + rear_seat", "let both = front_seat + rear_seat"),
    certain("112", HEAD + "front_seat at most 115 kg when engine ⟦!=⟧ standard",
            HEAD + "front_seat at most 115 kg when engine is not standard"),
    certain("113", HEAD + "front_seat is occupied ⟦&&⟧ rear_seat is empty",
            HEAD + "front_seat is occupied and rear_seat is empty"),
    certain("113", HEAD + "front_seat is occupied ⟦||⟧ rear_seat is empty",
            HEAD + "front_seat is occupied or rear_seat is empty"),
    certain("114", SEAT + "  arm ⟦−⟧120 mm", SEAT + "  arm -120 mm"),
    certain("114", SEAT + "  arm ⟦–⟧120 mm", SEAT + "  arm -120 mm"),
    Mistake("114", HEAD + "front_seat at most 90⟦–⟧115 kg", HEAD + "front_seat between 90 kg and 115 kg"),
    Mistake("114", HEAD + "front_seat at most 115 kg ⟦––⟧ 3 * rear_seat",
            HEAD + "front_seat at most 115 kg - 3 * rear_seat"),
    Mistake("115", SEAT + "  arm 61⟦·⟧5 mm", SEAT + "  arm 61.5 mm"),
    Mistake("115", HEAD + "front_seat at most 1⟦⁄⟧2 * rear_seat", HEAD + "front_seat at most 0.5 * rear_seat"),
    certain("115", HEAD + "front_seat at most 3 ⟦·⟧ rear_seat", HEAD + "front_seat at most 3 * rear_seat"),
    certain("115", HEAD + "front_seat at most 3 ⟦×⟧ rear_seat", HEAD + "front_seat at most 3 * rear_seat"),
    certain("115", HEAD + "front_seat at most rear_seat ⟦÷⟧ 3", HEAD + "front_seat at most rear_seat / 3"),
    certain("115", HEAD + "front_seat at most 3 ⟦x⟧ rear_seat", HEAD + "front_seat at most 3 * rear_seat"),
    certain("115", "let m = 5 kg⟦·⟧mm", "let m = 5 kg.mm"),
    certain("116", HEAD + "front_seat at most ⟦2½⟧ kg", HEAD + "front_seat at most 2.5 kg"),
    Mistake("116", ROWS + "  | ⟦2 ½⟧ |", ROWS + "  | 2 | 0.5 |"),
    Mistake("116", HEAD + "front_seat at most ⟦⅓⟧ * rear_seat", HEAD + "front_seat at most 1 / 3 * rear_seat"),
    certain("117", SEAT + "  floor area 2 m⟦²⟧", SEAT + "  floor area 2 m2"),
    certain("118", SEAT + "  arm ⟦.5⟧ m", SEAT + "  arm 0.5 m"),
    Mistake("118", SEAT + "  arm ⟦5.⟧ m", SEAT + "  arm 5 m", suggestion="5"),
    Mistake("118", SEAT + "  arm ⟦5.⟧ 3 mm", SEAT + "  arm 5.3 mm"),
    Mistake("119", "let x = ⟦13/04/2026⟧", "let x = 2026-04-13"),
    Mistake("119", 'sheet s revision 1 "S"\n  effective ⟦01/04/2026⟧',
            'sheet s revision 1 "S"\n  effective 2026-04-01'),
    Mistake("119", 'sheet s revision 1 "S"\n  effective ⟦1.4.2026⟧',
            'sheet s revision 1 "S"\n  effective 2026-04-01'),
    certain("119", 'sheet s revision 1 "S"\n  effective ⟦2026-4-1⟧',
            'sheet s revision 1 "S"\n  effective 2026-04-01'),
    certain("119", 'sheet s revision 1 "S"\n  effective ⟦13/04/2026⟧',
            'sheet s revision 1 "S"\n  effective 2026-04-13'),
    certain("119", 'sheet s revision 1 "S"\n  effective ⟦1 April 2026⟧',
            'sheet s revision 1 "S"\n  effective 2026-04-01'),
    certain("120", "load ⟦Front_seat⟧ from 0 kg to 130 kg", "load front_seat from 0 kg to 130 kg"),
    certain("120", "⟦Load⟧ front_seat from 0 kg to 130 kg", "load front_seat from 0 kg to 130 kg"),
    certain("120", "load front_seat ⟦From⟧ 0 kg to 130 kg", "load front_seat from 0 kg to 130 kg"),
    Mistake("120", "load ⟦frontSeat⟧ from 0 kg to 130 kg",
            "load front_seat from 0 kg to 130 kg", suggestion="front_seat"),
    certain("121", "load ⟦front-seat⟧ from 0 kg to 130 kg", "load front_seat from 0 kg to 130 kg"),
    Mistake("121", "load ⟦seat-2⟧ from 0 kg to 130 kg", "load seat_2 from 0 kg to 130 kg"),
    Mistake("121", HEAD + "at ⟦take-off⟧\n  mass at most 5 kg", HEAD + "at takeoff\n  mass at most 5 kg"),
    certain("121", "let ⟦all-up-mass⟧ = mass", "let all_up_mass = mass"),
    certain("122", "load front_seat⟦\t⟧from 0 kg to 130 kg", "load front_seat from 0 kg to 130 kg"),
    certain("122", "load front_seat\n⟦\t⟧from 0 kg to 130 kg", "load front_seat\n  from 0 kg to 130 kg"),
    Mistake("123", "load front_seat ⟦\x07⟧from 0 kg to 130 kg", "load front_seat from 0 kg to 130 kg"),
    Mistake("123", "load front_seat ⟦\x00⟧from 0 kg to 130 kg", "load front_seat from 0 kg to 130 kg"),
    Mistake("123", 'datum "rear ⟦\x1b⟧face"', 'datum "rear face"'),
    certain("124", "⟦#⟧ the seats\ndatum \"rear face\"", '-- the seats\ndatum "rear face"'),
    certain("124", '⟦//⟧ the seats\ndatum "rear face"', '-- the seats\ndatum "rear face"'),
    Mistake("124", 'datum "rear face" ⟦//⟧ of the bulkhead', 'datum "rear face" -- of the bulkhead'),
    Mistake("124", HEAD + "front_seat at most 230 kg ⟦//⟧ 2", HEAD + "front_seat at most 230 kg / 2"),
    certain("125", HEAD + "front_seat at most ⟦[⟧60 kg)", HEAD + "front_seat at most (60 kg)"),
    Mistake("126", "load ⟦siège⟧ from 0 kg to 130 kg", "load siege from 0 kg to 130 kg"),
    Mistake("127", 'datum "rear ⟦\u202e⟧face"', 'datum "rear face"'),
    Mistake("127", "load front⟦\u200b⟧ from 0 kg to 130 kg", "load front from 0 kg to 130 kg"),
    Mistake("128", 'datum "rear ⟦\ufffd⟧face"', 'datum "rear face"'),
    Mistake("128", "datum ⟦\ud800⟧ \"rear face\"", 'datum "rear face"'),
    Mistake("129", SEAT + "  arm 610 mm ⟦§⟧", SEAT + "  arm 610 mm"),
    Mistake("130", SEAT + "  arm ⟦6.1e2⟧ mm", SEAT + "  arm 610 mm"),
    Mistake("131", "let m = rear_seat⟦^⟧2", "let m = rear_seat * rear_seat"),
    Mistake("131", "let m = rear_arm⟦²⟧", "let m = rear_arm * rear_arm"),
    certain("131", SEAT + "  floor area 2 m⟦^⟧2", SEAT + "  floor area 2 m2"),
    certain("132", 'datum "rear face"⟦;⟧', 'datum "rear face"'),
    certain("132", 'datum⟦:⟧ "rear face"', 'datum "rear face"'),
    certain("133", SEAT + "  arm ⟦24\"⟧", SEAT + "  arm 24 in"),
    certain("133", SEAT + "  arm ⟦2'⟧", SEAT + "  arm 2 ft"),
    Mistake("132", "fact engine is one of standard⟦;⟧ boosted", "fact engine is one of standard, boosted"),
    Mistake("134", "load ⟦2nd_seat⟧ from 0 kg to 130 kg", "load second_seat from 0 kg to 130 kg"),
    Mistake("135", 'datum "rear face" ⟦—⟧ of the bulkhead', 'datum "rear face" -- of the bulkhead'),
    # ---- the shape of statements
    Mistake("201", HEAD + "front_seat at most 115 kg ⟦7⟧", HEAD + "front_seat at most 115 kg"),
    Mistake("202", '⟦limt⟧ front_max\n  front_seat at most 115 kg',
            HEAD + "front_seat at most 115 kg", suggestion="limit"),
    Mistake("202", '⟦source⟧ fm "2"', 'document fm "2"'),
    Mistake("203", '  ⟦datum "rear face"⟧', 'datum "rear face"'),
    Mistake("204", "chord from 2200 mm⟦⟧\n  source fm \"2\"",
            'chord from 2200 mm length 1400 mm\n  source fm "2"'),
    Mistake("204", "fact engine is one⟦⟧", "fact engine is one of standard, boosted"),
    Mistake("205", 'load ⟦empty⟧ "E" from 0 kg to 5 kg', 'load spare "E" from 0 kg to 5 kg'),
    Mistake("206", HEAD + "(front_seat + rear_seat at most 115 kg⟦⟧\n  source fm \"2\"",
            HEAD + "(front_seat + rear_seat) at most 115 kg\n  source fm \"2\""),
    Mistake("207", HEAD + "front_seat⟦)⟧ at most 115 kg", HEAD + "(front_seat) at most 115 kg"),
    Mistake("208", "document fm⟦⟧\n\ndatum \"rear face\"", 'document fm "Manual"\n\ndatum "rear face"'),
    Mistake("209", "document fm ⟦Corrin T2 flight manual⟧", 'document fm "Corrin T2 flight manual"'),
    Mistake("209", "load front_seat ⟦Front seat⟧ from 0 kg to 5 kg",
            'load front_seat "Front seat" from 0 kg to 5 kg'),
    Mistake("210", "envelope e of cg in mm against mass in kg\n  | 1 | 2⟦⟧\n  | 3 | 4 |",
            "envelope e of cg in mm against mass in kg\n  | 1 | 2 |\n  | 3 | 4 |"),
    Mistake("210", "envelope e of cg in mm against mass in kg\n  | 1 | 2 |\n  | 3 | 4⟦⟧ -- aft",
            "envelope e of cg in mm against mass in kg\n  | 1 | 2 |\n  | 3 | 4 |"),
    Mistake("211", "fact engine is yes or no\n  ⟦density⟧ 0.72 kg/L", "fact engine is yes or no"),
    Mistake("211", 'document fm "Manual"\n  ⟦source⟧ fm "1"', 'document fm "Manual"'),
    Mistake("212", HEAD + "mass at most 540 kg\n  ⟦at takeoff⟧", HEAD + "at takeoff\n  mass at most 540 kg"),
    Mistake("212", HEAD + "mass at most 540 kg ⟦at takeoff⟧", HEAD + "at takeoff\n  mass at most 540 kg"),
    Mistake("212", HEAD + "mass at most 540 kg\n  ⟦throughout⟧", HEAD + "throughout\n  mass at most 540 kg"),
    Mistake("213", HEAD + "at takeoff\n  ⟦at landing⟧\n  mass at most 540 kg",
            HEAD + "at takeoff\n  mass at most 540 kg"),
    Mistake("213", HEAD + "at takeoff\n  mass at most 540 kg\n  ⟦at landing⟧",
            HEAD + "at takeoff\n  mass at most 540 kg"),
    Mistake("214", HEAD + "at takeoff⟦⟧\n  source fm \"2\"",
            HEAD + "at takeoff\n  mass at most 5 kg\n  source fm \"2\""),
    Mistake("214", "limit front_max⟦⟧", HEAD + "front_seat at most 5 kg"),
    Mistake("215", HEAD + "mass at most (⟦when⟧ a is b, 5 kg when a is c)",
            HEAD + "mass at most (4 kg when a is b, 5 kg when a is c)"),
    Mistake("216", HEAD + "mass at most 5 kg\n  when⟦⟧\n  source fm \"2\"",
            HEAD + "mass at most 5 kg\n  when a is b\n  source fm \"2\""),
    Mistake("217", "limit a\n  mass at most⟦⟧\n  limit b\n  mass at most 5 kg",
            "limit a\n  mass at most 4 kg\nlimit b\n  mass at most 5 kg"),
    Mistake("218", HEAD + "front_seat at most 3⟦⟧ rear_seat", HEAD + "front_seat at most 3 * rear_seat",
            suggestion="* rear_seat"),
    Mistake("219", "given altitude in⟦⟧ from 0 ft to 8000 ft", "given altitude in ft from 0 ft to 8000 ft"),
    Mistake("219", "table t of a in ft gives⟦⟧\n  | 1 | 2 |", "table t of a in ft gives kg\n  | 1 | 2 |"),
    Mistake("220", "⟦⟧", 'datum "rear face"'),
    Mistake("220", "⟦⟧-- nothing yet\n", 'datum "rear face"'),
    Mistake("210", WIDE + "  | 1 | 2⟦⟧\n  | 3 |\n", WIDE + "  | 1 | 2 | 3 |\n"),
    certain("221", SEAT + "⟦arm⟧ 610 mm", SEAT + "  arm 610 mm"),
    certain("221", "envelope e of cg in mm against mass in kg\n  | 1 | 2 |\n⟦|⟧ 3 | 4 |",
            "envelope e of cg in mm against mass in kg\n  | 1 | 2 |\n  | 3 | 4 |"),
    certain("222", 'document fm "Manual"\n  ⟦document⟧ sb "Bulletin"',
            'document fm "Manual"\ndocument sb "Bulletin"'),
    Mistake("222", HEAD + "front_seat at most 5 kg\n  ⟦fuel⟧ at landing at least 8 L",
            HEAD + "front_seat at most 5 kg and fuel at landing at least 8 L"),
    Mistake("223", "load front_seat ⟦form⟧ 0 kg to 130 kg",
            "load front_seat from 0 kg to 130 kg", suggestion="from"),
    Mistake("223", HEAD + "⟦throughuot⟧\n  mass at most 5 kg", HEAD + "throughout\n  mass at most 5 kg",
            suggestion="throughout"),
    Mistake("223", HEAD + "front_seat ⟦at mots⟧ 5 kg", HEAD + "front_seat at most 5 kg", suggestion="at most"),
    Mistake("223", SEAT + '  ⟦sorce⟧ fm "2"', SEAT + '  source fm "2"', suggestion="source"),
    certain("224", HEAD + "front_seat ⟦not more than⟧ 5 kg", HEAD + "front_seat at most 5 kg"),
    certain("224", HEAD + "front_seat at most 5 kg ⟦if⟧ a is b", HEAD + "front_seat at most 5 kg when a is b"),
    Mistake("224", HEAD + "front_seat ⟦below⟧ 5 kg", HEAD + "front_seat at most 5 kg"),
    Mistake("224", HEAD + "front_seat ⟦must be⟧ occupied", HEAD + "front_seat is occupied"),
    Mistake("224", "load front_seat from 0 kg to 5 kg ⟦station⟧ 610 mm",
            "load front_seat from 0 kg to 5 kg arm 610 mm"),
    Mistake("224", "burn main_tank ⟦and⟧ left_tank", "burn main_tank with left_tank"),
    Mistake("225", 'load⟦⟧ "Front seat" from 0 kg to 130 kg', 'load front_seat "Front seat" from 0 kg to 130 kg'),
    Mistake("225", HEAD + "mass at⟦⟧\n", HEAD + "mass at takeoff at most 5 kg\n"),
    certain("226", "load front_seat from 0 kg ⟦-⟧ 130 kg", "load front_seat from 0 kg to 130 kg"),
    Mistake("226", "given oat in degC from -20 degC ⟦-⟧5 degC", "given oat in degC from -20 degC to -5 degC"),
    certain("226", "load front_seat from 0⟦-⟧130 kg", "load front_seat from 0 to 130 kg"),
    Mistake("226", "load front_seat from 0 kg ⟦..⟧ 130 kg", "load front_seat from 0 kg to 130 kg"),
    certain("227", SEAT + "  source fm ⟦2.4⟧", SEAT + '  source fm "2.4"'),
    Mistake("228", "fact engine is one of standard⟦⟧ boosted", "fact engine is one of standard, boosted"),
    Mistake("229", 'envelope e of cg in mm against mass in kg\n  source fm "2"⟦⟧',
            'envelope e of cg in mm against mass in kg\n  source fm "2"\n  | 1 | 2 |'),
    Mistake("230", HEAD + "mass at most (5 kg when a is b, 4 kg⟦⟧)",
            HEAD + "mass at most (5 kg when a is b, 4 kg otherwise)"),
    Mistake("231", HEAD + "front_seat at most⟦⟧\n  source fm \"2\"",
            HEAD + "front_seat at most 5 kg\n  source fm \"2\""),
    Mistake("231", HEAD + "front_seat at most (3 * ⟦⟧)".replace(" ⟦⟧", "⟦⟧"),
            HEAD + "front_seat at most (3 * 1 kg)"),
    Mistake("232", 'document fm "Manual" ⟦datum⟧ "rear face"', 'document fm "Manual"\ndatum "rear face"'),
    Mistake("233", "envelope e of cg in mm against mass in kg\n  | 1 | 2 |\n  ⟦source⟧ fm \"2\"",
            "envelope e of cg in mm against mass in kg\n  source fm \"2\"\n  | 1 | 2 |"),
    Mistake("234", HEAD + "5 kg at most front_seat ⟦at most⟧ 9 kg", HEAD + "front_seat between 5 kg and 9 kg"),
    certain("235", HEAD + "front_seat between 5 kg ⟦to⟧ 9 kg", HEAD + "front_seat between 5 kg and 9 kg"),
    Mistake("236", HEAD + "cg ⟦inside⟧ fore_and_aft", HEAD + "(cg, mass) inside fore_and_aft"),
    Mistake("236", HEAD + "cg⟦,⟧ mass inside fore_and_aft", HEAD + "(cg, mass) inside fore_and_aft"),
    Mistake("237", "envelope e of cg in mm against mass in kg\n  | 1 | 2 |\n  ⟦3⟧ | 4 |",
            "envelope e of cg in mm against mass in kg\n  | 1 | 2 |\n  | 3 | 4 |"),
    Mistake("237", WIDE + "  | 1 | 2 | 3 |\n  ⟦4⟧ | 5 |\n", WIDE + "  | 1 | 2 | 3 |\n  | 0 | 4 | 5 |\n"),
    Mistake("238", "fact engine is one of standard, boosted⟦,⟧\n", "fact engine is one of standard, boosted\n"),
    certain("238", HEAD + "mass at most 5 kg⟦,⟧\n  source fm \"2\"",
            HEAD + "mass at most 5 kg\n  source fm \"2\""),
    certain("239", HEAD + "mass ⟦must be⟧ at most 5 kg", HEAD + "mass at most 5 kg"),
    certain("239", HEAD + "mass ⟦is⟧ at most 5 kg", HEAD + "mass at most 5 kg"),
    Mistake("240", "envelope e of cg in mm against mass in kg\n  | 1⟦⟧ 2 |",
            "envelope e of cg in mm against mass in kg\n  | 1 | 2 |"),
    Mistake("241", "load front_seat⟦⟧ 0 kg to 130 kg", "load front_seat from 0 kg to 130 kg",
            suggestion="from 0"),
    Mistake("241", "let both⟦⟧ front_seat + rear_seat", "let both = front_seat + rear_seat",
            suggestion="= front_seat"),
    Mistake("201", SEAT.rstrip() + " ⟦610⟧ mm", SEAT + "  arm 610 mm"),
    Mistake("241", 'sheet corrin_t2⟦⟧ "Corrin T2"', 'sheet corrin_t2 revision 1 "Corrin T2"'),
    Mistake("242", "load ballast from 0 to 5 ⟦in⟧ steps of 1 kg",
            "load ballast from 0 kg to 5 kg in steps of 1 kg"),
    Mistake("243", HEAD + "⟦volume⟧ main_tank at least 8 L", HEAD + "volume(main_tank) at least 8 L"),
    Mistake("244", 'sheet corrin_t2 revision⟦⟧ "Corrin T2"', 'sheet corrin_t2 revision 1 "Corrin T2"'),
    Mistake("245", 'sheet corrin_t2 revision 1 "Corrin T2"\n  effective⟦⟧\n',
            'sheet corrin_t2 revision 1 "Corrin T2"\n  effective 2026-04-01\n'),
    # ---- supplements, orders, permits and what they change
    Mistake("202", '⟦suplement⟧ pod revision 1 to corrin_t2 "Pod"', POD, suggestion="supplement"),
    certain("224", 'supplement pod revision 1 ⟦for⟧ corrin_t2 "Pod"', POD),
    Mistake("241", 'supplement pod revision 1⟦⟧ "Pod"', POD),
    Mistake("201", 'supplement pod ⟦to⟧ corrin_t2 revision 1 "Pod"', POD),
    certain("224", POD + "\n  applies ⟦if⟧ serial is 5", POD + "\n  applies when serial is 5"),
    certain("224", POD + "\n  ⟦when⟧ serial is 5", POD + "\n  applies when serial is 5"),
    Mistake("241", POD + "\n  applies⟦⟧ serial is 5", POD + "\n  applies when serial is 5",
            suggestion="when serial"),
    Mistake("211", POD + '\n  ⟦issued⟧ by "Head of training"', POD),
    Mistake("228", POD + "\n  after radio⟦⟧ skis", POD + "\n  after radio, skis"),
    Mistake("211", ORDER + "\n  ⟦after⟧ pod", ORDER),
    Mistake("241", ORDER + '\n  issued⟦⟧ "Head of training"', ORDER + '\n  issued by "Head of training"',
            suggestion='by "Head of training"'),
    Mistake("209", ORDER + "\n  issued by ⟦Head of training⟧", ORDER + '\n  issued by "Head of training"'),
    Mistake("209", 'permit ferry revision 1 to corrin_t2 "Ferry"\n  airframe ⟦QF-COB⟧',
            'permit ferry revision 1 to corrin_t2 "Ferry"\n  airframe "QF-COB"'),
    certain("239", 'permit ferry revision 1 to corrin_t2 "Ferry"\n  ⟦for⟧ airframe "QF-COB"',
            'permit ferry revision 1 to corrin_t2 "Ferry"\n  airframe "QF-COB"'),
    Mistake("241", "withdraw⟦⟧ rear_seat", "withdraw load rear_seat"),
    Mistake("223", 'withdraw ⟦laod⟧ rear_seat source cp "2"', 'withdraw load rear_seat source cp "2"',
            suggestion="load"),
    Mistake("225", 'withdraw load⟦⟧ source cp "2"', 'withdraw load rear_seat source cp "2"'),
    Mistake("201", "withdraw ⟦document⟧ fm", "withdraw load rear_seat"),
    Mistake("241", "amend⟦⟧ max_mass\n  mass at most 5 kg", "amend limit max_mass\n  mass at most 5 kg"),
    Mistake("212", "amend limit max_mass\n  mass at most 5 kg\n  ⟦at takeoff⟧",
            "amend limit max_mass\n  at takeoff\n  mass at most 5 kg"),
    Mistake("213", "amend limit max_mass\n  at takeoff\n  mass at most 5 kg\n  ⟦at landing⟧",
            "amend limit max_mass\n  at takeoff\n  mass at most 5 kg"),
    Mistake("214", "amend limit max_mass\n  at takeoff⟦⟧",
            "amend limit max_mass\n  at takeoff\n  mass at most 5 kg"),
    Mistake("210", "amend " + ROWS + "  | 1 | 2⟦⟧\n  | 3 | 4 |", "amend " + ROWS + "  | 1 | 2 |\n  | 3 | 4 |"),
    Mistake("201", 'amend ⟦document⟧ fm "Manual"', 'document fm "Manual"'),
    Mistake("241", "loosen⟦⟧ max_mass\n  mass at most 5 kg", "loosen limit max_mass\n  mass at most 5 kg",
            suggestion="limit max_mass"),
    Mistake("201", "loosen ⟦caution⟧ a\n  mass at most 5 kg", "loosen limit a\n  mass at most 5 kg"),
    # ---- declared masses, configurations, tables by the next row
    Mistake("223", "declared front_seat ⟦adds⟧ 4 kg", "declared front_seat add 4 kg", suggestion="add"),
    Mistake("241", "declared front_seat⟦⟧ 4 kg", "declared front_seat add 4 kg", suggestion="add 4"),
    Mistake("228", "declared front_seat⟦⟧ rear_seat add 4 kg", "declared front_seat, rear_seat add 4 kg"),
    Mistake("244", "declared front_seat add⟦⟧", "declared front_seat add 4 kg"),
    Mistake("223", "example e\n  load front_seat 82 kg ⟦declard⟧", "example e\n  load front_seat 82 kg declared",
            suggestion="declared"),
    Mistake("201", "example e\n  load front_seat ⟦declared⟧ 82 kg", "example e\n  load front_seat 82 kg declared"),
    Mistake("223", GEAR + "\n  skis ⟦add⟧ 12 kg", GEAR + "\n  skis adds 12 kg", suggestion="adds"),
    Mistake("244", GEAR + "\n  skis adds ⟦arm⟧ 2300 mm", GEAR + "\n  skis adds 12 kg arm 2300 mm"),
    Mistake("224", GEAR + "\n  skis adds 12 kg ⟦at⟧ 2300 mm", GEAR + "\n  skis adds 12 kg arm 2300 mm"),
    certain("224", "load plates from 0 to 6 of 0.5 kg ⟦apiece⟧", "load plates from 0 to 6 of 0.5 kg each"),
    certain("224", GEAR + "\n  floats weighed ⟦separately⟧", GEAR + "\n  floats weighed apart"),
    Mistake("228", "configuration gear is one of wheels⟦⟧ skis, floats", GEAR),
    Mistake("228", "configuration gear is one of wheels⟦⟧ skis", "configuration gear is one of wheels, skis"),
    Mistake("241", BY_WIND + "  use⟦⟧ next higher\n  | 1 | 2 |", BY_WIND + "  use the next higher\n  | 1 | 2 |",
            suggestion="the next"),
    Mistake("223", BY_WIND + "  use the next ⟦highest⟧\n  | 1 | 2 |",
            BY_WIND + "  use the next higher\n  | 1 | 2 |", suggestion="higher"),
    certain("224", BY_WIND + "  ⟦take⟧ the next higher\n  | 1 | 2 |",
            BY_WIND + "  use the next higher\n  | 1 | 2 |"),
    Mistake("233", BY_WIND + "  | 1 | 2 |\n  ⟦use⟧ the next lower", BY_WIND + "  use the next lower\n  | 1 | 2 |"),
)  # fmt: skip


def test_a_label_without_marks_is_told_without_the_blanks_behind_it() -> None:
    for text in ("document fm Corrin T2 manual   ", 'load front_seat Front seat  "F" from 0 kg to 5 kg'):
        (problem,) = read_file(text, "sheet").problems
        assert problem.code == "209"
        assert problem.facts["found"] in {"Corrin T2 manual", "Front seat"}


IDS = [f"{mistake.code}-{number}" for number, mistake in enumerate(MISTAKES)]


@pytest.mark.parametrize("mistake", MISTAKES, ids=IDS)
def test_a_mistake_gives_one_problem_at_the_exact_words(mistake: Mistake) -> None:
    problems = read_file(mistake.text, "sheet").problems
    assert [problem.code for problem in problems] == [mistake.code]
    assert (problems[0].span.start, problems[0].span.end) == mistake.place
    assert problems[0].suggestion == mistake.suggestion
    assert (problems[0].mend is not None) == mistake.is_certain


@pytest.mark.parametrize("mistake", MISTAKES, ids=IDS)
def test_the_corrected_text_has_no_problem(mistake: Mistake) -> None:
    reading = read_file(mistake.corrected, "sheet")
    assert reading.problems == ()
    assert reading.file.unread == ()


@pytest.mark.parametrize("mistake", [one for one in MISTAKES if one.is_certain], ids=lambda one: one.code)
def test_a_certain_correction_leaves_nothing_of_the_problem(mistake: Mistake) -> None:
    reading = read_file(mistake.text, "sheet")
    again = read_file(mended(reading.source, reading.problems), "sheet")
    assert mistake.code not in {problem.code for problem in again.problems}


def test_each_code_of_letters_and_shape_has_its_mistake() -> None:
    assert {entry.code for entry in (*LETTERS, *SHAPE)} == {mistake.code for mistake in MISTAKES}
