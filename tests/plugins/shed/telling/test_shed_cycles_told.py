"""Cycles as a table and as a timeline."""

from __future__ import annotations

from datetime import date, timedelta

from warmside.plugins.shed.cycles.aftermath import Aftermath
from warmside.plugins.shed.cycles.animal import AnimalSheds, Rows, as_of
from warmside.plugins.shed.cycles.cycle import Seen, Stage
from warmside.plugins.shed.forecast.next_shed import next_shed
from warmside.plugins.shed.forecast.predictive import prior_for
from warmside.plugins.shed.telling.cycles import COLUMNS, cycles_table, timeline

START = date(2026, 1, 1)


def day(n: int) -> date:
    return START + timedelta(days=n)


def animal(*sights: tuple[Stage, int], on: int, retained: tuple[str, ...] = ()) -> AnimalSheds:
    seen = tuple(Seen(day(d), stage, n) for n, (stage, d) in enumerate(sights, 1))
    sheds = tuple(
        Aftermath(s.day, "one piece", retained, retained, events=(s.event,))
        for s in seen
        if s.stage is Stage.SHED
    )
    return as_of(Rows(1, "EMB", "Ember", seen=seen, sheds=sheds), day(on))


def row(sheds: AnimalSheds, index: int) -> dict[str, object]:
    keys = [c.key for c in COLUMNS]
    return dict(zip(keys, cycles_table(sheds, START).rows[index], strict=True))


WHOLE = (Stage.SHED, 0), (Stage.DULL, 30), (Stage.OPAQUE, 33), (Stage.CLEAR, 36), (Stage.SHED, 40)


def test_a_cycle_is_a_row_with_the_day_of_each_stage_and_the_interval() -> None:
    found = row(animal(*WHOLE, on=41), 1)
    assert (found["dull"], found["opaque"], found["clear"]) == (day(30), day(33), day(36))
    assert (found["shed"], found["interval"], found["outcome"]) == (day(40), 40, "one piece")
    assert row(animal(*WHOLE, on=41), 0)["interval"] is None


def test_an_interval_across_a_shed_that_was_not_recorded_is_not_given() -> None:
    sheds = animal((Stage.SHED, 0), (Stage.OPAQUE, 40), (Stage.SHED, 90), on=91)
    assert [r[4] for r in cycles_table(sheds, START).rows] == [None, None, None]


def test_dull_skin_alone_does_not_break_an_interval() -> None:
    sheds = animal((Stage.SHED, 0), (Stage.DULL, 20), (Stage.SHED, 60), on=61)
    assert [r[4] for r in cycles_table(sheds, START).rows] == [None, None, 60]


def test_only_cycles_since_a_day_are_shown_but_intervals_are_kept() -> None:
    table = cycles_table(animal(*WHOLE, on=41), day(20))
    assert len(table.rows) == 1
    assert table.rows[0][4] == 40


def test_the_timeline_has_each_stage_to_the_day_before_the_next() -> None:
    drawn = timeline(animal(*WHOLE, on=41), START, None)
    rows = {r.title: r for r in drawn.rows}
    assert [(s.start, s.end) for s in rows["dull"].spans] == [(day(30), day(32))]
    assert [(s.start, s.end) for s in rows["clear"].spans] == [(day(36), day(39))]
    assert [(m.day, m.sign) for m in rows["shed"].moments] == [(day(0), "o"), (day(40), "o")]


def test_a_stage_that_lasts_reaches_to_today_and_the_usual_shed_lies_ahead() -> None:
    drawn = timeline(animal((Stage.OPAQUE, 0), on=3), START, None)
    rows = {r.title: r for r in drawn.rows}
    assert rows["opaque"].spans[0].end == day(3)
    assert rows["shed usual"].spans[0].start == day(4)
    assert drawn.end == rows["shed usual"].spans[0].end


def test_the_next_shed_is_drawn_as_50_within_90_percent() -> None:
    sheds = animal((Stage.SHED, 0), (Stage.SHED, 40), (Stage.SHED, 81), on=90)
    ahead = next_shed(sheds.history, sheds.on, prior_for("adult"))
    assert ahead is not None
    drawn = timeline(sheds, START, ahead)
    wide, narrow = drawn.rows[-1].spans
    assert (wide.start, wide.end) == ahead.dates_90
    assert (narrow.start, narrow.end) == ahead.dates_50
    assert (wide.strong, narrow.strong) == (False, True)


def test_skin_left_on_has_a_sign_of_its_own() -> None:
    drawn = timeline(animal((Stage.SHED, 0), on=1, retained=("toes",)), START, None)
    assert drawn.rows[-1].moments[0].sign == "!"
