"""An animal or an enclosure at a glance: who it is, what is due there today, what to know."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from warmside.core.answers.parts import Answer, Column, Fact, Kind, Part, Table, Tone, Words
from warmside.core.asking.ask import Ask, related
from warmside.core.asking.rounds.findings_told import findings_table
from warmside.core.asking.rounds.round import Stop, paces
from warmside.core.asking.rounds.round_told import TASK_COLUMNS, task_row
from warmside.core.asking.subjects.bodies import body_facts
from warmside.core.asking.subjects.cards import enclosure_facts, identity
from warmside.core.record.entities import Animal, Enclosure
from warmside.core.values.about import About

RESIDENT_COLUMNS = (
    Column("code", "code", Kind.CODE),
    Column("name", "name"),
    Column("species", "species", Kind.LATIN),
    Column("sex", "sex"),
)


def at_a_glance(ask: Ask, about: About, on: date) -> Answer:
    """The subject with its part of the round and its findings; an animal with its home's."""
    book = ask.book
    if about.animal_id is not None:
        animal = book.animals[about.animal_id]
        place = book.enclosures.get(book.whereabouts(on)[animal.id].enclosure_id or 0)
        return _answer(ask, about, animal.label, place, _of_animal(ask, animal, place, on), on)
    place = book.enclosures[about.enclosure_id or 0]
    title = f"{place.name} ({place.code})"
    return _answer(ask, about, title, place, _of_enclosure(ask, place, on), on)


def _answer(
    ask: Ask, about: About, title: str, place: Enclosure | None, who: Iterable[Part], on: date
) -> Answer:
    due = [s for s in ask.round(on) if concerns_one_of(s, related(ask.book, about, on))]
    rows = tuple(task_row(ask.book, on, 0, stop)[1:] for stop in due)
    parts: tuple[Part, ...] = (
        *_order_of_care(ask, place, on),
        *who,
        Table(
            "tasks",
            TASK_COLUMNS[1:],
            rows,
            "Due",
            "nothing is due, have a look",
            heads=paces(due, on),
            ticks=True,
        ),
        findings_table(ask.book, ask.findings(on, about), about=about),
    )
    return Answer(title, parts)


def concerns_one_of(stop: Stop, subjects: Iterable[About]) -> bool:
    """Whether a task is about one of these animals, or about one of these enclosures itself."""
    about = stop.task.about
    known = About(about.animal_id) if about.animal_id is not None else about
    return known in subjects


def _order_of_care(ask: Ask, place: Enclosure | None, on: date) -> Iterator[Words]:
    """Said first: why this enclosure comes after others (do last, wash hands)."""
    if place is not None:
        mine = [r for r in ask.care_ranks(on) if r.enclosure_id == place.id and r.rank > 0]
        texts = (text for r in mine for text in (r.reason, r.before) if text)
        yield from (Words(text, Tone.CAUTION) for text in dict.fromkeys(texts))


def _of_animal(ask: Ask, animal: Animal, place: Enclosure | None, on: date) -> Iterator[Part]:
    yield Fact("kind", "kind", "animal")
    yield from identity(ask.book, animal, on)
    yield from body_facts(ask, animal, on)
    if place is not None and place.room:
        yield Fact("room", "room", place.room)


def _of_enclosure(ask: Ask, place: Enclosure, on: date) -> Iterator[Part]:
    inside = [ask.book.animals[a] for a in ask.book.occupants(on).get(place.id, ())]
    rows = tuple((a.code, a.name, a.species.scientific, f"{a.sex_sign} {a.sex}") for a in inside)
    yield Fact("kind", "kind", "enclosure")
    yield from (f for f in enclosure_facts(ask.book, place, on) if f.key != "animals")
    yield Table("animals", RESIDENT_COLUMNS, rows, "Lives here", "nobody lives here")
