"""`warmside shed`: stages, forecasts, cycles, and why sheds go wrong."""

from __future__ import annotations

from datetime import timedelta
from typing import Annotated

import typer

from warmside.api import (
    Answer,
    BadInput,
    Fact,
    Part,
    Session,
    Unit,
    parse_day,
    parse_quantity,
    session_of,
)
from warmside.plugins.shed.cycles_shown import cycles_table, timeline
from warmside.plugins.shed.forecast import forecast
from warmside.plugins.shed.forecast_shown import (
    expected_table,
    last_facts,
    missed_words,
    range_facts,
    reading_words,
)
from warmside.plugins.shed.intervals import exactly
from warmside.plugins.shed.life_stage import stage_rule
from warmside.plugins.shed.predictive import Prior, prior_for
from warmside.plugins.shed.reading import prior_of, sheds_here, sheds_of
from warmside.plugins.shed.telling import SHOWN_DAYS, ahead_of, overview, shown, usual_ahead
from warmside.plugins.shed.why_shown import sheds_with_air
from warmside.plugins.shed.why_shown import shown as why_shown

app = typer.Typer(help="Sheds: stage, forecast, cycles.", no_args_is_help=True)
WITHOUT_PRIOR = "without a prior"

AnimalName = Annotated[str, typer.Argument(help="Code or name of the animal.")]
MaybeAnimal = Annotated[
    str | None, typer.Argument(help="Code or name of the animal; none means all.")
]
OnDay = Annotated[str | None, typer.Option(help="As of that day.")]


@app.command()
def show(context: typer.Context, animal: MaybeAnimal = None, on: OnDay = None) -> Answer:
    """The stage, what is expected and what to do now, of one animal or of all here."""
    session = session_of(context)
    with session.read() as book:
        day = session.day(on, book)
        if animal is None:
            return overview(book, sheds_here(book, day), day)
        return shown(book, sheds_of(book, book.animal(animal), day), day)


@app.command("forecast")
def forecast_(
    context: typer.Context,
    animal: Annotated[
        str | None, typer.Argument(help="Code or name of the animal, or use --intervals.")
    ] = None,
    intervals: Annotated[
        str | None, typer.Option(help="Days between sheds without an animal: 34,41,38.")
    ] = None,
    elapsed: Annotated[
        str | None, typer.Option(help="Days since the last shed, with --intervals.")
    ] = None,
    stage: Annotated[
        str | None, typer.Option(help="Life stage of the prior: juvenile, subadult or adult.")
    ] = None,
    no_prior: Annotated[
        bool, typer.Option("--no-prior", help="Leave out what is usual; own intervals alone.")
    ] = False,
    on: OnDay = None,
) -> Answer:
    """The next shed as ranges of 50 and 90 %, of an animal or of intervals that you give."""
    if no_prior and stage:
        raise BadInput("--stage names the prior that --no-prior leaves out; use one of them")
    session = session_of(context)
    prior = prior_for(stage) if stage else None
    if animal is not None:
        _check_unused("an animal has its own", intervals=intervals, elapsed=elapsed)
        return _of_animal(session, animal, prior, no_prior, on)
    if intervals is None:
        raise BadInput("name an animal, or give the days between sheds: --intervals 34,41,38")
    _check_unused("there is no animal", on=on)
    return _of_intervals(intervals, elapsed, None if no_prior else prior or prior_for("adult"))


def _check_unused(why: str, **options: str | None) -> None:
    for name, value in options.items():
        if value is not None:
            raise BadInput(f"--{name} cannot be used here: {why}")


def _of_intervals(intervals: str, elapsed: str | None, prior: Prior | None) -> Answer:
    """The what-if: intervals without an animal, counted from the last shed."""
    lengths = [_days(text, "intervals") for text in intervals.split(",")]
    ahead = forecast(exactly(lengths), _days(elapsed or "0", "elapsed"), prior)
    life_stage = Fact("life_stage", "life stage", prior.life_stage if prior else WITHOUT_PRIOR)
    return Answer("The next shed, in days since the last one", (life_stage, *range_facts(ahead)))


def _days(text: str, what: str) -> float:
    return parse_quantity(text, Unit.DAYS, what=what)


def _of_animal(
    session: Session, name: str, given: Prior | None, no_prior: bool, on: str | None
) -> Answer:
    with session.read() as book:
        day = session.day(on, book)
        animal = book.animal(name)
        sheds = sheds_of(book, animal, day)
        prior = None if no_prior else given or prior_of(book, animal.hatched, day)
        ahead = ahead_of(book, sheds, day, prior)
    parts: list[Part] = []
    if prior is not None:
        how = "as given" if given else stage_rule(animal.hatched)
        parts.append(Fact("life_stage", f"life stage ({how})", prior.life_stage))
    if ahead is not None:
        parts += [*last_facts(ahead), *range_facts(ahead.forecast)]
    parts.append(expected_table(sheds, ahead))
    parts += [*reading_words(sheds, ahead), *missed_words(sheds)]
    return Answer(f"The next shed of {animal.label}, as of {day}", tuple(parts))


@app.command()
def cycles(
    context: typer.Context,
    animal: AnimalName,
    since: Annotated[
        str | None, typer.Option(help="From that day on; a year back unless given.")
    ] = None,
    on: OnDay = None,
) -> Answer:
    """The cycles of an animal as a timeline and a table."""
    session = session_of(context)
    with session.read() as book:
        day = session.day(on, book)
        first = day - timedelta(days=SHOWN_DAYS)
        if since is not None:
            first = parse_day(since, session.now, book.home.zone)
        if first > day:
            raise BadInput(f"--since {first} is after {day}; give an earlier day")
        subject = book.animal(animal)
        sheds = sheds_of(book, subject, day)
        table = cycles_table(sheds, first)
        drawn = timeline(sheds, first, usual_ahead(book, sheds, day))
    return Answer(f"Cycles of {subject.label}, {first} to {day}", (drawn, table))


@app.command()
def why(
    context: typer.Context,
    humidity: Annotated[
        str | None, typer.Option(help="Humidity that parts dry from moist air: 60%.")
    ] = None,
    misted: Annotated[
        int, typer.Option(help="How many mistings before a shed count as misted.")
    ] = 1,
    on: OnDay = None,
) -> Answer:
    """Whether sheds go wrong more often in dry air or without misting, across the collection."""
    session = session_of(context)
    with session.read() as book:
        sheds = sheds_with_air(book, session.day(on, book))
        dry_below = book.setting("shed", "dry_below")
    if humidity is not None:
        dry_below = parse_quantity(humidity, Unit.PERCENT, what="humidity")
    return why_shown(sheds, dry_below, misted)
