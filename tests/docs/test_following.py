"""Each page that is followed from top to bottom comes out as it says."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.docs.following import FOLLOWED, Follower, is_for_burthen, is_shown, put_into
from tests.docs.pages import Block


@pytest.mark.parametrize("page", FOLLOWED)
def test_the_page_comes_out_as_it_says(page: str, tmp_path: Path) -> None:
    follower = Follower(tmp_path)
    follower.follow(page)
    assert not follower.mistakes, "\n\n".join(follower.mistakes)
    assert follower.shown is not None, f"{page} runs nothing"


# ---- the follower itself


def test_a_printed_output_may_leave_lines_out() -> None:
    assert is_shown("first\n…\nlast\n", "first\nsecond\nthird\nlast\n")
    assert not is_shown("first\n…\nlast\n", "first\nsecond\n")
    assert not is_shown("first\n", "first\nsecond\n")


def test_a_statement_takes_the_place_of_the_one_of_its_name() -> None:
    before = 'datum "d"\n\nload seat from 0 kg to 90 kg\n\nlimit one seat at most 80 kg\n'
    assert "to 100 kg" in put_into(before, "load seat from 0 kg to 100 kg\n")
    assert "to 90 kg" not in put_into(before, "load seat from 0 kg to 100 kg\n")


def test_another_statement_goes_to_the_end() -> None:
    assert put_into("limit a x at most 1 kg\n", "limit b x at most 2 kg\n").endswith(
        "\n\nlimit b x at most 2 kg\n"
    )


def test_what_installs_is_not_run() -> None:
    assert not is_for_burthen(Block("page", 1, "sh", "python3 -m venv .venv && burthen demo\n", ()))
    assert is_for_burthen(Block("page", 1, "sh", "burthen check a.limits \\\n  b.json\necho $?\n", ()))
