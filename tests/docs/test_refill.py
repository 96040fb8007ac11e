"""Writing the printed answers anew puts right what is wrong, and touches nothing else."""

from __future__ import annotations

from dataclasses import replace

from tests.docs.guide import PAGE, answers
from tests.docs.pages import text_of
from tests.docs.refill import refilled_answer, rewritten


def test_only_the_insides_of_blocks_are_written_anew() -> None:
    kept = {answer: answer.text.splitlines() for _, answer in answers()}
    assert rewritten(PAGE, kept) == text_of(PAGE)


def test_a_wrong_figure_is_put_right() -> None:
    piece, answer = next(pair for pair in answers() if "over 91 kg by 7 kg" in pair[1].text)
    spoilt = replace(answer, text=answer.text.replace("by 7 kg", "by 6 kg"))
    written = " ".join(" ".join(refilled_answer(piece, spoilt)).split())
    assert written == " ".join(answer.text.split())
