"""Taking in pictures and papers: each looked at, made clean and kept once; all of them or none."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from typing import Any

from msgspec import Struct

from warmside.core.answers.parts import Answer, said
from warmside.core.asking.pictures.told import pictures_table
from warmside.core.asking.subjects.recorded import TAKE_BACK
from warmside.core.doing.pictures.dropped_folder import dropped
from warmside.core.doing.pictures.looking import Looked, Watch, known_of, look_through, refuse
from warmside.core.doing.pictures.subjects import Of, of_whom
from warmside.core.file.pictures.places import pictures_of
from warmside.core.file.pictures.reading import Given, Upload, listed
from warmside.core.file.pictures.staging import staged
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

    `view` is what a series is told by; `on` the day, else the camera's, else that on which they
    were given: today, or `given_on` for what waited until it could be sent. `confirmed` leaves out
    what cannot be taken in.
    """

    subject: str
    files: tuple[Given, ...]
    view: str = ""
    note: str = ""
    on: str | None = None
    event: int | None = None
    thing: str | None = None
    confirmed: bool = False
    given_on: date | None = None


def unwatched(files: Iterable[Given], total: int) -> Iterator[Given]:
    """The files, counted by nobody."""
    yield from files


def take_in(session: Session, wanted: TakingIn, watch: Watch = unwatched) -> Answer:
    """Take the files in as one step."""
    pairs = [(wanted.subject, file) for file in listed(wanted.files)]
    return _taken_in(session, wanted, pairs, [], watch)


def take_in_folder(session: Session, wanted: TakingIn, watch: Watch = unwatched) -> Answer:
    """As `take_in`, each file of the folder with the subject that its name or folder names."""
    (folder,) = wanted.files
    assert not isinstance(folder, Upload)
    with session.read() as book:
        pairs, refused = dropped(book, folder)
    return _taken_in(session, wanted, pairs, refused, watch)


def _taken_in(
    session: Session,
    wanted: TakingIn,
    pairs: Sequence[tuple[str, Given]],
    refused: list[str],
    watch: Watch,
) -> Answer:
    """Look at all of them, then enter them at once; `refused` is what could not be looked at."""
    with session.read() as book:  # what is wrong with the words is said before the work begins
        for subject in dict.fromkeys(subject for subject, _ in pairs):
            of_whom(book, subject, wanted.event, wanted.thing)
        plain_text("the note", wanted.note)
        plain_view(wanted.view)
        day, known = (
            day_said(session, wanted.on, book),
            known_of(book, session.path, wanted.given_on or book.today),
        )
    with staged(pictures_of(session.path)) as stage:
        looked, bad = look_through([file for _, file in pairs], known, day, stage, watch)
        refused = [*refused, *bad]
        if refused and not wanted.confirmed:
            refuse(refused, len(pairs) + len(refused) - len(bad))
        with session.step("took in pictures", confirmed=wanted.confirmed) as writer:
            whose = [_whose(writer.book, pairs[one.number][0], wanted) for one in looked]
            made = _entered(writer, whose, wanted, looked)
            stage.settle()
            writer.say(_step_words(writer.book, made, whose))
    return _told(session, made, looked, refused)


def _whose(book: Book, subject: str, wanted: TakingIn) -> Of:
    return of_whom(book, subject, wanted.event, wanted.thing)


def _step_words(book: Book, made: Sequence[int], whose: Sequence[Of]) -> str:
    """`took in 3 files of Ember (EMB)`, or of how many."""
    names = dict.fromkeys(of.words(book) for of in whose)
    of = next(iter(names), "nobody") if len(names) < 2 else f"{len(names)} animals and enclosures"
    return f"took in {counted(len(made), 'file')} of {of}"


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


def _entered(
    writer: StepWriter, whose: Sequence[Of], wanted: TakingIn, looked: Sequence[Looked]
) -> list[int]:
    """The numbers of the rows that are new; what is on record of that subject is left."""
    there = {(_of(p), p.digest) for p in writer.book.pictures.values()}
    made = []
    for of, one in zip(whose, looked, strict=True):
        if (of, one.taken.digest) not in there:
            there.add((of, one.taken.digest))
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
    told += [f"{counted(same, 'file was', 'files were')} known already"] if same else []
    told += [f"{counted(len(refused), 'file was', 'files were')} left out"] if refused else []
    by_camera = sum(one.by_camera for one in looked)
    told += ["days are those of the camera's clock"] if by_camera else []
    more = (table,) if made else ()
    answer = said("; ".join(told), *more, hints=[TAKE_BACK] if made else [])
    return Answer(parts=answer.parts, warnings=tuple(refused))
