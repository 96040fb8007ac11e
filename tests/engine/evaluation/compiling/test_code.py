"""Generated code holds nothing that somebody wrote: only names of its own, whole numbers and fixed words."""

from __future__ import annotations

import ast
import re

from engine.evaluation.compiling.compiled import CompiledSheet, compile_sheet
from engine.evaluation.requests import read_loading
from tests.engine.evaluation.compiling.agreement import agrees
from tests.engine.evaluation.small_sheets import sheet_of

HOSTILE = """\
fact import_os "__import__('os').system('true')" is one of exec, eval, lambda source fm "1); import os  # "
load numbers "numbers = None" from 0 kg to 100 kg arm 1 m source fm "\\\\N{BULLET}"
load turns "\\\\" from 0 kg to 100 kg arm 2 m source fm "%s %d {0}"
fuel print "print(1)" from 0 L to 50 L density 0.72 kg/L arm 1 m source fm "1"
let v0 = numbers + turns
let bisect_right = 2 * v0
limit class "class" at takeoff mass at most 700 kg when import_os is lambda source fm "2"
limit def "while True: pass" bisect_right at most 300 kg source fm "2"
limit raise "%n" throughout cg between 1 m and 2 m source fm "2"
"""

NAME = re.compile(
    r"(?:[vftlx]\d+|D\d+|numbers|turns|verdicts|values|bisect_right|bisect_left|abs|append|later_day|"
    r"draw_together|is_in_slices|tightest|may_turn|sweep\d+)"
)


def hostile() -> CompiledSheet:
    return compile_sheet(sheet_of(HOSTILE))


def test_no_text_of_a_sheet_becomes_code() -> None:
    compiled = hostile()
    assert compiled.sources
    for source in compiled.sources:
        for node in ast.walk(ast.parse(source)):
            match node:
                case ast.Name(id=name) | ast.FunctionDef(name=name) | ast.arg(arg=name) | ast.Attribute(attr=name):
                    assert NAME.fullmatch(name), name
                case ast.Constant(value=value):
                    assert value is None or isinstance(value, int), value
                case ast.Import() | ast.ImportFrom() | ast.Lambda():
                    raise AssertionError(ast.dump(node))
        assert "#" not in source


def test_a_sheet_whose_names_are_python_words_comes_out_alike() -> None:
    compiled = hostile()
    stated = {
        "import_os": "lambda",
        "numbers": "50 kg",
        "turns": "60.5 kg",
        "print": "40 L",
        "trip_fuel": "10 L",
        "empty_mass": "300 kg",
        "empty_arm": "1500 mm",
    }
    assert agrees(compiled, read_loading(compiled.sheet, stated))


def test_no_binary_float_is_ever_made() -> None:
    for source in hostile().sources:
        assert not [node for node in ast.walk(ast.parse(source)) if isinstance(node, ast.Div)]
