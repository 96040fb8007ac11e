"""Limits and cautions: stated ones, the ranges of places and tanks, and the burn itself."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from grammar import sheet, tree
from grammar.checking import clauses, declared_masses, nodes, references, resolving
from grammar.checking.context import Context
from grammar.checking.declarations import is_first
from grammar.checking.inputs import label_of
from grammar.checking.scope import Scope
from grammar.checking.vocabulary import BURN_LIMIT, STAGES
from grammar.text import Span
from grammar.units import MASS, PURE

_RELATIONS: Final = {tree.Relation.BELOW: ("at most", "at least"), tree.Relation.ABOVE: ("at least", "at most")}


def check_limits(scope: Scope, file: tree.File) -> tuple[sheet.Limit, ...]:
    """Every limit of the sheet: first the stated ones in their order, then the ranges, then the burn."""
    stated: list[sheet.Limit] = []
    for statement in file.statements:
        if isinstance(statement, tree.Limit) and is_first(scope, statement):
            limit = stated_limit(scope, statement)
            if limit is None:
                scope.faulty.add(statement.name.text)
            else:
                stated.append(limit)
    ranges = [_range(scope, place.input) for place in scope.places.values()]
    ranges += [_range(scope, tank.input) for tank in scope.tanks.values()]
    return (*stated, *ranges, *_burn(scope, file))


# ---- stated limits


def stated_limit(scope: Scope, statement: tree.Limit) -> sheet.Limit | None:
    """A limit or caution as stated; made once, also when the bound of it is asked for elsewhere."""
    name = statement.name.text
    if name not in scope.limits:
        asked, reach = scope.begin_to_count()
        scope.opened.append(name)
        scope.limits[name] = _stated(scope, statement)
        scope.opened.pop()
        scope.reaches[_key(name)] = scope.reach.deeper(names=1)
        scope.stages_asked, scope.reach = asked, reach
    return scope.limits[name]


def _key(name: str) -> tuple[str, None, None]:
    """Under which a limit's reach is kept: a bound is never called as a let is."""
    return f"bound({name})", None, None


def _stated(scope: Scope, statement: tree.Limit) -> sheet.Limit | None:
    name = statement.name.text
    what = "the caution" if statement.is_caution else "the limit"
    source = clauses.needed_source(scope, statement.clauses, what, name, statement.name.span)
    stage, is_stage_known = _stage(scope, statement)
    context = Context(stage=stage, owner=name)
    claim = resolving.condition(scope, statement.claim, context)
    applies, is_whole = _applies(scope, statement, context)
    _warn_of_idle_stage(scope, statement, claim, scope.stages_asked)
    if claim is None or not is_stage_known or not is_whole:
        return None
    if _is_strict(scope, statement) or _never_met(scope, statement, claim):
        return None
    scope.bounds[name, False] = scope.bounds[name, True] = claim
    claim, applies = _loosened_by_no_order(scope, statement, context, claim, applies)
    return sheet.Limit(
        name=name,
        label=label_of(statement.name, statement.label),
        weight=sheet.Weight.CAUTION if statement.is_caution else sheet.Weight.LIMIT,
        ground=sheet.Ground.STATED,
        stage=stage,
        claim=claim,
        applies_when=applies,
        source=source,
        note=clauses.note(scope, statement.clauses),
        span=statement.span,
    )


def _applies(scope: Scope, statement: tree.Limit, context: Context) -> tuple[sheet.Condition | None, bool]:
    """When the limit applies, from `when` and from `applies when`, and whether both could be resolved."""
    when = clauses.one(scope, statement.clauses, tree.When)
    applies = clauses.one(scope, statement.clauses, tree.Applies)
    fixed = replace(context, fixed="the effectivity", stage=None)
    found = [
        resolving.condition(scope, clause.condition, where)
        for clause, where in ((applies, fixed), (when, context))
        if clause is not None
    ]
    known = tuple(one for one in found if one is not None)
    if len(known) < len(found):
        return None, False
    if len(known) < 2:
        return (known[0] if known else None), True
    return sheet.AllOf(span=statement.span, slot=scope.slot(), parts=known), True


def _loosened_by_no_order(
    scope: Scope,
    statement: tree.Limit,
    context: Context,
    claim: sheet.Condition,
    applies: sheet.Condition | None,
) -> tuple[sheet.Condition, sheet.Condition | None]:
    """What an order adds to declared masses must loosen nothing: a least mass in a seat, a balance.

    So a limit that would come out otherwise without the additions has to hold both with and without them.
    """
    adds_by_order = any(rule.by_order for rule in scope.declared_masses.values())
    if not adds_by_order or statement.span.file in scope.order_files:
        return claim, applies
    as_stated = replace(context, as_stated=True)
    bare_claim = resolving.condition(scope, statement.claim, as_stated)
    bare_applies, _ = _applies(scope, statement, as_stated)
    if bare_claim is None:
        return claim, applies
    scope.bounds[statement.name.text, True] = bare_claim
    counts = declared_masses.counts_what_orders_add(scope, claim)
    if applies is None or bare_applies is None or not declared_masses.counts_what_orders_add(scope, applies):
        return (_all_of(scope, statement, (claim, bare_claim)) if counts else claim), applies
    either = sheet.AnyOf(span=statement.span, slot=scope.slot(), parts=(applies, bare_applies))
    both = (_if(scope, statement, applies, claim), _if(scope, statement, bare_applies, bare_claim))
    return _all_of(scope, statement, both), either


def _all_of(scope: Scope, statement: tree.Limit, parts: tuple[sheet.Condition, ...]) -> sheet.Condition:
    return sheet.AllOf(span=statement.claim.span, slot=scope.slot(), parts=parts)


def _if(scope: Scope, statement: tree.Limit, applies: sheet.Condition, claim: sheet.Condition) -> sheet.Condition:
    span = statement.claim.span
    unless = sheet.Not(span=span, slot=scope.slot(), of=applies)
    return sheet.AnyOf(span=span, slot=scope.slot(), parts=(unless, claim))


def _stage(scope: Scope, statement: tree.Limit) -> tuple[sheet.Stage | None, bool]:
    match statement.stage:
        case None:
            return None, True
        case tree.Throughout():
            return sheet.Stage.THROUGHOUT, True
        case tree.At():
            stage = STAGES.get(statement.stage.stage.text)
            if stage is None:
                scope.unknown("309", statement.stage.stage, STAGES)
                return sheet.Stage.TAKEOFF, False
            return stage, True


def _warn_of_idle_stage(scope: Scope, statement: tree.Limit, claim: sheet.Condition | None, asked: int) -> None:
    if claim is not None and statement.stage is not None and asked == 0:
        stage = scope.typed(statement.stage.span)
        scope.notebook.write("607", statement.stage.span, stage=f"`{stage}`")


def _is_strict(scope: Scope, statement: tree.Limit) -> bool:
    claim = statement.claim
    while isinstance(claim, tree.Group):
        claim = claim.of
    if not isinstance(claim, tree.Comparison) or claim.relation not in _RELATIONS:
        return False
    words, opposite = _RELATIONS[claim.relation]
    left, right = scope.typed(claim.left.span), scope.typed(claim.right.span)
    scope.notebook.write(
        "609",
        claim.span,
        suggestion=f"{left} {words} {right}",
        typed=scope.typed(claim.span),
        words=f"{left} {words} {right}",
        opposite=f"{left} {opposite} {right}",
    )
    return True


def _never_met(scope: Scope, statement: tree.Limit, claim: sheet.Condition) -> bool:
    """Whether the declared ranges alone rule out that the claim ever holds."""
    written = statement.claim
    if not isinstance(claim, sheet.AtMost | sheet.AtLeast) or not isinstance(written, tree.Comparison):
        return False
    subject, bound = scope.ends(claim.subject), scope.ends(claim.bound)
    low, high = (subject, bound) if isinstance(claim, sheet.AtMost) else (bound, subject)
    if low.low is None or high.high is None or low.low <= high.high:
        return False
    scope.notebook.write(
        "513",
        claim.span,
        subject=scope.typed(written.left.span),
        relation=written.relation.value,
        bound=scope.typed(written.right.span),
    )
    return True


# ---- the bound of another limit


def bound_of(scope: Scope, statement: tree.Limit, node: tree.Call, context: Context) -> sheet.Expression | None:
    """The bound of a stated limit, under the limit's name."""
    name = statement.name.text
    if name in scope.opened:
        chain = " needs ".join((*scope.opened[scope.opened.index(name) :], name))
        scope.notebook.write("308", node.span, name=name, chain=chain)
        return None
    if references.leans_too_far(scope, node, len(scope.opened) - 1):
        return None
    limit = stated_limit(scope, statement)
    its = scope.reaches[_key(name)]
    if limit is None or references.leans_too_far(scope, node, its.names - 1):
        return None
    scope.reach = scope.reach.and_also(its)
    claim = scope.bounds[name, context.as_stated]
    if not isinstance(claim, sheet.AtMost | sheet.AtLeast):
        scope.notebook.write("614", node.span, name=name)
        return None
    bound = claim.bound
    if limit.stage is sheet.Stage.THROUGHOUT and moves(bound):
        scope.notebook.write("616", node.span, name=name)
        return None
    return sheet.Named(
        span=node.span,
        slot=scope.slot(),
        kind=bound.kind,
        unit=bound.unit,
        name=f"bound({name})",
        label=f"bound of {limit.label}",
        stage=limit.stage,
        body=bound,
        source=limit.source,
        is_built_in=True,
    )


def moves(node: sheet.Expression | sheet.Condition) -> bool:
    """Whether a value changes from moment to moment during the burn."""
    waiting = [node]
    seen: set[int] = set()
    while waiting:
        one = waiting.pop()
        if one.slot in seen:
            continue
        seen.add(one.slot)
        if isinstance(one, sheet.FuelAmount) and one.stage is sheet.Stage.THROUGHOUT:
            return True
        waiting.extend(sheet.children(one))
    return False


# ---- limits that are there without being stated


def _range(scope: Scope, item: sheet.Input) -> sheet.Limit:
    """The range of a place or a tank, with its steps where it comes in steps."""
    span = item.span
    assert span is not None
    stated = nodes.read(scope, item.name, span)
    place = scope.places.get(item.name)
    parts = [_between_ends(scope, item, subject, span) for subject in _subjects(scope, item, stated, span)]
    if place is not None and place.step is not None:
        parts.append(_whole_steps(scope, place, stated, span))
    claim = parts[0] if len(parts) == 1 else sheet.AllOf(span=span, slot=scope.slot(), parts=tuple(parts))
    return sheet.Limit(
        name=item.name,
        label=item.label,
        weight=sheet.Weight.LIMIT,
        ground=sheet.Ground.RANGE,
        stage=None,
        claim=claim,
        applies_when=None,
        source=item.source,
        note=item.note,
        span=span,
    )


def _subjects(scope: Scope, item: sheet.Input, stated: sheet.Expression, span: Span) -> list[sheet.Expression]:
    """What the range is held against: the mass that counts; where an order adds to it, the stated one too."""
    rule = scope.declared_masses.get(item.name)
    if rule is None or item.kind != sheet.Measure(MASS):
        return [stated]
    counts = declared_masses.carried(scope, item.name, Context(), span)
    return [counts, stated] if rule.by_order else [counts]


def _between_ends(scope: Scope, item: sheet.Input, subject: sheet.Expression, span: Span) -> sheet.Condition:
    unit = item.unit or PURE
    assert item.least is not None and item.most is not None
    return sheet.Between(
        span=span,
        slot=scope.slot(),
        subject=subject,
        low=nodes.constant(scope, item.least, unit, span),
        high=nodes.constant(scope, item.most, unit, span),
    )


def _whole_steps(scope: Scope, place: sheet.Place, subject: sheet.Expression, span: Span) -> sheet.Condition:
    assert place.step is not None
    rounded = sheet.Rounded(
        span=span,
        slot=scope.slot(),
        kind=subject.kind,
        unit=subject.unit,
        of=subject,
        step=place.step,
        upward=False,
    )
    return sheet.Same(span=span, slot=scope.slot(), left=subject, right=rounded)


def _burn(scope: Scope, file: tree.File) -> tuple[sheet.Limit, ...]:
    """No more fuel is burned than is aboard; it applies when somebody states what is burned."""
    burn = scope.burn
    if burn is None:
        return ()
    span = next((one.input.span for one in scope.tanks.values() if one.input.span), file.statements[0].span)
    taxi, trip = nodes.read(scope, burn.taxi.name, span), nodes.read(scope, burn.trip.name, span)
    aboard = [nodes.read(scope, name, span) for name in scope.tanks]
    trip_is_stated = sheet.Stated(span=span, slot=scope.slot(), input=burn.trip)
    unless_unstated = sheet.AnyOf(
        span=span,
        slot=scope.slot(),
        parts=(
            sheet.Not(span=span, slot=scope.slot(), of=trip_is_stated),
            _no_more_than(scope, [taxi, trip], aboard, span),
        ),
    )
    for_taxi = _no_more_than(scope, [taxi], aboard, span)
    taxi_is_stated = sheet.Stated(span=span, slot=scope.slot(), input=burn.taxi)
    return (
        sheet.Limit(
            name=BURN_LIMIT,
            label="Fuel for taxi and trip",
            weight=sheet.Weight.LIMIT,
            ground=sheet.Ground.BURN,
            stage=sheet.Stage.RAMP,
            claim=sheet.AllOf(span=span, slot=scope.slot(), parts=(for_taxi, unless_unstated)),
            applies_when=sheet.AnyOf(span=span, slot=scope.slot(), parts=(taxi_is_stated, trip_is_stated)),
            source=None,
            note=None,
            span=span,
        ),
    )


def _no_more_than(scope: Scope, burned: list[sheet.Read], aboard: list[sheet.Read], span: Span) -> sheet.Condition:
    return sheet.AtMost(
        span=span,
        slot=scope.slot(),
        subject=_in_all(scope, burned, span),
        bound=_in_all(scope, aboard, span),
    )


def _in_all(scope: Scope, amounts: list[sheet.Read], span: Span) -> sheet.Expression:
    if len(amounts) == 1:
        return amounts[0]
    terms = tuple((1, amount) for amount in amounts)
    first = amounts[0]
    return sheet.Sum(span=span, slot=scope.slot(), kind=first.kind, unit=first.unit, terms=terms)
