"""Worked examples: what they state, put in base units, and what they expect. Running them is not done here."""

from __future__ import annotations

from fractions import Fraction
from typing import Final

from grammar import sheet, tree
from grammar.checking import amounts, clauses, figures, kinds, resolving
from grammar.checking.context import Context
from grammar.checking.declarations import is_first
from grammar.checking.declared_masses import manner_name
from grammar.checking.fitting import apart_name
from grammar.checking.inputs import label_of
from grammar.checking.scope import Scope
from grammar.checking.vocabulary import OF_A_WEIGHING
from grammar.diagnostics.problem import Elsewhere
from grammar.diagnostics.suggestions import nearest
from grammar.units import TEMPERATURE, Unit, calendar_unit

_CARRIED: Final = (sheet.Role.LOAD, sheet.Role.TANK)
WHOLE_SHEET: Final = "verdict"
"""The word that stands for the verdict of the whole sheet."""

Setting = tuple[sheet.Input, Fraction | str]


def check_examples(scope: Scope, file: tree.File, limits: tuple[sheet.Limit, ...]) -> tuple[sheet.Example, ...]:
    """Every worked example of the file that can be run."""
    by_name = {limit.name: limit for limit in limits}
    statements = [one for one in file.statements if isinstance(one, tree.Example) and is_first(scope, one)]
    found = [_example(scope, statement, by_name) for statement in statements]
    return tuple(example for example in found if example is not None)


def _example(scope: Scope, statement: tree.Example, limits: dict[str, sheet.Limit]) -> sheet.Example | None:
    name = statement.name
    if not statement.expectations:
        scope.notebook.write("854", name.span, name=name.text)
    settings = _settings(scope, statement)
    expectations = [_expectation(scope, one, limits, name.text) for one in statement.expectations]
    known = tuple(one for one in expectations if one is not None)
    source = clauses.needed_source(scope, statement.clauses, "the example", name.text, name.span)
    if settings is None or len(known) < len(expectations):
        return None
    label = label_of(name, statement.label)
    return sheet.Example(name.text, label, settings, known, source, statement.span)


# ---- what is stated


def _settings(scope: Scope, statement: tree.Example) -> tuple[Setting, ...] | None:
    first: dict[str, tree.Setting] = {}
    found: list[Setting | None] = []
    for keyword, settings in (("given", statement.given), ("load", statement.loads)):
        for setting in settings:
            if setting.name.text in first:
                where = Elsewhere(first[setting.name.text].span, "stated first here")
                scope.notebook.write("851", setting.span, elsewhere=(where,), name=setting.name.text)
            first.setdefault(setting.name.text, setting)
            found.append(_setting(scope, setting, keyword))
            found.extend(_manner(scope, setting))
    known = tuple(one for one in found if one is not None)
    return _of_own_weighing(scope, known) if len(known) == len(found) else None


def _manner(scope: Scope, setting: tree.Setting) -> list[Setting]:
    """How the mass is known, where the example says so and some limit asks."""
    item = scope.inputs.get(manner_name(setting.name.text))
    return [(item, setting.manner.text)] if setting.manner is not None and item is not None else []


def _of_own_weighing(scope: Scope, settings: tuple[Setting, ...]) -> tuple[Setting, ...]:
    """An example states the weighing of the aircraft as it is fitted: of an option weighed apart, its own."""
    stated = {item.name: value for item, value in settings}
    for configuration in scope.configurations.values():
        option = stated.get(configuration.item.name)
        if isinstance(option, str) and option in configuration.weighed_apart:
            return tuple(
                (scope.inputs[apart_name(item.name, option)] if item.name in OF_A_WEIGHING else item, value)
                for item, value in settings
            )
    return settings


def _setting(scope: Scope, setting: tree.Setting, keyword: str) -> Setting | None:
    name = setting.name.text
    item = scope.inputs.get(name)
    if item is None:
        if not scope.is_faulty(name):
            scope.unknown("302", setting.name, scope.inputs)
        return None
    is_carried = item.role in _CARRIED
    if is_carried != (keyword == "load"):
        what = "a load" if is_carried else "no load"
        right = "load" if is_carried else "given"
        scope.notebook.write("853", setting.span, name=name, what=what, keyword=keyword, right=right)
        return None
    value = _value(scope, item, setting)
    return None if value is None else (item, value)


def _value(scope: Scope, item: sheet.Input, setting: tree.Setting) -> Fraction | str | None:
    match setting.value:
        case tree.Figure():
            return _amount(scope, item, setting.value)
        case tree.Day():
            if not isinstance(item.kind, sheet.CalendarDate):
                _wrong_manner(scope, item, setting)
                return None
            return figures.day(scope, setting.value)
        case tree.Word():
            return _option(scope, item, setting, setting.value)


def _wrong_manner(scope: Scope, item: sheet.Input, setting: tree.Setting) -> None:
    given = scope.typed(setting.value.span)
    scope.notebook.write("852", setting.span, name=item.name, wanted=kinds.words(item.kind), given=given)


def _amount(scope: Scope, item: sheet.Input, figure: tree.Figure) -> Fraction | None:
    if item.unit is None:
        given = scope.typed(figure.span)
        scope.notebook.write("852", figure.span, name=item.name, wanted=kinds.words(item.kind), given=given)
        return None
    found = figures.value(scope, figure)
    if found is None:
        return None
    amount, unit = found
    converted = amounts.in_manner_of(item, amount, unit, tuple(scope.tanks.values()))
    if converted is None:
        figures.wrong_dimension(scope, figure, unit, item.unit.dimension, item.name, item.unit)
    return converted


def _option(scope: Scope, item: sheet.Input, setting: tree.Setting, word: tree.Word) -> str | None:
    if not isinstance(item.kind, sheet.Option):
        _wrong_manner(scope, item, setting)
        return None
    if word.text not in item.kind.options:
        scope.notebook.write(
            "310",
            word.span,
            suggestion=nearest(word.text, item.kind.options),
            name=item.name,
            options=", ".join(item.kind.options),
            word=word.text,
        )
        return None
    return word.text


# ---- what is expected


def _expectation(
    scope: Scope, node: tree.Expectation, limits: dict[str, sheet.Limit], example: str
) -> sheet.ExpectedValue | sheet.ExpectedVerdict | None:
    match node:
        case tree.ExpectValue():
            return _expected_value(scope, node, example)
        case tree.ExpectVerdict():
            return _expected_verdict(scope, node, limits)


def _expected_value(scope: Scope, node: tree.ExpectValue, example: str) -> sheet.ExpectedValue | None:
    subject = resolving.value(scope, node.subject, Context(owner=f"example {example}"))
    if subject is None:
        return None
    if isinstance(node.value, tree.Day):
        day = figures.day(scope, node.value)
        is_date = isinstance(subject.kind, sheet.CalendarDate)
        if day is None or not is_date:
            _write_other_dimension(scope, node, subject)
            return None
        return sheet.ExpectedValue(subject, day, Fraction(0), node.span)
    found = figures.value(scope, node.value)
    if found is None:
        return None
    amount, unit = found
    if subject.kind != figures.kind_of(unit):
        _write_other_dimension(scope, node, subject)
        return None
    tolerance = _tolerance(scope, node, subject)
    return None if tolerance is None else sheet.ExpectedValue(subject, amount, tolerance, node.span)


def _write_other_dimension(scope: Scope, node: tree.ExpectValue, subject: sheet.Expression) -> None:
    scope.notebook.write(
        "855",
        node.value.span,
        subject=scope.typed(node.subject.span),
        dimension=kinds.words(subject.kind),
        figure=scope.typed(node.value.span),
    )


def _tolerance(scope: Scope, node: tree.ExpectValue, subject: sheet.Expression) -> Fraction | None:
    if node.give_or_take is None:
        return Fraction(0)
    if not isinstance(subject.kind, sheet.Measure):
        _write_other_dimension(scope, node, subject)
        return None
    return figures.value_of(scope, node.give_or_take, subject.kind.dimension, "how far it may be off")


def _expected_verdict(
    scope: Scope, node: tree.ExpectVerdict, limits: dict[str, sheet.Limit]
) -> sheet.ExpectedVerdict | None:
    name = node.limit.text
    verdict = sheet.Verdict(node.verdict.text)
    if name == WHOLE_SHEET:
        return sheet.ExpectedVerdict(None, verdict, None, None, node.span)
    limit = limits.get(name)
    if limit is None:
        if not scope.is_faulty(name):
            scope.unknown("302", node.limit, (*limits, WHOLE_SHEET))
        return None
    scope.use(name)
    if node.by is None:
        return sheet.ExpectedVerdict(limit, verdict, None, None, node.span)
    by = _margin(scope, node.by, limit)
    return None if by is None else sheet.ExpectedVerdict(limit, verdict, *by, node.span)


def _margin(scope: Scope, by: tree.Figure, limit: sheet.Limit) -> tuple[Fraction, Unit | None] | None:
    """The size of a margin with its unit (None for days), of a dimension that the limit has margins in."""
    measured = margin_kinds(limit)
    if by.unit is not None and calendar_unit(by.unit.text) == "days" and sheet.CalendarDate() in measured:
        return by.amount, None
    found = figures.value(scope, by)
    if found is None:
        return None
    amount, unit = found
    if sheet.Measure(unit.dimension) in measured and not unit.is_point:
        return amount, unit
    if unit.dimension == TEMPERATURE and sheet.TemperaturePoint() in measured:
        return amount, unit
    dimensions = " or ".join(sorted({kinds.words(kind) for kind in measured})) or "none"
    scope.notebook.write("856", by.span, limit=limit.name, dimensions=dimensions, figure=scope.typed(by.span))
    return None


def margin_kinds(limit: sheet.Limit) -> set[sheet.Kind]:
    """The kinds of value that the claims of a limit have margins in."""
    found: set[sheet.Kind] = set()
    waiting: list[sheet.Expression | sheet.Condition] = [limit.claim]
    while waiting:
        node = waiting.pop()
        match node:
            case sheet.AtMost() | sheet.AtLeast() | sheet.Between():
                found.add(node.subject.kind)
            case sheet.Inside():
                found |= {node.across.kind, node.against.kind}
            case _:
                waiting.extend(sheet.children(node))
    return found
