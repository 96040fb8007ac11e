"""The checked sheet: immutable, every name resolved, every figure an exact rational in base units.

Everything else in the program is an interpretation of this structure. It says nothing of how it is used.

Three ideas hold it together:

* What the language has built in (mass, cg, volume, the bound of another limit) is spelled out here in the
  same few kinds of expression that an officer's own limits are made of, each under its name (``Named``). An
  interpretation that knows the expressions below knows the whole language.
* Each expression and condition has a *slot*. An evaluation is a tuple of values, one a slot, so an
  explanation is the pair of this structure and such a tuple.
* A value that depends on the stage of the flight is a different expression at each stage. What moves with
  the burn (stage ``THROUGHOUT``) belongs to one limit alone, so that its slots can hold the values at the
  fuel state where that limit is tightest.

Spans and slots do not count when two sheets are compared.
"""

from __future__ import annotations

from grammar.sheet.carried import (
    Burn,
    BurnStep,
    Chord,
    Place,
    Tank,
)
from grammar.sheet.expressions import (
    Above,
    Absolute,
    AllOf,
    AnyOf,
    AtLeast,
    AtMost,
    Below,
    Between,
    Case,
    Choice,
    Claim,
    Condition,
    ConditionCase,
    ConditionChoice,
    Constant,
    Count,
    Expression,
    FuelAmount,
    Greatest,
    Inside,
    LaterDate,
    Least,
    LookUp,
    Named,
    NamedCondition,
    Node,
    Not,
    Numeric,
    Occupied,
    Product,
    Quotient,
    Read,
    Rounded,
    Same,
    Stated,
    Sum,
)
from grammar.sheet.kinds import (
    CalendarDate,
    Document,
    Input,
    Kind,
    Measure,
    Option,
    Role,
    Source,
    Stage,
    TemperaturePoint,
)
from grammar.sheet.parts import (
    children,
)
from grammar.sheet.printed import (
    Axis,
    Envelope,
    Table,
    Taking,
)
from grammar.sheet.statements import (
    Displaced,
    Example,
    ExpectedValue,
    ExpectedVerdict,
    Ground,
    Header,
    Layer,
    LayerKind,
    Let,
    Limit,
    Origin,
    Sheet,
    Verdict,
    Weight,
)

__all__ = [
    "Above",
    "Absolute",
    "AllOf",
    "AnyOf",
    "AtLeast",
    "AtMost",
    "Axis",
    "Below",
    "Between",
    "Burn",
    "BurnStep",
    "CalendarDate",
    "Case",
    "Choice",
    "Chord",
    "Claim",
    "Condition",
    "ConditionCase",
    "ConditionChoice",
    "Constant",
    "Count",
    "Displaced",
    "Document",
    "Envelope",
    "Example",
    "ExpectedValue",
    "ExpectedVerdict",
    "Expression",
    "FuelAmount",
    "Greatest",
    "Ground",
    "Header",
    "Input",
    "Inside",
    "Kind",
    "LaterDate",
    "Layer",
    "LayerKind",
    "Least",
    "Let",
    "Limit",
    "LookUp",
    "Measure",
    "Named",
    "NamedCondition",
    "Node",
    "Not",
    "Numeric",
    "Occupied",
    "Option",
    "Origin",
    "Place",
    "Product",
    "Quotient",
    "Read",
    "Role",
    "Rounded",
    "Same",
    "Sheet",
    "Source",
    "Stage",
    "Stated",
    "Sum",
    "Table",
    "Taking",
    "Tank",
    "TemperaturePoint",
    "Verdict",
    "Weight",
    "children",
]
