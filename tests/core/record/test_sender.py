"""Who did a step is kept with it, and what is sent twice is written once."""

from __future__ import annotations

import pytest

from warmside.core.record.entities import Sender
from warmside.core.record.steps import StepWriter
from warmside.core.session.collection import Collection
from warmside.core.values.errors import SentBefore
from warmside.testing import Keeper

ADA = Sender("Ada", "phone-1")


def enter(writer: StepWriter, code: str) -> None:
    from warmside.core.record.entries import add_enclosure

    add_enclosure(writer, f"Box {code}", code=code)


def sent(keeper: Keeper, sender: Sender, code: str) -> int:
    """The number of the step in which an enclosure was entered."""
    with keeper.open().step(f"entered {code}", keeper.now, sender=sender) as writer:
        enter(writer, code)
    return writer.id


def test_history_tells_who_did_a_step_only_where_it_is_known(keeper: Keeper) -> None:
    keeper.run("enclosure", "add", "Low")
    assert "by" not in keeper.run("undo", "--list").stdout.splitlines()[2].split()
    sent(keeper, ADA, "HIGH")
    rows = keeper.json("undo", "--list")["steps"]
    assert [(r["what"], r["by"]) for r in rows][:2] == [
        ("entered HIGH", "Ada"),
        ("entered enclosure Low", None),
    ]
    assert "Ada" in keeper.run("undo", "--list").stdout


def test_what_is_sent_twice_is_written_once_and_its_step_is_told(keeper: Keeper) -> None:
    first = sent(keeper, ADA, "A1")
    with pytest.raises(SentBefore) as told:
        sent(keeper, ADA, "A2")
    assert told.value.step_id == first
    with keeper.book() as book:
        assert [e.code for e in book.enclosures.values()] == ["A1"]


def test_it_stays_written_once_when_it_was_taken_back_meanwhile(keeper: Keeper) -> None:
    sent(keeper, ADA, "A1")
    keeper.run("undo", "--yes")
    with pytest.raises(SentBefore):
        sent(keeper, ADA, "A1")
    with keeper.book() as book:
        assert not book.enclosures


def test_a_step_without_a_reference_may_be_done_again_and_again(keeper: Keeper) -> None:
    assert sent(keeper, Sender("Ada"), "A1") < sent(keeper, Sender("Ada"), "A2")


def test_a_refused_step_leaves_its_reference_free(keeper: Keeper) -> None:
    with (
        pytest.raises(RuntimeError),
        keeper.open().step("slip", keeper.now, sender=ADA) as writer,
    ):
        enter(writer, "A1")
        raise RuntimeError
    assert sent(keeper, ADA, "A1")


def test_undo_and_redo_say_who_did_them_and_are_sent_once(keeper: Keeper) -> None:
    number = sent(keeper, ADA, "A1")
    collection: Collection = keeper.open()
    collection.undo(keeper.now, number, Sender("Ben", "phone-2"))
    with pytest.raises(SentBefore):
        collection.undo(keeper.now, number, Sender("Ben", "phone-2"))
    collection.redo(keeper.now, Sender("Cleo", "phone-3"))
    rows = keeper.json("undo", "--list")["steps"]
    assert [r["by"] for r in rows] == ["Cleo", "Ben", "Ada"]


def test_the_check_of_the_file_covers_who_did_it(keeper: Keeper) -> None:
    import sqlite3
    from contextlib import closing

    sent(keeper, ADA, "A1")
    keeper.run("file", "check")
    with closing(sqlite3.connect(keeper.path)) as connection, connection:
        connection.execute("UPDATE step SET by = 'Eve' WHERE by = 'Ada'")
    assert "steps are as they were recorded" in keeper.run("file", "check", ok=False).stdout
    assert keeper.run("file", "check", ok=False).code == 5
