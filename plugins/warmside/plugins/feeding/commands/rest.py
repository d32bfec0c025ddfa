"""`warmside feeding rest`: plan a winter rest, or give one up."""

from __future__ import annotations

from datetime import date
from typing import Annotated

import typer

from warmside.api import (
    Animal,
    Answer,
    BadInput,
    Column,
    Doubtful,
    Kind,
    NewEvent,
    NotFound,
    Refused,
    StepWriter,
    Table,
    Tone,
    Unit,
    Words,
    parse_quantity,
    said,
    session_of,
)
from warmside.plugins.feeding.condition.season import Season, season_of
from warmside.plugins.feeding.kinds import REST
from warmside.plugins.feeding.planning.situation import rest_in
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.reading.winter import candidate
from warmside.plugins.feeding.resting.period import (
    Rest,
    degrees,
    doubts,
    out_of_season,
    planned_rest,
    refusals,
)

COLUMNS = (Column("day", "from", Kind.DATE), Column("what", "what"))
VET = (
    "only a healthy, grown, well-fed animal is rested, after a vet looked at it and its droppings; "
    "never an ill, light or new one; in doubt do without"
)
UNDO = "warmside undo (take it back)"


def rest(
    context: typer.Context,
    animal: Annotated[str, typer.Argument(help="Code or name.")],
    cool: Annotated[str | None, typer.Option(help="The day on which cooling begins.")] = None,
    weeks: Annotated[float | None, typer.Option(help="So long fully cold.")] = None,
    stop_days: Annotated[
        float | None, typer.Option("--stop-days", help="Days without food before.")
    ] = None,
    loss: Annotated[str | None, typer.Option(help="The loss at which it ends: 10%.")] = None,
    give_up: Annotated[bool, typer.Option("--give-up", help="Do without it.")] = False,
    confirm: Annotated[bool, typer.Option("--confirm", help="Plan it all the same.")] = False,
) -> Answer:
    """Plan a winter rest: last meal, cooling down, checks by weight, warming up."""
    session = session_of(context)
    with session.step(f"winter rest of {animal}", confirmed=confirm) as writer:
        found = writer.book.animal(animal)
        reading = Reading(session.asking(writer.book), writer.book.today, alone=True)
        if give_up:
            return _given_up(writer, reading, found)
        if cool is None:
            raise BadInput("say when cooling begins, such as --cool 2026-11-15")
        season = season_of(found.species.scientific)
        planned = _planned(season, session.day(cool, writer.book), weeks, stop_days, loss)
        _check(reading, found, planned, weeks or _usual(season)[0], confirm)
        _record(writer, reading.on, found, planned)
        writer.say(f"winter rest of {found.label} planned from {planned.cool}")
    return Answer(f"Winter rest of {found.label}", (*_told(planned, season),))


def _usual(season: Season | None) -> tuple[float, float, float]:
    """Weeks, days without food before, and the loss in percent that are usual."""
    if season is None or season.rest_c is None:
        return 6.0, 14.0, 10.0
    return season.rest_weeks[0], season.stop_days[1], season.loss_percent


def _planned(
    season: Season | None,
    cool: date,
    weeks: float | None,
    stop_days: float | None,
    loss: str | None,
) -> Rest:
    usual = _usual(season)
    percent = parse_quantity(loss, Unit.PERCENT, what="loss") if loss else usual[2]
    if not 1 <= percent <= 20:
        raise BadInput(f"a loss of {percent:g} %; give 1 to 20 %")
    cold, stop = weeks or usual[0], usual[1] if stop_days is None else stop_days
    if not 1 <= cold <= 40:
        raise BadInput(f"{cold:g} weeks; give 1 to 40")
    if not 7 <= stop <= 60:
        raise BadInput(f"{stop:g} days without food before; give 7 to 60")
    return planned_rest(cool, cold, stop, percent)


def _check(reading: Reading, found: Animal, planned: Rest, weeks: float, confirm: bool) -> None:
    if reading.subject(found.id) is None:
        raise NotFound(f"nothing is known of how {found.label} is fed; see a vet first")
    who = candidate(reading, found.id)
    for text in refusals(who, reading.on, planned):
        raise Refused(text)
    against = [*doubts(who, weeks), *out_of_season(planned.cool, reading.book.home.zone)]
    if against and not confirm:
        raise Doubtful(f"{found.label}: {'; '.join(against)}")


def _record(writer: StepWriter, on: date, found: Animal, planned: Rest) -> None:
    data = {
        "stop": planned.stop.isoformat(),
        "cool": planned.cool.isoformat(),
        "warm": planned.warm.isoformat(),
        "loss_percent": planned.loss_percent,
        "given_up": False,
    }
    writer.record(NewEvent(REST, on, data, animal_id=found.id))


def _given_up(writer: StepWriter, reading: Reading, found: Animal) -> Answer:
    event = reading.last(found.id).get(REST)
    if rest_in(event) is None or event is None:
        raise NotFound(f"no winter rest is planned for {found.label}")
    data = {**event.data, "given_up": True}
    writer.record(NewEvent(REST, reading.on, data, animal_id=found.id))
    writer.say(f"winter rest of {found.label} given up")
    return said(f"{found.label} does without its winter rest", hints=[UNDO])


def _told(planned: Rest, season: Season | None) -> tuple[Table | Words, ...]:
    cold = degrees(season.rest_c if season else None)
    rows = (
        (planned.stop, "no food, at full warmth, until the gut is empty; water as always"),
        (planned.cool, "cooling down, over a week"),
        (planned.cold, f"cold, at {cold}; looked at every week, weighed every fortnight"),
        (planned.warm, "warming up, over a week; water and a bath at once"),
        (planned.food, "food again, small meals first"),
    )
    ends = f"it ends at once at a loss of {planned.loss_percent:g} %, or when it looks ill"
    source = season.source if season else None
    told = f"{ends}; {source.text} [{source.mark}]" if source else ends
    return (
        Table("rest", COLUMNS, rows),
        Words(told),
        Words(VET, Tone.CAUTION),
        Words(UNDO, Tone.HINT),
    )
