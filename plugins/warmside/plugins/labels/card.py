"""An animal or enclosure at a glance: who it is, what is due, what to know."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from warmside.api import (
    Animal,
    Answer,
    Book,
    CareRank,
    Cell,
    Column,
    Enclosure,
    Fact,
    Finding,
    Kind,
    Level,
    Part,
    Table,
    Task,
    Tone,
    Words,
    days_ago_words,
)
from warmside.core.record.entities import SEX_SIGNS
from warmside.plugins.labels.lookup import label_code

LEVELS = list(Level)
DUE_COLUMNS = (
    Column("who", "who"),
    Column("what", "what"),
    Column("since", "since"),
    Column("why", "why", below=True),
    Column("due", "due", Kind.DATE, text=False),
    Column("settles", "settles", text=False),
    Column("command", "command", text=False),
    Column("plugin", "plugin", text=False),
    Column("source", "source", text=False),
    Column("mark", "mark", text=False),
)
FINDING_COLUMNS = (
    Column("level", "level"),
    Column("subject", "who"),
    Column("words", "what"),
    Column("why", "why", below=True),
    Column("code", "finding", text=False),
)


def animal_answer(book: Book, animal: Animal, on: date) -> Answer:
    """The card of an animal with what is due for it and its enclosure."""
    where = book.whereabouts(on)[animal.id]
    place = book.enclosures.get(where.enclosure_id) if where.enclosure_id is not None else None
    facts = (
        Fact("kind", "kind", "animal"),
        Fact("code", "code", animal.code, Kind.CODE),
        Fact("name", "name", animal.name),
        Fact("species", "species", animal.species.scientific, Kind.LATIN),
        Fact("common_name", "common name", animal.species.common),
        Fact("sex", "sex", animal.sex),
        Fact("hatched", "hatched", animal.hatched.text if animal.hatched else None),
        Fact("custody", "custody", where.custody.value),
        Fact("enclosure", "enclosure", place.code if place else None, Kind.CODE),
        Fact("room", "room", place.room if place and place.room else None),
        Fact("note", "note", animal.note or None),
    )
    due = _due(book, on, {animal.id}, place.id if place else None)
    return _answer(book, animal, place, facts, (), due, on)


def enclosure_answer(book: Book, place: Enclosure, on: date) -> Answer:
    """The card of an enclosure with who lives there and what is due."""
    inside = [book.animals[a] for a in book.occupants(on).get(place.id, ())]
    columns = (
        Column("code", "code", Kind.CODE),
        Column("name", "name"),
        Column("species", "species", Kind.LATIN),
        Column("sex", "sex"),
    )
    rows = tuple(
        (a.code, a.name, a.species.scientific, f"{SEX_SIGNS[a.sex]} {a.sex}") for a in inside
    )
    facts = (
        Fact("kind", "kind", "enclosure"),
        Fact("code", "code", place.code, Kind.CODE),
        Fact("name", "name", place.name),
        Fact("room", "room", place.room or None),
        Fact("retired", "retired", True if place.retired else None, Kind.YESNO),
        Fact("note", "note", place.note or None),
    )
    residents = Table("animals", columns, rows, "Lives here", "nobody lives here")
    due = _due(book, on, {a.id for a in inside}, place.id)
    return _answer(book, place, place, facts, (residents,), due, on)


def _answer(
    book: Book,
    subject: Animal | Enclosure,
    place: Enclosure | None,
    facts: Iterable[Fact],
    more: tuple[Table, ...],
    due: Table,
    on: date,
) -> Answer:
    findings = _findings(book, subject, on)
    parts: tuple[Part, ...] = (
        *_order_of_care(book, place, on),
        *(f for f in facts if f.value is not None),
        *more,
        due,
        findings,
    )
    title = f"{subject.name} ({subject.code})"
    return Answer(title, parts, extra={"label_code": label_code(subject)})


def _order_of_care(book: Book, place: Enclosure | None, on: date) -> list[Words]:
    """Said first: why this enclosure comes after others (do last, wash hands)."""
    if place is None:
        return []
    ranks = book.host.collect("warmside_care_order", CareRank, book=book, on=on)
    mine = [r for _, r in ranks if r.enclosure_id == place.id and r.rank > 0]
    said = [text for r in mine for text in (r.reason, r.before) if text]
    return [Words(text, Tone.CAUTION) for text in dict.fromkeys(said)]


def _due(book: Book, on: date, animals: set[int], place: int | None) -> Table:
    tasks = book.host.collect("warmside_tasks", Task, book=book, on=on)
    mine = [
        (plugin, t)
        for plugin, t in tasks
        if t.due <= on
        and (t.animal_id in animals if t.animal_id is not None else t.enclosure_id == place)
    ]
    mine.sort(key=lambda found: (found[1].due, found[1].what, found[0]))
    rows = tuple(_task_row(book, plugin, t, on) for plugin, t in mine)
    return Table("tasks", DUE_COLUMNS, rows, "Due", "nothing is due, have a look")


def _task_row(book: Book, plugin: str, task: Task, on: date) -> tuple[Cell, ...]:
    note = f"; {task.note}" if task.note else ""
    if task.animal_id is not None:
        who = book.animals[task.animal_id].label
    else:
        who = book.enclosures[task.enclosure_id].code if task.enclosure_id is not None else ""
    return (
        who,
        task.what,
        days_ago_words(task.due, on),
        f"{task.basis.rule}{note}",
        task.due,
        task.settles or None,
        task.command or None,
        plugin,
        task.basis.source.text,
        task.basis.source.mark.value,
    )


def _findings(book: Book, subject: Animal | Enclosure, on: date) -> Table:
    """Findings about the subject, and about those who live in it."""
    if isinstance(subject, Animal):
        animals, place = {subject.id}, None
    else:
        animals, place = set(book.occupants(on).get(subject.id, ())), subject.id
    found = book.host.collect("warmside_findings", Finding, book=book, on=on)
    mine = [
        f
        for _, f in found
        if (f.animal_id in animals if f.animal_id is not None else place == f.enclosure_id)
        and not (f.animal_id is None and f.enclosure_id is None)
    ]
    mine.sort(key=lambda f: (LEVELS.index(f.level), f.code, f.words))
    rows = tuple(
        (f.level.value, _finding_subject(book, f), f.words, f.basis.rule, f.code) for f in mine
    )
    return Table("findings", FINDING_COLUMNS, rows, "Findings", empty="")


def _finding_subject(book: Book, finding: Finding) -> str:
    if finding.animal_id is not None:
        return book.animals[finding.animal_id].label
    place = book.enclosures.get(finding.enclosure_id or 0)
    return place.code if place else ""
