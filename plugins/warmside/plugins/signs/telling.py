"""Signs and readings found, and the report's section."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from warmside.api import (
    OWN_RECORDS,
    About,
    Ask,
    Basis,
    Column,
    Estimate,
    Event,
    Finding,
    Kind,
    Section,
    Source,
    Table,
    Unit,
)
from warmside.plugins.signs import findings, reading
from warmside.plugins.signs.climate.judging import Judged, Reading, judged
from warmside.plugins.signs.seen.condition_steps import step_words
from warmside.plugins.signs.seen.known_signs import known_signs
from warmside.plugins.signs.seen.standing import Written, standing, unasked


def of_animal(
    ask: Ask, animal: int, on: date, notes: Sequence[tuple[Written, str]]
) -> Iterator[Finding]:
    """The signs that stand, `notes` to be asked about, a body that is wasted or obese."""
    code, vet = ask.book.animals[animal].code, reading.vet_seen(ask, animal, on)
    said = reading.said_of(ask, on).get(animal, [])
    runs = standing(said, vet)
    for run in runs:
        yield findings.seen(animal, code, known_signs()[run[0].sign], run)
    told = {run[0].sign for run in runs}
    for sign, note in unasked(notes, said, vet).items():
        if sign not in told:
            yield findings.written(animal, code, known_signs()[sign], note)
    last = reading.condition_of(ask, animal, on)
    if last is not None and (vet is None or vet < last.day):
        step = step_words(_form(ask, animal), last.data["score"])
        found = findings.condition(animal, last.data["score"], step, last.day, last.id)
        yield from [found] if found else []


def _form(ask: Ask, animal: int) -> str:
    form = ask.stage(animal, ask.book.today).life.form
    return form.value if form else ""


def of_enclosure(
    ask: Ask, enclosure: int, event: Event, read: Reading, on: date
) -> Iterator[Finding]:
    """What is wrong with the last reading, each thing once, for all whom it concerns.

    What is a little out of the usual is a note until the next reading says so, too.
    """
    wrong: dict[str, tuple[Judged, list[int]]] = {}
    for animal in ask.book.occupants(on)[enclosure]:
        for one in judged(read, reading.needs_of(ask, animal, on, event.day)):
            wrong.setdefault(one.what, (one, []))[1].append(animal)
    for one, whom in wrong.values():
        who = ", ".join(ask.book.animals[a].label for a in whom)
        source, show = _source(ask, whom[0], one), ask.book.home.display
        stands = one.unsafe or one.is_far or _was_so(ask, enclosure, event, one, whom[0], on)
        yield findings.climate(enclosure, who, one, stands, event, source, show)


def _was_so(ask: Ask, enclosure: int, event: Event, wrong: Judged, animal: int, on: date) -> bool:
    """Whether the reading before said the same of an animal."""
    before = reading.reading_before(ask, enclosure, event)
    if before is None:
        return False
    day, read = before
    needs = reading.needs_of(ask, animal, on, day)
    return any(j.what == wrong.what for j in judged(read, needs))


def _source(ask: Ask, animal: int, wrong: Judged) -> Source:
    """Of the figures used; where the keeper's own are, these."""
    figures = ask.figures(ask.book.animals[animal].species)
    if figures is None:
        return OWN_RECORDS
    if wrong.unsafe and figures.limits:
        return figures.limits.source
    span = figures.humidity if wrong.is_damp else figures.warm
    return span.source if span else OWN_RECORDS


def standing_signs(ask: Ask, animal: int, on: date) -> Iterator[Estimate]:
    """The number of signs of an animal that stand; nothing where none does."""
    runs = standing(reading.said_of(ask, on).get(animal, []), reading.vet_seen(ask, animal, on))
    if runs:
        number, events = float(len(runs)), tuple(run[-1].event for run in runs)
        basis = Basis("signs seen, not gone, and no vet visit since", OWN_RECORDS, events)
        yield Estimate(number, number, number, Unit.COUNT, basis)


def section(ask: Ask, animal: int, on: date) -> Iterator[Section]:
    """Every sign on record, for the vet; nothing where there is none."""
    said = reading.said_of(ask, on).get(animal, [])
    columns = (
        Column("day", "day", Kind.DATE),
        Column("sign", "sign"),
        Column("state", "state"),
        Column("where", "where, how much"),
    )
    rows = tuple((s.day, s.sign, s.state, s.where or None) for s in said)
    if rows:
        yield Section("Signs of illness", (Table("signs", columns, rows),), 300)


def about_animals(ask: Ask, on: date, about: About | None) -> Iterator[Finding]:
    """What was found of animals."""
    meant = reading.animals_meant(ask, on, about)
    notes = reading.written_of(ask, on, None if about is None else meant)
    for animal in meant:
        yield from of_animal(ask, animal, on, notes.get(animal, ()))
    for enclosure, event, read in reading.readings(ask, on, about):
        yield from of_enclosure(ask, enclosure, event, read, on)
