"""Taking in pictures and papers: each looked at, made clean and kept once; all of them or none."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from typing import Any

from msgspec import Struct

from warmside.core.answers.parts import Answer, said
from warmside.core.asking.pictures_told import pictures_table
from warmside.core.asking.recorded import TAKE_BACK
from warmside.core.doing.looking_at_pictures import Looked, Watch, known_of, look_through, refuse
from warmside.core.doing.picture_subjects import Of, of_whom
from warmside.core.file.picture_places import pictures_of
from warmside.core.file.picture_reading import Given, listed
from warmside.core.file.picture_staging import staged
from warmside.core.record import tables
from warmside.core.record.book import Book
from warmside.core.record.pictures import Picture
from warmside.core.record.steps import StepWriter
from warmside.core.session.session import Session
from warmside.core.values.counts import counted
from warmside.core.values.errors import BadInput
from warmside.core.values.hints import plain_text

LONGEST_VIEW = 80


class TakingIn(Struct, frozen=True):
    """Of whom, which files or folders, and what is said of them all.

    `view` is what a series is told by; `on` the day, else the camera's, else today. `confirmed`
    leaves out what cannot be taken in.
    """

    subject: str
    files: tuple[Given, ...]
    view: str = ""
    note: str = ""
    on: str | None = None
    event: int | None = None
    thing: str | None = None
    confirmed: bool = False


def unwatched(files: Iterable[Given], total: int) -> Iterator[Given]:
    """The files, counted by nobody."""
    yield from files


def take_in(session: Session, wanted: TakingIn, watch: Watch = unwatched) -> Answer:
    """Take the files in as one step."""
    with session.read() as book:  # what is wrong with the words is said before the work begins
        of_whom(book, wanted.subject, wanted.event, wanted.thing)
        plain_text("the note", wanted.note)
        plain_view(wanted.view)
        day, known = day_said(session, wanted.on, book), known_of(book, session.path)
    files = listed(wanted.files)
    with staged(pictures_of(session.path)) as stage:
        looked, refused = look_through(files, known, day, stage, watch)
        if refused and not wanted.confirmed:
            refuse(refused, len(files))
        with session.step("took in pictures", confirmed=wanted.confirmed) as writer:
            of = of_whom(writer.book, wanted.subject, wanted.event, wanted.thing)
            made = _entered(writer, of, wanted, looked)
            stage.settle()
            writer.say(f"took in {counted(len(made), 'file')} of {of.words(writer.book)}")
    return _told(session, made, looked, refused)


def plain_view(view: str) -> str:
    """The words of a view on one line; BadInput where they are none."""
    told = " ".join(plain_text("the view", view).split())
    if len(told) > LONGEST_VIEW:
        raise BadInput(f"a view is told in {LONGEST_VIEW} letters at most, such as: left side")
    return told


def day_said(session: Session, typed: str | None, book: Book) -> date | None:
    """The day that was typed; BadInput for one that is still to come."""
    day = session.typed_day(typed, book) if typed else None
    if day is not None and day > book.today:
        raise BadInput(f"{day} is still to come; say the day that the picture was taken")
    return day


def _entered(writer: StepWriter, of: Of, wanted: TakingIn, looked: Sequence[Looked]) -> list[int]:
    """The numbers of the rows that are new; what is on record of that subject is left."""
    there = {p.digest for p in writer.book.pictures.values() if _of(p) == of}
    made = []
    for one in looked:
        if one.taken.digest not in there:
            there.add(one.taken.digest)
            made.append(writer.insert(tables.picture, **_row(writer.book, of, wanted, one)))
    return made


def _of(picture: Picture) -> Of:
    return Of(
        picture.animal_id,
        picture.enclosure_id,
        picture.event_id,
        picture.thing,
        picture.thing_id,
    )


def _row(book: Book, of: Of, wanted: TakingIn, one: Looked) -> dict[str, Any]:
    taken = one.taken
    return {
        "digest": taken.digest,
        "kind": taken.kind,
        "given": taken.given,
        "size_bytes": taken.size_bytes,
        "width": taken.width,
        "height": taken.height,
        "day": one.day.isoformat(),
        "view": known_view(book, wanted.view),
        "note": wanted.note,
        "animal_id": of.animal_id,
        "enclosure_id": of.enclosure_id,
        "event_id": of.event_id,
        "thing": of.thing,
        "thing_id": of.thing_id,
    }


def known_view(book: Book, view: str) -> str:
    """The view as it was written before, where only capitals or blanks differ: one series."""
    told = plain_view(view)
    known = {p.view.casefold(): p.view for p in book.pictures.values()}
    return known.get(told.casefold(), told)


def _told(
    session: Session, made: Sequence[int], looked: Sequence[Looked], refused: Sequence[str]
) -> Answer:
    with session.read() as book:
        table = pictures_table(book, [book.pictures[id] for id in made], key="taken_in")
    same = len(looked) - len(made)
    told = [f"took in {counted(len(made), 'file')}" if made else "nothing is new"]
    told += [f"{counted(same, 'file was', 'files were')} on record already"] if same else []
    told += [f"{counted(len(refused), 'file was', 'files were')} left out"] if refused else []
    by_camera = sum(one.by_camera for one in looked)
    told += ["days are those of the camera's clock"] if by_camera else []
    more = (table,) if made else ()
    answer = said("; ".join(told), *more, hints=[TAKE_BACK] if made else [])
    return Answer(parts=answer.parts, warnings=tuple(refused))
