"""The commands as they are typed: in this process, and for what only a process can show in one of its own."""

from __future__ import annotations

import io
import os
import re
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from engine.command_line.application import main

PROGRAM = Path(sys.executable).with_name("burthen")


@dataclass(frozen=True)
class Said:
    """What a command did: its exit status, and what it printed on either stream."""

    status: int
    out: str
    err: str

    @property
    def told(self) -> str:
        """Both streams."""
        return self.out + self.err


Burthen = Callable[..., Said]

UNSEEMLY = re.compile(r"Traceback|Error\b|Exception|\bNone\b|<class|object at 0x|\x1b")
"""What nobody should ever be shown."""


@pytest.fixture
def burthen(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Burthen:
    """Run a command in this process."""

    def run(*words: object, stdin: bytes = b"") -> Said:
        monkeypatch.setattr(sys, "argv", ["burthen", *map(str, words)])
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(stdin)))
        capsys.readouterr()
        with pytest.raises(SystemExit) as ended:
            main()
        streams = capsys.readouterr()
        return Said(int(ended.value.code or 0), streams.out, streams.err)

    return run


@pytest.fixture
def process() -> Burthen:
    """Run a command in a process of its own."""

    def run(*words: object, stdin: bytes = b"", **environment: str) -> Said:
        done = subprocess.run(
            [PROGRAM, *map(str, words)],
            input=stdin,
            capture_output=True,
            env=os.environ | {"PYTHONUTF8": "1"} | environment,
            timeout=60,
            check=False,
        )
        return Said(done.returncode, done.stdout.decode(), done.stderr.decode())

    return run


@pytest.fixture(scope="session")
def group(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demonstration as files."""
    folder = tmp_path_factory.mktemp("quillmere")
    subprocess.run([PROGRAM, "demo", "--into", folder], check=True, capture_output=True, timeout=60)
    return folder


@pytest.fixture
def corrin(group: Path) -> Path:
    """The sheet of the Corrin T2."""
    return group / "corrin_t2.limits"


@pytest.fixture
def loaded(group: Path) -> tuple[object, ...]:
    """A booking of the Corrin T2 with its record, just within its limits."""
    return (group / "bookings" / "Q-102.json", "--airframe", group / "records" / "Q-102.json")
