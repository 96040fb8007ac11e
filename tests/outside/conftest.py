"""Fixtures of the outside checks."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.outside.rows import Row, published


@pytest.fixture
def row(request: pytest.FixtureRequest) -> Iterator[Row]:
    """The published row that a test claims; whatever it leaves uncompared fails the test."""
    claimed = published()[request.param]
    yield claimed
    assert not claimed.not_compared, f"{claimed.id}: never compared {sorted(claimed.not_compared)}"
