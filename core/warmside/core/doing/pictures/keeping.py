"""Pictures on record: changed, taken out, saved elsewhere, brought back from copies, forgotten."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from msgspec import Struct

from warmside.core.answers.parts import Answer, said
from warmside.core.asking.pictures.told import pictures_table, whose
from warmside.core.asking.subjects.recorded import TAKE_BACK
from warmside.core.doing.pictures.taking import day_said, known_view
from warmside.core.file.copies.pictures import bring_back, lost_words
from warmside.core.file.copies.second import seconds_of
from warmside.core.file.half_made import whole
from warmside.core.file.pictures.places import pictures_of, places
from warmside.core.file.pictures.store import found
from warmside.core.file.places import check_place
from warmside.core.file.state import identity_in
from warmside.core.record import tables
from warmside.core.record.book import Book
from warmside.core.record.pictures import KeptFile, Picture
from warmside.core.session.session import Session
from warmside.core.values.counts import counted
from warmside.core.values.errors import BadInput, FileProblem, NotFound, Refused
from warmside.core.values.hints import plain_text


class ChangingPicture(Struct, frozen=True):
    """What is said of a picture; None is left as it is."""

    number: int
    view: str | None = None
    note: str | None = None
    on: str | None = None


def picture_numbered(book: Book, number: int) -> Picture:
    """The picture of that number; NotFound where there is none."""
    try:
        return book.pictures[number]
    except KeyError:
        raise NotFound(
            f"there is no picture {number}; numbers are in: warmside picture list"
        ) from None


def change(session: Session, wanted: ChangingPicture) -> Answer:
    """Say of a picture something else: its view, its note, its day."""
    with session.step(f"changed picture {wanted.number}") as writer:
        book = writer.book
        picture_numbered(book, wanted.number)
        day = day_said(session, wanted.on, book)
        given = {
            "view": None if wanted.view is None else known_view(book, wanted.view),
            "note": None if wanted.note is None else plain_text("the note", wanted.note),
            "day": day.isoformat() if day else None,
        }
        new = {name: value for name, value in given.items() if value is not None}
        if not new:
            raise BadInput("name what to change: --view, --note or --on")
        writer.change(tables.picture, {"id": wanted.number}, **new)
    with session.read() as book:
        table = pictures_table(book, [book.pictures[wanted.number]], key="changed")
    return said(f"changed picture {wanted.number}", table, hints=[TAKE_BACK])


def take_out(session: Session, number: int) -> Answer:
    """Take a picture out of the record; its file stays, so that undo brings it back."""
    with session.step(f"took out picture {number}") as writer:
        picture = picture_numbered(writer.book, number)
        writer.remove(tables.picture, {"id": number})
        told = f"took out picture {number} of {whose(writer.book, picture)}"
        writer.say(told)
    return said(told, hints=[TAKE_BACK])


def mend(session: Session, second: Callable[[str], Path | None]) -> Answer:
    """Bring back missing and changed pictures from the copies; `second` gives their folder."""
    session.open()
    carried = bring_back(session.path, seconds_of_session(session, second))
    brought = counted(len(carried.brought), "picture was", "pictures were")
    told = f"{brought} brought back" if carried.brought else "no picture had to be brought back"
    parts = said(told, hints=["warmside file check"]).parts
    return Answer(parts=parts, warnings=tuple(lost_words(carried)))


def seconds_of_session(session: Session, second: Callable[[str], Path | None]) -> list[Path]:
    """The newest second copy, where there is one."""
    folder = second(identity_in(session.path))
    return seconds_of(session.path, folder)[:1] if folder is not None else []


def save_picture(session: Session, number: int, target: Path) -> Answer:
    """Write the picture to a file elsewhere, as it is kept."""
    with session.read() as book:
        picture = picture_numbered(book, number)
    if target.is_dir():
        target = target / f"picture-{number}.{picture.kind}"
    if check_place(target).exists():
        raise Refused(f"{target} is there already; name another file")
    if target.suffix.removeprefix(".").casefold() != picture.kind:
        raise BadInput(f"picture {number} is kept as .{picture.kind}; give the file that ending")
    source = found(places(session.path), KeptFile(picture.digest, picture.kind))
    if source is None:
        raise FileProblem(
            f"the file of picture {number} is missing or changed in {pictures_of(session.path)}; "
            "look with: warmside file check"
        )
    try:
        with whole(target) as part:
            part.write_bytes(source.read_bytes())
    except OSError as error:
        raise FileProblem(f"cannot write {target}: {error.strerror}") from error
    return said(f"wrote picture {number} to {target}")
