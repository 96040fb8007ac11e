"""Which way rounded figures lean, for the encoder: looked up by all that it can hang on.

Only a figure that has to be rounded leans, so only what stands above such a figure counts: the sign of a
factor, which end of a range is nearer, which edges of an envelope are nearer.
"""

from __future__ import annotations

from collections.abc import Iterator

from engine.evaluation.compiling.layout import Known
from engine.evaluation.workings import in_working_order
from engine.explanation.encoding_code import EncodingCode, Node
from engine.explanation.encoding_runtime import Order, Pair
from grammar.sheet import Absolute, Between, Inside, Numeric, Product, Quotient, children


def is_nearer_the_low_end(subject: Pair, low: Pair, high: Pair) -> bool:
    """Whether a value is nearer to the low end of a range, each a numerator over a denominator."""
    (s, s_below), (a, a_below), (b, b_below) = subject, low, high
    return 2 * s * a_below * b_below < (a * b_below + b * a_below) * s_below


def nearest_sides(order: tuple[Order, ...], first: int) -> tuple[int | None, int | None] | None:
    """Which edge of an envelope is nearer on each axis; None where the limit does not apply.

    ``first`` is the number of the first of the envelope's four sides in its limit.
    """
    if not order:
        return None
    across: int | None = None
    against: int | None = None
    for side, _, _ in order[0]:
        if first <= side < first + 2:
            across = side if across is None else across
        elif first + 2 <= side < first + 4:
            against = side if against is None else against
    return across, against


def write_lean_key(nodes: dict[int, Node], orders: dict[int, tuple[str, int]], code: EncodingCode) -> str:
    """Code for what the leans hang on.

    ``orders`` has by an envelope claim's slot the name of the order of its limit's margins, and the number of
    its first side there.
    """
    code.data |= {"is_nearer": is_nearer_the_low_end, "nearest": nearest_sides}
    above = _above_leaning(nodes, code)
    pieces = [piece for slot in above for piece in _pieces(nodes[slot], orders, code)]
    return f"({''.join(f'{piece}, ' for piece in dict.fromkeys(pieces))})"


def _above_leaning(nodes: dict[int, Node], code: EncodingCode) -> list[int]:
    """The slots of the nodes above any figure that may have to be rounded."""
    found, leaning = set[int](), set(code.leaning)
    for node in in_working_order(nodes[slot] for slot in sorted(nodes)):
        if any(part.slot in leaning or part.slot in found for part in children(node)):
            found.add(node.slot)
    return sorted(found)


def _pieces(node: Node, orders: dict[int, tuple[str, int]], code: EncodingCode) -> Iterator[str]:
    match node:
        case Product():
            yield from _signs((node.left, node.right), code)
        case Quotient():
            yield from _signs((node.dividend, node.divisor), code)
        case Absolute():
            yield from _signs((node.of,), code)
        case Between():
            pairs = (code.pair(code.amount(part.slot)) for part in (node.subject, node.low, node.high))
            yield f"is_nearer({', '.join(pairs)})"
        case Inside() if node.slot in orders:
            order, first = orders[node.slot]
            yield f"nearest({order}, {first})"
        case _:
            return


def _signs(parts: tuple[Node, ...], code: EncodingCode) -> Iterator[str]:
    for part in parts:
        if isinstance(part, Numeric) and not isinstance(code.layout.slots[part.slot], Known):
            yield f"{code.amount(part.slot).above} < 0"
