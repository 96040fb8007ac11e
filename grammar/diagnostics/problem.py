"""A problem found in a sheet: a value that carries facts. The words are made when it is shown."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from grammar.text import Span


@dataclass(frozen=True, slots=True)
class Mend:
    """A correction that is certain: the text at ``span`` replaced by ``replacement``."""

    span: Span
    replacement: str


@dataclass(frozen=True, slots=True)
class Elsewhere:
    """Another place involved, with what it is there for, such as "declared first here"."""

    span: Span
    what: str


@dataclass(frozen=True, slots=True)
class Problem:
    """What is wrong, where, and the facts that its words need.

    ``code`` names an entry of the catalogue, whose templates are filled from ``facts``. ``suggestion`` is
    what was probably meant; it is offered as a question, unlike a ``mend``, which is certain.
    """

    code: str
    span: Span
    facts: Mapping[str, str] = field(default_factory=dict)
    elsewhere: tuple[Elsewhere, ...] = ()
    suggestion: str | None = None
    mend: Mend | None = None
