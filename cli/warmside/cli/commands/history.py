"""`warmside history`: what happened, oldest first, the newest last."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.cli.commands.recording import EVENT_COLUMNS, event_data, event_row, with_data
from warmside.core.answers.parts import Answer, Column, Table
from warmside.core.record.book import Book
from warmside.core.record.entities import Event
from warmside.core.record.typed_subjects import enclosure_of
from warmside.core.session.session import session_of
from warmside.core.values.errors import BadInput, NotFound
from warmside.core.values.hints import near_miss

app = typer.Typer()


@app.command("")
def history(
    context: typer.Context,
    subject: Annotated[
        str | None,
        typer.Argument(help="An animal or enclosure."),
    ] = None,
    kind: Annotated[list[str] | None, typer.Option(help="Only events of this kind.")] = None,
    since: Annotated[str | None, typer.Option(help="From that day on.")] = None,
    until: Annotated[str | None, typer.Option(help="Up to that day.")] = None,
    last: Annotated[int, typer.Option(help="At most so many, the newest.")] = 30,
) -> Answer:
    """What happened, the newest last; corrected events are shown with what replaced them."""
    session = session_of(context)
    if last < 1:
        raise BadInput(f"--last is at least 1, not {last}")
    with session.ask() as ask:
        book = ask.book
        kinds = [ask.kind(k).name for k in kind or ()]
        events = book.events(
            *kinds,
            **_about(book, subject),
            since=session.day(since, book) if since else None,
            until=session.day(until, book) if until else None,
            corrected=True,
        )
        rows = tuple((*event_row(ask, e), _state(e)) for e in events[-last:])
        data = [event_data(book, e) for e in events[-last:]]
    columns = (*EVENT_COLUMNS, Column("state", "state", text=any(r[-1] for r in rows)))
    more = f" (the last {last} of {len(events)})" if len(events) > last else ""
    extra = {"events": with_data(columns, rows, data)}
    return Answer(f"History{more}", (Table("events", columns, rows),), extra=extra)


def _about(book: Book, subject: str | None) -> dict[str, int]:
    if subject is None:
        return {}
    try:
        return {"animal": book.animal(subject).id}
    except NotFound as no_animal:
        try:
            return {"enclosure": enclosure_of(book, subject, book.today)}
        except NotFound:
            raise _unknown(book, subject, no_animal) from None


def _unknown(book: Book, subject: str, no_animal: NotFound) -> NotFound:
    if subject.casefold() in {a.name.casefold() for a in book.animals.values()}:
        return no_animal  # several have that name
    known = [n for a in book.animals.values() for n in (a.code, a.name)]
    known += [n for e in book.enclosures.values() for n in (e.code, e.name)]
    return NotFound(
        f"there is no animal or enclosure {subject!r}{near_miss(subject, known)}; list them with: "
        "warmside animal list --all, warmside enclosure list"
    )


def _state(event: Event) -> str:
    return f"corrected by {event.replaced_by}" if event.replaced_by else ""
