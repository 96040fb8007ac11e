"""The program ``burthen``: its commands, and what happens when something goes wrong.

Each command imports what it needs when it runs, so that ``burthen --help`` answers at once.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import Annotated, Final

import typer

from engine.command_line.files import NOT_UNDERSTOOD, complain

TRACEBACK_VARIABLE: Final = "BURTHEN_TRACEBACK"
"""Set to show the inner workings when the program itself fails (for its developers)."""

FAULT: Final = 70
"""The exit status when the program itself fails."""

application = typer.Typer(
    name="burthen",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    help=(
        "Checks the loading of an aircraft against a limit sheet, and explains the answer.\n\n"
        "Begin with: burthen demo\n\n"
        "An aid only: the approved flight manual, the placards, the local rules and the pilot in command decide."
    ),
)


SheetFile = Annotated[Path, typer.Argument(help="The limit sheet, a .limits file.")]
AIRFRAME = typer.Option(help="A JSON file with the airframe's own weighing and facts.")
LAYERS = typer.Option("--with", metavar="FILE", help="A supplement, order or permit; repeat for more.")


@application.command()
def demo(
    into: Annotated[
        Path | None,
        typer.Option(metavar="FOLDER", help="Write the sheets, airframes and bookings as files to try on."),
    ] = None,
) -> None:
    """Check the bookings of an invented flying group: nothing to set up, and a good place to begin."""
    from engine.command_line.demo import run

    raise typer.Exit(run(into))


@application.command()
def check(
    sheet: SheetFile,
    loading: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="[LOADING] [NAME=VALUE]...",
            help="A JSON file with what is loaded (- reads it from standard input), and single values such as "
            "front_seat=98kg, which count before those of the file.",
        ),
    ] = None,
    airframe: Annotated[Path | None, AIRFRAME] = None,
    layers: Annotated[list[Path] | None, LAYERS] = None,
    why: Annotated[
        str | None, typer.Option(metavar="LIMIT", help="Explain this limit, each value down to its paragraph.")
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="The whole explanation as JSON.")] = False,
) -> None:
    """Check a load: which limits hold, which do not, by how much and why.

    Exit status: 0 within, 1 outside, 2 cannot be told, 3 what was given is not understood.
    """
    from engine.command_line.asking import Files
    from engine.command_line.check import Question, run

    files = Files(sheet, tuple(layers or ()))
    raise typer.Exit(run(Question(files, tuple(loading or ()), airframe, why, as_json)))


@application.command()
def resolve(
    sheet: SheetFile,
    stated: Annotated[
        list[str] | None,
        typer.Argument(metavar="[NAME=VALUE]...", help="Facts of the airframe, such as serial=12."),
    ] = None,
    airframe: Annotated[Path | None, AIRFRAME] = None,
    layers: Annotated[list[Path] | None, LAYERS] = None,
    on: Annotated[str | None, typer.Option(metavar="DAY", help="The day, such as 2026-05-03.")] = None,
) -> None:
    """Print the one sheet that holds for an airframe on a day, each statement with where it comes from."""
    from engine.command_line.asking import Files
    from engine.command_line.resolve import run

    raise typer.Exit(run(Files(sheet, tuple(layers or ()), on), tuple(stated or ()), airframe))


@application.command()
def outline(
    sheet: SheetFile,
    layers: Annotated[list[Path] | None, LAYERS] = None,
    airframe: Annotated[Path | None, AIRFRAME] = None,
    on: Annotated[str | None, typer.Option(metavar="DAY", help="The day, such as 2026-05-03.")] = None,
) -> None:
    """Print every load, limit, table and source on one page, to be held beside the manual."""
    from engine.command_line.asking import Files
    from engine.command_line.outline import run

    raise typer.Exit(run(Files(sheet, tuple(layers or ()), on), airframe))


@application.command()
def form(
    sheet: SheetFile,
    layers: Annotated[list[Path] | None, LAYERS] = None,
    airframe: Annotated[Path | None, AIRFRAME] = None,
    on: Annotated[str | None, typer.Option(metavar="DAY", help="The day, such as 2026-05-03.")] = None,
) -> None:
    """Print the form of a loading as a JSON Schema, from which a booking form can be made.

    What the airframe's record states is left out of it.
    """
    from engine.command_line.asking import Files
    from engine.command_line.form import run

    raise typer.Exit(run(Files(sheet, tuple(layers or ()), on), airframe))


@application.command()
def read(
    files: Annotated[list[Path], typer.Argument(help="Limit sheets, .limits files.")],
    brief: Annotated[bool, typer.Option("--brief", help="One line for each problem.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="The problems as JSON.")] = False,
    mend: Annotated[
        bool, typer.Option("--mend", help="Write the corrections that are certain into the files.")
    ] = False,
) -> None:
    """Read limit sheets and report everything that is wrong with them, worked examples included.

    Exit status: 0 when every sheet could be published, 1 when one could not, 3 when a file cannot be opened.
    """
    from engine.command_line.read import Manner, run

    manner = Manner.JSON if as_json else Manner.BRIEF if brief else Manner.FULL
    raise typer.Exit(run(tuple(files), manner, mend=mend))


@application.command()
def tidy(
    files: Annotated[list[Path], typer.Argument(help="Limit sheets, .limits files.")],
    to_check: Annotated[
        bool, typer.Option("--check", help="Change nothing; exit status 1 when a file is not tidy.")
    ] = False,
) -> None:
    """Lay limit sheets out neatly. The meaning and every comment stay as they are."""
    from engine.command_line.tidy import run

    raise typer.Exit(run(tuple(files), only_check=to_check))


@application.command()
def why(
    code: Annotated[str, typer.Argument(help="The number of a problem, such as 403.")],
) -> None:
    """Explain a problem that reading reported: what it says, why it matters, an example, the remedy."""
    from engine.command_line.why import run

    raise typer.Exit(run(code))


def main() -> None:
    """Run the program; nobody is ever shown its inner workings unless they ask."""
    try:
        sys.exit(application(standalone_mode=False) or 0)
    except typer.TyperException as misused:
        complain(f"{misused} See: burthen --help")
        sys.exit(NOT_UNDERSTOOD)
    except typer.Abort:
        sys.exit(NOT_UNDERSTOOD)
    except BrokenPipeError:
        # Whoever was reading has had enough; there is nobody left to tell.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(1)
    except Exception as fault:
        if os.environ.get(TRACEBACK_VARIABLE):
            raise
        complain(
            f"Burthen itself has failed ({type(fault).__name__}: {fault}). This is a fault of the program and not "
            f"of what you gave it. Nothing has been cleared. Set {TRACEBACK_VARIABLE}=1 and run it again to see "
            "where, and tell the developers."
        )
        sys.exit(FAULT)
