"""The round with all plugins: of 300 animals with 1,000,000 events, and of the demo.

Limits: the round of the large collection takes at most 0.5 s of the processor's time after
start-up; the plugins weight and shed add to `warmside today` on the demo, a process of its own, at
most 0.5 times what it costs without them.
"""

from __future__ import annotations

import gc
import shutil
import time
from pathlib import Path

from tests.bench.measured import hold, medians

from warmside.core.asking.round_told import told_round
from warmside.testing import Keeper

ALL = ("feeding", "labels", "quarantine", "rhythm", "shed", "weight")
SECONDS, ADDED = 0.5, 0.5
ROUNDS, RUNS = 9, 25
WITHOUT = ("--without", "weight", "--without", "shed")


def test_the_round_of_300_animals_with_all_plugins(large: Keeper, tmp_path: Path) -> None:
    keeper = Keeper(Path(shutil.copy(large.path, tmp_path)), large.now)
    for name in ALL:
        keeper.run("plugin", "enable", name, ok=False)  # two of them are at work already
    collection = keeper.open()

    def todays_round() -> None:
        with collection.ask(keeper.now) as ask:
            told_round(ask, ask.book.today)
            assert set(ask.host.manifests) == set(ALL)
            assert not ask.host.failures

    gc.disable()  # as every command does
    try:
        (spent,) = medians(todays_round, runs=ROUNDS, clock=time.process_time)
    finally:
        gc.enable()
    hold("round of 300 with all plugins, s", spent, SECONDS, "1,000,000 events, processor time")


def test_what_weight_and_shed_add_to_the_round_of_the_demo(demo: Keeper) -> None:
    def today(*options: str) -> None:
        done = demo.run_apart(*options, "today", "--json")
        assert done.code == 0, done.stderr

    with_both, without = medians(today, lambda: today(*WITHOUT), runs=RUNS)
    words = f"{1000 * with_both:.0f} ms, without them {1000 * without:.0f} ms"
    hold("weight and shed add to today on the demo", with_both / without - 1, ADDED, words)
