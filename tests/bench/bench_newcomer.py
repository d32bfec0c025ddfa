"""What quarantine says of a healthy newcomer: rows of findings a week over its 90 days.

    python -m tests.bench.bench_newcomer [--seeds 4]

Assumed: three residents in one room, a gecko and a boa that come into rooms of their own; the
keeper does each check and sample of the round within some days (each day with a chance of a third),
a laboratory answers negative after four to ten days, and one day in ten a resident is weighed after
the newcomer.
Wanted: near 0 rows a round. What is left is the advice of a longer quarantine for the boa in its
first week, and a note on each such slip for a day.
"""

from __future__ import annotations

import argparse
import random
import tempfile
from collections import Counter
from pathlib import Path

from warmside.testing import Keeper, new_keeper

DAYS, DONE, MISTAKES = 90, 1 / 3, 0.1
RESIDENTS = ("Ember", "Moss", "Rill")


def settled(keeper: Keeper) -> Keeper:
    """The collection on the day on which the two come."""
    for name, room in (("Shelf", "Main"), ("Tub", "Spare"), ("Box", "Attic")):
        keeper.run("enclosure", "add", name, "--room", room)
    for name in RESIDENTS:
        keeper.run(*("animal", "add", name, "--species", "leopard gecko", "--since", "2025-01-01"))
        keeper.run("record", "moved", name[:3].upper(), "--enclosure", "SHE", ok=False)
    keeper.run("arrive", "Pebble", "--species", "leopard gecko", "--enclosure", "TUB")
    keeper.run("arrive", "Coil", "--species", "common boa", "--enclosure", "BOX")
    return keeper


def days_of(keeper: Keeper, rng: random.Random) -> Counter[tuple[int, str]]:
    """Rows of quarantine's findings by week and code."""
    found: Counter[tuple[int, str]] = Counter()
    awaited: list[tuple[int, str, int]] = []
    for day in range(DAYS):
        told = keeper.json("today")
        codes = [f["code"] for f in told["findings"] if f["code"].startswith("quarantine.")]
        found.update((day // 7, code) for code in codes)
        for task in told["tasks"]:
            if rng.random() < DONE:
                awaited += _done(keeper, task, day, rng)
        for due, animal, sample in awaited:
            if due == day:
                keeper.run("quarantine", "result", animal, "negative", "--sample", sample)
        if rng.random() < MISTAKES:
            keeper.run("record", "weighed", "PEB=40g", "--at", "09:00")
            keeper.run("record", "weighed", "EMB=50g", "--at", "10:00")
        keeper.pass_days(1)
    return found


def _done(keeper: Keeper, task: dict, day: int, rng: random.Random) -> list[tuple[int, str, int]]:
    """Settle a task; of a sample, when its result comes."""
    animal = task["animal"]
    if task["what"].startswith("sample"):
        test = task["command"].split()[-1]
        told = keeper.json("quarantine", "sample", animal, test)
        return [(day + rng.randint(4, 10), animal, told["recorded"][0]["event"])]
    if task["settles"] == "weighed":
        keeper.run("record", "weighed", f"{animal}=40g")
    elif task["settles"] == "defecated":
        keeper.run("record", "defecated", f"{animal}=normal")
    elif task["settles"]:
        check = {"mite check": "mites", "look at the droppings": "droppings"}
        keeper.run("quarantine", "check", animal, check.get(task["what"], "breathing"))
    return []


def main() -> None:
    """Print the rows a week by code, over all seeds."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", type=int, default=2)
    seeds = parser.parse_args().seeds
    total: Counter[tuple[int, str]] = Counter()
    for seed in range(seeds):
        with tempfile.TemporaryDirectory() as folder:
            keeper = settled(new_keeper(Path(folder), plugins=["quarantine"]))
            total += days_of(keeper, random.Random(seed))
    by_code: Counter[str] = Counter()
    for (_, code), rows in total.items():
        by_code[code] += rows
    weeks = 2 * seeds * DAYS / 7
    print(f"rounds: {seeds * DAYS}, newcomers: {2 * seeds}, one round a day")
    for code, rows in by_code.most_common():
        print(f"{code:32} {rows / (seeds * DAYS):6.3f} a round {rows / weeks:6.2f} a week of one")
    print(f"{'all':32} {by_code.total() / (seeds * DAYS):6.3f} a round")


if __name__ == "__main__":
    main()
