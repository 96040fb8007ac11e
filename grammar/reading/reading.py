"""One file's text -> its syntax tree and the problems of how it is written."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.diagnostics.problem import Problem
from grammar.reading.building import build
from grammar.reading.mistakes import mistake
from grammar.reading.parsing import Halt, parse
from grammar.reading.statements import Passage, lay_out
from grammar.text import SourceText
from grammar.tree import Comment, File, Statement, Unread


@dataclass(frozen=True)
class Reading:
    """What reading a file gave: its text, the tree of what could be read, and the problems."""

    source: SourceText
    file: File
    problems: tuple[Problem, ...]


def read_file(text: str, name: str) -> Reading:
    """Read the text of the file called ``name``; a mistaken statement is reported and the others are read."""
    source = SourceText(name, text)
    layout = lay_out(text)
    statements: list[Statement] = []
    unread: list[Unread] = []
    problems: list[Problem] = []
    for passage in layout.passages:
        outcome = parse(text[passage.start : passage.end])
        if isinstance(outcome, Halt):
            problems.append(mistake(outcome, passage, source))
            unread.append(_unread(passage, source))
        else:
            statements.append(build(outcome, source, passage.start))
    comments = tuple(Comment(text[a:b], source.span(a, b)) for a, b in layout.comments)
    return Reading(source, File(tuple(statements), tuple(unread), comments), tuple(problems))


def _unread(passage: Passage, source: SourceText) -> Unread:
    return Unread(passage.keyword, None, source.span(passage.start, passage.end))
