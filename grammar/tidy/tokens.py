"""The words, figures and signs of a statement as typed, each with the comments that belong to it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from grammar.tree import Comment

_PATTERN: Final = re.compile(r'"[^"\n]*"|\d{4}-\d{2}-\d{2}(?!\d)|\d+(?:\.\d+)?|[a-z][a-z0-9_]*|[-+*/(),|=<>]')


@dataclass(frozen=True, slots=True)
class Token:
    """One word, figure or sign; ``before`` are comments on lines of their own, ``after`` one behind it."""

    text: str
    start: int
    before: tuple[str, ...] = ()
    after: str | None = None

    @property
    def end(self) -> int:
        """The offset behind its last character."""
        return self.start + len(self.text)


def tokens(
    text: str, start: int, end: int, units: Mapping[int, int], comments: Mapping[int, Comment]
) -> tuple[Token, ...] | None:
    """The tokens between two offsets with their comments, or None where something stands there that is none.

    ``units`` says where the unit words begin and end: only the tree knows kg/L from a division. ``comments``
    are by where they begin.
    """
    bare: list[Token] = []
    at = start
    while at < end:
        if text[at].isspace():
            at += 1
        elif at in comments:
            at = comments[at].span.end
        else:
            token = _token(text, at, units)
            if token is None or token.end > end:
                return None
            bare.append(token)
            at = token.end
    return tuple(_with_comments(text, bare, comments.values()))


def _token(text: str, at: int, units: Mapping[int, int]) -> Token | None:
    if at in units:
        return Token(text[at : units[at]], at)
    found = _PATTERN.match(text, at)
    return Token(found.group(), at) if found else None


def _with_comments(text: str, bare: list[Token], comments: Iterable[Comment]) -> Iterator[Token]:
    """Each token with its comments: one on the same line behind it, those on the lines before it."""
    left = sorted((each for each in comments if bare and each.span.start > bare[0].start), key=_place)
    for token, following in zip(bare, [*bare[1:], None], strict=True):
        before: list[str] = []
        while left and left[0].span.start < token.start:
            before.append(left.pop(0).text.rstrip())
        after = None
        if left and _stands_behind(text, token, left[0], following):
            after = left.pop(0).text.rstrip()
        yield Token(token.text, token.start, tuple(before), after)


def _place(comment: Comment) -> int:
    return comment.span.start


def _stands_behind(text: str, token: Token, comment: Comment, following: Token | None) -> bool:
    start = comment.span.start
    is_before_next = following is None or start < following.start
    return is_before_next and "\n" not in text[token.end : start]
