"""The command that forecasts the next shed, of an animal or of intervals that were typed."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import (
    Answer,
    BadInput,
    Basis,
    Fact,
    Session,
    Unit,
    parse_quantity,
    session_of,
)
from warmside.plugins.shed.commands.typed import OnDay
from warmside.plugins.shed.forecast.forecast import forecast
from warmside.plugins.shed.forecast.intervals import exactly
from warmside.plugins.shed.forecast.life_stage import stage_rule
from warmside.plugins.shed.forecast.predictive import Prior, prior_for
from warmside.plugins.shed.reading.ahead import ahead_of, prior_of
from warmside.plugins.shed.reading.sheds import sheds_of
from warmside.plugins.shed.telling.forecast import ahead_parts, range_facts

WITHOUT_PRIOR = "without a prior"


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
    with session.ask() as ask:
        day = session.day(on, ask.book)
        animal = ask.book.animal(name)
        sheds = sheds_of(ask.book, animal, day)
        prior = None if no_prior else given or prior_of(ask, animal.id, day)
        ahead = ahead_of(ask, sheds, prior)
        how = Basis("as given") if given else stage_rule(ask.stage(animal.id, day))
    parts = ahead_parts(sheds, ahead, prior, how)
    return Answer(f"The next shed of {animal.label}, as of {day}", parts)
