"""Clutches that incubate, in words and tables."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from warmside.api import (
    OWN_RECORDS,
    Answer,
    Ask,
    Basis,
    Book,
    Cell,
    Column,
    Fact,
    Kind,
    Part,
    Table,
    Tone,
    Unit,
    counted,
    paragraphs,
)
from warmside.plugins.lineage.eggs.clutch_course import Eggs, misfits, own_days
from warmside.plugins.lineage.reading.eggs import Incubation, parent_of

COLUMNS = (
    Column("clutch", "clutch", Kind.CODE),
    Column("dam", "of"),
    Column("laid", "laid", Kind.DATE),
    Column("left", "left", Unit.COUNT),
    Column("hatched", "hatched", Unit.COUNT),
    Column("earliest", "hatches from", Kind.DATE),
    Column("latest", "to", Kind.DATE),
    Column("kept", "kept at", Unit.TEMPERATURE),
    Column("where", "where", text=False),
)
LOOKS = (
    Column("day", "day", Kind.DATE),
    Column("good", "good", Unit.COUNT),
    Column("event", "event", Unit.COUNT),
)
EGG_CARE = (
    "Do not turn the eggs; keep the air about them damp and the incubator on a thermostat with a "
    "second thermometer: overheating kills a clutch within hours (common practice, no source)."
)


def eggs_table(book: Book, found: Sequence[Incubation], on: date) -> Table:
    """A row a clutch."""
    rows = tuple(_row(book, i) for i in found)
    hint = "no eggs are awaited; enter a clutch: warmside lineage laid CODE --eggs 6"
    return Table("clutches", COLUMNS, rows, "Eggs", hint)


def _row(book: Book, found: Incubation) -> tuple[Cell, ...]:
    window = found.window
    return (
        found.clutch.code,
        book.animals[parent_of(found.clutch)].label,
        found.clutch.laid,
        found.eggs.left,
        found.eggs.hatched,
        window.earliest if window else None,
        window.latest if window else None,
        found.eggs.kept_c,
        found.where or None,
    )


def eggs_facts(found: Incubation) -> Iterator[Fact]:
    """What is known of the eggs; what is not known is left out."""
    eggs, window = found.eggs, found.window
    facts = (
        Fact("laid", "laid", eggs.laid, Kind.DATE),
        Fact("eggs", "eggs", eggs.total, Unit.COUNT),
        Fact("good", "good at laying", eggs.good, Unit.COUNT),
        Fact("misfits", "slugs and misshapen", misfits(eggs), Unit.COUNT),
        Fact("left", "left", eggs.left, Unit.COUNT),
        Fact("hatched", "hatched", eggs.hatched, Unit.COUNT),
        Fact("kept", "kept at", eggs.kept_c, Unit.TEMPERATURE),
        Fact("where", "where", found.where or None),
        Fact("look", "next look", found.look, Kind.DATE),
    )
    yield from (f for f in facts if f.value is not None)
    if window is not None:
        yield Fact("earliest", "hatches from", window.earliest, Kind.DATE, window.basis)
        yield Fact("latest", "to", window.latest, Kind.DATE, window.basis)
    if window is not None and window.likely and found.figures and found.figures.mean_source:
        mean = Basis("mean incubation of the species", found.figures.mean_source)
        yield Fact("likely", "mean of the species", window.likely, Kind.DATE, mean)


def eggs_shown(ask: Ask, found: Incubation, own: Sequence[Eggs], on: date) -> Answer:
    """One clutch with its window and what speaks for it."""
    looks = tuple((x.day, x.good, x.event) for x in found.eggs.looks)
    parts: list[Part] = [*eggs_facts(found), *own_fact(own)]
    parts += [Table("looks", LOOKS, looks, "Looks at the eggs")] if looks else []
    parts += paragraphs(*_notes(found))
    parts += paragraphs(EGG_CARE, tone=Tone.CAUTION) if found.eggs.open(on) else ()
    dam = ask.book.animals[parent_of(found.clutch)].label
    return Answer(f"Eggs of clutch {found.clutch.code}, {dam}", tuple(parts))


def own_fact(own: Sequence[Eggs]) -> Iterator[Fact]:
    """How long own clutches of the species took, as a range."""
    days = own_days(own)
    if days:
        said = f"{days[0]}" if days[0] == days[-1] else f"{days[0]} to {days[-1]}"
        basis = Basis("from laying to the first young", OWN_RECORDS)
        text = f"{said} days ({counted(len(days), 'clutch', 'clutches')})"
        yield Fact("own", "your own of the species took", text, basis=basis)


def _notes(found: Incubation) -> Iterator[str]:
    figures = found.figures
    if figures is None or figures.incubation is None:
        yield "No incubation time is known here for this species, so no window is given."
        return
    warm = figures.incubation_c
    if warm:
        yield f"Usual: {warm.low:g} to {warm.high:g} °C ({warm.source.mark}); warmer is faster."
    if figures.sex_note:
        yield figures.sex_note
