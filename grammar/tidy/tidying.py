"""A sheet laid out in the one canonical way: nothing between its words changes but spaces and line breaks.

A statement that could not be read stays exactly as it is.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from grammar.diagnostics.lettering import columns
from grammar.reading import Reading
from grammar.reading.sizes import LINE as LONGEST_LINE
from grammar.text import SourceText
from grammar.tidy.anatomy import Anatomy, anatomy
from grammar.tidy.grid import grid
from grammar.tidy.lines import Line, lines
from grammar.tidy.printing import STEP, WIDTH, printed, spaced
from grammar.tidy.tokens import tokens
from grammar.tree import Comment, File, Statement

BYTE_ORDER_MARK: Final = "\ufeff"
"""What some editors put at the very start of a file; it stays there."""

FURTHEST: Final = 60
"""A line that reaches beyond this column does not move the sources of the others outward."""


@dataclass(frozen=True, slots=True)
class _Kept:
    """A stretch of text that stays as it is."""

    text: str


@dataclass(frozen=True, slots=True)
class _Laid:
    """A statement on its lines."""

    lines: tuple[Line, ...]
    found: Anatomy


@dataclass(frozen=True, slots=True)
class _Block:
    """A statement, a comment or a stretch to keep, with its place in the text."""

    start: int
    end: int
    content: _Kept | _Laid


def tidy(reading: Reading) -> str:
    """The text of a file that was read, in its canonical layout."""
    return tidied(reading.source, reading.file)


def tidied(source: SourceText, file: File) -> str:
    """The text of a sheet in its canonical layout."""
    blocks = _blocks(source, file)
    column = _source_column(blocks)
    made: list[str] = []
    for number, block in enumerate(blocks):
        if number and _is_blank_between(source.text, blocks[number - 1], block):
            made.append("")
        made.extend(_text(source, block, column))
    text = _mark(source.text, made) + "".join(line + "\n" for line in made)
    return text.replace("\n", "\r\n") if _has_carriage_returns(source.text) else text


def _mark(text: str, made: Sequence[str]) -> str:
    """What stands before the first line: the mark of the file's start, or what keeps a stray one from being it."""
    if text.startswith(BYTE_ORDER_MARK):
        return BYTE_ORDER_MARK
    return "\n" if made and made[0].startswith(BYTE_ORDER_MARK) else ""


# ---- what the file is made of


class _Comments:
    """The comments of a file, by where they begin."""

    def __init__(self, comments: Iterable[Comment]) -> None:
        self._all = sorted(comments, key=lambda each: each.span.start)
        self._starts = [each.span.start for each in self._all]

    def between(self, start: int, end: int) -> list[Comment]:
        """Those that begin from offset ``start`` on and before ``end``."""
        return self._all[bisect_left(self._starts, start) : bisect_left(self._starts, end)]


def _blocks(source: SourceText, file: File) -> list[_Block]:
    """Every statement, every comment between statements and every other scrap of text, in order."""
    comments = _Comments(file.comments)
    found = [_statement(source, statement, comments) for statement in file.statements]
    found += [_kept(source, unread.span.start, unread.span.end) for unread in file.unread]
    found = _without_overlaps(source, found)
    edges = [0, *(edge for block in found for edge in (block.start, block.end)), len(source.text)]
    for start, end in zip(edges[::2], edges[1::2], strict=True):
        found += [_comment(each, is_first=start == 0) for each in comments.between(start, end)]
    return _without_overlaps(source, [*found, *_scraps(source, sorted(found, key=_start))])


def _statement(source: SourceText, statement: Statement, comments: _Comments) -> _Block:
    start, end = statement.span.start, statement.span.end
    end = max((each.span.end for each in comments.between(end, _line_end(source.text, end))), default=end)
    found = anatomy(statement, source.text)
    own = {each.span.start: each for each in comments.between(start, end)}
    words = tokens(source.text, start, end, found.units, own)
    if not words:
        return _kept(source, start, statement.span.end)
    return _Block(start, end, _Laid(lines(statement, words, found), found))


def _kept(source: SourceText, start: int, end: int) -> _Block:
    """Whole lines that stay as they are."""
    first = max(source.text.rfind("\n", 0, start) + 1, _length_of_mark(source.text))
    last = _line_end(source.text, max(start, end))
    text = source.text[first:last].replace("\r\n", "\n").removesuffix("\r")
    return _Block(first, last, _Kept(text))


def _comment(comment: Comment, is_first: bool) -> _Block:
    """A comment on a line of its own. Indented behind a statement it stays indented, as a part of it."""
    indent = 0 if is_first or comment.span.column == 1 else STEP
    return _Block(comment.span.start, comment.span.end, _Kept(" " * indent + comment.text.rstrip()))


def _line_end(text: str, at: int) -> int:
    end = text.find("\n", at)
    return len(text) if end < 0 else end


def _without_overlaps(source: SourceText, blocks: Iterable[_Block]) -> list[_Block]:
    """The blocks in order; those that share text are kept together, as they are."""
    apart: list[_Block] = []
    for block in sorted(blocks, key=_start):
        joined = block
        while apart and joined.start < apart[-1].end:
            before = apart.pop()
            joined = _kept(source, before.start, max(before.end, joined.end))
        apart.append(joined)
    return apart


def _scraps(source: SourceText, blocks: Sequence[_Block]) -> list[_Block]:
    """Whatever text is in none of the blocks: nothing that was typed is dropped."""
    starts = [*(block.start for block in blocks), len(source.text)]
    ends = [_length_of_mark(source.text), *(block.end for block in blocks)]
    made: list[_Block] = []
    for start, end in zip(ends, starts, strict=True):
        between = source.text[start:end]
        if between.strip():
            first = start + len(between) - len(between.lstrip())
            made.append(_kept(source, first, start + len(between.rstrip())))
    return made


def _length_of_mark(text: str) -> int:
    return len(BYTE_ORDER_MARK) if text.startswith(BYTE_ORDER_MARK) else 0


def _start(block: _Block) -> int:
    return block.start


# ---- how it is laid out


def _is_blank_between(text: str, before: _Block, after: _Block) -> bool:
    return text[before.end : after.start].count("\n") > 1


def _source_column(blocks: Sequence[_Block]) -> int:
    """The column at which the sources begin that stand at the ends of lines."""
    widths = [
        columns(_carrier(line, number, block.content.found))
        for block in blocks
        if isinstance(block.content, _Laid)
        for number, line in enumerate(block.content.lines)
        if line.is_aligned
    ]
    return max((width for width in widths if width <= FURTHEST), default=0) + STEP


def _carrier(line: Line, number: int, found: Anatomy) -> str:
    """The last line of the words that a source stands behind."""
    return printed(line.words, _indent(number), found)[-1]


def _indent(number: int) -> int:
    return STEP if number else 0


def _text(source: SourceText, block: _Block, column: int) -> list[str]:
    """The lines of a block. One that would make a line too long to be read again is left as it is."""
    if isinstance(block.content, _Kept):
        return [block.content.text]
    made = _laid_out(block.content, column)
    is_readable = all(len(line) <= LONGEST_LINE for line in made)
    return made if is_readable else _text(source, _kept(source, block.start, block.end), column)


def _laid_out(content: _Laid, column: int) -> list[str]:
    rows = iter(_rows(content))
    made: list[str] = []
    for number, line in enumerate(content.lines):
        if line.is_row:
            made.extend(_row(line, next(rows), content.found))
        else:
            made.extend(_line(line, number, column, content.found))
    return made


def _rows(content: _Laid) -> list[str]:
    return grid([line.words for line in content.lines if line.is_row], content.found)


def _row(line: Line, laid: str, found: Anatomy) -> list[str]:
    """A printed row with its comments; one with a comment between its cells is not set in columns."""
    first, *_, last = line.words
    if any(word.before for word in line.words[1:]) or any(word.after for word in line.words[:-1]):
        return printed(line.words, STEP, found)
    comment = "" if last.after is None else "  " + last.after
    return [*(" " * STEP + each for each in first.before), " " * STEP + laid + comment]


def _line(line: Line, number: int, column: int, found: Anatomy) -> list[str]:
    made = printed(line.words, _indent(number), found)
    if not line.source:
        return made
    source = spaced(line.source, found)
    if not line.is_aligned:
        together = f"{made[-1]} {source}"
    else:
        room = column - columns(made[-1])
        together = made[-1] + " " * room + source
        if room < STEP or columns(together) > WIDTH:
            together = made[-1] + " " * STEP + source
    if columns(together) > WIDTH:
        return [*made, *printed(line.source, STEP, found)]
    comment = line.source[-1].after
    return [*made[:-1], together if comment is None else f"{together}  {comment}"]


def _has_carriage_returns(text: str) -> bool:
    """Whether the first line ends in the manner of the file's carriage return and line feed."""
    end = text.find("\n")
    return end > 0 and text[end - 1] == "\r"
