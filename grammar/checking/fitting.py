"""Ways of fitting the airframe: what each adds to the weighing, or that it has a weighing of its own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from grammar import sheet, tree
from grammar.checking import clauses, figures, nodes
from grammar.checking.declarations import is_first
from grammar.checking.scope import Configuration, Fitted, Scope
from grammar.checking.vocabulary import OF_A_WEIGHING
from grammar.diagnostics.problem import Elsewhere
from grammar.diagnostics.suggestions import nearest
from grammar.text import Span
from grammar.units import LENGTH, MASS, Dimension


def check_configurations(scope: Scope, file: tree.File) -> None:
    """Resolve the fittings of every configuration of the file."""
    for statement in file.statements:
        if not isinstance(statement, tree.Configuration) or not is_first(scope, statement):
            continue
        item = scope.inputs.get(statement.name.text)
        if item is not None:
            scope.configurations[item.name] = _configuration(scope, statement, item)


def _configuration(scope: Scope, statement: tree.Configuration, item: sheet.Input) -> Configuration:
    seen: dict[str, tree.Fitting] = {}
    adds: dict[str, Fitted] = {}
    apart: set[str] = set()
    for one in statement.fittings:
        if not _is_new_option(scope, item, one, seen):
            continue
        match one:
            case tree.WeighedApart():
                apart.add(one.option.text)
            case tree.Adds():
                fitted = _fitted(scope, one)
                if fitted is not None:
                    adds[one.option.text] = fitted
    if statement.fittings:
        scope.use(item.name)
    if apart:
        _weigh_apart(scope, statement, item, apart)
    source = clauses.source(scope, statement.clauses)
    return Configuration(item, adds, frozenset(apart), source, statement.span)


def _is_new_option(scope: Scope, item: sheet.Input, one: tree.Fitting, seen: dict[str, tree.Fitting]) -> bool:
    options = item.kind.options if isinstance(item.kind, sheet.Option) else ()
    word = one.option
    if word.text not in options:
        near = nearest(word.text, options)
        known = ", ".join(options)
        scope.notebook.write("310", word.span, suggestion=near, name=item.name, options=known, word=word.text)
        return False
    first = seen.setdefault(word.text, one)
    if first is not one:
        where = Elsewhere(first.span, "it stands here first")
        scope.notebook.write("529", one.span, elsewhere=(where,), option=word.text)
    return first is one


def _fitted(scope: Scope, one: tree.Adds) -> Fitted | None:
    mass = _figure(scope, one.mass, MASS, "what the fitting adds")
    arm = None if one.arm is None else _arm(scope, one.arm.length)
    lateral = None if one.lateral_arm is None else _arm(scope, one.lateral_arm.length)
    is_whole = (arm is None) is (one.arm is None) and (lateral is None) is (one.lateral_arm is None)
    return Fitted(mass, arm, lateral) if mass is not None and is_whole else None


def _figure(scope: Scope, figure: tree.Figure, dimension: Dimension, what: str) -> sheet.Constant | None:
    amount = figures.value_of(scope, figure, dimension, what)
    printed = figures.value(scope, figure)
    if amount is None or printed is None:
        return None
    return nodes.constant(scope, amount, printed[1], figure.span)


def _arm(scope: Scope, written: tree.Expression) -> sheet.Constant | None:
    """The arm of a fitting, which is a printed figure."""
    match written:
        case tree.Quantity():
            return _figure(scope, written.figure, LENGTH, "the arm")
        case tree.Negative(of=tree.Quantity(figure=figure)):
            return _figure(scope, tree.Figure(-figure.amount, figure.unit, written.span), LENGTH, "the arm")
        case _:
            scope.notebook.write("531", written.span, typed=scope.typed(written.span))
            return None


def _weigh_apart(scope: Scope, statement: tree.Configuration, item: sheet.Input, apart: set[str]) -> None:
    others = [one for one in scope.configurations.values() if one.weighed_apart]
    if others:
        where = Elsewhere(others[0].span, "this one has weighings of its own already")
        scope.notebook.write("530", statement.name.span, elsewhere=(where,), name=item.name)
        return
    for option in sorted(apart):
        for name in OF_A_WEIGHING:
            own = scope.inputs[name]
            scope.inputs[apart_name(name, option)] = replace(
                own, name=apart_name(name, option), label=f"{own.label}, {item.label.lower()} {option}"
            )


def apart_name(name: str, option: str) -> str:
    """The name of a figure of the weighing that an option has of its own, such as "empty_mass floats"."""
    return f"{name} {option}"


# ---- what it comes to


def _weighed_apart(scope: Scope) -> Configuration | None:
    return next((one for one in scope.configurations.values() if one.weighed_apart), None)


def weighing(scope: Scope, name: str, span: Span) -> sheet.Expression:
    """A figure of the weighing: the plain one, or that of the way in which the airframe is fitted."""
    configuration = _weighed_apart(scope)
    plain = nodes.read(scope, name, span)
    if configuration is None:
        return plain
    key = (f"weighing {name}", None, None)
    found = scope.instances.get(key)
    if isinstance(found, sheet.Choice):
        return found
    chooser = nodes.read(scope, configuration.item.name, span)
    cases: list[tuple[sheet.Condition, sheet.Expression]] = [
        (
            nodes.option(scope, chooser, option, configuration.span),
            nodes.read(scope, apart_name(name, option), span),
        )
        for option in sorted(configuration.weighed_apart)
    ]
    made = nodes.choice(scope, cases, plain, configuration.span)
    scope.instances[key] = made
    return made


def masses(scope: Scope, span: Span) -> list[sheet.Expression]:
    """What each configuration adds to the mass."""
    return [_fitted_mass(scope, one, span) for one in scope.configurations.values() if one.adds]


def moments(scope: Scope, span: Span, *, is_lateral: bool) -> list[sheet.Expression]:
    """What each configuration adds to the moment, or to the lateral moment."""
    return [
        _fitted_moment(scope, one, span, is_lateral=is_lateral)
        for one in scope.configurations.values()
        if one.adds
    ]


def _fitted_mass(scope: Scope, one: Configuration, span: Span) -> sheet.Expression:
    chooser = nodes.read(scope, one.item.name, span)
    nothing = nodes.constant(scope, figures.NOTHING, scope.units.mass, one.span)
    cases: list[tuple[sheet.Condition, sheet.Expression]] = [
        (nodes.option(scope, chooser, option, one.span), fitted.mass) for option, fitted in one.adds.items()
    ]
    return _as_fitted(scope, one, nodes.choice(scope, cases, nothing, one.span), "mass")


def _fitted_moment(scope: Scope, one: Configuration, span: Span, *, is_lateral: bool) -> sheet.Expression:
    chooser, unit = nodes.read(scope, one.item.name, span), scope.units.moment
    nothing = nodes.constant(scope, figures.NOTHING, unit, one.span)
    cases: list[tuple[sheet.Condition, sheet.Expression]] = []
    for option, fitted in one.adds.items():
        arm = fitted.lateral_arm if is_lateral else fitted.arm
        if arm is not None:
            moment = nodes.product(scope, fitted.mass, arm, unit, one.span)
            cases.append((nodes.option(scope, chooser, option, one.span), moment))
    what = "lateral moment" if is_lateral else "moment"
    return _as_fitted(scope, one, nodes.choice(scope, cases, nothing, one.span), what)


def _as_fitted(scope: Scope, one: Configuration, body: sheet.Expression, what: str) -> sheet.Expression:
    key = (f"{what} of {one.item.name} as fitted", None, None)
    found = scope.instances.get(key)
    if isinstance(found, sheet.Named):
        return found
    made = sheet.Named(
        span=one.span,
        slot=scope.slot(),
        kind=body.kind,
        unit=body.unit,
        name=f"{one.item.name}, {what}",
        label=f"{one.item.label} as fitted, {what}",
        stage=None,
        body=body,
        source=one.source,
        is_built_in=True,
    )
    scope.instances[key] = made
    return made


def has_every_arm(scope: Scope, *, is_lateral: bool) -> bool:
    """Whether each fitting that adds something has the arm; one that has none is written down."""
    lacking = list(_without_arm(scope, is_lateral=is_lateral))
    for configuration, option in lacking:
        scope.notebook.write(
            "519",
            configuration.span,
            name=f"{configuration.item.name} {option}",
            what="the lateral balance" if is_lateral else "the centre of gravity",
            arm="lateral arm" if is_lateral else "arm",
        )
    return not lacking


def _without_arm(scope: Scope, *, is_lateral: bool) -> Iterator[tuple[Configuration, str]]:
    for configuration in scope.configurations.values():
        for option, fitted in configuration.adds.items():
            if (fitted.lateral_arm if is_lateral else fitted.arm) is None:
                yield configuration, option
