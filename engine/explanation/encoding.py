"""The published JSON of an answer, straight from compiled code.

``Encoder.answer`` gives the very bytes of the models' JSON. What it has not met before (a turn of events that
no sentence was learned for, say) goes through the models once, and is learned. Whatever is unusual always
goes through the models.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, field, replace
from typing import Final, TypeVar, cast

from engine.evaluation.compiling.compiled import CompiledSheet
from engine.evaluation.compiling.layout import ASK_THE_SWEEP, Pieces
from engine.evaluation.compiling.writer import BeyondCompiling
from engine.evaluation.loading import Loading
from engine.evaluation.requests import read_loading
from engine.evaluation.result import CheckResult, Side
from engine.explanation.document import explanation_document
from engine.explanation.document_models import ExplanationDocument
from engine.explanation.encoding_code import EncodingCode
from engine.explanation.encoding_frames import PLACE, frame_of, pieces_of
from engine.explanation.encoding_leans import write_lean_key
from engine.explanation.encoding_limits import LimitWriter
from engine.explanation.encoding_runtime import Filled, Sentence
from engine.explanation.encoding_sentences import Learner
from engine.explanation.encoding_values import values_pieces
from engine.explanation.walking import visited
from grammar.figures import Rounding
from grammar.sheet import Verdict, Weight

MOST_LEARNED: Final = 4_096
"""How many turns of events of one limit are kept."""

LEANS: Final = -1
"""What stands for the leans where a limit's number would stand."""

T = TypeVar("T")

Key = tuple[object, ...]
"""A turn of events: what a limit's sentence, or the leans, hang on."""

Missed = list[tuple[int, Key]]
Encode = Callable[[Pieces, Collection[str], Missed], str]


@dataclass(slots=True)
class Learned:
    """What an encoder has learned: by the limit's number its sentences (or the limit as a whole, for one that
    is remembered), and the leans."""

    sentences: list[dict[Key, Filled | str]]
    leans: dict[Key, tuple[Rounding, ...]] = field(default_factory=dict)


@dataclass(slots=True)
class Encoding:
    """The generated function of a sheet, what it has learned, and what it cannot learn."""

    encode: Encode
    learned: Learned
    writers: tuple[LimitWriter, ...]
    figures: Mapping[int, int]
    leaning: tuple[int, ...]
    never: set[tuple[int, Key]] = field(default_factory=set)


@dataclass(slots=True)
class Encoder:
    """Encodes the answers of one sheet.

    ``encoding`` is made from the first usual answer; it stays None for a sheet that is beyond it.
    """

    compiled: CompiledSheet
    encoding: Encoding | None = None
    is_beyond: bool = False

    def answer(self, stated: Loading | Mapping[str, str]) -> bytes:
        """The JSON of the answer to a loading or a flat request. Errors: RequestRefused."""
        numbers, names = self.compiled.numbers(stated), self._names(stated)
        missed: Missed = []
        pieces = None if numbers is None else self._usual(self.compiled.values(numbers))
        found = None if pieces is None else self._encoded(pieces, names, missed)
        if found is not None:
            return found
        loading = stated if isinstance(stated, Loading) else read_loading(self.compiled.sheet, stated)
        result = self.compiled.check(loading)
        document = explanation_document(result)
        expected = document.model_dump_json().encode()
        if pieces is not None:
            self._learn(result, document, missed, pieces)
            self._hold_to(expected, pieces, names, missed)
        return expected

    def _names(self, stated: Loading | Mapping[str, str]) -> Collection[str]:
        if isinstance(stated, Loading):
            return stated.stated.keys()
        return self.compiled.parts.statement.names(stated)

    def encoded(self, numbers: tuple[int, ...], names: Collection[str]) -> bytes | None:
        """The JSON for a sheet's numbers and the names stated; None where the models have to write it."""
        pieces = self._usual(self.compiled.values(numbers))
        return None if pieces is None else self._encoded(pieces, names, [])

    def _usual(self, pieces: Pieces | None) -> Pieces | None:
        layout = self.compiled.layout
        if pieces is None or layout is None or self.is_beyond:
            return None
        moving = (pieces[layout.verdicts[at]] for at in self.compiled.parts.moving)
        return None if ASK_THE_SWEEP in moving else pieces

    def _encoded(self, pieces: Pieces, names: Collection[str], missed: Missed) -> bytes | None:
        if self.encoding is None:
            return None
        text = self.encoding.encode(pieces, names, missed)
        return None if missed else text.encode("latin-1")

    # ---- learning

    def _learn(self, result: CheckResult, document: ExplanationDocument, missed: Missed, pieces: Pieces) -> None:
        if self.encoding is None:
            try:
                self.encoding = begin(self.compiled, result, document, pieces)
            except BeyondCompiling:
                self.is_beyond = True
                return
            self.encoding.encode(pieces, result.loading.stated.keys(), missed)
        for at, key in missed:
            if (at, key) not in self.encoding.never:
                _learn_one(self.encoding, at, key, result, document)

    def _hold_to(self, expected: bytes, pieces: Pieces, names: Collection[str], missed: Missed) -> None:
        """What was just learned is forgotten for good unless it gives the very bytes of the models."""
        if self.encoding is None or not missed:
            return
        again: Missed = []
        if self._encoded(pieces, names, again) in (expected, None):
            return
        for at, key in missed:
            self.encoding.never.add((at, key))
            _forget(self.encoding, at, key)


def _learn_one(encoding: Encoding, at: int, key: Key, result: CheckResult, document: ExplanationDocument) -> None:
    if at == LEANS:
        leans = {each.node.slot: each.lean for each in visited(result)}
        _keep(encoding.learned.leans, key, tuple(leans[slot] for slot in encoding.leaning))
        return
    writer = encoding.writers[at]
    if writer.sides is None:
        (whole,) = pieces_of(document.limits[at].model_dump_json())
        _keep(encoding.learned.sentences[at], key, whole)
        return
    sides = {(side.claim.slot, side.side): side.number for side in writer.sides}
    sentence = Learner(at, writer.cone, sides).learned(result)
    if sentence is None:
        encoding.never.add((at, key))
    else:
        _keep(encoding.learned.sentences[at], key, _placed(sentence, encoding))


def _keep(kept: dict[Key, T], key: Key, what: T) -> None:
    if len(kept) >= MOST_LEARNED:
        kept.clear()
    kept[key] = what


def _forget(encoding: Encoding, at: int, key: Key) -> None:
    kept: dict[Key, Filled | str] | dict[Key, tuple[Rounding, ...]] = (
        encoding.learned.leans if at == LEANS else encoding.learned.sentences[at]
    )
    kept.pop(key, None)


def _placed(sentence: Sentence, encoding: Encoding) -> Filled:
    """The sentence as code, with its slots' figures by their numbers among the figures."""
    figures = encoding.figures
    holes = (
        replace(hole, number=figures[hole.number]) if hole.kind == "slot" else hole for hole in sentence.holes
    )
    placed = replace(sentence, holes=tuple(holes))
    return placed.written({figures[slot] for slot in encoding.leaning})


# ---- the beginning


def begin(compiled: CompiledSheet, result: CheckResult, document: ExplanationDocument, pieces: Pieces) -> Encoding:
    """The encoding of a sheet, its frames made from one usual answer."""
    layout = compiled.layout
    if layout is None:
        raise BeyondCompiling("a sheet without compiled code")
    code, nodes = EncodingCode(layout), {each.node.slot: each.node for each in visited(result)}
    code.line("".join(f"p{at}, " for at in range(len(pieces))) + "= p")
    for slot in sorted(nodes):
        code.take_figure(nodes[slot])
    code.line(f"figures = ({''.join(f'{figure}, ' for figure in code.figure_codes)})")
    writers = tuple(
        LimitWriter(at, result.sheet, document.limits[at], f"p{layout.verdicts[at]}", layout.moving.get(at), code)
        for at in range(len(result.limits))
    )
    limits = [writer.write() for writer in writers]
    key = write_lean_key(nodes, _orders(writers), code)
    code.line(f"k = {key}")
    code.line("leans = leans_of.get(k)")
    code.line(f"if leans is None: missed.append(({LEANS}, k)); leans = {code.add(_no_leans(code))}")
    values = values_pieces(document, nodes, code)
    _write_end(result, document, code, (limits, values))
    learned = Learned([{} for _ in writers])
    code.data |= {f"S{at}": kept.get for at, kept in enumerate(learned.sentences)}
    code.data["leans_of"] = learned.leans
    return Encoding(_function(code), learned, writers, code.figures, tuple(code.leaning))


def _orders(writers: tuple[LimitWriter, ...]) -> dict[int, tuple[str, int]]:
    return {
        side.claim.slot: (writer.order, side.number)
        for writer in writers
        for side in writer.sides or ()
        if side.side is Side.FORWARD
    }


def _no_leans(code: EncodingCode) -> tuple[Rounding, ...]:
    return (Rounding.NEAREST,) * len(code.leaning)


def _write_end(
    result: CheckResult,
    document: ExplanationDocument,
    code: EncodingCode,
    parts: tuple[list[list[str]], list[str]],
) -> None:
    """The head of the document, and every piece put together."""
    limits, values = parts
    code.line("taken = []")
    for name, text in _assumptions(result).items():
        code.line(f"if {code.add(name)} not in stated: taken.append({code.add(*pieces_of(text))})")
    verdict = f"{code.add('outside')} if {_broken(result, code)} else {code.add('within')}"
    comma = code.add(",")
    all_limits = [piece for limit in limits for piece in (comma, *limit)][1:]
    head, *between, end = (code.add(piece) for piece in pieces_of(_head(document)))
    pieces = [head, verdict, between[0], f"{comma}.join(taken)", between[1], *all_limits, between[2], *values, end]
    code.line(f"return ''.join(({', '.join(code.merged(pieces))}))")


def _broken(result: CheckResult, code: EncodingCode) -> str:
    verdicts = code.layout.verdicts
    binding = [at for at, each in enumerate(result.limits) if each.limit.weight is Weight.LIMIT]
    return " or ".join(f"p{verdicts[at]} is False" for at in binding) or "False"


def _head(document: ExplanationDocument) -> str:
    bare = document.model_copy(update={"verdict": Verdict.WITHIN, "assumptions": (), "limits": (), "values": ()})
    frame = frame_of(bare).replace('"verdict":"within"', f'"verdict":"{PLACE}"', 1)
    for part in ("assumptions", "limits", "values"):
        frame = frame.replace(f'"{part}":[]', f'"{part}":[{PLACE}]', 1)
    return frame


def _assumptions(result: CheckResult) -> dict[str, str]:
    """The JSON of every assumption that may be made, by the name of its input, in order."""
    assumed = {item.name for item in result.sheet.inputs if item.assumed is not None}
    stated = {name: value for name, value in result.loading.stated.items() if name not in assumed}
    document = explanation_document(replace(result, loading=Loading(stated)))
    return {each.input: each.model_dump_json() for each in document.assumptions}


def _function(code: EncodingCode) -> Encode:
    """The function that the code defines. The code holds no text from the sheet or a request."""
    source = "\n".join(["def encode(p, stated, missed):", *code.lines]) + "\n"
    space: dict[str, object] = dict(code.data)
    exec(compile(source, "<encoder>", "exec"), space)
    return cast("Encode", space["encode"])
