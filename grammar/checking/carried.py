"""What places and tanks have besides a range: arms, steps, floor areas, densities, and the order of burning."""

from __future__ import annotations

from fractions import Fraction

from grammar import sheet, tree
from grammar.checking import clauses, figures, kinds, naming, nodes, resolving
from grammar.checking.context import Context
from grammar.checking.declarations import is_first, only_one
from grammar.checking.scope import Scope
from grammar.checking.vocabulary import TAXI_FUEL, TRIP_FUEL
from grammar.units import AREA, DENSITY, LENGTH, MASS, NUMBER, VOLUME, Dimension, usual_unit


def check_carried(scope: Scope, file: tree.File) -> None:
    """Resolve every place and tank, the order of burning and the chord."""
    for statement in file.statements:
        match statement:
            case tree.Load() if is_first(scope, statement) and statement.name.text in scope.inputs:
                scope.places[statement.name.text] = _place(scope, statement)
            case tree.Fuel() if is_first(scope, statement) and statement.name.text in scope.inputs:
                scope.tanks[statement.name.text] = _tank(scope, statement)
            case _:
                continue
    scope.burn = _burn(scope, file)
    scope.chord = _chord(scope, file)


def _fixed(
    scope: Scope, written: tree.Expression, name: str, what: str, dimension: Dimension
) -> sheet.Expression | None:
    """An arm or a density: an expression over facts and givens only."""
    found = resolving.value(scope, written, Context(owner=name, fixed=what))
    if found is None:
        return None
    if found.kind == sheet.Measure(dimension):
        return found
    unit = usual_unit(dimension).name
    typed = scope.typed(written.span)
    if isinstance(found, sheet.Constant) and found.unit is not None and not found.unit.name:
        scope.notebook.write(
            "403", written.span, suggestion=f"{typed} {unit}", figure=typed, dimension=dimension.name, unit=unit
        )
    else:
        scope.notebook.write(
            "404",
            written.span,
            figure=typed,
            dimension=kinds.words(found.kind),
            what=f"{what} of {name}",
            wanted=dimension.name,
            unit=unit,
        )
    return None


def _arm(scope: Scope, statement: tree.Load | tree.Fuel, *, is_lateral: bool) -> sheet.Expression | None:
    wanted: type[tree.Arm] | type[tree.LateralArm] = tree.LateralArm if is_lateral else tree.Arm
    clause = clauses.one(scope, statement.clauses, wanted)
    if clause is None:
        return None
    what = "the lateral arm" if is_lateral else "the arm"
    found = _fixed(scope, clause.length, statement.name.text, what, LENGTH)
    if found is None:
        scope.faulty.add(f"arm of {statement.name.text}")
    return found


def _place(scope: Scope, statement: tree.Load) -> sheet.Place:
    item = scope.inputs[statement.name.text]
    return sheet.Place(
        input=item,
        mass_of_one=_mass_of_one(scope, statement),
        arm=_arm(scope, statement, is_lateral=False),
        lateral_arm=_arm(scope, statement, is_lateral=True),
        step=_step(scope, statement, item),
        floor_area=_floor_area(scope, statement),
    )


def _mass_of_one(scope: Scope, statement: tree.Load) -> sheet.Expression | None:
    """What one piece weighs, or the density of what is stated by volume."""
    each = clauses.one(scope, statement.clauses, tree.Each)
    density = clauses.one(scope, statement.clauses, tree.Density)
    if each is not None:
        mass = figures.positive(scope, each.mass, MASS, "the mass of one piece")
        printed = figures.value(scope, each.mass)
        return None if mass is None or printed is None else nodes.constant(scope, mass, printed[1], each.mass.span)
    if density is None:
        return None
    return _fixed(scope, density.amount, statement.name.text, "the density", DENSITY)


def _step(scope: Scope, statement: tree.Load, item: sheet.Input) -> Fraction | None:
    clause = clauses.one(scope, statement.clauses, tree.Steps)
    if clause is None:
        return Fraction(1) if item.kind == sheet.Measure(NUMBER) else None
    dimension = item.kind.dimension if isinstance(item.kind, sheet.Measure) else MASS
    step = figures.positive(scope, clause.step, dimension, "the step")
    if step is None:
        return None
    if item.most is not None and (item.most / step).denominator != 1:
        typed = scope.typed
        most = typed(statement.range.most.span)
        scope.notebook.write("503", clause.span, name=item.name, most=most, step=typed(clause.step.span))
    return step


def _floor_area(scope: Scope, statement: tree.Load) -> Fraction | None:
    clause = clauses.one(scope, statement.clauses, tree.FloorArea)
    return None if clause is None else figures.positive(scope, clause.area, AREA, "the floor area")


def _tank(scope: Scope, statement: tree.Fuel) -> sheet.Tank:
    item = scope.inputs[statement.name.text]
    clause = clauses.one(scope, statement.clauses, tree.Density)
    density = None
    if clause is not None:
        density = _fixed(scope, clause.amount, statement.name.text, "the density", DENSITY)
        low = None if density is None else scope.ends(density).low
        if low is not None and low <= 0:
            typed = scope.typed(clause.amount.span)
            scope.notebook.write("515", clause.amount.span, what="the density", figure=typed)
    elif item.kind == sheet.Measure(VOLUME):
        scope.notebook.write("520", statement.name.span, name=item.name)
    return sheet.Tank(
        input=item,
        density=density,
        arm=_arm(scope, statement, is_lateral=False),
        lateral_arm=_arm(scope, statement, is_lateral=True),
    )


# ---- the order of burning


def _burn(scope: Scope, file: tree.File) -> sheet.Burn | None:
    statement = only_one(scope, file.statements, tree.Burn, "burn")
    if statement is None and (len(scope.tanks) > 1):
        _write_no_order(scope, file)
    if not scope.tanks:
        return None
    taxi, trip = scope.inputs[TAXI_FUEL], scope.inputs[TRIP_FUEL]
    if statement is None:
        step = sheet.BurnStep(tuple(scope.tanks.values()), Fraction(0))
        return sheet.Burn((step,), taxi, trip, None, None)
    source = clauses.needed_source(scope, statement.clauses, "the order of", "burning", statement.span)
    steps = [_burn_step(scope, step) for step in statement.steps]
    known = tuple(step for step in steps if step is not None)
    if len(known) == len(steps):
        _check_order(scope, statement, known)
    return sheet.Burn(known, taxi, trip, source, statement.span)


def _write_no_order(scope: Scope, file: tree.File) -> None:
    if any(unread.keyword == "burn" for unread in file.unread):
        return
    names = list(scope.tanks)
    last = scope.tanks[names[-1]].input.span
    if last is not None:
        scope.notebook.write("611", last, count=str(len(names)), tanks=", then ".join(names))


def _burn_step(scope: Scope, step: tree.BurnStep) -> sheet.BurnStep | None:
    tanks: list[sheet.Tank] = []
    for word in step.tanks:
        tank = scope.tanks.get(word.text)
        if tank is None:
            _write_no_tank(scope, word)
            return None
        scope.use(word.text)
        tanks.append(tank)
    if step.down_to is None:
        return sheet.BurnStep(tuple(tanks), Fraction(0))
    unit = tanks[0].input.unit
    if unit is None:
        return None
    level = figures.value_of(scope, step.down_to, unit.dimension, f"what is left in {tanks[0].input.name}")
    return None if level is None else sheet.BurnStep(tuple(tanks), level)


def _write_no_tank(scope: Scope, word: tree.Word) -> None:
    if scope.is_faulty(word.text):
        return
    if word.text in scope.inputs or word.text in scope.declared:
        hint = "A tank is declared with `fuel`."
        what = naming.sort_of(scope, word.text)
        scope.notebook.write("305", word.span, name=word.text, what=what, wanted="a tank", hint=hint)
    else:
        scope.unknown("302", word, scope.tanks)


def _check_order(scope: Scope, statement: tree.Burn, steps: tuple[sheet.BurnStep, ...]) -> None:
    """Each tank goes down from step to step and ends empty."""
    levels: dict[str, Fraction] = {}
    for written, step in zip(statement.steps, steps, strict=True):
        for tank in step.tanks:
            before = levels.get(tank.input.name)
            if before is not None and step.down_to >= before and tank.input.unit is not None:
                span = written.down_to.span if written.down_to else written.span
                scope.notebook.write(
                    "613",
                    span,
                    name=tank.input.name,
                    before=figures.shown(before, tank.input.unit),
                    figure=scope.typed(span),
                )
            levels[tank.input.name] = step.down_to
    for name in scope.tanks:
        left = levels.get(name)
        if left is None:
            scope.notebook.write("612", statement.span, name=name, down="at all")
        elif left > 0:
            scope.notebook.write("612", statement.span, name=name, down="to its end")


# ---- the chord


def _chord(scope: Scope, file: tree.File) -> sheet.Chord | None:
    if any(unread.keyword == "chord" for unread in file.unread):
        scope.faulty.add("chord")
    statement = only_one(scope, file.statements, tree.Chord, "chord")
    if statement is None:
        return None
    source = clauses.needed_source(scope, statement.clauses, "the", "chord", statement.span)
    start = figures.value_of(scope, statement.start, LENGTH, "where the chord begins")
    length = figures.positive(scope, statement.length, LENGTH, "the length of the chord")
    printed = figures.value(scope, statement.length)
    if start is None or length is None or printed is None:
        scope.faulty.add("chord")
        return None
    return sheet.Chord(start, length, printed[1], source, statement.span)
