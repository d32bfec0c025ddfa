"""What habitat's findings and tasks are worth: simulated enclosures, replayed day by day.

All of it:        python -m tests.bench.bench_enclosures [--seed 1]
With each word:   python -m tests.bench.bench_enclosures --words

Well kept: nothing to act on now, at most 0.15 findings to be looked at soon an enclosure-year.
Badly kept: each fault is told within the days that its scenario says. What is assumed stands in
`tests/bench/enclosures`; every figure of it is invented.
"""

from __future__ import annotations

import argparse
import tempfile
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from tests.bench.enclosures.kept import BADLY, WELL, Kept
from tests.bench.enclosures.replay import Replayed, replayed

from warmside.api import Finding, Level

COPIES = 2
MOST_SOON = 0.15


@dataclass(frozen=True, slots=True)
class Episode:
    """A finding that stood on every day from one to another, about one enclosure."""

    place: int
    code: str
    level: Level
    first: int
    last: int
    words: str


def episodes(done: Replayed) -> list[Episode]:
    """Every stretch of days in which an enclosure had a finding of a code at a level."""
    open_: dict[tuple[int, str, Level], Episode] = {}
    found: list[Episode] = []
    for day in done.days:
        now = {}
        for one in day.findings:
            key = _place(one), one.code, one.level
            first = open_[key].first if key in open_ else day.number
            now[key] = Episode(*key, first, day.number, one.words)
        found += [e for key, e in open_.items() if key not in now]
        open_ = now
    return sorted([*found, *open_.values()], key=lambda e: (e.place, e.first, e.code))


def _place(one: Finding) -> int:
    return one.about.enclosure_id or one.about.animal_id or 0


def well(done: Replayed) -> Iterator[str]:
    """Episodes and tasks an enclosure-year of each well-kept kind."""
    years = len(done.days) / 365.25
    number = Counter((done.kept[e.place - 1].scenario, e.level) for e in episodes(done))
    tasks = Counter(done.kept[(t.about.enclosure_id or 1) - 1].scenario for t in done.done)
    many = Counter(kept.scenario for kept in done.kept)
    yield f"{'well kept':24} {'act now':>8} {'look soon':>10} {'notes':>6} {'tasks done':>11}"
    for name in dict.fromkeys(kept.scenario for kept in done.kept):
        span = many[name] * years
        by = [number[name, level] / span for level in (Level.ACT_NOW, Level.LOOK_SOON, Level.NOTE)]
        yield f"{name:24} {by[0]:8.2f} {by[1]:10.2f} {by[2]:6.2f} {tasks[name] / span:11.0f}"
    span = len(done.kept) * years
    act, soon = (
        sum(n for (_, level), n in number.items() if level is wanted) / span
        for wanted in (Level.ACT_NOW, Level.LOOK_SOON)
    )
    yield f"act now {act:.2f} of at most 0: {'held' if not act else 'MISSED'}"
    verdict = "held" if soon <= MOST_SOON else "MISSED"
    yield f"look soon {soon:.2f} of at most {MOST_SOON}: {verdict}"


def badly(done: Replayed) -> Iterator[str]:
    """When each fault was told."""
    yield f"{'badly kept':24} {'told after days':24} {'within':>6}"
    found = episodes(done)
    for name in dict.fromkeys(kept.scenario for kept in done.kept):
        places = [n for n, kept in enumerate(done.kept, 1) if kept.scenario == name]
        kept = done.kept[places[0] - 1]
        waits = [_wait(done, found, n) for n in places]
        held = all(w is not None and w <= kept.within for w in waits)
        told = ", ".join("never" if w is None else str(w) for w in waits)
        yield f"{name:24} {told:24} {kept.within:6} {'held' if held else 'MISSED'}"


def _wait(done: Replayed, found: Sequence[Episode], place: int) -> int | None:
    """Days from the fault to the finding that tells it; one of before does not count."""
    onset, kept = done.onset[place - 1] or 0, done.kept[place - 1]
    firsts = [
        max(e.first, onset)
        for e in found
        if e.place == place and e.code in kept.told and _counts(e.level, kept.level)
        if e.last >= onset
    ]
    return min(firsts) - onset if firsts else None


def _counts(level: Level, least: Level) -> bool:
    order = (Level.NOTE, Level.LOOK_SOON, Level.ACT_NOW)
    return order.index(level) >= order.index(least)


def run(kept: Sequence[Kept], seed: int) -> Replayed:
    """The replay of so many copies of each."""
    with tempfile.TemporaryDirectory() as folder:
        return replayed(list(kept) * COPIES, seed, Path(folder))


def main() -> None:
    """Print both tables, and each episode if it is asked for."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--words", action="store_true")
    typed = parser.parse_args()
    started = time.process_time()
    for kept, told in ((WELL, well), (BADLY, badly)):
        done = run(kept, typed.seed)
        if typed.words:
            for e in episodes(done):
                name = done.kept[e.place - 1].scenario
                print(f"{name}: {e.first} to {e.last} {e.level} {e.code}: {e.words}")
        print("\n".join(told(done)))
    print(f"seed {typed.seed}, {time.process_time() - started:.0f} s of processor time")


if __name__ == "__main__":
    main()
