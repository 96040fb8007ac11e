"""Conditions: claims, comparisons, states, and the guarded choice."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from grammar import sheet, tree
from grammar.checking import (
    choices,
    declared_masses,
    figures,
    functions,
    kinds,
    meetings,
    naming,
    nesting,
    nodes,
    resolving,
)
from grammar.checking.context import Context
from grammar.checking.kinds import Meeting
from grammar.checking.scope import Resolved, Scope
from grammar.checking.vocabulary import TOTALS
from grammar.diagnostics.suggestions import nearest
from grammar.text import Span


def condition_of(
    scope: Scope,
    node: tree.Comparison | tree.Between | tree.Inside | tree.Is | tree.AllOf | tree.AnyOf | tree.Not | tree.Group,
    context: Context,
) -> sheet.Condition | None:
    """A condition of any sort."""
    match node:
        case tree.Comparison():
            return _comparison(scope, node, context)
        case tree.Between():
            return _between(scope, node, context)
        case tree.Inside():
            return _inside(scope, node, context)
        case tree.Is():
            return _is(scope, node, context)
        case tree.AllOf() | tree.AnyOf():
            return _joined(scope, node, context)
        case tree.Not():
            of = resolving.condition(scope, node.of, context)
            return None if of is None else sheet.Not(span=node.span, slot=scope.slot(), of=of)
        case tree.Group():
            return resolving.condition(scope, node.of, context)


def _joined(scope: Scope, node: tree.AllOf | tree.AnyOf, context: Context) -> sheet.Condition | None:
    parts = [resolving.condition(scope, part, context) for part in node.parts]
    known = tuple(part for part in parts if part is not None)
    if len(known) < len(parts):
        return None
    maker = sheet.AllOf if isinstance(node, tree.AllOf) else sheet.AnyOf
    return maker(span=node.span, slot=scope.slot(), parts=known)


# ---- comparisons


def _comparison(scope: Scope, node: tree.Comparison, context: Context) -> sheet.Condition | None:
    left = resolving.value(scope, node.left, context)
    right = resolving.value(scope, node.right, context)
    if left is None or right is None:
        return None
    if not meetings.fits(scope, Meeting.ORDER, (node.left.span, left), (node.right.span, right)):
        return None
    match node.relation:
        case tree.Relation.AT_MOST:
            return sheet.AtMost(span=node.span, slot=scope.slot(), subject=left, bound=right)
        case tree.Relation.AT_LEAST:
            return sheet.AtLeast(span=node.span, slot=scope.slot(), subject=left, bound=right)
        case tree.Relation.BELOW:
            return sheet.Below(span=node.span, slot=scope.slot(), left=left, right=right)
        case tree.Relation.ABOVE:
            return sheet.Above(span=node.span, slot=scope.slot(), left=left, right=right)


def _between(scope: Scope, node: tree.Between, context: Context) -> sheet.Condition | None:
    subject = resolving.value(scope, node.subject, context)
    low = resolving.value(scope, node.low, context)
    high = resolving.value(scope, node.high, context)
    if subject is None or low is None or high is None:
        return None
    for written, end in ((node.low, low), (node.high, high)):
        if not meetings.fits(scope, Meeting.ORDER, (node.subject.span, subject), (written.span, end)):
            return None
    lowest, highest = scope.ends(low).low, scope.ends(high).high
    if lowest is not None and highest is not None and lowest > highest:
        span = node.low.span.to(node.high.span)
        scope.notebook.write("512", span, low=scope.typed(node.low.span), high=scope.typed(node.high.span))
        return None
    return sheet.Between(span=node.span, slot=scope.slot(), subject=subject, low=low, high=high)


# ---- envelopes


def _inside(scope: Scope, node: tree.Inside, context: Context) -> sheet.Condition | None:
    across = resolving.value(scope, node.across, context)
    against = resolving.value(scope, node.against, context)
    if across is None or against is None:
        _use_envelopes(scope, node.envelope)
        return None
    if nesting.is_too_many_envelope_choices(node.envelope):
        scope.notebook.write("912", node.envelope.span, most=str(nesting.MOST_ENVELOPE_CHOICES))
        return None
    return _inside_of(scope, node, node.envelope, (across, against), context)


def _use_envelopes(scope: Scope, named: tree.Expression) -> None:
    """Note the envelopes as used even where the point asked of them has a problem."""
    waiting = [named]
    while waiting:
        node = nesting.without_brackets(waiting.pop())
        if isinstance(node, tree.Reference):
            scope.use(node.name.text)
        elif isinstance(node, tree.Choice):
            waiting.extend(nesting.values_of(node))


def _inside_of(
    scope: Scope,
    node: tree.Inside,
    named: tree.Expression,
    point: tuple[sheet.Expression, sheet.Expression],
    context: Context,
) -> sheet.Condition | None:
    """A point inside what was named: one envelope, or a guarded choice of several."""
    while isinstance(named, tree.Group):
        named = named.of
    match named:
        case tree.Reference():
            return _inside_one(scope, node, named, point)
        case tree.Choice():
            return choices.chosen_condition(
                scope, named, context, lambda value: _inside_of(scope, node, value, point, context)
            )
        case _:
            typed = scope.typed(named.span)
            hint = "After `inside` stands the name of an envelope."
            scope.notebook.write("305", named.span, name=typed, what="a value", wanted="an envelope", hint=hint)
            return None


def _inside_one(
    scope: Scope, node: tree.Inside, named: tree.Reference, point: tuple[sheet.Expression, sheet.Expression]
) -> sheet.Condition | None:
    name = named.name.text
    envelope = scope.envelopes.get(name)
    if envelope is None:
        _write_no_envelope(scope, named)
        return None
    scope.use(name)
    written = (node.across, node.against)
    axes = (envelope.across, envelope.against)
    if not all(
        _fits_axis(scope, one, value, envelope, axis)
        for one, value, axis in zip(written, point, axes, strict=True)
    ):
        return None
    across, against = point
    return sheet.Inside(span=node.span, slot=scope.slot(), across=across, against=against, envelope=envelope)


def _write_no_envelope(scope: Scope, named: tree.Reference) -> None:
    name = named.name.text
    if scope.is_faulty(name):
        return
    if name in scope.declared or name in scope.inputs or name in TOTALS:
        scope.use(name)
        hint = "After `inside` stands the name of an envelope."
        what = naming.sort_of(scope, name)
        scope.notebook.write("305", named.span, name=name, what=what, wanted="an envelope", hint=hint)
    else:
        scope.notebook.write("302", named.span, suggestion=nearest(name, scope.envelopes), name=name)


def _fits_axis(
    scope: Scope, written: tree.Expression, value: sheet.Expression, envelope: sheet.Envelope, axis: sheet.Axis
) -> bool:
    typed = scope.typed(written.span)
    axes = f"{envelope.across.name}, {envelope.against.name}"
    if value.kind != figures.kind_of(axis.unit):
        scope.notebook.write(
            "412",
            written.span,
            envelope=envelope.name,
            unit=axis.unit.name,
            value=typed,
            dimension=kinds.words(value.kind),
            axes=axes,
        )
        return False
    is_other_total = isinstance(value, sheet.Named) and value.is_built_in and value.name != axis.name
    if is_other_total and axis.name in TOTALS:
        scope.notebook.write("413", written.span, envelope=envelope.name, axis=axis.name, value=typed, axes=axes)
        return False
    return True


# ---- states

_STATES: Final[Mapping[str, bool]] = MappingProxyType({"occupied": True, "empty": False})


def _is(scope: Scope, node: tree.Is, context: Context) -> sheet.Condition | None:
    subject = resolving.value(scope, node.subject, context)
    if subject is None:
        return None
    found = _state(scope, node, subject, context)
    if found is None or not node.negated:
        return found
    return sheet.Not(span=node.span, slot=scope.slot(), of=found)


def _state(scope: Scope, node: tree.Is, subject: sheet.Expression, context: Context) -> sheet.Condition | None:
    state = node.state
    if isinstance(state, tree.Word) and state.text in _STATES:
        return _occupied(scope, node, subject, state)
    if isinstance(state, tree.Word) and state.text in declared_masses.MANNERS:
        return _known_as(scope, node, subject, state)
    if isinstance(subject.kind, sheet.Option):
        option = _option(scope, subject, subject.kind, state, context)
    elif isinstance(state, tree.Word):
        _write_no_option(scope, node, state)
        return None
    else:
        option = resolving.value(scope, state, context)
    if option is None:
        return None
    if not meetings.fits(scope, Meeting.SAME, (node.subject.span, subject), (state.span, option)):
        return None
    return sheet.Same(span=node.span, slot=scope.slot(), left=subject, right=option)


def _occupied(scope: Scope, node: tree.Is, subject: sheet.Expression, state: tree.Word) -> sheet.Condition | None:
    if not functions.is_carried(scope, subject):
        typed = scope.typed(node.subject.span)
        scope.notebook.write("312", node.subject.span, subject=typed, state=state.text)
        return None
    occupied = sheet.Occupied(span=node.span, slot=scope.slot(), place=subject)
    return occupied if _STATES[state.text] else sheet.Not(span=node.span, slot=scope.slot(), of=occupied)


def _known_as(scope: Scope, node: tree.Is, subject: sheet.Expression, state: tree.Word) -> sheet.Condition | None:
    """That the mass on a place is declared, or weighed."""
    place = subject.input.name if isinstance(subject, sheet.Read) else None
    if isinstance(subject, sheet.Named) and subject.is_built_in:
        place = subject.name
    if place not in scope.places or place is None:
        typed = scope.typed(node.subject.span)
        scope.notebook.write("312", node.subject.span, subject=typed, state=state.text)
        return None
    return nodes.option(scope, declared_masses.manner(scope, place, node.span), state.text, node.span)


def _write_no_option(scope: Scope, node: tree.Is, state: tree.Word) -> None:
    typed = scope.typed(node.subject.span)
    scope.notebook.write("310", state.span, name=typed, options="no list", word=state.text)


def _option(
    scope: Scope,
    subject: sheet.Expression,
    kind: sheet.Option,
    state: tree.Expression | tree.Word,
    context: Context,
) -> sheet.Expression | None:
    """The option that a word names; another input with the same list may stand there too."""
    word = state if isinstance(state, tree.Word) else state.name if isinstance(state, tree.Reference) else None
    if word is None:
        typed = scope.typed(state.span)
        _write_wrong_option(scope, subject, kind, state.span, typed)
        return None
    if word.text in kind.options:
        return sheet.Constant(span=word.span, slot=scope.slot(), kind=kind, unit=None, value=word.text)
    other = scope.inputs.get(word.text)
    if other is None or not isinstance(other.kind, sheet.Option) or isinstance(state, tree.Word):
        _write_wrong_option(scope, subject, kind, word.span, word.text)
        return None
    if other.kind != kind:
        scope.notebook.write(
            "416",
            word.span,
            left=_name_of(subject),
            left_options=", ".join(kind.options),
            right=word.text,
            right_options=", ".join(other.kind.options),
        )
        return None
    return resolving.value(scope, state, context)


def _name_of(subject: sheet.Expression) -> str:
    return subject.input.name if isinstance(subject, sheet.Read) else "it"


def _write_wrong_option(
    scope: Scope, subject: sheet.Expression, kind: sheet.Option, span: Span, typed: str
) -> None:
    options = " or ".join(reversed(kind.options)) if kind.is_yes_or_no else ", ".join(kind.options)
    suggestion = nearest(typed, kind.options)
    scope.notebook.write("310", span, suggestion=suggestion, name=_name_of(subject), options=options, word=typed)


# ---- guarded choice


def choice(scope: Scope, node: tree.Choice, context: Context) -> Resolved | None:
    """A guarded choice of values or of conditions."""
    return choices.chosen(scope, node, context)
