"""``burthen why``: the page of a problem."""

from __future__ import annotations

from engine.command_line.files import NOT_UNDERSTOOD, complain
from grammar.diagnostics.pages import find_page, page_codes
from grammar.diagnostics.suggestions import nearest


def run(code: str) -> int:
    """Print the page of a code."""
    from rich.console import Console
    from rich.markdown import Markdown

    page = find_page(code)
    if page is None:
        near = nearest(code, page_codes())
        hint = f" Did you mean {near}?" if near else " The code stands before each problem that reading reports."
        complain(f"There is no problem with the code {code}.{hint}")
        return NOT_UNDERSTOOD
    console = Console()
    if console.is_terminal:
        console.print(Markdown(page.markdown))
    else:
        print(page.markdown)
    return 0
