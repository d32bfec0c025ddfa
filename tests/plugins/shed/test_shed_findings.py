"""The findings about sheds, from plain values."""

from __future__ import annotations

from datetime import date, timedelta

from warmside.api import Finding, Level
from warmside.plugins.shed.cycles.aftermath import Aftermath, Look
from warmside.plugins.shed.cycles.animal import AnimalSheds, Rows, as_of
from warmside.plugins.shed.cycles.cycle import Seen, Stage
from warmside.plugins.shed.findings import finding_of_overdue, findings
from warmside.plugins.shed.forecast.outlook import outlook
from warmside.plugins.shed.forecast.predictive import prior_for

START = date(2026, 1, 1)


def day(n: int) -> date:
    return START + timedelta(days=n)


def sheds(*spoiled: tuple[int, str], on: int = 60, looks: tuple[Look, ...] = ()) -> AnimalSheds:
    """Sheds of (day, place where skin stayed on or nothing)."""
    made = []
    for n, (when, where) in enumerate(spoiled, 1):
        kept = (where,) if where else ()
        made.append(Aftermath(day(when), "pieces", kept, kept, events=(n,)))
    seen = tuple(Seen(a.day, Stage.SHED, a.events[0]) for a in made)
    return as_of(Rows(1, "EMB", "Ember", False, seen, tuple(made), looks), day(on))


def seen(*sights: tuple[Stage, int], on: int) -> AnimalSheds:
    told = tuple(Seen(day(d), stage, n) for n, (stage, d) in enumerate(sights, 1))
    return as_of(Rows(1, "EMB", "Ember", seen=told), day(on))


def codes(found: AnimalSheds, vet_seen: date | None = None) -> list[tuple[str, Level]]:
    return [(f.code, f.level) for f in findings(found, vet_seen)]


def test_a_spectacle_left_on_once_is_to_be_looked_at_soon() -> None:
    assert codes(sheds((0, "spectacle"), on=1)) == [("shed.spectacle", Level.LOOK_SOON)]


def test_a_spectacle_left_on_twice_is_a_case_for_the_vet_now() -> None:
    found = list(findings(sheds((0, "spectacle"), (40, "spectacle"), on=41), None))
    again: Finding = found[0]
    assert (again.code, again.level) == ("shed.again", Level.ACT_NOW)
    assert "vet" in again.words
    assert again.basis.events == (1, 2)


def test_other_skin_left_on_twice_is_for_a_vet_soon() -> None:
    found = codes(sheds((0, "toes"), (40, "tail tip"), on=41))
    assert found == [("shed.again", Level.LOOK_SOON), ("shed.retained", Level.LOOK_SOON)]


def test_a_visit_to_the_vet_after_the_second_shed_settles_that() -> None:
    twice = sheds((0, "toes"), (40, "toes"), on=50, looks=(Look(day(42), False),))
    assert codes(twice) == [("shed.again", Level.LOOK_SOON)]
    assert codes(twice, vet_seen=day(39)) == [("shed.again", Level.LOOK_SOON)]
    assert codes(twice, vet_seen=day(45)) == []


def test_a_good_shed_in_between_begins_anew() -> None:
    found = codes(sheds((0, "toes"), (40, ""), (80, "toes"), on=81))
    assert found == [("shed.retained", Level.LOOK_SOON)]


def test_a_ring_around_toes_does_not_wait_for_the_next_shed() -> None:
    """Look every day; a vet from the third day on, act now after a week, until a vet saw it."""
    (early,) = findings(sheds((0, "toes"), on=1), None)
    assert "look every day" in early.words and "2026-01-04 and 2026-01-08" in early.words
    assert "next shed" not in early.words
    (late,) = findings(sheds((0, "tail tip"), on=4), None)
    assert late.level is Level.LOOK_SOON and "ask a vet now" in late.words
    assert codes(sheds((0, "toes"), on=8)) == [("shed.retained", Level.ACT_NOW)]
    assert codes(sheds((0, "toes"), on=8), vet_seen=day(5)) == [("shed.retained", Level.LOOK_SOON)]
    (other,) = findings(sheds((0, "elsewhere"), on=8), None)
    assert "after the next shed" in other.words


def test_every_word_about_skin_left_on_warns_against_pulling() -> None:
    for where in ("spectacle", "toes", "tail tip", "elsewhere"):
        (found,) = findings(sheds((0, where), on=1), None)
        assert "never pull" in found.words
        assert "vet at once for swelling" in found.words


def test_a_stage_is_late_once_the_usual_days_to_the_shed_have_passed() -> None:
    """The 8 days from opaque to the shed are common practice, no source."""
    assert codes(seen((Stage.OPAQUE, 0), on=8)) == []
    assert codes(seen((Stage.OPAQUE, 0), on=9)) == [("shed.late", Level.NOTE)]


def test_doubts_of_the_last_months_are_notes_and_older_ones_rest() -> None:
    twice = (Stage.SHED, 0), (Stage.SHED, 1)
    assert codes(seen(*twice, on=2)) == [("shed.twice", Level.NOTE)]
    assert codes(seen(*twice, on=100)) == []
    order = (Stage.CLEAR, 0), (Stage.DULL, 2)
    assert ("shed.order", Level.NOTE) in codes(seen(*order, on=3))
    assert codes(seen((Stage.OPAQUE, 0), on=30)) == [("shed.unrecorded", Level.NOTE)]


def test_overdue_is_a_note_with_the_usual_days() -> None:
    told = seen(*((Stage.SHED, n * 40) for n in range(6)), on=300)
    ahead = outlook(told.history, prior_for("adult"))
    found = ahead.overdue(told.on) if ahead else None
    assert found is not None
    (note,) = finding_of_overdue(told, found)
    assert list(finding_of_overdue(told, None)) == []
    assert (note.code, note.level) == ("shed.overdue", Level.NOTE)
    assert "100 days since the last shed" in note.words
