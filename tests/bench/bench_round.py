"""The round with all plugins: of 300 animals with 1,000,000 events, and of the demo.

Limits: the round of the large collection takes at most 0.5 s of the processor's time after
start-up, on a new day and after a recorded event, by what earlier rounds have kept; the very first
one, for which nothing is kept yet, is told and held to 3 s. The plugins weight and shed add to
`warmside today` on the demo, a process of its own, at most 0.5 times what it costs without them.
"""

from __future__ import annotations

import gc
import shutil
import statistics
import time
from collections.abc import Callable, Iterator
from datetime import timedelta
from itertools import count
from pathlib import Path

import pytest
from tests.bench.measured import hold, medians

from warmside.core.asking.rounds.round_told import told_round
from warmside.core.plugins.discovery import BUILT_IN
from warmside.core.record.derived import Kept
from warmside.core.session.collection import Collection
from warmside.testing import Keeper

ALL = tuple(sorted(BUILT_IN))
SECONDS, FIRST, ADDED = 0.5, 3.0, 0.5
ROUNDS, RUNS = 9, 25
WITHOUT = ("--without", "weight", "--without", "shed")


@pytest.fixture(scope="module")
def rounds(large: Keeper, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Rounds]:
    """The rounds of a copy in which nothing is recorded yet for today, with all plugins."""
    keeper = Keeper(Path(shutil.copy(large.path, tmp_path_factory.mktemp("round"))), large.now)
    keeper.run("undo")  # of the one event that was recorded today
    for name in ALL:
        keeper.run("plugin", "enable", name, ok=False)  # two of them are at work already
    gc.disable()  # as every command does
    yield Rounds(keeper)
    gc.enable()


class Rounds:
    """Times rounds, each as a run of its own would see what the runs before it kept."""

    def __init__(self, keeper: Keeper) -> None:
        self.keeper = keeper
        self.kept = keeper.path.with_name("kept")

    def spent(self, *, days: int = 0) -> float:
        """The processor's time for one round after start-up, in seconds."""
        host = self.keeper.open().host
        collection = Collection(self.keeper.path, host, Kept(lambda: self.kept))
        started = time.process_time()
        with collection.ask(self.keeper.now + timedelta(days=days)) as ask:
            told_round(ask, ask.book.today)
        spent = time.process_time() - started
        assert set(host.manifests) == set(ALL)
        assert not host.failures
        return spent

    def hold(self, name: str, prepare: Callable[[], object], limit: float, words: str) -> None:
        """Hold the middle of some rounds, each after what makes it ready."""
        times = []
        for _ in range(ROUNDS):
            prepare()
            times.append(self.spent())
        hold(f"round of 300 with all plugins, {name}, s", statistics.median(times), limit, words)


def test_the_first_round_of_a_day(rounds: Rounds) -> None:
    rounds.spent(days=-1)
    yesterday = rounds.kept.read_bytes()
    ready = lambda: rounds.kept.write_bytes(yesterday)  # noqa: E731
    rounds.hold("a new day", ready, SECONDS, "by what yesterday's round kept")


def test_the_round_after_one_event(rounds: Rounds) -> None:
    number = count(1)
    rounds.spent()
    ready = lambda: rounds.keeper.run("record", "weighed", f"A{next(number)}=412g")  # noqa: E731
    rounds.hold("one event later", ready, SECONDS, "by what the round before it kept")


def test_the_very_first_round(rounds: Rounds) -> None:
    rounds.hold("nothing kept", lambda: rounds.kept.unlink(missing_ok=True), FIRST, "once a file")


def test_what_weight_and_shed_add_to_the_round_of_the_demo(demo: Keeper) -> None:
    def today(*options: str) -> None:
        done = demo.run_apart(*options, "today", "--json")
        assert done.code == 0, done.stderr

    with_both, without = medians(today, lambda: today(*WITHOUT), runs=RUNS)
    words = f"{1000 * with_both:.0f} ms, without them {1000 * without:.0f} ms"
    hold("weight and shed add to today on the demo", with_both / without - 1, ADDED, words)
