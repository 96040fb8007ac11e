"""What the values with a name are called inside a sentence."""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from typing import Final

from engine.explanation.words import clean, inside_a_sentence
from grammar.checking.vocabulary import STAGE_WORDS, TOTALS
from grammar.sheet import (
    AllOf,
    Choice,
    Condition,
    Count,
    Expression,
    FuelAmount,
    Input,
    Named,
    NamedCondition,
    Read,
    Role,
    Same,
    Stage,
    Sum,
    children,
)

_BOUND_OF: Final = "bound of "
"""How the label of another limit's bound begins, before the label of the limit."""


def label_of(node: Named | NamedCondition) -> str:
    """The label of a name inside a sentence, such as "mass at take-off"."""
    if isinstance(node, NamedCondition):
        return inside_a_sentence(node.label)
    limit = limit_of_bound(node)
    if limit is not None:
        return f'{_BOUND_OF}"{clean(limit)}"'
    return tank_of(node) or inside_a_sentence(node.label)


def limit_of_bound(node: Named) -> str | None:
    """The label of the limit whose bound the name stands for; None where it stands for something else."""
    is_bound = node.is_built_in and node.name.startswith("bound(")
    return node.label.removeprefix(_BOUND_OF) if is_bound else None


def tank_of(node: Named) -> str | None:
    """The tank whose contents the name stands for, as "main tank at landing"; None for anything else.

    Whether its volume or the mass of its fuel is meant the unit tells.
    """
    if not node.is_built_in or node.name in TOTALS or limit_of_bound(node) is not None:
        return None
    waiting: deque[Expression | Condition] = deque([node.body])
    while waiting:
        match part := waiting.popleft():
            case Read(input=item) if item.role is Role.TANK:
                return tank_left(item, node.stage)
            case FuelAmount(tank=tank):
                return tank_left(tank.input, node.stage)
            case _:
                waiting.extend(children(part))
    return None


def tank_left(item: Input, stage: Stage | None) -> str:
    """A tank at a stage: "main tank at landing"; at no stage in particular just "main tank"."""
    label = inside_a_sentence(item.label)
    return label if stage in (None, Stage.THROUGHOUT) else f"{label} {STAGE_WORDS[stage]}"


# ---- what the sheet spells out and a person calls by one word


@dataclass(frozen=True, slots=True)
class DeclaredMass:
    """The mass that counts on a place: what is stated, and what is added when that is declared and not weighed."""

    stated: Read
    is_added_to: Condition
    is_declared: Same
    added: Expression


def declared_mass(node: Expression) -> DeclaredMass | None:
    """The parts of a mass that something may be added to; None for anything else."""
    match node:
        case Named(is_built_in=True, body=Sum(terms=((1, Read() as stated), (1, Choice() as choice)))):
            return _declared_mass(stated, choice) if stated.input.role is Role.LOAD else None
        case _:
            return None


def _declared_mass(stated: Read, choice: Choice) -> DeclaredMass | None:
    guard, added = choice.cases[0].guard, choice.cases[0].value
    match guard:
        case AllOf(parts=(Same() as is_declared, *_)):
            return DeclaredMass(stated, guard, is_declared, added)
        case _:
            return None


def counted_places(condition: Same) -> tuple[Count, Expression] | None:
    """A count and the number it is held against; None for anything else."""
    match condition:
        case Same(left=Count() as count, right=number) | Same(left=number, right=Count() as count):
            return count, number
        case _:
            return None
