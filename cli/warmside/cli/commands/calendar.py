"""`warmside calendar`: the coming tasks as an iCalendar file."""

from __future__ import annotations

from datetime import time
from pathlib import Path
from typing import Annotated

import typer

from warmside.cli.saved_files import may_write, written
from warmside.core.answers.parts import Answer, Fact, said
from warmside.core.asking.rounds.coming import coming
from warmside.core.session.session import session_of
from warmside.core.values.errors import BadInput
from warmside.core.values.units import Unit
from warmside.faces.calendar_file import CalendarEntry, calendar_text, stable_uid

app = typer.Typer()
MOST_WEEKS = 52


@app.command("")
def calendar(
    context: typer.Context,
    target: Annotated[Path, typer.Argument(help="The file, such as round.ics.")],
    weeks: Annotated[int, typer.Option(help="How many weeks ahead.")] = 6,
    clock: Annotated[
        str | None, typer.Option("--time", help="At that local time, such as 19:00; else all day.")
    ] = None,
    alarm: Annotated[
        int | None, typer.Option(help="Minutes before, for an alarm; else there is none.")
    ] = None,
) -> Answer:
    """Write the tasks of the coming weeks; importing the file again updates them."""
    session = session_of(context)
    if not 1 <= weeks <= MOST_WEEKS:
        raise BadInput(f"--weeks is between 1 and {MOST_WEEKS}, not {weeks}")
    if target.suffix.lower() != ".ics":
        raise BadInput(f"a calendar file ends in .ics, not {target.name!r}")
    at = clock_time(clock) if clock else None
    may_write(context, target)
    with session.ask() as ask:
        entries = [
            CalendarEntry(stable_uid(*c.identity), c.day, at, c.title, c.why)
            for c in coming(ask, weeks)
        ]
        text = calendar_text(entries, ask.book.home.zone.key, session.now, alarm)
    with written(target) as part:
        part.write_bytes(text.encode("utf-8"))
    return said(
        f"wrote {len(entries)} task{'s' * (len(entries) != 1)} of the next "
        f"{'week' if weeks == 1 else f'{weeks} weeks'} to {target}",
        Fact("tasks", "tasks", len(entries), Unit.COUNT),
    )


def clock_time(text: str) -> time:
    """A time of day; raises BadInput for anything else."""
    wrong = BadInput(f"--time is a local time such as 19:00, not {text!r}")
    try:
        clock = time.fromisoformat(text)
    except ValueError:
        raise wrong from None
    if clock.tzinfo is not None:
        raise wrong
    return clock
