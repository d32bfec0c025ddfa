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
    Clutch,
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
from warmside.plugins.lineage.reading.eggs import Incubation, incubation, parent_of

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
AFTER_LAYING = (
    "Watch her after laying: straining, a swelling that stays, weakness, or a clutch that is not "
    "finished within 24 to 48 hours (common practice, no source) is for a vet, not for waiting. "
    "Give water, rest, and small meals at first."
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


def laid_told(ask: Ask, clutch: Clutch, on: date, *, sire_given: bool) -> Answer:
    """What was entered of a clutch, when it is to hatch, and what to watch the mother for."""
    found = incubation(ask, clutch, on)
    sires = [ask.book.animals[s.animal_id].label for s in clutch.sires]
    parts: tuple[Part, ...] = (
        Fact("clutch", "clutch", clutch.code, Kind.CODE),
        *eggs_facts(found),
        Fact("sires", "sires", tuple(sires), Kind.LIST),
    )
    notes = [] if sire_given else [_sire_words(clutch, sires)]
    return Answer(
        f"Clutch {clutch.code} of {ask.book.animals[parent_of(clutch)].label}",
        (
            *(p for p in parts if not (isinstance(p, Fact) and p.value in (None, ()))),
            *paragraphs(*notes),
            *paragraphs(
                AFTER_LAYING, *([EGG_CARE] if found.eggs.open(on) else []), tone=Tone.CAUTION
            ),
            *paragraphs("warmside undo (take it back)", tone=Tone.HINT),
        ),
    )


def _sire_words(clutch: Clutch, sires: Sequence[str]) -> str:
    """How the sire was found where the keeper named none."""
    change = f"warmside clutch change {clutch.code} --sire CODE"
    if not sires:
        return (
            "No mating of the last year is on record, so the sire is left open: sperm is stored "
            f"for long, and young without a father happen. If you know him: {change}"
        )
    sure = "probable" if len(sires) == 1 else "possible"
    return f"Sire by the matings on record: {' or '.join(sires)}, {sure}. If you are sure: {change}"
