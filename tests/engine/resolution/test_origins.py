"""Every statement of a resolved sheet leads back to its file, its paragraph and what it displaced."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

from engine.evaluation.exact import evaluate
from engine.evaluation.requests import read_loading
from engine.resolution.reading import read_together
from engine.resolution.resolving import Resolved, resolve
from engine.resolution.selecting import Asked
from grammar import tree
from grammar.layering.merging import name_of
from grammar.reading import read_file
from grammar.sheet import LayerKind
from grammar.tidy import tidy
from limits_demo import fleet, layer_names, layer_text, sheet_text
from tests.engine.resolution.layered import origin_of, put_on, resolved_sheet, result_of, supplement

TEXTS = {"corrin_t2.limits": sheet_text("corrin_t2")} | {
    f"{name}.limits": layer_text(name) for name in layer_names()
}


def on(day: date, registration: str = "QF-COB") -> Resolved:
    """The Corrin T2's sheet as it holds for an airframe of the group on a day."""
    airframe = next(one for one in fleet() if one.registration == registration)
    asked = Asked(Fraction(day.toordinal()), registration, airframe.record_on(day))
    return resolve(TEXTS, "corrin_t2", asked)


def layers_on(day: date, registration: str = "QF-COB") -> list[str]:
    return [layer.name for layer in resolved_sheet(on(day, registration)).layers]


# ---- small cases


def test_what_the_sheet_says_itself_has_no_origin_of_its_own():
    assert resolved_sheet(put_on()).origins == ()


def test_what_is_added_displaces_nothing():
    added = origin_of(put_on(supplement("pod", 'limit l front_seat at most 9 kg source s "1"')), "l")
    assert (added.layer.name, added.layer.kind, added.displaced) == ("pod", LayerKind.SUPPLEMENT, ())


def test_what_is_amended_twice_displaces_both_the_latest_first():
    less = 'amend limit max_takeoff_mass at takeoff mass at most {} kg source s "{}"'
    twice = (supplement("pod", less.format(500, 1)), supplement("skis", less.format(490, 2), clauses="after pod"))
    displaced = origin_of(put_on(*twice), "max_takeoff_mass").displaced
    assert [(one.layer.name, one.source) for one in displaced] == [("pod", "s 1"), ("corrin_t2", "fm 2.3")]


def test_what_is_withdrawn_leaves_its_trace():
    for statement, name, source in (
        ('withdraw load rear_seat source s "2"', "rear_seat", "fm 6.3"),
        ('withdraw limit with_pod source s "2"', "with_pod", "fm 2.6"),
    ):
        (displaced,) = origin_of(put_on(supplement("pod", statement)), name).displaced
        assert (displaced.layer.name, displaced.source) == ("corrin_t2", source)


# ---- the files of the demonstration


def test_the_files_of_the_demonstration_read_without_a_problem_and_are_tidy():
    assert {file: found for file, found in read_together(TEXTS).problems.items() if found} == {}
    assert [name for name in layer_names() if tidy(read_file(layer_text(name), name)) != layer_text(name)] == []


def test_the_demonstration_has_every_sort_of_file():
    kinds = {layer.kind for layer in resolved_sheet(on(date(2026, 7, 8))).layers}
    assert kinds == set(LayerKind)


def test_each_says_that_it_is_invented():
    for name in layer_names():
        first = layer_text(name).splitlines()[0]
        assert "invented" in first
        assert "No real aircraft may be loaded by this" in first


def test_there_is_no_file_of_another_name():
    for name in ("no_such_layer", "corrin_t2", "../sheets/corrin_t2"):
        try:
            layer_text(name)
        except KeyError:
            continue
        raise AssertionError(name)


def test_which_files_hold_on_which_days():
    assert layers_on(date(2026, 4, 1)) == ["corrin_t2", "solo_students"]
    assert layers_on(date(2026, 5, 10)) == ["corrin_t2", "camera_pod", "solo_students"]
    assert layers_on(date(2026, 7, 5)) == [
        "corrin_t2",
        "camera_pod",
        "wide_panniers",
        "fuel_gauge",
        "solo_students",
    ]
    assert layers_on(date(2026, 7, 12))[-1] == "ferry_cob"
    assert layers_on(date(2026, 7, 13))[-1] == "solo_students"
    assert "fuel_gauge" not in layers_on(date(2026, 10, 1))


def test_an_airframe_without_the_mount_and_before_its_floor_was_reinforced():
    assert layers_on(date(2026, 5, 19), "QF-COA") == ["corrin_t2", "solo_students"]
    assert layers_on(date(2026, 5, 20), "QF-COA") == ["corrin_t2", "wide_panniers", "solo_students"]


def test_the_resolved_sheet_of_an_airframe_with_two_supplements_a_temporary_revision_and_an_order_can_be_followed_back():
    resolved = on(date(2026, 7, 5))
    sheet = resolved_sheet(resolved)
    assert [layer.name for layer in sheet.layers] == layers_on(date(2026, 7, 5))
    assert resolved.file is not None
    origins = {origin.name: origin for origin in sheet.origins}
    for statement in resolved.file.statements:
        name = "sheet" if isinstance(statement, tree.SheetHeader) else name_of(statement)
        origin = origins.pop(name or "", None)
        layer = sheet.layers[0] if origin is None else origin.layer
        written = resolved.sources[statement.span.file].text[statement.span.start : statement.span.end]
        assert statement.span.file == layer.file
        assert TEXTS[layer.file][statement.span.start : statement.span.end] == written
        for displaced in () if origin is None else origin.displaced:
            old = TEXTS[displaced.layer.file][displaced.span.start : displaced.span.end]
            assert (name or "").rpartition(" ")[2] in old
            document, paragraph = displaced.source.split(" ", 1)
            assert f'source {document} "{paragraph}"' in old
    assert origins == {}


def test_every_limit_of_the_resolved_sheet_names_the_document_of_its_layer():
    sheet = resolved_sheet(on(date(2026, 7, 5)))
    documents = {"camera_pod": "cp", "wide_panniers": "wp", "fuel_gauge": "tr5", "solo_students": "qo14"}
    layer_of = {origin.name: origin.layer.name for origin in sheet.origins}
    for limit in sheet.limits:
        if limit.name in layer_of:
            assert limit.source is not None
            assert limit.source.document.name == documents[layer_of[limit.name]]


def test_a_load_of_that_airframe_is_checked_by_all_of_them():
    sheet = resolved_sheet(on(date(2026, 7, 5)))
    airframe = next(one for one in fleet() if one.registration == "QF-COB")
    stated = airframe.record_on(date(2026, 7, 5)) | {
        "front_seat": "84 kg",
        "rear_seat": "0 kg",
        "left_pannier": "10 kg",
        "right_pannier": "9 kg",
        "nose_locker": "1 kg",
        "main_tank": "60 L",
        "trip_fuel": "47 L",
        "flight": "solo_student",
        "airfield": "hard",
        "flight_date": "2026-07-05",
        "pressure_altitude": "0 ft",
        "outside_air_temperature": "15 degC",
    }
    result = evaluate(sheet, read_loading(sheet, stated))
    rooms = {
        name: [margin.room for margin in result_of(result, name).margins][:1]
        for name in ("panniers_max", "nose_locker", "reserve", "student_mass", "max_takeoff_mass")
    }
    litre = Fraction(1, 1000)
    at_takeoff = 288 + 84 + 4 + 19 + 1 + Fraction(432, 10)
    assert rooms == {
        "panniers_max": [-1],
        "nose_locker": [-1],
        "reserve": [-litre],
        "student_mass": [Fraction(95, 100) * 525 - at_takeoff],
        "max_takeoff_mass": [525 - at_takeoff],
    }
    assert result.verdict.value == "outside"
