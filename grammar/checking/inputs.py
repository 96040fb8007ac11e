"""Inputs: what an airframe's record and a request state. Facts, givens, places and tanks with their ranges."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from grammar import sheet, tree
from grammar.checking import clauses, figures
from grammar.checking.declarations import is_first
from grammar.checking.scope import Scope
from grammar.checking.vocabulary import DAYS_AND_NUMBERS, TAXI_FUEL, TRIP_FUEL, WEIGHING, fuel_burned
from grammar.units import LENGTH, MASS, NUMBER, PURE, VOLUME, Dimension, Unit, find_unit


def check_inputs(scope: Scope, file: tree.File) -> None:
    """Resolve every fact, given, place and tank of the file, and the inputs that are built in."""
    for statement in file.statements:
        match statement:
            case tree.Fact() | tree.Given():
                _keep(scope, statement, _information(scope, statement))
            case tree.Configuration():
                _keep(scope, statement, _configuration(scope, statement))
            case tree.Load() | tree.Fuel():
                _keep(scope, statement, _carried(scope, statement))
            case _:
                continue
    _prefer_units(scope, file)
    _add_built_in(scope)
    tanks = [one for one in scope.inputs.values() if one.role is sheet.Role.TANK]
    if tanks and tanks[0].unit is not None:
        for name in (TAXI_FUEL, TRIP_FUEL):
            scope.inputs[name] = fuel_burned(name, tanks[0].unit)
    _one_manner_of_tanks(scope, tanks)


def _add_built_in(scope: Scope) -> None:
    """The inputs that every sheet has, the weighing in the units of the sheet's own loads and arms."""
    units = {MASS: scope.units.mass, LENGTH: scope.units.length}
    for one in WEIGHING:
        dimension = one.kind.dimension if isinstance(one.kind, sheet.Measure) else MASS
        scope.inputs[one.name] = replace(one, unit=units[dimension])
    for one in DAYS_AND_NUMBERS:
        scope.inputs[one.name] = one


def _keep(
    scope: Scope,
    statement: tree.Fact | tree.Given | tree.Configuration | tree.Load | tree.Fuel,
    checked: sheet.Input | None,
) -> None:
    if not is_first(scope, statement):
        return
    if checked is None:
        scope.faulty.add(statement.name.text)
    else:
        scope.inputs[checked.name] = checked


def label_of(name: tree.Word, label: tree.Word | None) -> str:
    """The label of a statement, or its name in words."""
    return label.text if label else name.text.replace("_", " ")


# ---- facts and givens


def _information(scope: Scope, statement: tree.Fact | tree.Given) -> sheet.Input | None:
    is_fact = isinstance(statement, tree.Fact)
    if is_fact:
        source = clauses.needed_source(
            scope, statement.clauses, "the fact", statement.name.text, statement.name.span
        )
    else:
        source = clauses.source(scope, statement.clauses)
    kind = _kind(scope, statement.information)
    if kind is None:
        return None
    unit, least, most = _measured(scope, statement)
    return sheet.Input(
        name=statement.name.text,
        label=label_of(statement.name, statement.label),
        role=sheet.Role.FACT if is_fact else sheet.Role.GIVEN,
        kind=kind,
        unit=unit,
        least=least,
        most=most,
        assumed=None,
        source=source,
        note=clauses.note(scope, statement.clauses),
        span=statement.span,
    )


def _kind(scope: Scope, information: tree.Information) -> sheet.Kind | None:
    match information:
        case tree.OneOf():
            return _one_of(scope, information)
        case tree.YesOrNo():
            return sheet.Option(("no", "yes"), is_yes_or_no=True)
        case tree.ADate():
            return sheet.CalendarDate()
        case tree.Measured():
            unit = _unit_of(scope, information)
            return None if unit is None else figures.kind_of(unit)


def _one_of(scope: Scope, information: tree.OneOf) -> sheet.Option:
    words: dict[str, tree.Word] = {}
    for option in information.options:
        if option.text in words:
            scope.notebook.write("301", option.span, name=option.text)
        words.setdefault(option.text, option)
    return sheet.Option(tuple(words))


def _unit_of(scope: Scope, information: tree.Measured) -> Unit | None:
    return PURE if information.unit is None else figures.unit(scope, information.unit)


def _measured(
    scope: Scope, statement: tree.Fact | tree.Given
) -> tuple[Unit | None, Fraction | None, Fraction | None]:
    information = statement.information
    if not isinstance(information, tree.Measured):
        return None, None, None
    unit = _unit_of(scope, information)
    if unit is None or information.range is None:
        return unit, None, None
    ends = _ends(scope, information.range, unit, statement.name.text)
    return (unit, None, None) if ends is None else (unit, *ends)


def _ends(scope: Scope, limits: tree.Range, unit: Unit, name: str) -> tuple[Fraction, Fraction] | None:
    least = figures.value_in(scope, limits.least, unit, name)
    most = figures.value_in(scope, limits.most, unit, name)
    if least is None or most is None:
        return None
    if least > most:
        typed = scope.typed
        scope.notebook.write("501", limits.span, least=typed(limits.least.span), most=typed(limits.most.span))
        return None
    return least, most


def _configuration(scope: Scope, statement: tree.Configuration) -> sheet.Input:
    name = statement.name
    source = clauses.needed_source(scope, statement.clauses, "the configuration", name.text, name.span)
    return sheet.Input(
        name=name.text,
        label=label_of(name, statement.label),
        role=sheet.Role.GIVEN,
        kind=_one_of(scope, tree.OneOf(statement.options, statement.span)),
        unit=None,
        least=None,
        most=None,
        assumed=None,
        source=source,
        note=clauses.note(scope, statement.clauses),
        span=statement.span,
    )


# ---- places and tanks


def _carried(scope: Scope, statement: tree.Load | tree.Fuel) -> sheet.Input | None:
    is_tank = isinstance(statement, tree.Fuel)
    what = "the tank" if is_tank else "the load"
    name = statement.name.text
    source = clauses.needed_source(scope, statement.clauses, what, name, statement.name.span)
    unit = _unit_of_range(scope, statement)
    ends = None if unit is None else _ends(scope, statement.range, unit, name)
    if unit is None or ends is None:
        return None
    if ends[0] < 0:
        least = statement.range.least.span
        scope.notebook.write("502", least, name=name, least=scope.typed(least))
        return None
    is_assumed_empty = clauses.one(scope, statement.clauses, tree.AssumedEmpty) is not None
    return sheet.Input(
        name=name,
        label=label_of(statement.name, statement.label),
        role=sheet.Role.TANK if is_tank else sheet.Role.LOAD,
        kind=sheet.Measure(unit.dimension),
        unit=unit,
        least=ends[0],
        most=ends[1],
        assumed=Fraction(0) if is_assumed_empty else None,
        source=source,
        note=clauses.note(scope, statement.clauses),
        span=statement.span,
    )


def _unit_of_range(scope: Scope, statement: tree.Load | tree.Fuel) -> Unit | None:
    """The unit of the most that is allowed."""
    most = statement.range.most
    found = figures.value(scope, most)
    if found is None:
        return None
    unit = found[1]
    allowed = _allowed(statement)
    if unit.dimension in allowed:
        return unit
    figures.wrong_dimension(scope, most, unit, allowed[0], statement.name.text)
    return None


def _allowed(statement: tree.Load | tree.Fuel) -> tuple[Dimension, ...]:
    """In what a load or a tank may be counted; the first is what is asked for where the unit is wrong."""
    if isinstance(statement, tree.Fuel):
        return VOLUME, MASS
    if any(isinstance(clause, tree.Each) for clause in statement.clauses):
        return (NUMBER,)
    has_density = any(isinstance(clause, tree.Density) for clause in statement.clauses)
    return (VOLUME, MASS) if has_density else (MASS,)


def _prefer_units(scope: Scope, file: tree.File) -> None:
    """Show totals in the unit of the first load, moments with the length unit of the first arm."""
    of_mass = (one for one in scope.inputs.values() if one.unit is not None and one.unit.dimension == MASS)
    first = next((one for one in of_mass if one.role is sheet.Role.LOAD), None)
    if first is not None and first.unit is not None:
        scope.units.mass = first.unit
    for statement in file.statements:
        if isinstance(statement, tree.Load | tree.Fuel):
            unit = _arm_unit(statement)
            if unit is not None:
                scope.units.length = unit
                return


def _arm_unit(statement: tree.Load | tree.Fuel) -> Unit | None:
    for clause in statement.clauses:
        if isinstance(clause, tree.Arm):
            figure = clause.length.of if isinstance(clause.length, tree.Negative) else clause.length
            if isinstance(figure, tree.Quantity) and figure.figure.unit is not None:
                unit = find_unit(figure.figure.unit.text)
                return unit if unit is not None and unit.dimension == LENGTH else None
    return None


def _one_manner_of_tanks(scope: Scope, tanks: list[sheet.Input]) -> None:
    for tank in tanks[1:]:
        first = tanks[0]
        if tank.unit is None or first.unit is None or tank.span is None:
            continue
        if tank.unit.dimension != first.unit.dimension:
            scope.notebook.write(
                "410",
                tank.span,
                name=tank.name,
                dimension=tank.unit.dimension.name,
                other=first.name,
                other_dimension=first.unit.dimension.name,
            )
