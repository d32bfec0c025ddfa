"""Figures of the benches, each held to its limit, and the table that tells them all at the end."""

from __future__ import annotations

import resource
import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

Work = Callable[[], object]
Clock = Callable[[], float]


@dataclass(frozen=True)
class Figure:
    """What was measured, its limit, and what stands behind it."""

    name: str
    figure: float
    limit: float
    words: str

    @property
    def held(self) -> bool:
        """Whether it is within its limit."""
        return self.figure <= self.limit


FIGURES: list[Figure] = []
"""All that was measured in this run, in order."""


def hold(name: str, figure: float, limit: float, words: str = "") -> None:
    """Note a figure for the table, and fail where it is above its limit."""
    found = Figure(name, figure, limit, words)
    FIGURES.append(found)
    assert found.held, f"{name}: {figure:.3g}, at most {limit:g} ({words})"


def peak_mb() -> float:
    """The most memory that this process has held, in MB.

    Its own: `ru_maxrss` begins with what the process held that started it.
    """
    status = Path("/proc/self/status")
    if not status.exists():
        return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    held = dict(line.split(":", 1) for line in status.read_text().splitlines())
    return int(held["VmHWM"].split()[0]) / 1024


def medians(*works: Work, runs: int, clock: Clock = time.perf_counter) -> list[float]:
    """The middle time of each work in seconds; in turn, so that a busy machine slows all alike.

    One run before the first fills the caches.
    """
    times: list[list[float]] = [[] for _ in works]
    for run in range(runs + 1):
        for work, taken in zip(works, times, strict=True):
            spent = timed(work, clock)
            if run:
                taken.append(spent)
    return [statistics.median(t) for t in times]


def timed(work: Work, clock: Clock = time.perf_counter) -> float:
    """What one run takes, in seconds."""
    started = clock()
    work()
    return clock() - started


def hold_ratio(
    name: str, ours: Work, floor: Work, limit: float, runs: int, clock: Clock = time.perf_counter
) -> None:
    """Hold how many times as long as a floor a work takes, by the medians of both."""
    mine, bare = medians(ours, floor, runs=runs, clock=clock)
    hold(name, mine / bare, limit, f"{1000 * mine:.1f} ms to {1000 * bare:.1f} ms")


def lines(figures: list[Figure]) -> list[str]:
    """The table: name, figure, limit, held or not, words."""
    width = max((len(f.name) for f in figures), default=0)
    return [
        f"{f.name:{width}}  {f.figure:7.2f}  at most {f.limit:<5g}  "
        f"{'held    ' if f.held else 'NOT HELD'}  {f.words}"
        for f in figures
    ]
