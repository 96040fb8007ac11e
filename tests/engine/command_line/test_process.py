"""What only a process of its own can show: start-up, closed pipes, colour, and the program's own faults."""

from __future__ import annotations

import subprocess
import sys

import pytest

from tests.engine.command_line.conftest import PROGRAM

SLOW = ("lark", "pydantic", "rich.console", "engine.evaluation", "grammar.reading")
"""What takes long to import, and is imported by the command that needs it."""


def test_the_application_imports_nothing_slow():
    script = (
        f"import sys, engine.command_line.application\nprint(*[name for name in {SLOW} if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True, timeout=60)
    assert done.stdout.split() == []


@pytest.mark.parametrize("lines", [0, 1, 3])
@pytest.mark.parametrize("words", [("demo",), ("check", "SHEET", "front_seat=80kg"), ("form", "SHEET")])
def test_a_reader_who_has_had_enough_hears_no_noise(corrin, words, lines):
    command = [PROGRAM, *(str(corrin) if word == "SHEET" else word for word in words)]
    writer = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    assert writer.stdout is not None and writer.stderr is not None
    for _ in range(lines):
        writer.stdout.readline()
    writer.stdout.close()
    assert writer.stderr.read() == b""
    writer.stderr.close()
    writer.wait(timeout=60)


@pytest.mark.parametrize("colour", [{}, {"COLUMNS": "60"}, {"TERM": "xterm-256color"}])
def test_away_from_a_terminal_there_is_neither_colour_nor_folding(process, corrin, loaded, colour):
    said = process("check", corrin, *loaded, **colour)
    assert "\x1b" not in said.told
    assert said == process("check", corrin, *loaded)
    demo = process("demo", **colour)
    assert "\x1b" not in demo.told and "…" not in demo.out


def test_a_label_never_acts_on_a_terminal(process, tmp_path):
    sheet = tmp_path / "sheet.limits"
    sheet.write_text('sheet a revision 1 "A \x1b]0;x\x07 \u202e B"\ndocument fm "M"\n', encoding="utf-8")
    said = process("read", sheet)
    assert said.status == 1
    assert not set(said.told) & set("\x1b\x07\u202e")


BREAK = "import engine.command_line.why as w; w.run = lambda code: 1 / 0\n"
RUN = "import sys; from engine.command_line.application import main; sys.argv = ['burthen', 'why', '403']; main()"


def scripted(script: str) -> subprocess.CompletedProcess[str]:
    words = [sys.executable, "-c", script]
    return subprocess.run(words, capture_output=True, text=True, check=False, timeout=60)


def test_a_fault_of_the_program_is_70_and_clears_nothing():
    done = scripted(BREAK + RUN)
    assert done.returncode == 70
    assert "fault of the program" in done.stderr and "Nothing has been cleared" in done.stderr
    assert "Traceback" not in done.stderr and not done.stdout


def test_its_developers_may_ask_for_the_inner_workings():
    script = "import os; os.environ['BURTHEN_TRACEBACK'] = '1'\n" + BREAK + RUN
    done = scripted(script)
    assert "Traceback" in done.stderr and done.returncode != 0
