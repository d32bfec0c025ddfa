"""What the keeper should know of an animal's sheds; what it means for its health a vet says."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from warmside.api import OWN_RECORDS, About, Basis, Finding, Level, Mark, Source, counted
from warmside.plugins.shed.cycles.aftermath import Aftermath, left_on_in_a_row
from warmside.plugins.shed.cycles.animal import AnimalSheds, left_on_words
from warmside.plugins.shed.forecast.forecast import Forecast
from warmside.plugins.shed.kinds import CHECKED
from warmside.plugins.shed.tasks import NEVER_PULL, RINGS

LEAFLETS = Source("veterinary leaflets and Nevarez: never pull a spectacle", Mark.SECONDARY)
RING = Source(
    "a veterinary blog (Gibson 2015): tissue below a ring can blacken and drop, see a vet when it "
    "is dark or swollen; the 3 to 7 days are keepers' custom",
    Mark.COMMON_PRACTICE,
)
RING_VET_DAYS = (3, 7)
"""A ring around toes or tail tip that is not off within so many days is for a vet (see RING)."""
VET_CUSTOM = Source("keepers' custom, in line with veterinary leaflets", Mark.COMMON_PRACTICE)


def findings(sheds: AnimalSheds, vet_seen: date | None) -> Iterator[Finding]:
    """Skin left on, a late stage, and doubts about the record; `vet_seen` is the last visit."""
    if sheds.last is not None:
        yield from _left_on(sheds, sheds.last, vet_seen)
    if sheds.late:
        yield _late(sheds)
    for doubt in sheds.new_doubts:
        basis = Basis("sheds read in their order", OWN_RECORDS, tuple(s.event for s in doubt.seen))
        yield Finding(
            f"shed.{doubt.code}", Level.NOTE, doubt.words, basis, about=About(sheds.rows.animal_id)
        )


def finding_of_overdue(sheds: AnimalSheds, ahead: Forecast | None) -> Iterator[Finding]:
    """That the time since the last shed has become unusually long; nothing where it is not."""
    if ahead is None:
        return
    words = (
        f"{ahead.elapsed_days:.0f} days since the last shed; 9 of 10 intervals of this animal are "
        f"expected to last {ahead.usual_low_days:.0f} to {ahead.usual_high_days:.0f} days. "
        "No alarm by itself: was a shed not recorded? Is it dry, cold, or unwell?"
    )
    yield Finding("shed.overdue", Level.NOTE, words, ahead.basis, About(sheds.rows.animal_id))


def _left_on(sheds: AnimalSheds, last: Aftermath, vet_seen: date | None) -> Iterator[Finding]:
    again = left_on_in_a_row(sheds.sheds) > 1 and not (vet_seen and vet_seen >= last.day)
    if again:
        yield _again(sheds)
    if last.still:
        yield _still(sheds, last, vet_seen)


def _again(sheds: AnimalSheds) -> Finding:
    before, last = sheds.sheds[-2:]
    spectacle = "spectacle" in last.still and "spectacle" in before.retained
    words = (
        f"skin was left on at the sheds of {before.day} ({left_on_words(before.retained)}) and "
        f"{last.day} ({left_on_words(last.retained)}): time for a vet, who can look for what is "
        "behind it"
    )
    return Finding(
        "shed.again",
        Level.ACT_NOW if spectacle else Level.LOOK_SOON,
        words,
        Basis("left on in two sheds running", VET_CUSTOM, (*before.events, *last.events)),
        about=About(sheds.rows.animal_id),
    )


def _still(sheds: AnimalSheds, last: Aftermath, vet_seen: date | None) -> Finding:
    spectacle = "spectacle" in last.still
    left = f"{left_on_words(last.still)} left on at the shed of {last.day}"
    humid = f"humidity and a humid hide; {NEVER_PULL}"
    seen = vet_seen is not None and vet_seen >= last.day
    if RINGS & set(last.still):
        why = f"a ring of old skin can cut off the blood, {humid}; look every day"
        return _ring(sheds, last, left, why, seen)
    words = f"{left}: {humid}, else if it is still there after the next shed"
    return Finding(
        "shed.spectacle" if spectacle else "shed.retained",
        Level.LOOK_SOON,
        words,
        Basis(
            "what was left on is on until a look finds it off",
            LEAFLETS if spectacle else VET_CUSTOM,
            last.events,
        ),
        about=About(sheds.rows.animal_id),
        task=CHECKED,
    )


def _ring(sheds: AnimalSheds, last: Aftermath, left: str, why: str, seen: bool) -> Finding:
    """A ring of old skin does not wait for the next shed: a vet within RING_VET_DAYS."""
    days = (sheds.on - last.day).days
    late = days >= RING_VET_DAYS[0]
    when = f"on for {counted(days, 'day')}, so ask a vet now" if late else _ring_until(last)
    when = "a vet has seen it since" if seen else when
    code = "shed.spectacle" if "spectacle" in last.still else "shed.retained"
    return Finding(
        code,
        Level.ACT_NOW if days > RING_VET_DAYS[1] and not seen else Level.LOOK_SOON,
        f"{left}, {when}: {why}",
        Basis("what was left on is on until a look finds it off", RING, last.events),
        about=About(sheds.rows.animal_id),
    )


def _ring_until(last: Aftermath) -> str:
    first, latest = (last.day + timedelta(days=d) for d in RING_VET_DAYS)
    return f"a vet if it is not off between {first} and {latest}"


def _late(sheds: AnimalSheds) -> Finding:
    now = sheds.now
    assert now.shed is not None
    words = (
        f"{now.stage} since {now.since}, the shed was usual by {now.shed.high}. "
        "No alarm by itself: was a shed skin overlooked, is it dry? See a vet if it seems unwell."
    )
    rule = f"usual days from {now.stage} to the shed"
    return Finding(
        "shed.late",
        Level.NOTE,
        words,
        Basis(rule, now.shed.source, now.events),
        about=About(sheds.rows.animal_id),
    )
