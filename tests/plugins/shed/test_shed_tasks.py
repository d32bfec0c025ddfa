"""The tasks of a shed, from plain values."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from warmside.api import Task
from warmside.plugins.shed.cycles.aftermath import Aftermath, Look
from warmside.plugins.shed.cycles.animal import Rows, as_of
from warmside.plugins.shed.cycles.cycle import Seen, Stage
from warmside.plugins.shed.kinds import CHECKED, PREPARED
from warmside.plugins.shed.tasks import NEVER_PULL, tasks

OPAQUE = date(2026, 3, 1)


def rows(*seen: tuple[Stage, int], **more: Any) -> Rows:
    sights = tuple(
        Seen(OPAQUE + timedelta(days=d), stage, n) for n, (stage, d) in enumerate(seen, 1)
    )
    return Rows(1, "EMB", "Ember", seen=sights, **more)


def shed(*retained: str) -> dict[str, Any]:
    return {"sheds": (Aftermath(OPAQUE, "one piece", retained, retained, events=(1,)),)}


def due(row: Rows, days: int, recheck_every: float = 3.0) -> list[Task]:
    return list(tasks(as_of(row, OPAQUE + timedelta(days=days)), recheck_every))


def test_opaque_asks_for_a_humid_hide_until_something_was_done() -> None:
    (task,) = due(rows((Stage.OPAQUE, 0)), 1)
    assert (task.settles, task.due, task.basis.events) == (PREPARED, OPAQUE, (1,))
    assert due(rows((Stage.OPAQUE, 0), prepared=(OPAQUE,)), 1) == []


def test_a_humid_hide_given_when_dull_counts_and_one_of_the_last_cycle_does_not() -> None:
    seen = (Stage.DULL, -3), (Stage.OPAQUE, 0)
    assert due(rows(*seen, prepared=(OPAQUE - timedelta(days=2),)), 1) == []
    assert due(rows(*seen, prepared=(OPAQUE - timedelta(days=40),)), 1)


def test_dull_alone_asks_for_nothing_yet() -> None:
    assert due(rows((Stage.DULL, 0)), 1) == []


def test_the_shed_is_asked_for_from_the_first_usual_day_on() -> None:
    row = rows((Stage.OPAQUE, 0), prepared=(OPAQUE,))
    assert due(row, 3) == []
    (task,) = due(row, 4)
    assert (task.settles, task.due) == ("shed", OPAQUE + timedelta(days=4))


def test_a_slough_eater_is_looked_at_for_fresh_skin() -> None:
    row = rows((Stage.OPAQUE, 0), prepared=(OPAQUE,), eats_slough=True)
    assert "eats its shed skin" in due(row, 5)[0].note


def test_nothing_is_asked_once_the_cycle_is_long_past() -> None:
    assert due(rows((Stage.OPAQUE, 0)), 40) == []


def test_after_a_shed_a_check_is_asked_for_two_weeks() -> None:
    row = rows((Stage.SHED, 0), **shed())
    (task,) = due(row, 0)
    assert (task.settles, task.due) == (CHECKED, OPAQUE)
    assert due(row, 14)
    assert due(row, 15) == []


def test_a_check_settles_it() -> None:
    looked = (Look(OPAQUE, left_on=False, event=2),)
    assert due(rows((Stage.SHED, 0), looks=looked, **shed()), 1) == []


def test_skin_left_on_is_looked_at_again_after_the_set_days() -> None:
    row = rows((Stage.SHED, 0), **shed("spectacle"))
    assert due(row, 2) == []
    (task,) = due(row, 3)
    assert task.settles == CHECKED
    assert task.note == NEVER_PULL
    assert due(row, 3, recheck_every=5.0) == []
    assert due(row, 100), "it stays until a look finds it off"


def test_a_ring_around_toes_or_tail_is_looked_at_every_day() -> None:
    row = rows((Stage.SHED, 0), **shed("toes"))
    assert due(row, 0) == []
    assert due(row, 1)


def test_a_look_that_finds_it_still_on_asks_again_from_that_day() -> None:
    looks = (Look(OPAQUE + timedelta(days=3), left_on=True, event=2),)
    row = rows((Stage.SHED, 0), looks=looks, **shed("spectacle"))
    assert due(row, 5) == []
    assert due(row, 6)[0].due == OPAQUE + timedelta(days=6)
