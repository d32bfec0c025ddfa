"""What the plugins weight and shed add to the round of the demo collection.

Run as a script: python tests/bench/bench_round.py. `warmside today` runs in a process of its own,
in turn with all plugins of the demo and without these two, so that a busy machine slows both
alike. Limit: the two add at most 0.5 times what the round costs without them. The same inside one
process, where starting Python no longer hides their work, is printed beside it.
"""

from __future__ import annotations

import statistics
import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

from warmside.testing import Keeper, new_keeper

LIMIT = 0.5
RUNS = 25
WITHOUT = ("--without", "weight", "--without", "shed")


def demo(folder: Path) -> Keeper:
    """The keeper of the demo collection, as the walk through the main job leaves it."""
    new_keeper(folder).run("demo", str(folder / "demo"))
    return Keeper(folder / "demo" / "demo.warmside")


def apart(keeper: Keeper, *options: str) -> None:
    """The round in a process of its own."""
    done = keeper.run_apart(*options, "today", "--json")
    assert done.code == 0, done.stderr


def inside(keeper: Keeper, *options: str) -> None:
    """The round in this process, with everything imported already."""
    keeper.run(*options, "today", "--json")


def medians(*tasks: Callable[[], None]) -> list[float]:
    """The middle of some runs of each task in seconds, in turn; the first run warms the caches."""
    times: list[list[float]] = [[] for _ in tasks]
    for run in range(RUNS + 1):
        for task, taken in zip(tasks, times, strict=True):
            start = time.perf_counter()
            task()
            if run:
                taken.append(time.perf_counter() - start)
    return [statistics.median(t) for t in times]


def added(run: Callable[..., None], keeper: Keeper) -> tuple[float, str]:
    """What the two plugins add, as a share of the round without them, and the figures."""
    with_both, without = medians(partial(run, keeper), partial(run, keeper, *WITHOUT))
    share = (with_both - without) / without
    times = f"without {without * 1e3:.0f} ms, with {with_both * 1e3:.0f} ms"
    return share, f"{times}, added {share:.2f} times"


def main() -> int:
    """Print the shares; 1 where the whole process breaks the limit."""
    with tempfile.TemporaryDirectory() as folder:
        keeper = demo(Path(folder))
        share, figures = added(apart, keeper)
        print(f"round of the demo: {figures} (limit {LIMIT})")
        print(f"in one process: {added(inside, keeper)[1]}")
    return int(share > LIMIT)


if __name__ == "__main__":
    raise SystemExit(main())
