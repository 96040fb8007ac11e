"""The list of values in an encoder's code: one frame for all, with a place for whatever changes."""

from __future__ import annotations

from engine.evaluation.compiling.layout import Chosen, Divided, Known, Scaled, Settled, Unused
from engine.explanation.amounts import Holds
from engine.explanation.document_models import ExplanationDocument, Quantity, ValueExplained
from engine.explanation.encoding_code import EncodingCode, Node
from engine.explanation.encoding_frames import MARK, MARKED, PLACE, frame_of
from grammar.sheet import CalendarDate, Numeric, Option, Read
from grammar.units import PURE, Unit


def values_pieces(document: ExplanationDocument, nodes: dict[int, Node], code: EncodingCode) -> list[str]:
    """The list of values in pieces: code for each piece of text. The leans stand in ``leans``."""
    frames: list[str] = []
    places: list[str] = []
    for value in document.values:
        frame, of_value = _value(value, nodes[value.number], code)
        frames.append(frame)
        places += of_value
    return code.pieces(",".join(frames), [[place] for place in places])


def _value(value: ValueExplained, node: Node, code: EncodingCode) -> tuple[str, list[str]]:
    """The frame of one value and the code for its places."""
    changed, places = _content(value, node, code)
    frame = frame_of(changed)
    if isinstance(node, Read) and node.input.assumed is not None:
        frame = _with_assumption(frame, value)
        places.append(f"{code.add('false')} if {code.add(node.input.name)} in stated else {code.add('true')}")
    return frame, places


def _with_assumption(frame: str, value: ValueExplained) -> str:
    key = '"is_assumed":'
    return frame.replace(f"{key}{'true' if value.is_assumed else 'false'}", f"{key}{PLACE}")


def _content(value: ValueExplained, node: Node, code: EncodingCode) -> tuple[ValueExplained, list[str]]:
    layout = code.layout.slots[node.slot]
    match layout:
        case Known() if node.slot not in code.leaning:
            return value, []
        case Settled(at=at):
            holds = tuple(code.add(str(Holds(truth))) for truth in (True, False))
            return value.model_copy(update={"text": MARK}), [f"{holds[0]} if p{at} else {holds[1]}"]
        case Chosen(at=at, words=words):
            return value.model_copy(update={"text": MARK}), [f"{code.add(words)}[p{at}]"]
        case Known() | Scaled() | Divided() | Unused():
            return _quantity(value, node, code)


def _quantity(value: ValueExplained, node: Node, code: EncodingCode) -> tuple[ValueExplained, list[str]]:
    if not isinstance(node, Numeric) or isinstance(node.kind, Option) or value.quantity is None:
        raise TypeError("a value without a quantity")
    figure = code.figure(node.slot)
    if node.slot not in code.leaning or isinstance(node.kind, CalendarDate):
        marked = Quantity(amount=MARK, unit=value.quantity.unit, is_exact=True, exact=None)
        return value.model_copy(update={"quantity": marked}), [figure]
    lean = f"leans[{code.leaning.index(node.slot)}]"
    return value.model_copy(update={"quantity": MARKED}), [_rounded(node.unit or PURE, figure, lean, code)]


def _rounded(unit: Unit, figure: str, lean: str, code: EncodingCode) -> str:
    """The name of a quantity that may have to be rounded; worked out once for several slots of one value."""
    key = (code.quantities(unit), figure)
    name, filled = code.fresh(), f"{key[0]}.filled(ratio(*{figure}, {lean}))"
    if key in code.rounded:
        before, lean_before = code.rounded[key]
        filled = f"{before} if {lean} is {lean_before} else {filled}"
    code.line(f"{name} = {filled}")
    code.rounded[key] = (name, lean)
    return name
