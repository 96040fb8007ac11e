"""``burthen read``: everything that is wrong with sheets, and the corrections that are certain."""

from __future__ import annotations

from enum import Enum
from pathlib import Path

from engine.command_line.files import NOT_UNDERSTOOD, CannotRead, complain, read_text, write_text
from engine.evaluation.proving import read_and_prove
from engine.resolution.reading import Together, read_together
from grammar.diagnostics.listing import as_json
from grammar.diagnostics.mending import mended, mends_of
from grammar.diagnostics.rendering import one_line, plain, report
from grammar.pipeline import is_error

CANNOT_BE_PUBLISHED = 1


class Manner(Enum):
    """How problems are shown."""

    FULL = "full"
    BRIEF = "brief"
    JSON = "json"


def run(files: tuple[Path, ...], manner: Manner, *, mend: bool) -> int:
    """Read the files together and print what was found; the exit status says whether all could be published."""
    texts: dict[str, str] = {}
    status = 0
    for path in files:
        try:
            texts[str(path)] = _mended(path) if mend and str(path) != "-" else read_text(path)
        except CannotRead as why:
            complain(str(why))
            status = NOT_UNDERSTOOD
    together = read_together(texts)
    _print(together, manner)
    if status == 0 and any(is_error(problem) for found in together.problems.values() for problem in found):
        status = CANNOT_BE_PUBLISHED
    return status


def _mended(path: Path) -> str:
    """The text of a file after what is certain has been corrected in it."""
    text = read_text(path)
    outcome = read_and_prove(text, str(path))
    count = len(mends_of(outcome.source, outcome.problems))
    if count == 0:
        return text
    text = mended(outcome.source, outcome.problems)
    write_text(path, text)
    complain(f"{path}: {count} {'correction' if count == 1 else 'corrections'} written.")
    return text


def _print(together: Together, manner: Manner) -> None:
    match manner:
        case Manner.JSON:
            every = [problem for found in together.problems.values() for problem in found]
            print(as_json(every, together.sources))
        case Manner.BRIEF:
            for found in together.problems.values():
                for problem in found:
                    print(one_line(problem))
        case Manner.FULL:
            reports = [plain(report(file, found, together.sources)) for file, found in together.problems.items()]
            print("\n".join(reports), end="")
