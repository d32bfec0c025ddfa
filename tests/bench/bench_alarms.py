"""What the findings are worth: simulated healthy and ill animals, replayed through the real hooks.

All of it:        python -m tests.bench.bench_alarms [--seed 1 2 3] [--plugins weight,shed]
One scenario:     python -m tests.bench.bench_alarms "winter-fasting male" --seed 2
What there is:    python -m tests.bench.bench_alarms --list

A scenario prints every episode, with its words, so that a rule can be tuned; all of it prints the
table of bars, over all seeds together: 20 ill animals of a kind are few. What is assumed of the
animals stands in `tests/bench/alarms` and is printed, too.
"""

from __future__ import annotations

import argparse
import random
import tempfile
import time
from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from pathlib import Path

from tests.bench.alarms import assumptions, bars, replay
from tests.bench.alarms.counted import delays, episodes
from tests.bench.alarms.healthy import HEALTHY, LAST, Make
from tests.bench.alarms.ill import ILL
from tests.bench.alarms.notes import noted
from tests.bench.alarms.replay import Replayed, replayed
from tests.bench.alarms.sheds import coverages

from warmside.api import Level

COLLECTIONS, SICK = 8, 20
ANY = (Level.LOOK_SOON, Level.ACT_NOW)


def healthy(seed: int, collections: int = COLLECTIONS) -> Iterator[Replayed]:
    """Collections of ten, one of each healthy kind."""
    for number in range(collections):
        yield collection(HEALTHY, seed, number)


def ill(name: str, seed: int, animals: int = SICK) -> Replayed:
    """A collection of animals that fall ill in one way."""
    return collection([ILL[name]] * animals, seed, 0)


def collection(makes: Sequence[Make], seed: int, number: int) -> Replayed:
    """The replay of a collection, the same for the same seed and number."""
    rng = random.Random(f"lives {seed} {number}")
    with tempfile.TemporaryDirectory() as folder:
        lives = [make(rng) for make in makes]
        if "signs" in replay.PLUGINS:
            for life in lives:
                noted(rng, life, LAST)
        return replayed(lives, 1000 * seed + number, Path(folder))


def main() -> None:
    """Print one scenario, or the table of bars."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("scenario", nargs="?")
    parser.add_argument("--seed", type=int, nargs="+", default=[1])
    parser.add_argument("--animals", type=int, default=10)
    parser.add_argument("--list", action="store_true")
    parser.add_argument("--plugins", help="only these, to be quick while one is tuned")
    typed = parser.parse_args()
    if typed.plugins:
        replay.PLUGINS = tuple(typed.plugins.split(","))
    kinds = {make.__name__: make for make in HEALTHY}
    if typed.list:
        print("\n".join((*_named(), *ILL)))
    elif typed.scenario:
        make = ILL.get(typed.scenario) or _named().get(typed.scenario) or kinds[typed.scenario]
        _print_one(collection([make] * typed.animals, typed.seed[0], 0))
    else:
        started = time.process_time()
        print("\n".join(assumptions.lines()))
        named = [name for name in ILL if not _needs_more(name)]
        sick = {name: [ill(name, seed) for seed in typed.seed] for name in named}
        well = [done for seed in typed.seed for done in healthy(seed)]
        print("\n".join(bars.lines(well, sick, _mean([coverages(s) for s in typed.seed]))))
        print(f"seeds {typed.seed}, {time.process_time() - started:.0f} s of processor time")


def _needs_more(name: str) -> bool:
    """Whether a scenario writes down what only a plugin left out knows."""
    wanted = {"positive test": "quarantine", "wheezing noted": "signs", "too hot": "signs"}
    return name in wanted and wanted[name] not in replay.PLUGINS


def _mean(found: Sequence[Mapping[str, float]]) -> dict[str, float]:
    return {name: sum(one[name] for one in found) / len(found) for name in found[0]}


def _named() -> dict[str, Make]:
    return {make(random.Random(0)).scenario: make for make in HEALTHY}


def _print_one(done: Replayed) -> None:
    for e in episodes(done):
        onset = done.lives[e.life - 1].onset if e.life else None
        weeks = f"week {(e.first - onset) / 7:+.1f}" if onset else ""
        span = f"{date.fromordinal(e.first)} to {date.fromordinal(e.last)}"
        print(f"A{e.life} {span} {weeks} {e.level} {e.code}: {e.words}")
    for id, day, words in done.asked_back:
        print(f"A{id} {date.fromordinal(day)} asked back: {words}")
    if done.lives[0].onset:
        for levels, name in ((ANY, "look soon"), ((Level.ACT_NOW,), "act now")):
            for d in delays(done, *levels):
                lost = "" if d.lost is None else f"{100 * d.lost:.1f} % lost"
                print(name, "never" if d.weeks is None else f"{d.weeks:.1f} weeks", lost)
    print(f"{done.weighed} weighings of {len(done.lives)} animals")


if __name__ == "__main__":
    main()
