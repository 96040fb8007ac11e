"""The explanation of one limit, laid out: its sentence, then each value on the way down to its paragraph."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from engine.evaluation.result import CheckResult, LimitResult, Margin, Missing
from engine.explanation.amounts import Holds, Unknown
from engine.explanation.citing import Citation
from engine.explanation.claims import side_in_words
from engine.explanation.headlines import figures
from engine.explanation.layering import origin_in_words, origin_of
from engine.explanation.layout import EMPTY, Line, Tone, closing, group_of, sheet_in_words, under_permits
from engine.explanation.operations import Operation
from engine.explanation.reason_tree import (
    Explained,
    ExplainedAbove,
    FromInput,
    FuelLeft,
    Printed,
    Reason,
    Step,
    UnderName,
    WorkedOut,
)
from engine.explanation.reasons import reason_for
from engine.explanation.sentences import Sentences, sentences
from engine.explanation.words import clean, inside_a_sentence
from grammar.sheet import Ground, Role, Stage, Verdict

_CONDITIONS = frozenset(
    (
        Operation.AT_MOST,
        Operation.AT_LEAST,
        Operation.BETWEEN,
        Operation.INSIDE,
        Operation.BELOW,
        Operation.ABOVE,
        Operation.SAME,
        Operation.OCCUPIED,
        Operation.STATED,
        Operation.ALL,
        Operation.ANY,
        Operation.NOT,
    )
)
"""The operations whose outcome is true or false."""

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
    yield from under_permits(result.sheet)
    group = group_of(each)
    yield Line(f"{group.sign} {clean(limit.name)}: {clean(limit.label)}", group.tone)
    yield Line(f"{each.verdict.value.upper()}: {writer.sentence(each)}", Tone.PLAIN, 2)
    if limit.ground is not Ground.BURN:
        yield Line(f"line {limit.span.line} of {clean(limit.span.file)}", Tone.QUIET, 2)
    if limit.note is not None:
        yield Line(f"note: {clean(limit.note)}", Tone.QUIET, 2)
    origin = origin_of(limit, result.sheet)
    if origin is not None:
        yield from (Line(words, Tone.QUIET, 2) for words in origin_in_words(origin))
    yield from _margins(each)
    yield from _tree(result, each, writer)
    yield EMPTY
    yield Line(sheet_in_words(result.sheet.header), Tone.QUIET)
    yield from closing()


def _margins(each: LimitResult) -> Iterator[Line]:
    if not each.margins:
        return
    yield EMPTY
    moments = ", each at its own tightest moment" if each.tightest is not None else ""
    yield Line(f"Margins, the tightest first{moments}", Tone.HEADING)
    for margin in each.margins:
        yield Line(_margin(margin), Tone.BAD if margin.room < 0 else Tone.PLAIN, 2)


def _margin(margin: Margin) -> str:
    shown = figures(margin)
    word = "passed by" if shown.is_passed else "room of"
    return f"{side_in_words(margin)}: {shown.subject} against {shown.bound}, {word} {shown.size}"


def _tree(result: CheckResult, each: LimitResult, writer: Sentences) -> Iterator[Line]:
    reason = reason_for(result, each)
    teller = _Teller(writer)
    if reason.applies is not None:
        yield EMPTY
        yield Line("Whether it applies", Tone.HEADING)
        yield from teller.lines(Step("", reason.applies), 2)
    if each.verdict is not Verdict.NOT_APPLICABLE:
        yield EMPTY
        yield Line("How it came out", Tone.HEADING)
        yield from teller.lines(Step("", reason.claim), 2)


@dataclass(frozen=True, slots=True)
class _Teller:
    """Lays out a tree of reasons."""

    writer: Sentences

    def lines(self, step: Step, indent: int) -> Iterator[Line]:
        """A reason and, set in below it, the reasons that it rests on."""
        reason = step.reason
        cited = _authority(reason)
        bracket = "" if cited is None else f" [{self._citation(cited)}]"
        yield Line(f"{step.word} {_told(reason)}{bracket}".strip(), Tone.PLAIN, indent)
        for below in _below(reason):
            yield from self.lines(below, indent + 2)

    def _citation(self, cited: Citation) -> str:
        place = clean(cited.statement) + (f", line {cited.line}" if cited.line is not None else "")
        source = "" if cited.source is None else f"; {self.writer.citations.named(cited.source)}"
        return place + source


def _authority(reason: Reason) -> Citation | None:
    """The citation that stands in the line of a reason: every figure and every chart has its own."""
    match reason:
        case Printed() | FromInput() | FuelLeft():
            return reason.cited
        case UnderName(because=WorkedOut(chart=chart)) | WorkedOut(chart=chart):
            return None if chart is None else chart.cited
        case UnderName() | ExplainedAbove():
            return None


def _below(reason: Reason) -> tuple[Step, ...]:
    match reason:
        case WorkedOut(operation=Operation.NOT, steps=(Step(reason=WorkedOut(steps=steps)),)):
            return steps
        case WorkedOut():
            return reason.steps
        case UnderName():
            return _below_name(reason)
        case Printed() | FromInput() | FuelLeft() | ExplainedAbove():
            return ()


def _below_name(reason: UnderName) -> tuple[Step, ...]:
    """What a name rests on; a calculation is told in the line of the name."""
    because = reason.because
    return because.steps if isinstance(because, WorkedOut) else (Step("", because),)


def _told(reason: Reason) -> str:
    """The value of a reason and how it was come by."""
    match reason:
        case Printed():
            return f"{reason.shown}, {'printed' if reason.cited is not None else 'built in'}"
        case FromInput():
            return _input(reason)
        case FuelLeft():
            return _fuel_left(reason)
        case UnderName():
            return _under_name(reason)
        case ExplainedAbove():
            return f"{_labelled(reason.label, reason)}, explained above"
        case WorkedOut():
            return _worked_out(reason)


def _under_name(reason: UnderName) -> str:
    label, because = _labelled(reason.label, reason), reason.because
    if not isinstance(because, WorkedOut):
        return f"{label}, that is"
    return f"{label}, {_worked_out(because) if isinstance(reason.shown, Holds) else because.how}"


def _labelled(label: str, reason: Explained) -> str:
    joint = ": " if isinstance(reason.shown, Unknown | Holds) else " "
    return f"{label}{joint}{reason.shown}"


def _input(reason: FromInput) -> str:
    label = inside_a_sentence(reason.input.label)
    if isinstance(reason.shown, Holds):
        return f"{label} {'' if reason.shown.is_true else 'not '}stated"
    if reason.is_assumed:
        return f"{_labelled(label, reason)}, taken for granted as nobody states it"
    if isinstance(reason.shown, Unknown):
        return f"{label}, {_why_unknown(reason.shown)}"
    return f"{_labelled(label, reason)}, {_ORIGINS[reason.input.role]}"


def _why_unknown(unknown: Unknown) -> str:
    is_missing = any(isinstance(cause, Missing) for cause in unknown.gap.causes)
    return "which is not stated" if is_missing else "which is beyond what is covered"


def _fuel_left(reason: FuelLeft) -> str:
    left = _labelled(inside_a_sentence(reason.tank.input.label), reason)
    words = f"{left}, {_FUEL_STAGES[reason.stage]} of {reason.held or 'an amount not stated'}"
    burned = [f"taxi fuel {reason.taxi or 'not stated'}"]
    if reason.stage is not Stage.TAKEOFF:
        burned.append(f"trip fuel {reason.trip or 'not stated'}")
    return f"{words} ({', '.join(burned)})"


def _worked_out(reason: WorkedOut) -> str:
    match reason.shown:
        case Holds(is_true):
            return _condition(reason, is_true)
        case Unknown() if reason.operation in _CONDITIONS:
            return "it cannot be told whether"
        case Unknown():
            return f"a value that cannot be told, {reason.how}"
        case _:
            return f"{reason.shown}, {reason.how}"


def _condition(reason: WorkedOut, is_true: bool) -> str:
    match reason.operation:
        case Operation.AT_MOST | Operation.AT_LEAST | Operation.BETWEEN:
            return "it holds that" if is_true else "it does not hold that"
        case Operation.INSIDE if reason.chart is not None:
            where = "inside" if is_true else "outside"
            return f'{where} the envelope "{clean(reason.chart.label)}" lies'
        case Operation.ALL:
            return "all of these hold" if is_true else "not all of these hold"
        case Operation.ANY:
            return "at least one of these holds" if is_true else "none of these holds"
        case _:
            return reason.said or reason.how
