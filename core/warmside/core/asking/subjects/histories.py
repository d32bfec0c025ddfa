"""What happened, and which steps wrote it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from msgspec import Struct

from warmside.core.answers.parts import Answer, Column, Kind, Table
from warmside.core.asking.ask import Ask
from warmside.core.asking.subjects.recorded import columns_for, event_data, event_row, with_data
from warmside.core.record.book import Book
from warmside.core.record.entities import Event
from warmside.core.record.typed_subjects import enclosure_of
from warmside.core.values.errors import BadInput, NotFound
from warmside.core.values.hints import near_miss
from warmside.core.values.moments import local_text
from warmside.core.values.units import Unit


class History(Struct, frozen=True):
    """Which events: of a subject, of kinds, between days, at most the newest `last`."""

    subject: str | None = None
    kinds: Sequence[str] = ()
    since: date | None = None
    until: date | None = None
    last: int = 30


def history(ask: Ask, wanted: History) -> Answer:
    """The events, the newest last; corrected ones are shown with what replaced them."""
    if wanted.last < 1:
        raise BadInput(f"--last is at least 1, not {wanted.last}")
    about = _about(ask.book, wanted.subject)
    events = ask.book.events(
        *(ask.kind(k).name for k in wanted.kinds),
        **about,
        since=wanted.since,
        until=wanted.until,
        corrected=True,
    )
    shown = events[-wanted.last :]
    pictures = _shown_by(ask.book)
    rows = tuple((*event_row(ask, e), pictures.get(e.id, ()), _state(e)) for e in shown)
    told = columns_for(shown, one_animal="animal" in about)
    columns = (
        *told,
        Column("pictures", "pictures", Kind.LIST, text=any(r[-2] for r in rows)),
        Column("state", "state", text=any(r[-1] for r in rows)),
    )
    more = f" (the last {wanted.last} of {len(events)})" if len(events) > wanted.last else ""
    extra = {"events": with_data(columns, rows, [event_data(ask, e) for e in shown])}
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
            raise unknown(book, subject, no_animal) from None


def unknown(book: Book, subject: str, no_animal: NotFound) -> NotFound:
    """Why there is no animal or enclosure of that name."""
    if subject.casefold() in {a.name.casefold() for a in book.animals.values()}:
        return no_animal  # several have that name
    known = [n for a in book.animals.values() for n in (a.code, a.name)]
    known += [n for e in book.enclosures.values() for n in (e.code, e.name)]
    return NotFound(
        f"there is no animal or enclosure {subject!r}{near_miss(subject, known)}; list them with: "
        "warmside animal list --all, warmside enclosure list"
    )


def _shown_by(book: Book) -> dict[int, tuple[str, ...]]:
    """The numbers of pictures by the event that they show."""
    found: dict[int, list[str]] = {}
    for picture in book.pictures.values():
        if picture.event_id is not None:
            found.setdefault(picture.event_id, []).append(str(picture.id))
    return {event: tuple(numbers) for event, numbers in found.items()}


def _state(event: Event) -> str:
    return f"corrected by {event.replaced_by}" if event.replaced_by else ""


def steps(book: Book) -> Answer:
    """The last steps, newest first; who did them, where one was not done at the desk."""
    found = book.steps()
    columns = (
        Column("step", "step", Unit.COUNT),
        Column("when", "when"),
        Column("what", "what was done"),
        Column("by", "by", text=any(s.by for s in found)),
        Column("state", "state"),
    )
    zone = book.home.zone
    rows = tuple(
        (
            s.id,
            local_text(s.at.astimezone(zone).date(), s.at, zone),
            s.words if s.kind == "do" else f"{s.kind} of step {s.of}: {s.words}",
            s.by,
            f"taken back by {s.undone_by}" if s.undone_by else "",
        )
        for s in found
    )
    return Answer("Steps", (Table("steps", columns, rows),))
