"""What a morning costs the keeper: lines of the round on a screen, and keys until it is settled.

    python -m tests.bench.bench_day [--seed 7] [--show]

Invented: seven weeks of four animals, the fourth new and in quarantine, with six plugins, and 36
rounds. The keeper looks (`ws t`), settles all that is due (`ws do all`), adds the numbers of half
of what may be done, and types the values that are asked for, each with enter.
Keys are counted as typed, enter too; a terminal has 80 columns and 24 lines.
Wanted: rounds longer than 24 lines at most 2 of 36; a morning without values at most 16 keys; no
line said twice in a round.
"""

from __future__ import annotations

import argparse
import random
import re
import statistics
import tempfile
from collections import Counter
from pathlib import Path
from typing import Any

from warmside.testing import Keeper, new_keeper

ROUNDS, LINES, KEYS = 36, 24, 16
PLUGINS = ("rhythm", "feeding", "weight", "shed", "labels", "quarantine")
ANIMALS = (
    ("Tansy", "Kenyan sand boa", "LOW", 430.0, "mouse-adult"),
    ("Moth", "leopard gecko", "WIN", 62.0, "cricket-large"),
    ("Brindle", "carpet python", "TAL", 1450.0, "rat-medium"),
)
LOOK = "ws t\n"
_NUMBERED = re.compile(r" *(?:\d+|[a-z]{1,2}) {2,}(.*)")


def settled_in(folder: Path) -> Keeper:
    """The collection on its first morning, with two months of records before it."""
    keeper = new_keeper(folder, plugins=PLUGINS)
    for name in ("Low", "Window", "Tall", "Hall"):
        keeper.run("enclosure", "add", name, "--room", name)
    for name, species, place, mass, food in ANIMALS:
        keeper.run(
            *("animal", "add", name, "--species", species, "--hatched", "2020"),
            *("--enclosure", place, "--since", "2025-01-01"),
        )
        for days in range(60, 0, -14):
            at = ("--at", f"{days} days ago")
            keeper.run("record", "weighed", f"{name}={mass:g}g", *at, "--confirm")
            keeper.run("record", "fed", f"{name}={food}", *at, "--confirm")
    keeper.run("rhythm", "set", "watered", "--every", "3")
    keeper.run("rhythm", "set", "cleaned", "--every", "14")
    keeper.run("arrive", "Saffron", "--species", "rainbow boa", "--enclosure", "HAL")
    keeper.run("record", "weighed", "SAF=900g")
    return keeper


def morning(keeper: Keeper, rng: random.Random) -> tuple[str, int, int]:
    """The round as shown, the keys to see and settle it, and how many of them are values."""
    shown = keeper.run("today").stdout
    tasks: list[dict[str, Any]] = keeper.json("today")["tasks"]
    if not tasks:
        return shown, len(LOOK), 0
    may = [t for t in tasks if t["group"] == "may be done" and not t["command"]]
    extra = [f"{t['number']}" for t in may if rng.random() < 1 / 2]
    due = [t for t in tasks if t["group"] != "may be done"]
    values = [f"{t['number']}={v}" for t in due if (v := value_of(t, rng))]
    words = (["all"] if due else []) + extra
    if words:
        keeper.run("done", *words, *values, "--confirm", ok=False)
    keys = len(LOOK) + (len(" ".join(["ws do", *words])) + 1 if words else 0)
    return shown, keys, sum(len(v.partition("=")[2]) + 1 for v in values)


def value_of(task: dict[str, Any], rng: random.Random) -> str:
    """What the keeper answers where the task asks."""
    if task["settles"] == "weighed":
        mass = next((m for n, _, _, m, _ in ANIMALS if n == task["who"]), 900.0)
        return f"{mass * rng.uniform(0.98, 1.02):.3g}"
    return {"shed.checked": "clean", "shed": "pieces"}.get(task["settles"] or "", "")


def said_twice(shown: str) -> int:
    """How many lines of the round say of the same subject what another says."""
    lines = [found[1] for line in shown.splitlines() if (found := _NUMBERED.match(line))]
    return sum(count - 1 for line, count in Counter(lines).items() if count > 1)


def main() -> None:
    """Live the two months and print the table of bars."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seed", type=int, default=7)
    parser.add_argument("--show", action="store_true", help="print the longest round")
    given = parser.parse_args()
    rng = random.Random(given.seed)
    with tempfile.TemporaryDirectory() as folder:
        keeper = settled_in(Path(folder))
        mornings = []
        for number in range(ROUNDS):
            mornings.append(morning(keeper, rng))
            keeper.pass_days(1 if number % 3 else 2)
            if number % 12 == 5:
                keeper.run("record", "shedding", "TAN", "--stage", "opaque")
            if number % 12 == 9:
                keeper.run("record", "shed", "TAN", "--outcome", "one piece", ok=False)
    report(mornings, show=given.show)


def report(mornings: list[tuple[str, int, int]], *, show: bool) -> None:
    """The figures beside what is wanted."""
    heights = [len(shown.splitlines()) for shown, _, _ in mornings]
    keys = [k for _, k, _ in mornings]
    values = [v for _, _, v in mornings]
    twice = sum(said_twice(shown) for shown, _, _ in mornings)
    long = sum(h > LINES for h in heights)
    print(f"rounds longer than {LINES} lines: {long} of {len(heights)} (wanted 2 at most)")
    print(f"lines: mean {statistics.mean(heights):.1f}, most {max(heights)}")
    print(f"keys to see and settle: median {statistics.median(keys)}, most {max(keys)}", end="")
    print(f" (wanted {KEYS} at most); values besides: mean {statistics.mean(values):.1f}")
    print(f"lines said twice: {twice} (wanted 0)")
    if show:
        print(max(mornings, key=lambda m: len(m[0].splitlines()))[0])


if __name__ == "__main__":
    main()
