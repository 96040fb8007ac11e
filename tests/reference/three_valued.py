"""Values that may be unknown: arithmetic and strong Kleene logic with the causes kept."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction

from tests.reference.stated import Known


@dataclass(frozen=True)
class Unknown:
    """A value that cannot be told, with what it waits for: ("missing", "front_seat") and the like."""

    causes: frozenset[tuple[str, str]]


Value = Known | Unknown


def unknown(kind: str, name: str) -> Unknown:
    return Unknown(frozenset({(kind, name)}))


def all_causes(values: Iterable[Value]) -> Unknown | None:
    """Everything that any of the values waits for; None where all are known."""
    causes = frozenset(cause for value in values if isinstance(value, Unknown) for cause in value.causes)
    return Unknown(causes) if causes else None


def calculated(calculate: Callable[..., Known], *values: Value) -> Value:
    """A value worked out from others, unknown where one of them is."""
    return all_causes(values) or calculate(*values)


def every(truths: list[Value]) -> Value:
    """``and``: one false part settles it, else an unknown part leaves it open."""
    if any(truth is False for truth in truths):
        return False
    return all_causes(truths) or True


def some(truths: list[Value]) -> Value:
    """``or``: one true part settles it, else an unknown part leaves it open."""
    if any(truth is True for truth in truths):
        return True
    return all_causes(truths) or False


def times(left: Value, right: Value) -> Value:
    """A product; nothing times whatever it may be is nothing."""
    if left == 0 or right == 0:
        return Fraction(0)
    return calculated(lambda a, b: a * b, left, right)


def denied(truth: Value) -> Value:
    return truth if isinstance(truth, Unknown) else not truth
