"""What the round and labels show of rhythms."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from datetime import date
from pathlib import Path

import pytest

from warmside.api import About, EventKind, Task
from warmside.testing import Keeper, new_keeper, throw_away_plugin


def tasks(keeper: Keeper, on: date | None = None) -> list[Task]:
    with keeper.ask() as ask:
        return [task for _, task in ask.tasks(on or ask.book.today)]


def lines(keeper: Keeper, about: About) -> dict[str, str]:
    with keeper.ask() as ask:
        return {x.key: x.text for x in ask.label_lines(about, ask.book.today)}


def test_a_weighing_settles_the_task_until_the_next_one(mine: Keeper) -> None:
    mine.run("rhythm", "set", "weighed", "Ember", "--every", "30")
    (task,) = tasks(mine)
    assert (task.what, task.due, task.settles) == ("weigh", date(2026, 2, 1), "weighed")
    assert (task.about, task.every_days) == (About(animal_id=1), 30)
    assert task.basis.rule == "every 30 days, none on record"
    mine.run("record", "weighed", "Ember", "--mass", "800g")
    assert tasks(mine) == []
    assert [t.due for t in tasks(mine, date(2026, 4, 4))] == [date(2026, 4, 4)]


def test_the_latest_weighing_counts_and_the_task_names_it(mine: Keeper) -> None:
    mine.run("rhythm", "set", "weighed", "--every", "10")
    mine.run("record", "weighed", "Ember", "--mass", "800g", "--at", "2026-02-20")
    mine.run("record", "weighed", "Ember", "--mass", "790g", "--at", "2026-02-03")
    newest = mine.json("history", "Ember", "--last", "1")["events"][0]["event"]
    ember = next(t for t in tasks(mine) if t.about == About(animal_id=1))
    assert (ember.due, ember.basis.events) == (date(2026, 3, 2), (newest,))
    assert ember.basis.rule == "every 10 days, last 13 days ago"


def test_every_day_is_said_so(mine: Keeper) -> None:
    mine.run("rhythm", "set", "watered", "--every", "1")
    assert {t.basis.rule for t in tasks(mine)} == {"every day, none on record"}


def test_an_own_rhythm_beats_the_general_one_in_the_round(mine: Keeper) -> None:
    mine.run("rhythm", "set", "weighed", "--every", "10")
    mine.run("rhythm", "set", "weighed", "Moss", "--every", "60")
    mine.run("record", "weighed", "Ember", "Moss", "--mass", "700g", "--at", "2026-02-21")
    assert [(t.about, t.every_days) for t in tasks(mine)] == [(About(animal_id=1), 10)]


def test_an_enclosure_is_clean_when_the_first_animal_moves_in(mine: Keeper) -> None:
    mine.run("rhythm", "set", "cleaned", "--every", "28")
    assert [(t.about, t.due) for t in tasks(mine)] == [
        (About(enclosure_id=1), date(2026, 3, 1)),
    ]
    mine.run("move", "Moss", "--to", "SHE", "--at", "2026-03-04")
    assert [t.due for t in tasks(mine)] == [date(2026, 3, 1)]


def test_nothing_is_due_in_an_empty_enclosure_or_for_an_animal_that_left(mine: Keeper) -> None:
    mine.run("rhythm", "set", "weighed", "--every", "10")
    mine.run("rhythm", "set", "watered", "--every", "2")
    mine.run("depart", "Moss", "--how", "given away")
    about = {t.about for t in tasks(mine)}
    assert about == {About(animal_id=1), About(enclosure_id=1)}


def test_an_animal_that_leaves_is_still_due_on_the_day_before(mine: Keeper) -> None:
    mine.run("rhythm", "set", "weighed", "Moss", "--every", "10")
    mine.run("depart", "Moss", "--how", "given away", "--at", "2026-03-04")
    assert [t.about for t in tasks(mine, date(2026, 3, 3))] == [About(animal_id=2)]
    assert tasks(mine, date(2026, 3, 4)) == []


def test_labels_say_the_rhythms_of_an_animal(mine: Keeper) -> None:
    mine.run("rhythm", "set", "weighed", "--every", "30")
    mine.run("rhythm", "set", "weighed", "Moss", "--every", "60")
    mine.run("rhythm", "set", "cleaned", "--every", "28")
    assert lines(mine, About(animal_id=1)) == {"rhythm.weighed": "weighed every 30 days"}
    assert lines(mine, About(animal_id=2)) == {"rhythm.weighed": "weighed every 60 days"}


@pytest.mark.parametrize("enclosure", [1, 3], ids=["lived in", "empty"])
def test_labels_say_the_rhythms_of_an_enclosure(mine: Keeper, enclosure: int) -> None:
    mine.run("rhythm", "set", "weighed", "--every", "30")
    mine.run("rhythm", "set", "cleaned", "--every", "28")
    said = lines(mine, About(enclosure_id=enclosure))
    assert said == {"rhythm.cleaned": "cleaned (full) every 28 days"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Brushed:
    """Brushed off dust (an invented kind)."""


def test_the_rhythm_of_a_kind_that_is_gone_waits(mine: Keeper) -> None:
    kind = EventKind("broom.brushed", "brushed", Brushed)
    with throw_away_plugin("broom", warmside_event_kinds=lambda: (kind,)):
        mine.run("plugin", "enable", "broom")
        mine.run("rhythm", "set", "broom.brushed", "--every", "9")
        assert [t.what for t in tasks(mine)] == ["brushed", "brushed"]
        mine.run("plugin", "disable", "broom")
    mine.run("rhythm", "set", "weighed", "Ember", "--every", "9")
    assert [t.what for t in tasks(mine)] == ["weigh"]
    assert list(lines(mine, About(animal_id=1))) == ["rhythm.weighed"]
    assert mine.json("rhythm", "list")["rhythms"][0]["kind"] == "broom.brushed"


def test_a_spot_clean_does_not_put_off_the_full_one_and_done_writes_full(tmp_path: Path) -> None:
    keeper = new_keeper(tmp_path, plugins=["rhythm"])
    keeper.run("enclosure", "add", "Shelf")
    about = ("--species", "corn snake", "--enclosure", "SHE", "--since", "2026-01-01")
    keeper.run("animal", "add", "Ember", *about)
    keeper.run("rhythm", "set", "cleaned", "--every", "28")
    keeper.run("record", "cleaned", "SHE", "--at", "2026-03-01")
    (task,) = keeper.json("today")["tasks"]
    assert (task["what"], task["due"]) == ("full clean", "2026-01-29")
    keeper.run("done", "1")
    assert keeper.json("today")["tasks"] == []
    with keeper.book() as book:
        assert [e.data["extent"] for e in book.events("cleaned")] == ["spot", "full"]
    keeper.run("rhythm", "set", "cleaned", "--every", "7")
    assert keeper.json("today")["tasks"] == []


def test_done_writes_the_extent_of_its_own_task(mine: Keeper) -> None:
    mine.run("rhythm", "set", "cleaned", "SHE", "--every", "30", "--extent", "spot")
    mine.run("rhythm", "set", "cleaned", "SHE", "--every", "28d", "--extent", "full")
    shown = [t["what"] for t in mine.json("today", "--on", "2026-03-05")["tasks"]]
    assert sorted(shown) == ["full clean", "spot clean"]
    mine.run("done", str(shown.index("spot clean") + 1))
    assert [t["what"] for t in mine.json("today")["tasks"]] == ["full clean"]
    mine.run("done", "1")
    with mine.book() as book:
        assert [e.data["extent"] for e in book.events("cleaned")] == ["spot", "full"]


def test_a_row_of_before_extents_keeps_its_meaning(mine: Keeper) -> None:
    mine.run("rhythm", "set", "cleaned", "--every", "28")
    with closing(sqlite3.connect(mine.path)) as connection, connection:
        connection.execute("UPDATE rhythm_interval SET extent = NULL")
    assert [t.what for t in tasks(mine)] == ["full clean"]
    mine.run("rhythm", "set", "cleaned", "--every", "30")
    rows = mine.json("rhythm", "list")["rhythms"]
    assert [(r["extent"], r["every_days"]) for r in rows] == [("full", 30)]
