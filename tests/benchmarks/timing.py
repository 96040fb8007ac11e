"""Timing several pieces of work side by side, so that what disturbs one disturbs all."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from statistics import median
from time import perf_counter

Work = Callable[[], object]


@dataclass(frozen=True)
class Timed:
    """The median time of a piece of work in seconds, and the median of its ratio to the first one's."""

    seconds: float
    ratio: float


def interleaved(works: Mapping[str, tuple[Work, int]], rounds: int) -> dict[str, Timed]:
    """Time every piece of work once a round, so many repetitions at a time; ratios are taken round by round."""
    times: dict[str, list[float]] = {name: [] for name in works}
    for _ in range(rounds):
        for name, (work, repetitions) in works.items():
            times[name].append(_once(work, repetitions))
    first = next(iter(times.values()))
    return {
        name: Timed(median(taken), median(one / other for one, other in zip(taken, first, strict=True)))
        for name, taken in times.items()
    }


def _once(work: Work, repetitions: int) -> float:
    begin = perf_counter()
    for _ in range(repetitions):
        work()
    return (perf_counter() - begin) / repetitions
