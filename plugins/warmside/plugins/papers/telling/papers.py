"""Marks, documents and origin as tables, with what they do not say."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date

from warmside.api import Ask, Book, Cell, Column, Fact, Kind, Part, Section, Table, Tone, Words
from warmside.plugins.papers.documents.held import Document, Mark
from warmside.plugins.papers.numbers.transponder import read_transponder
from warmside.plugins.papers.reading.stored import documents_of, marks_of

LAW = (
    "Which papers and marks a species needs, where you live and where you take it, is the law's to "
    "say: ask the authority. Here stands what you entered, and nothing of it was checked there."
)
MARK_COLUMNS = (
    Column("mark", "no."),
    Column("animal", "animal"),
    Column("kind", "mark"),
    Column("number", "number"),
    Column("place", "where on it"),
    Column("since", "since", Kind.DATE),
    Column("by", "allotted by"),
    Column("note", "note", below=True),
)
DOCUMENT_COLUMNS = (
    Column("document", "no."),
    Column("animal", "of"),
    Column("kind", "document"),
    Column("number", "number"),
    Column("authority", "by"),
    Column("issued", "issued", Kind.DATE),
    Column("state", "state"),
    Column("kept", "kept", below=True),
    Column("value", "value", below=True),
    Column("note", "note", below=True),
    Column("until", "until", Kind.DATE, text=False),
)
KEEPER = "the keeper"


def marks_table(book: Book, marks: Iterable[Mark]) -> Table:
    """A row for each mark; columns of which nothing is known are left out."""
    rows = [
        (
            m.id,
            book.animals[m.animal].label,
            m.kind,
            m.number,
            m.place or None,
            m.since,
            allotted(m),
            m.note or None,
        )
        for m in marks
    ]
    empty = "no mark yet; enter one: warmside papers mark CODE NUMBER"
    return _filled("marks", MARK_COLUMNS, rows, "Marks", empty)


def documents_table(book: Book, documents: Iterable[Document], on: date) -> Table:
    """A row for each document with its state on a day."""
    rows = [
        (
            d.id,
            book.animals[d.animal].label if d.animal is not None else KEEPER,
            d.kind,
            d.number or None,
            d.authority or None,
            d.issued,
            d.state(on),
            d.kept or None,
            d.value or None,
            d.note or None,
            d.until,
        )
        for d in documents
    ]
    empty = 'no document yet; enter one: warmside papers add permit --animal CODE --by "OFFICE"'
    return _filled("documents", DOCUMENT_COLUMNS, rows, "Documents", empty)


def allotted(mark: Mark) -> str | None:
    """Who allotted a transponder's number; None of other marks and of older chips."""
    number = read_transponder(mark.number) if mark.kind == "transponder" else None
    return number.by if number else None


def _filled(
    key: str, columns: Sequence[Column], rows: Sequence[tuple[Cell, ...]], title: str, empty: str
) -> Table:
    shown = [
        n for n, c in enumerate(columns) if not rows or any(row[n] is not None for row in rows)
    ]
    cut = tuple(tuple(row[n] for n in shown) for row in rows)
    return Table(key, tuple(columns[n] for n in shown), cut, title, empty)


def section(ask: Ask, animal: int, on: date) -> Iterator[Section]:
    """The report's section: marks, documents, how it came; nothing where nothing is on record."""
    book = ask.book
    marks, documents = marks_of(book, animal), documents_of(book, animal)
    if not marks and not documents:
        return
    parts: list[Part] = [*provenance(ask, animal, on)]
    parts += [marks_table(book, marks)] if marks else []
    parts += [documents_table(book, documents, on)] if documents else []
    yield Section("Papers", (*parts, Words(LAW, Tone.CAUTION)), 620)


def provenance(ask: Ask, animal: int, on: date) -> Iterator[Fact]:
    """Where an animal is from: what was recorded when it first came, and its origin."""
    came = ask.book.events("kept", "arrived", animal=animal, until=on)
    if came:
        yield Fact("came", "came", f"{came[0].day}: {ask.event_words(came[0])}")
    if origin := ask.book.animals[animal].origin:
        yield Fact("origin", "origin", origin)


def lying(documents: Iterable[Document]) -> Iterator[Section]:
    """Where papers are kept, each place once, for whoever grabs them."""
    places = dict.fromkeys(d.kept for d in documents if d.kept)
    if places:
        yield Section("Papers lie", (Words("; ".join(places)),), 410)
