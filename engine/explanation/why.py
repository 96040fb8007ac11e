"""The explanation of one limit, laid out: its sentence, then each value on the way down to its paragraph."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from engine.evaluation.result import CheckResult, LimitResult, Margin
from engine.explanation.amounts import Holds, Unknown
from engine.explanation.citing import Citation
from engine.explanation.headlines import figures
from engine.explanation.layout import EMPTY, Line, Tone, closing, group_of, sheet_in_words
from engine.explanation.reasons import (
    Explained,
    ExplainedAbove,
    FromInput,
    FuelLeft,
    Printed,
    Reason,
    Step,
    UnderName,
    WorkedOut,
    reason_for,
)
from engine.explanation.sentences import Sentences, sentences
from engine.explanation.words import clean, inside_a_sentence
from grammar.sheet import Role, Stage, Verdict

_ORIGINS = {
    Role.WEIGHING: "from the weighing",
    Role.FACT: "on the airframe's record",
    Role.GIVEN: "stated for the flight",
    Role.LOAD: "stated as loaded",
    Role.TANK: "stated as loaded",
}

_FUEL_STAGES = {
    Stage.RAMP: "held at the ramp",
    Stage.TAKEOFF: "left at take-off",
    Stage.LANDING: "left at landing",
    Stage.ZERO_FUEL: "left without fuel",
    Stage.THROUGHOUT: "left at the tightest moment",
}


def one_limit(result: CheckResult, each: LimitResult) -> Iterator[Line]:
    """Everything about one limit of an answer."""
    writer, limit = sentences(result), each.limit
    group = group_of(each)
    yield Line(f"{group.sign} {clean(limit.name)}: {clean(limit.label)}", group.tone)
    yield Line(f"{each.verdict.value.upper()}: {writer.sentence(each)}", Tone.PLAIN, 2)
    yield Line(f"stated on line {limit.span.line} of {clean(limit.span.file)}", Tone.QUIET, 2)
    if limit.note is not None:
        yield Line(f"note: {clean(limit.note)}", Tone.QUIET, 2)
    yield from _margins(each)
    yield from _tree(result, each, writer)
    yield EMPTY
    yield Line(sheet_in_words(result.sheet.header), Tone.QUIET)
    yield from closing()


def _margins(each: LimitResult) -> Iterator[Line]:
    if not each.margins:
        return
    yield EMPTY
    yield Line("Margins, the tightest first", Tone.HEADING)
    for margin in each.margins:
        yield Line(_margin(margin), Tone.BAD if margin.room < 0 else Tone.PLAIN, 2)


def _margin(margin: Margin) -> str:
    shown = figures(margin)
    word = "passed by" if shown.is_passed else "room of"
    return f"{margin.side.value}: {shown.subject} against {shown.bound}, {word} {shown.size}"


def _tree(result: CheckResult, each: LimitResult, writer: Sentences) -> Iterator[Line]:
    reason = reason_for(result, each)
    teller = _Teller(writer)
    if reason.applies is not None:
        yield EMPTY
        yield Line("Whether it applies", Tone.HEADING)
        yield from teller.lines(Step("", reason.applies), reason.cited, 2)
    if each.verdict is not Verdict.NOT_APPLICABLE:
        yield EMPTY
        yield Line("How it came out", Tone.HEADING)
        yield from teller.lines(Step("", reason.claim), reason.cited, 2)


@dataclass(frozen=True, slots=True)
class _Teller:
    """Lays out a tree of reasons."""

    writer: Sentences

    def lines(self, step: Step, around: Citation | None, indent: int) -> Iterator[Line]:
        """A reason and, set in below it, the reasons that it rests on.

        A paragraph is named with every figure at the end of a branch, and on the way where it changes.
        """
        reason = step.reason
        words = f"{step.word} {_told(reason)}".strip()
        is_end = isinstance(reason, Printed | FromInput | FuelLeft)
        if reason.cited is not None and (is_end or not _is_same(reason.cited, around)):
            words += f" [{self._citation(reason.cited)}]"
        yield Line(words, Tone.PLAIN, indent)
        for below in _below(reason):
            yield from self.lines(below, reason.cited, indent + 2)

    def _citation(self, cited: Citation) -> str:
        place = clean(cited.statement) + (f", line {cited.line}" if cited.line is not None else "")
        source = "" if cited.source is None else f"; {self.writer.citations.named(cited.source)}"
        return place + source


def _is_same(one: Citation, other: Citation | None) -> bool:
    return other is not None and (one.statement, one.source) == (other.statement, other.source)


def _below(reason: Reason) -> tuple[Step, ...]:
    match reason:
        case WorkedOut():
            return reason.steps
        case UnderName():
            return (Step("", reason.because),)
        case Printed() | FromInput() | FuelLeft() | ExplainedAbove():
            return ()


def _told(reason: Reason) -> str:
    """The value of a reason and how it was come by."""
    match reason:
        case Printed():
            return f"{reason.shown}, printed"
        case FromInput():
            return _input(reason)
        case FuelLeft():
            label = inside_a_sentence(reason.tank.input.label)
            return f"{_labelled(label, reason)}, {_FUEL_STAGES[reason.stage]}"
        case UnderName():
            return f"{_labelled(inside_a_sentence(reason.label), reason)}:"
        case ExplainedAbove():
            return f"{_labelled(inside_a_sentence(reason.label), reason)}, explained above"
        case WorkedOut():
            return _worked_out(reason)


def _labelled(label: str, reason: Explained) -> str:
    joint = ": " if isinstance(reason.shown, Unknown | Holds) else " "
    return f"{label}{joint}{reason.shown}"


def _input(reason: FromInput) -> str:
    label = inside_a_sentence(reason.input.label)
    if isinstance(reason.shown, Holds):
        return f"{label} {'is' if reason.shown.is_true else 'is not'} stated"
    if reason.is_assumed:
        return f"{_labelled(label, reason)}, taken for granted as nobody states it"
    if isinstance(reason.shown, Unknown):
        return _labelled(label, reason)
    return f"{_labelled(label, reason)}, {_ORIGINS[reason.input.role]}"


def _worked_out(reason: WorkedOut) -> str:
    what = reason.operation.value
    if reason.table is not None:
        what = f'{what}, "{clean(reason.table.label)}"'
    if isinstance(reason.shown, Holds):
        return f"{what}: {reason.shown}"
    return f"{reason.shown}, {what}"
