"""Values kept for each animal: dropped when an event of that animal changes, and no other."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Sequence
from contextlib import closing
from datetime import timedelta
from pathlib import Path

import pytest

from warmside.core.record.book import Book
from warmside.core.record.derived import Kept
from warmside.core.record.entities import NewEvent
from warmside.core.session.collection import Collection
from warmside.testing import Keeper

Asked = Callable[..., tuple[dict[str, float], list[str]]]


@pytest.fixture
def heaviest(keeper: Keeper, tmp_path: Path) -> Asked:
    """The greatest mass of Ember and Slate, and of whom it was worked out, in a new run."""
    for name in ("Ember", "Slate"):
        keeper.run("animal", "add", name, "--species", "leopard gecko")

    def asked(*, days: int = 0, given: float = 0.0) -> tuple[dict[str, float], list[str]]:
        collection = Collection(keeper.path, keeper.open().host, Kept(lambda: tmp_path / "kept"))
        with collection.read(keeper.now) as book:
            on = book.today + timedelta(days=days)
            made: list[str] = []

            def make(animals: Sequence[int]) -> dict[int, float]:
                made.extend(book.animals[a].code for a in animals)
                mine = {a: book.events("weighed", animal=a, until=on) for a in animals}
                return {
                    a: max(e.data["mass_g"] for e in found) for a, found in mine.items() if found
                }

            each = dict.fromkeys(book.animals, given)
            found = book.derived_each("mine.heaviest", on, each, ["event:weighed"], make, float)
        return {book.animals[a].code: mass for a, mass in found.items()}, made

    return asked


def test_an_event_of_one_animal_leaves_the_others_alone(keeper: Keeper, heaviest: Asked) -> None:
    keeper.run("record", "weighed", "EMB=43g", "SLA=52g")
    assert heaviest() == ({"EMB": 43.0, "SLA": 52.0}, ["EMB", "SLA"])
    assert heaviest() == ({"EMB": 43.0, "SLA": 52.0}, [])
    keeper.run("record", "weighed", "SLA=53g")
    assert heaviest() == ({"EMB": 43.0, "SLA": 53.0}, ["SLA"])
    keeper.run("record", "observed", "EMB=calm")
    assert heaviest()[1] == [], "it does not rest on what was observed"


def test_that_there_is_nothing_is_kept_too(keeper: Keeper, heaviest: Asked) -> None:
    keeper.run("record", "weighed", "EMB=43g")
    assert [heaviest(), heaviest()] == [({"EMB": 43.0}, ["EMB", "SLA"]), ({"EMB": 43.0}, [])]


def test_undo_redo_and_correction_drop_what_they_change(keeper: Keeper, heaviest: Asked) -> None:
    _, slate = keeper.json("record", "weighed", "EMB=43g", "SLA=52g")["recorded"]
    keeper.run("record", "weighed", "EMB=47g")
    assert heaviest()[0]["EMB"] == 47.0
    keeper.run("undo")
    assert heaviest() == ({"EMB": 43.0, "SLA": 52.0}, ["EMB"])
    keeper.run("redo")
    assert heaviest() == ({"EMB": 47.0, "SLA": 52.0}, ["EMB"])
    keeper.run("correct", slate["event"], "mass=51g")
    assert heaviest() == ({"EMB": 47.0, "SLA": 51.0}, ["SLA"])
    keeper.run("undo")
    assert heaviest() == ({"EMB": 47.0, "SLA": 52.0}, ["SLA"])


def test_a_correction_of_whom_it_was_about_drops_both(keeper: Keeper, heaviest: Asked) -> None:
    ember, _ = keeper.json("record", "weighed", "EMB=43g", "SLA=52g")["recorded"]
    assert heaviest()[0] == {"EMB": 43.0, "SLA": 52.0}
    keeper.run("correct", ember["event"], "--subject", "SLA")
    assert heaviest() == ({"SLA": 52.0}, ["EMB", "SLA"])
    keeper.run("undo")
    assert heaviest() == ({"EMB": 43.0, "SLA": 52.0}, ["EMB", "SLA"])
    keeper.run("redo")
    assert heaviest() == ({"SLA": 52.0}, ["EMB", "SLA"])


def test_what_else_it_rests_on_is_given_with_each_animal(keeper: Keeper, heaviest: Asked) -> None:
    keeper.run("record", "weighed", "EMB=43g")
    assert heaviest(given=1.0)[1] == ["EMB", "SLA"]
    assert heaviest(given=2.0)[1] == ["EMB", "SLA"]
    assert heaviest(given=2.0)[1] == []


def test_a_day_before_the_last_on_record_is_worked_out(keeper: Keeper, heaviest: Asked) -> None:
    keeper.run("record", "weighed", "EMB=43g", "--at", "2 days ago")
    keeper.run("record", "weighed", "EMB=47g")
    assert heaviest()[0] == {"EMB": 47.0}
    assert heaviest(days=-1) == ({"EMB": 43.0}, ["EMB", "SLA"])
    assert heaviest(days=1) == ({"EMB": 47.0}, [])
    keeper.now -= timedelta(days=1)
    assert heaviest()[0] == {"EMB": 43.0}, "the clock was set back"


def test_a_restored_backup_never_finds_what_was_kept_of_another_time(
    keeper: Keeper, heaviest: Asked, tmp_path: Path
) -> None:
    keeper.run("record", "weighed", "EMB=43g")
    keeper.run("file", "backup", str(tmp_path / "copy.warmside"))
    keeper.run("record", "weighed", "EMB=47g", "SLA=52g")
    assert heaviest()[0] == {"EMB": 47.0, "SLA": 52.0}
    keeper.run("file", "restore", str(tmp_path / "copy.warmside"), "--yes")
    assert heaviest()[0] == {"EMB": 43.0}
    keeper.run("record", "weighed", "SLA=50g")
    assert heaviest()[0] == {"EMB": 43.0, "SLA": 50.0}


def test_a_file_of_before_keeps_nothing_until_its_next_step(
    keeper: Keeper, heaviest: Asked
) -> None:
    keeper.run("record", "weighed", "EMB=43g")
    with closing(sqlite3.connect(keeper.path)) as connection, connection:
        connection.execute("DELETE FROM touched")
    assert [heaviest()[1], heaviest()[1]] == [["EMB", "SLA"]] * 2
    keeper.run("record", "observed", "EMB=calm")
    assert [heaviest()[1], heaviest()[1]] == [["EMB", "SLA"], []]


def test_where_nothing_can_be_kept_it_is_worked_out(keeper: Keeper, tmp_path: Path) -> None:
    broken = tmp_path / "broken"
    broken.write_bytes(b"no database at all, but quite long enough to look like one" * 40)
    kept = Kept(lambda: broken)
    assert kept.each("x", {1: "a", 2: "a"}, lambda ids: dict.fromkeys(ids, 7), int) == {1: 7, 2: 7}


def test_what_cannot_be_read_any_more_is_worked_out_anew(tmp_path: Path) -> None:
    kept = Kept(lambda: tmp_path / "kept")
    assert kept.each("x", {1: "a"}, lambda ids: dict.fromkeys(ids, "7 days"), str) == {1: "7 days"}
    for _ in range(2):
        assert kept.each("x", {1: "a"}, lambda ids: dict.fromkeys(ids, 7), int) == {1: 7}


def test_a_step_sees_what_it_has_written_itself(keeper: Keeper) -> None:
    keeper.run("animal", "add", "Ember", "--species", "leopard gecko")

    def counted(book: Book) -> list[int]:
        make = lambda ids: {a: len(book.events("weighed", animal=a)) for a in ids}  # noqa: E731
        each = dict.fromkeys(book.animals)
        found = book.derived_each("mine.count", book.today, each, ["event:weighed"], make, int)
        return list(found.values())

    with keeper.open().step("a weighing", keeper.now) as writer:
        assert counted(writer.book) == [0]
        (ember,) = writer.book.animals
        writer.record(NewEvent("weighed", writer.book.today, {"mass_g": 43.0}, ember))
        assert counted(writer.reread()) == [1]
