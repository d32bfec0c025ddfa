"""`warmside correct`: replace an event and keep the old one visible."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.cli.commands.recording import recorded
from warmside.core.answers.parts import Answer
from warmside.core.asking.ask import Ask
from warmside.core.asking.telling import told
from warmside.core.kinds.kind import EventKind, Subject, parse_field
from warmside.core.record.book import Book
from warmside.core.record.entities import Event, NewEvent
from warmside.core.record.typed_subjects import enclosure_of
from warmside.core.session.session import session_of
from warmside.core.values.display import Display
from warmside.core.values.errors import BadInput
from warmside.core.values.moments import When

app = typer.Typer()


@app.command("")
def correct(
    context: typer.Context,
    event: Annotated[int, typer.Argument(help="Number of the event, from the history.")],
    fields: Annotated[
        list[str] | None, typer.Argument(help="What is right: mass=412g outcome=refused …")
    ] = None,
    at: Annotated[str | None, typer.Option(help="When it was.")] = None,
    subject: Annotated[str | None, typer.Option(help="Whom it was about.")] = None,
    note: Annotated[str | None, typer.Option(help="The note.")] = None,
    confirm: Annotated[bool, typer.Option(help="It is right, though it looks odd.")] = False,
) -> Answer:
    """Replace an event: only what is typed changes. The old one stays visible as corrected."""
    session = session_of(context)
    with session.step(f"corrected event {event}", confirmed=confirm) as writer:
        book, ask = writer.book, session.asking(writer.book)
        old = book.event(event)
        when = session.when(at, book) if at else When(old.day, old.at)
        new = corrected(ask, old, fields or [], when, subject, note)
        made = writer.correct(old, new)
        writer.say(f"corrected event {event}: {change_words(ask, old, made)}")
    return recorded(session, writer.recorded)


def change_words(ask: Ask, old: Event, made: Event) -> str:
    """What the correction changed, for undo's preview."""
    before, after = told(ask, old), told(ask, made)
    return f"{before}; now: {after}"


def corrected(
    ask: Ask, old: Event, fields: list[str], when: When, subject: str | None, note: str | None
) -> NewEvent:
    """The event as it should have been."""
    book, kind = ask.book, ask.kind(old.kind)
    data = dict(old.data) | typed_fields(kind, fields, book.home.display)
    animal_id, enclosure_id = old.animal_id, old.enclosure_id
    if subject is not None and kind.subject is Subject.ENCLOSURE:
        enclosure_id = enclosure_of(book, subject, when.day)
    elif subject is not None:
        animal_id, enclosure_id = _animal_or_place(book, kind, subject, old)
    new = NewEvent(
        old.kind,
        when.day,
        data,
        animal_id,
        enclosure_id,
        when.at,
        old.note if note is None else note,
    )
    if _same(old, new):
        raise BadInput(f"event {old.id} is so already; type what is right, such as mass=412g")
    return new


def _animal_or_place(
    book: Book, kind: EventKind, subject: str, old: Event
) -> tuple[int | None, int | None]:
    if kind.subject is Subject.PLACING and any(
        subject.casefold() in (e.code.casefold(), e.name.casefold())
        for e in book.enclosures.values()
    ):
        return old.animal_id, book.enclosure(subject).id
    return book.animal(subject).id, old.enclosure_id


def typed_fields(kind: EventKind, fields: list[str], display: Display) -> dict[str, object]:
    """The fields typed as name=value, parsed as their kind declares."""
    given: dict[str, object] = {}
    for field in fields:
        name, found, text = field.partition("=")
        if not found:
            raise BadInput(f"type what is right as field=value, such as mass=412g, not {field!r}")
        spec = kind.field(name)
        given[spec.name] = parse_field(spec, text, display=display)
    return given


def _same(old: Event, new: NewEvent) -> bool:
    return (old.day, old.at, dict(old.data), old.animal_id, old.enclosure_id, old.note) == (
        new.day,
        new.at,
        dict(new.data),
        new.animal_id,
        new.enclosure_id,
        new.note,
    )
