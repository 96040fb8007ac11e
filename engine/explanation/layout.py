"""An answer laid out in lines, each with its part to play; how a line looks is left to whoever prints it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum, unique
from typing import Final

from engine.evaluation.result import CheckResult, LimitResult
from engine.explanation.assumptions import assumptions
from engine.explanation.caution import CAUTION
from engine.explanation.layering import layer_in_words, permit_in_words, permits
from engine.explanation.sentences import Sentences, sentences
from engine.explanation.words import clean
from grammar.sheet import Header, Sheet, Verdict, Weight


@unique
class Tone(Enum):
    """What a line is: colour may follow it, the meaning is in the words."""

    PLAIN = "plain"
    HEADING = "heading"
    GOOD = "good"
    BAD = "bad"
    UNSURE = "unsure"
    WARNING = "warning"
    QUIET = "quiet"


@dataclass(frozen=True, slots=True)
class Line:
    """A line of an answer: how far it is set in, what stands before it, and the words."""

    words: str
    tone: Tone = Tone.PLAIN
    indent: int = 0


EMPTY: Final = Line("")

_VERDICTS: Final = {
    Verdict.WITHIN: ("WITHIN", "every limit that applies is kept", Tone.GOOD),
    Verdict.OUTSIDE: ("OUTSIDE", "not to be flown as loaded", Tone.BAD),
    Verdict.UNDETERMINED: ("UNDETERMINED", "not cleared: something needed is not known", Tone.UNSURE),
    Verdict.NOT_APPLICABLE: ("NOT APPLICABLE", "no limit applies", Tone.UNSURE),
}


@unique
class Group(Enum):
    """The groups of an answer in the order shown: their heading, the sign before each limit, their tone."""

    REFUSED = ("Limits broken", "x", Tone.BAD)
    UNDETERMINED = ("Limits that cannot be told", "?", Tone.UNSURE)
    CAUTION = ("Cautions", "!", Tone.WARNING)
    WITHIN = ("Within", "=", Tone.GOOD)
    NOT_APPLICABLE = ("Not applicable", "-", Tone.QUIET)

    @property
    def heading(self) -> str:
        """The heading of the group."""
        return self.value[0]

    @property
    def sign(self) -> str:
        """The sign that stands before each limit of the group."""
        return self.value[1]

    @property
    def tone(self) -> Tone:
        """The tone of the group."""
        return self.value[2]

    @property
    def is_short(self) -> bool:
        """Whether one line is enough for a limit of the group."""
        return self in (Group.WITHIN, Group.NOT_APPLICABLE)


def group_of(result: LimitResult) -> Group:
    """The group that a limit is shown in."""
    match result.verdict:
        case Verdict.WITHIN:
            return Group.WITHIN
        case Verdict.NOT_APPLICABLE:
            return Group.NOT_APPLICABLE
        case Verdict.OUTSIDE | Verdict.UNDETERMINED if result.limit.weight is Weight.CAUTION:
            return Group.CAUTION
        case Verdict.OUTSIDE:
            return Group.REFUSED
        case Verdict.UNDETERMINED:
            return Group.UNDETERMINED


def full_answer(result: CheckResult) -> Iterator[Line]:
    """The whole answer, the verdict first and what matters least last."""
    yield from opening(result)
    writer = sentences(result)
    for group in Group:
        yield from _group(group, [each for each in result.limits if group_of(each) is group], writer)
    taken = assumptions(result)
    if taken:
        yield EMPTY
        yield Line(f"Assumed ({len(taken)})", Tone.HEADING)
        yield from (Line(f"~ {each.sentence}", Tone.WARNING, 2) for each in taken)
    yield from closing()


def opening(result: CheckResult) -> Iterator[Line]:
    """The overall verdict and what it is about."""
    yield from under_permits(result.sheet)
    word, meaning, tone = _VERDICTS[result.verdict]
    yield Line(f"{word}: {meaning}", tone)
    yield Line(sheet_in_words(result.sheet.header))
    for layer in result.sheet.layers[1:]:
        yield Line(f"with {layer_in_words(layer)}", indent=2)


def under_permits(sheet: Sheet) -> Iterator[Line]:
    """The permits that the answer is given under: first, and not to be overlooked."""
    for permit in permits(sheet):
        yield Line(f"UNDER PERMIT: {permit_in_words(permit, sheet)}", Tone.BAD)
        yield EMPTY


def sheet_in_words(header: Header) -> str:
    """A sheet by its title, name and revision."""
    return f"{clean(header.title)}, limit sheet {clean(header.name)}, revision {header.revision}"


def closing() -> Iterator[Line]:
    """What stands under every answer."""
    yield EMPTY
    yield Line(CAUTION, Tone.WARNING)


def _group(group: Group, results: list[LimitResult], writer: Sentences) -> Iterator[Line]:
    if not results:
        return
    yield EMPTY
    yield Line(f"{group.heading} ({len(results)})", Tone.HEADING)
    for each in results:
        yield from _limit(group, each, writer)


def _limit(group: Group, result: LimitResult, writer: Sentences) -> Iterator[Line]:
    name, label = clean(result.limit.name), clean(result.limit.label)
    if group.is_short:
        yield Line(f"{group.sign} {name}: {writer.sentence(result)}", group.tone, 2)
        return
    yield Line(f"{group.sign} {name}: {label}", group.tone, 2)
    yield Line(writer.sentence(result), Tone.PLAIN, 4)
    if result.limit.note is not None:
        yield Line(f"note: {clean(result.limit.note)}", Tone.QUIET, 4)
