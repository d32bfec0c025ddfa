"""Values kept across runs: found again while all they rest on is as it was, and not longer."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from warmside.core.record.derived import Kept
from warmside.core.session.collection import Collection
from warmside.testing import Keeper


@pytest.fixture
def ask_again(keeper: Keeper, tmp_path: Path) -> Callable[[], int]:
    """Ask for a value that counts how often it was worked out, each time in a new run."""
    keeper.run("animal", "add", "Ember", "--species", "leopard gecko")
    made: list[int] = []

    def make() -> int:
        made.append(1)
        return len(made)

    def asked() -> int:
        collection = Collection(keeper.path, keeper.open().host, Kept(lambda: tmp_path / "kept"))
        with collection.read(keeper.now) as book:
            return int(book.derived("mine.count", ["event:weighed", "animal"], make))

    return asked


def test_it_is_kept_until_something_it_rests_on_changes(
    keeper: Keeper, ask_again: Callable[[], int]
) -> None:
    assert [ask_again(), ask_again()] == [1, 1]
    keeper.run("record", "observed", "EMB=calm")
    assert ask_again() == 1, "it does not rest on what was observed"
    keeper.run("record", "weighed", "EMB=43g")
    assert [ask_again(), ask_again()] == [2, 2]
    keeper.run("animal", "change", "EMB", "--name", "Ash")
    assert ask_again() == 3


def test_undo_redo_and_correction_drop_it_too(keeper: Keeper, ask_again: Callable[[], int]) -> None:
    keeper.run("record", "weighed", "EMB=43g")
    assert ask_again() == 1
    keeper.run("undo")
    assert ask_again() == 2
    keeper.run("redo")
    assert ask_again() == 3
    keeper.run("correct", 2, "mass=44g")
    assert ask_again() == 4


def test_a_restored_backup_never_finds_what_was_kept_of_another_time(
    keeper: Keeper, ask_again: Callable[[], int], tmp_path: Path
) -> None:
    keeper.run("file", "backup", str(tmp_path / "copy.warmside"))
    keeper.run("record", "weighed", "EMB=43g")
    assert ask_again() == 1
    keeper.run("file", "restore", str(tmp_path / "copy.warmside"), "--yes")
    assert ask_again() == 2
    keeper.run("record", "weighed", "EMB=52g")
    assert ask_again() == 3


def test_where_nothing_can_be_kept_it_is_worked_out(keeper: Keeper, tmp_path: Path) -> None:
    broken = tmp_path / "broken"
    broken.write_bytes(b"no database at all, but quite long enough to look like one" * 40)
    assert Kept(lambda: broken).value("x", ["1"], lambda: 7) == 7
    with keeper.book() as book:
        assert book.derived("mine.x", ["animal"], lambda: [1, 2]) == [1, 2]
