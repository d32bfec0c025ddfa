"""A forecast as facts and as dates."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from warmside.api import Basis, Cell, Column, Fact, Kind, Part, Table, Tone, Unit, Words
from warmside.plugins.shed.cycles.animal import AnimalSheds
from warmside.plugins.shed.cycles.now import Expected
from warmside.plugins.shed.forecast.forecast import Forecast
from warmside.plugins.shed.forecast.intervals import of_history, perhaps_missed
from warmside.plugins.shed.forecast.next_shed import NextShed
from warmside.plugins.shed.forecast.predictive import Prior

EXPECTED_COLUMNS = (
    Column("what", "expected"),
    Column("low", "from", Kind.DATE),
    Column("high", "to", Kind.DATE),
    Column("chance", "chance", Unit.PERCENT),
    Column("rule", "by"),
    Column("source", "source", text=False),
    Column("mark", "mark", text=False),
    Column("events", "events", Kind.LIST, text=False),
)
OVERDUE = (
    "Overdue: fewer than 1 in 20 intervals are expected to last so long. No alarm by itself: was a "
    "shed not recorded, is it dry or cold? See a vet if it seems unwell."
)


def ahead_parts(
    sheds: AnimalSheds, ahead: NextShed | None, prior: Prior | None, how: Basis
) -> tuple[Part, ...]:
    """The forecast of an animal; `how` says by which rule the life stage of the prior was found."""
    return (
        *_prior_fact(prior, how),
        *((*last_facts(ahead), *range_facts(ahead.forecast)) if ahead else ()),
        expected_table(sheds, ahead),
        *reading_words(sheds, ahead),
        *missed_words(sheds),
    )


def _prior_fact(prior: Prior | None, how: Basis) -> tuple[Fact, ...]:
    if prior is None:
        return ()
    return (Fact("life_stage", "life stage", prior.life_stage, basis=how),)


def range_facts(ahead: Forecast) -> tuple[Part, ...]:
    """The ranges in days since the last shed, with the middle and what they rest on."""
    return (
        Fact("elapsed", "days since the last shed", ahead.elapsed_days, Unit.DAYS),
        Fact("low_50", "50 % from", ahead.low_50_days, Unit.DAYS),
        Fact("high_50", "50 % to", ahead.high_50_days, Unit.DAYS),
        Fact("low_90", "90 % from", ahead.low_90_days, Unit.DAYS),
        Fact("high_90", "90 % to", ahead.high_90_days, Unit.DAYS),
        Fact("middle", "middle", ahead.median_days, Unit.DAYS, ahead.basis),
        Fact("overdue", "overdue", ahead.overdue, Kind.YESNO),
    )


def is_overdue(sheds: AnimalSheds, ahead: NextShed | None) -> bool:
    """Whether to call a shed overdue: not within a cycle, nor where sheds are eaten unseen."""
    return sheds.between and ahead is not None and ahead.forecast.overdue


def reading_words(sheds: AnimalSheds, ahead: NextShed | None) -> tuple[Words, ...]:
    """How to read the expected days: the stage says more than the intervals; what overdue means."""
    if sheds.now.stage is not None and ahead is not None:
        return (
            Words(f"Within a cycle the stage, {sheds.now.stage}, says more than the intervals do."),
        )
    return (Words(OVERDUE),) if is_overdue(sheds, ahead) else ()


def expected_table(sheds: AnimalSheds, ahead: NextShed | None) -> Table:
    """The next stage, the shed at the end of the cycle, and the next shed by the intervals."""
    rows = [*_usual(sheds), *(_ranges(ahead) if ahead else ())]
    empty = f"no shed on record yet; record one: warmside record shed {sheds.rows.code}"
    return Table("expected", EXPECTED_COLUMNS, tuple(rows), "Expected", empty)


def _usual(sheds: AnimalSheds) -> Iterator[tuple[Cell, ...]]:
    now = sheds.now
    both: list[Expected] = [e for e in (now.next_stage, now.shed) if e is not None]
    for found in dict.fromkeys(both):
        rule = f"usual days after {now.stage}"
        basis = Basis(rule, found.source, now.events)
        yield found.stage.value, found.low, found.high, None, *_sourced(basis)


def _ranges(ahead: NextShed) -> Iterator[tuple[Cell, ...]]:
    for chance, days in ((50, ahead.dates_50), (90, ahead.dates_90)):
        yield "shed", *days, chance, *_sourced(ahead.forecast.basis)


def _sourced(basis: Basis) -> tuple[Cell, ...]:
    events = tuple(str(e) for e in basis.events)
    return basis.rule, basis.source.text, basis.source.mark.value, events


def last_facts(ahead: NextShed) -> tuple[Fact, ...]:
    """The day of the last shed, or the days between which it must have been."""
    first, last = ahead.last
    if first == last:
        return (Fact("last_shed", "last shed", last, Kind.DATE),)
    return (
        Fact("last_shed_earliest", "last shed, not recorded, from", first, Kind.DATE),
        Fact("last_shed", "to", last, Kind.DATE),
    )


def missed_words(sheds: AnimalSheds) -> tuple[Words, ...]:
    """Which intervals look like two with a shed between them that was not recorded."""
    return tuple(
        Words(
            f"{i.low_days:g} days from {_day(i.started)} look like two intervals: a shed between "
            "them may not be on record, so the forecast reads them as at most so long",
            Tone.CAUTION,
        )
        for i in perhaps_missed(of_history(sheds.history))
    )


def _day(day: date | None) -> str:
    return day.isoformat() if day else "an unknown day"
