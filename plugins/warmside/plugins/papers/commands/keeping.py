"""What is written of marks and documents, within a step."""

from __future__ import annotations

from datetime import date
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from warmside.api import Animal, BadInput, Doubtful, Fact, StepWriter, near_miss, parse_day, quoted
from warmside.plugins.papers.documents.held import KINDS, MARKS, Document, Mark, check_days
from warmside.plugins.papers.numbers.transponder import doubts, plain_number, read_transponder
from warmside.plugins.papers.reading.stored import document_numbered, documents_of, marks
from warmside.plugins.papers.tables import document, mark

LONGEST = 80
OLDER_CHIP = (
    "no number of ISO 11784: an older chip, which a reader for such numbers may not find; ask the "
    "vet which reader it needs"
)


class NewMark(Struct, frozen=True):
    """A mark as it was typed."""

    number: str
    kind: str = MARKS[0]
    place: str = ""
    since: date | None = None
    note: str = ""


class KeptMark(Struct, frozen=True):
    """What was written, and what to know about it."""

    words: str
    told: tuple[Fact, ...] = ()


def keep_mark(writer: StepWriter, animal: Animal, new: NewMark, *, confirmed: bool) -> KeptMark:
    """Write a mark; BadInput where it cannot be, Doubtful where it is odd."""
    kind = one_of("mark", new.kind, MARKS)
    number, told = _numbered(kind, new.number, confirmed=confirmed)
    if new.since and new.since > writer.book.today:
        raise BadInput(f"since {new.since} is to come; enter it once it is there")
    _refuse_same(writer, animal, kind, number)
    since = new.since.isoformat() if new.since else None
    row = {"kind": kind, "number": number, "place": short(new.place), "note": new.note}
    writer.insert(mark, animal_id=animal.id, since=since, **row)
    return KeptMark(Mark(0, animal.id, kind, number, short(new.place)).words, told)


def _numbered(kind: str, text: str, *, confirmed: bool) -> tuple[str, tuple[Fact, ...]]:
    """The number as it is kept, with who allotted it."""
    if kind != "transponder":
        if not text.strip():
            raise BadInput("a mark needs its number or words")
        return short(text), ()
    found = read_transponder(text)
    if found is None:
        return plain_number(text), (Fact("older_chip", "note", OLDER_CHIP),)
    odd = doubts(found)
    if odd and not confirmed:
        raise Doubtful(f"transponder {found.text}: {odd[0]}", odd)
    return found.text, (Fact("allotted_by", "allotted by", found.by),)


def _refuse_same(writer: StepWriter, animal: Animal, kind: str, number: str) -> None:
    for known in marks(writer.book):
        if (known.kind, known.number) == (kind, number) and kind == "transponder":
            whose = writer.book.animals[known.animal]
            other = "already" if whose.id == animal.id else f"that of {whose.label}"
            raise BadInput(f"the transponder {number} is {other} on record, as mark {known.id}")


def drop_mark(writer: StepWriter, found: Mark) -> None:
    """Remove a mark."""
    writer.remove(mark, {"id": found.id})


def keep_document(writer: StepWriter, new: Document) -> int:
    """Write a document; its number. BadInput where it is on record already, and still needed."""
    check_days(new.issued, new.until, writer.book.today)
    columns = _columns(new)
    for known in documents_of(writer.book, new.animal):
        if known.is_needed(writer.book.today) and known.is_same(columns["kind"], columns["number"]):
            raise BadInput(
                f"the {known.name} is on record already, as document {known.id}; what changes of "
                f"it is written with: warmside papers change {known.id}"
            )
    return int(writer.insert(document, **columns))


def change_document(writer: StepWriter, known: Document, new: Document) -> None:
    """Write what has changed of a document."""
    check_days(new.issued, new.until, writer.book.today)
    writer.change(document, {"id": known.id}, **_columns(new))


def prolonged(writer: StepWriter, number: int, until: str) -> str:
    """Write a later end of a document, as typed; what was done, in words."""
    book = writer.book
    known = document_numbered(book, number)
    day = parse_day(until, book.now, book.home.zone, book.home.dates)
    if known.until and day <= known.until:
        raise BadInput(f"the {known.name} holds until {known.until}; type a later day")
    change_document(writer, known, replace(known, until=day))
    return f"the {known.name} holds until {day}"


def _columns(new: Document) -> dict[str, Any]:
    days = {"issued": new.issued, "until": new.until, "ended": new.ended}
    return {
        "animal_id": new.animal,
        "kind": one_of("document", new.kind, KINDS),
        "number": short(new.number),
        "authority": short(new.authority),
        "kept": short(new.kept),
        "value": short(new.value),
        "note": new.note,
        **{name: day.isoformat() if day else None for name, day in days.items()},
    }


def one_of(what: str, typed: str, known: tuple[str, ...]) -> str:
    """The word of those that are known; BadInput suggests near misses."""
    word = " ".join(typed.split()).casefold()
    if word in known:
        return word
    raise BadInput(
        f"there is no {what} {quoted(typed)}{near_miss(word, known)}; it is one of: "
        f"{', '.join(known)}"
    )


def short(text: str) -> str:
    """The text on one line; BadInput where it is longer than a column holds."""
    plain = " ".join(text.split())
    if len(plain) > LONGEST:
        raise BadInput(f"{quoted(plain)} is longer than {LONGEST} letters; put the rest in --note")
    return plain
