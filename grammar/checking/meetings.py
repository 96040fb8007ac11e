"""Whether two values can be added, ordered or be the same, and what is wrong where they cannot."""

from __future__ import annotations

from grammar import sheet
from grammar.checking import kinds
from grammar.checking.kinds import Meeting
from grammar.checking.scope import Scope
from grammar.text import Span
from grammar.units import NUMBER, PURE, Unit


def display_unit(node: sheet.Expression) -> Unit:
    """The unit to show a value in; a plain number has none."""
    return node.unit or PURE


Typed = tuple[Span, sheet.Expression]
"""A resolved expression and where it was written."""


def fits(scope: Scope, meeting: Meeting, left: Typed, right: Typed) -> bool:
    """Whether two values can be added, subtracted, ordered or be the same; if not, it is written down."""
    one, other = left[1].kind, right[1].kind
    if not kinds.is_legal(meeting, one, other):
        _write_meeting_problem(scope, meeting, left, right)
        return False
    if isinstance(one, sheet.Measure) and isinstance(other, sheet.Measure) and one.dimension != other.dimension:
        _write_meeting_problem(scope, meeting, left, right)
        return False
    return True


def _write_meeting_problem(scope: Scope, meeting: Meeting, left: Typed, right: Typed) -> None:
    one, other = left[1].kind, right[1].kind
    bare = _bare_number(left, right)
    if bare is not None:
        _write_bare_number(scope, bare[0], bare[1])
    elif isinstance(one, sheet.Measure) and isinstance(other, sheet.Measure):
        _write_dimensions(scope, meeting, left, right)
    else:
        write_illegal(scope, meeting, (left[0], one), (right[0], other))


def _bare_number(left: Typed, right: Typed) -> tuple[Typed, Typed] | None:
    """The side that is a figure without a unit, and the other side, which has one."""
    for one, other in ((left, right), (right, left)):
        is_bare = isinstance(one[1], sheet.Constant) and one[1].unit is PURE
        if is_bare and other[1].unit is not None and other[1].unit.name and not _is_number(other[1].kind):
            return one, other
    return None


def _is_number(kind: sheet.Kind) -> bool:
    return isinstance(kind, sheet.Measure) and kind.dimension == NUMBER


def _write_bare_number(scope: Scope, bare: Typed, other: Typed) -> None:
    figure, unit = scope.typed(bare[0]), display_unit(other[1])
    scope.notebook.write(
        "403",
        bare[0],
        suggestion=f"{figure} {unit.name}",
        figure=figure,
        dimension=kinds.words(other[1].kind),
        unit=unit.name,
    )


def _write_dimensions(scope: Scope, meeting: Meeting, left: Typed, right: Typed) -> None:
    is_tank = isinstance(left[1], sheet.Named) and left[1].name in scope.tanks
    right_name = kinds.words(right[1].kind)
    if is_tank and right_name == "a volume":
        tank = scope.typed(left[0])
        scope.notebook.write("409", left[0], tank=tank, right=scope.typed(right[0]), suggestion=f"volume({tank})")
        return
    scope.notebook.write(
        "402",
        left[0].to(right[0]),
        left=scope.typed(left[0]),
        left_dimension=kinds.words(left[1].kind),
        right=scope.typed(right[0]),
        right_dimension=right_name,
        verb=meeting.value,
    )


def write_illegal(
    scope: Scope, meeting: Meeting, left: tuple[Span, sheet.Kind], right: tuple[Span, sheet.Kind]
) -> None:
    """Write down that two kinds have no sum, product or order."""
    scope.notebook.write(
        "406",
        min(left[0], right[0], key=_start).to(max(left[0], right[0], key=_start)),
        left=scope.typed(left[0]),
        left_kind=kinds.words(left[1]),
        right=scope.typed(right[0]),
        right_kind=kinds.words(right[1]),
        verb=meeting.value,
        hint=kinds.hint(left[1], right[1]),
    )


def _start(span: Span) -> int:
    return span.start
