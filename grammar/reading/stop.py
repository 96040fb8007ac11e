"""The place where a statement stopped making sense, with what the search for its cause needs to know."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from lark import Token

from grammar.diagnostics.problem import Elsewhere, Mend, Problem
from grammar.reading.parsing import Halt
from grammar.reading.statements import Passage
from grammar.reading.wording import VALUE, listed
from grammar.text import SourceText, Span

_WORD: Final = re.compile(r"[^\W\d]\w*|\d[\d.]*|\S", re.DOTALL)

_NAME: Final = re.compile(r"[a-z][a-z0-9_]*")

STATEMENT_WORDS: Final = (
    "sheet", "supplement", "order", "permit", "document", "datum", "chord", "fact", "given", "configuration",
    "load", "fuel", "burn", "declared", "let", "table", "envelope", "limit", "caution", "example", "amend",
    "loosen", "withdraw",
)  # fmt: skip
"""The keywords that begin a statement."""

CHANGES: Final = frozenset({"amend", "loosen", "withdraw"})
"""The keywords behind which stands the kind of statement that is changed."""

RELATIONS: Final = frozenset({"AT_MOST", "AT_LEAST", "BETWEEN", "LESSTHAN", "MORETHAN", "IS"})
CLAUSES: Final = frozenset(
    {
        "SOURCE", "NOTE", "WHEN", "ARM", "LATERAL", "DENSITY", "FLOOR", "ASSUMED", "EFFECTIVE", "UNTIL",
        "REPLACES", "AT", "THROUGHOUT", "EXPECT", "APPLIES", "AFTER", "ISSUED", "AIRFRAME", "USE",
    }
)  # fmt: skip
"""The words that begin a clause."""


@dataclass(frozen=True)
class Stop:
    """A place where reading a statement stopped. Offsets are those of the whole file."""

    source: SourceText
    passage: Passage
    read: tuple[Token, ...]
    at: int
    kind: str
    word: str
    wanted: frozenset[str]

    @classmethod
    def of(cls, halt: Halt, passage: Passage, source: SourceText) -> Stop:
        """The stop, with the whole word that stands there."""
        at = passage.start + halt.at
        if at >= passage.end or _only_blank(source.text, at, passage.end):
            return cls(source, passage, halt.read, passage.end, "$END", "", halt.wanted)
        found = _WORD.match(source.text, at, passage.end)
        word = found[0] if found else source.text[at]
        token = "" if halt.found is None else str(halt.found)
        kind = "" if halt.found is None else halt.found.type
        if kind == "UNIT" and _NAME.fullmatch(token):
            kind = "NAME"  # both look alike where neither is wanted
        return cls(source, passage, halt.read, at, kind, max(word, token, key=len), halt.wanted)

    @property
    def text(self) -> str:
        """The text of the file."""
        return self.source.text

    @property
    def statement(self) -> str:
        """The keyword of what is stated here; of `amend limit` and `loosen limit` it is `limit`."""
        changes = self.read[:1] and str(self.read[0]) in {"amend", "loosen"}
        return str(self.read[1]) if changes and len(self.read) > 1 else self.passage.keyword

    @property
    def last(self) -> str:
        """The kind of the last word before the stop, or nothing."""
        return self.read[-1].type if self.read else ""

    @property
    def after_last(self) -> int:
        """The offset at which the last word before the stop ends."""
        return self.offset(self.read[-1]) + len(self.read[-1]) if self.read else self.passage.start

    @property
    def ended(self) -> bool:
        """Whether the statement simply ends here."""
        return self.kind == "$END"

    @property
    def first_on_line(self) -> bool:
        """Whether the word here is the first of its line."""
        return "\n" in self.text[self.after_last : self.at]

    @property
    def gap(self) -> bool:
        """Whether something is missing at the end of the line before."""
        return bool(self.read) and (self.ended or self.first_on_line)

    @property
    def wants_value(self) -> bool:
        """Whether a value could stand here."""
        return self.wanted >= VALUE

    @property
    def wants_name(self) -> bool:
        """Whether a name of the officer's own could stand here, and no other value."""
        return "NAME" in self.wanted and not self.wants_value

    @property
    def wanted_words(self) -> str:
        """Everything that could stand here, in an officer's words."""
        return listed(self.wanted)

    @property
    def here(self) -> Span:
        """The exact word at the stop, or the end of the line before where something is missing there."""
        if self.ended:
            return self.line_end
        return self.source.span(self.at, self.at + len(self.word))

    @property
    def line_end(self) -> Span:
        """The place right behind the last word before the stop."""
        return self.source.span(self.after_last, self.after_last)

    def offset(self, token: Token) -> int:
        """Where in the file a word of the statement begins."""
        return self.passage.start + (token.start_pos or 0)

    def span_of(self, token: Token) -> Span:
        """The stretch of the file that a word of the statement takes."""
        return self.source.span(self.offset(token), self.offset(token) + len(token))

    def problem(
        self,
        code: str,
        span: Span | None = None,
        *,
        mend: Mend | None = None,
        suggestion: str | None = None,
        elsewhere: tuple[Elsewhere, ...] = (),
        **facts: str,
    ) -> Problem:
        """A problem at the stop, or at ``span``, with the facts that every message may name."""
        common = {
            "found": self.word,
            "after": str(self.read[-1]) if self.read else "",
            "wanted": self.wanted_words,
            "statement": self.statement,
        }
        return Problem(code, span or self.here, common | facts, elsewhere, suggestion, mend)


def _only_blank(text: str, start: int, end: int) -> bool:
    """Whether nothing but blanks and comments is left."""
    return not re.sub(r"--[^\n]*", "", text[start:end]).strip()
