"""Whatever is typed or lies in a file: a clear word, the status 3, nothing checked and no inner workings."""

from __future__ import annotations

import os
import stat

import pytest

from tests.engine.command_line.conftest import UNSEEMLY


def refused(said) -> str:
    """The words of a refusal, held to what every refusal must be."""
    assert said.status == 3, said
    assert not said.out
    assert said.err.strip()
    assert not UNSEEMLY.search(said.err), said.err
    assert max(map(len, said.err.splitlines())) < 400
    return said.err


# ---- values


VALUES = {
    "nose_loker=8kg": "Did you mean nose_locker?",
    "nothing_like_it=1": "The sheet has nothing called nothing_like_it.",
    "front_seat=98 mm": "front_seat is stated in mm, which is",
    "front_seat=98 kq": "There is no unit kq.",
    "front_seat=98": "Did you mean 98 kg?",
    "front_seat=-3 kg": "front_seat is less than nothing.",
    "front_seat=NaN": "front_seat does not begin with a figure that can be read.",
    "front_seat=heavy": "front_seat does not begin with a figure that can be read.",
    "front_seat=": "front_seat does not begin with a figure that can be read.",
    "front_seat=1e999999999 kg": "front_seat",
    "front_seat=98,5 kg": "Did you mean 98.5?",
    "front_seat=" + "9" * 500 + " kg": "longer than 40 characters",
    "engine=bosted": "Did you mean boosted?",
    "flight_date=2026-02-30": "There is no day 2026-02-30.",
    "flight_date=16.5.2026": "flight_date is not written as a date.",
    "main_tank=20 m2": "main_tank is stated in m2",
    "front_seat=\x1b[31m98 kg": "front_seat",
    "\x1b[2Jseat=98 kg": "The sheet has nothing called",
}


@pytest.mark.parametrize("value", VALUES, ids=lambda value: ascii(value)[:40])
def test_a_value_that_is_not_understood(burthen, corrin, value):
    assert VALUES[value] in refused(burthen("check", corrin, value))


def test_every_problem_is_told_at_once(burthen, corrin):
    told = refused(burthen("check", corrin, "front_seat=98 mm", "engine=bosted", "nose_loker=8kg"))
    assert told.count("Expected:") == 3


JSON = {
    b"": "is not JSON",
    b"{": "is not JSON",
    b'{"front_seat": "98 kg",}': "is not JSON",
    b"[1, 2]": "is not a row of names and values",
    b"98": "is not a row of names and values",
    b'{"front_seat": "98 kg", "front_seat": "80 kg"}': "front_seat is stated twice.",
    b'{"front_seat": null}': "front_seat has no value",
    b'{"front_seat": ["98 kg"]}': "front_seat holds a list",
    b'{"front_seat": {"kg": 98}}': "front_seat holds further names",
    b'{"front_seat": NaN}': "is no amount",
    b'{"front_seat": Infinity}': "is no amount",
    b'{"front_seat": 1e999999999}': "front_seat",
    b'{"front_seat": true}': "front_seat is an amount, not yes or no.",
    b'{"front_seat": -1}': "front_seat is less than nothing.",
    b"[" * 200_000: "nested too deeply",
    b'{"a":' * 100_000 + b"1" + b"}" * 100_000: "nested too deeply",
    b'{"front_seat": "98 kg\\u001b[31m"}': "front_seat",
    b"\xff\xfe\x00": "is not plain text in UTF-8",
    "{“front_seat”: “98 kg”}".encode(): "is not JSON",
    b'{"front_seat": "' + b"9" * 2_000_000 + b'"}': "longer than",
}


@pytest.mark.parametrize("text", JSON, ids=lambda text: ascii(text)[:40])
def test_a_loading_that_is_not_understood(burthen, corrin, text):
    assert JSON[text] in refused(burthen("check", corrin, "-", stdin=text))


@pytest.mark.parametrize("text", JSON, ids=lambda text: ascii(text)[:40])
def test_a_record_that_is_not_understood(burthen, corrin, tmp_path, text):
    record = tmp_path / "record.json"
    record.write_bytes(text)
    refused(burthen("check", corrin, "--airframe", record))


# ---- files


def missing(folder):
    return folder / "none"


def a_folder(folder):
    return folder


def not_text(folder):
    path = folder / "binary"
    path.write_bytes(bytes(range(256)) * 10)
    return path


def too_long(folder):
    path = folder / "long"
    with path.open("wb") as file:
        file.truncate(50_000_000)
    return path


def forbidden(folder):
    path = folder / "forbidden"
    path.write_text("{}")
    path.chmod(0)
    return path


FILES = {
    missing: "There is no file",
    a_folder: "is a folder",
    not_text: "is not plain text in UTF-8",
    too_long: "is longer than 8 MB",
    forbidden: "may not be read by you",
}

COMMANDS = ["check", "read", "tidy", "resolve", "outline", "form"]


@pytest.mark.parametrize("kind", FILES, ids=lambda kind: kind.__name__)
@pytest.mark.parametrize("command", COMMANDS)
def test_a_sheet_that_cannot_be_opened(burthen, tmp_path, command, kind):
    path = kind(tmp_path)
    if kind is forbidden and os.access(path, os.R_OK):
        pytest.skip("whoever runs this may read everything")
    assert FILES[kind] in burthen(command, path).err
    assert burthen(command, path).status == 3


@pytest.mark.parametrize("kind", FILES, ids=lambda kind: kind.__name__)
def test_a_loading_that_cannot_be_opened(burthen, corrin, tmp_path, kind):
    path = kind(tmp_path)
    if kind is forbidden and os.access(path, os.R_OK):
        pytest.skip("whoever runs this may read everything")
    assert FILES[kind] in refused(burthen("check", corrin, path))
    assert FILES[kind] in refused(burthen("check", corrin, "--airframe", path))


SHEETS = {
    "empty": "",
    "nothing but a remark": "-- nothing\n",
    "another language": '{"front_seat": "98 kg"}',
    "deep brackets": 'sheet a revision 1 "A"\ndocument fm "M"\nlimit x "X" ' + "(" * 5000 + "1" + ")" * 5000,
    "a long line": "sheet " + "x" * 100_000,
    "control letters": 'sheet a revision 1 "\x1b[31mA\x07"\n',
    "null letters": "\x00" * 100,
}


@pytest.mark.parametrize("name", SHEETS)
@pytest.mark.parametrize("command", ["check", "outline", "form", "resolve"])
def test_a_sheet_that_does_not_read_is_3_and_is_told_like_reading_it(burthen, tmp_path, command, name):
    sheet = tmp_path / "sheet.limits"
    sheet.write_text(SHEETS[name], encoding="utf-8")
    said = burthen(command, sheet)
    assert said.status == 3 and not said.out and said.err.strip()
    assert not UNSEEMLY.search(said.err)


@pytest.mark.parametrize("name", SHEETS)
def test_reading_it_says_that_it_cannot_be_published(burthen, tmp_path, name):
    sheet = tmp_path / "sheet.limits"
    sheet.write_text(SHEETS[name], encoding="utf-8")
    for manner in ((), ("--brief",), ("--json",)):
        said = burthen("read", sheet, *manner)
        assert said.status == 1
        assert not UNSEEMLY.search(said.told)


def test_a_file_that_may_not_be_written_is_left_as_it_is(burthen, tmp_path):
    sheet = tmp_path / "small.limits"
    sheet.write_text('sheet   small revision 1 "Small"\n', encoding="utf-8")
    tmp_path.chmod(stat.S_IRUSR | stat.S_IXUSR)
    try:
        if os.access(tmp_path, os.W_OK):
            pytest.skip("whoever runs this may write everywhere")
        said = burthen("tidy", sheet)
        assert said.status == 3 and "cannot be written" in said.err
    finally:
        tmp_path.chmod(stat.S_IRWXU)
    assert sheet.read_text(encoding="utf-8").startswith("sheet   small")


# ---- days and usage


@pytest.mark.parametrize("command", ["resolve", "outline", "form"])
@pytest.mark.parametrize("day", ["2026-02-30", "tomorrow", "16.5.2026", ""])
def test_a_day_that_is_none(burthen, corrin, command, day):
    assert "--on" in refused(burthen(command, corrin, "--on", day))


@pytest.mark.parametrize(
    "words",
    [
        ("chek",),
        ("check",),
        ("check", "--jsn"),
        ("read",),
        ("why",),
        ("check", "sheet", "--why"),
        ("demo", "extra"),
        ("--nothing",),
    ],
    ids=" ".join,
)
def test_what_is_typed_wrongly_is_3_since_1_and_2_are_answers(burthen, words):
    assert "burthen --help" in refused(burthen(*words))


def test_asking_for_help_is_no_mistake(burthen):
    assert burthen("--help").status == 0
    assert burthen("check", "--help").status == 0
