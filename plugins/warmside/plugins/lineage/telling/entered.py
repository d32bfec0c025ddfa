"""A clutch or its young as they were entered, what to watch for, and how odd the young look."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date

from warmside.api import (
    About,
    Answer,
    Ask,
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
from warmside.plugins.lineage.reading.eggs import incubation, parent_of
from warmside.plugins.lineage.telling.eggs import EGG_CARE, eggs_facts

AFTER = (
    "Watch her after {what}: straining, a swelling that stays, weakness, or {all} not finished "
    "within 24 to 48 hours (common practice, no source) is for a vet, not for waiting. "
    "Give water, rest, and small meals at first."
)
AFTER_LAYING = AFTER.format(what="laying", all="a clutch that is")
AFTER_BIRTH = AFTER.format(what="birth", all="a birth that is")
COLUMNS = (
    Column("code", "code", Kind.CODE),
    Column("name", "name"),
    Column("sex", "sex"),
    Column("mass", "mass", Unit.MASS),
    Column("looks", "looks"),
)
ODD = 0.05
CARE = (
    "Each in a small, escape-proof box of its own with a hide, water and a warm side on a "
    "thermostat; no food before the first shed. One that is weak, bloated or with a large yolk "
    "outside is for a vet (common practice, no source)."
)


def laid_told(ask: Ask, clutch: Clutch, on: date, *, sire_given: bool) -> Answer:
    """What was entered of a clutch, when it is to hatch, and what to watch the mother for."""
    found = incubation(ask, clutch, on)
    sires = tuple(ask.book.animals[s.animal_id].label for s in clutch.sires)
    named = [Fact("sires", "sires", sires, Kind.LIST)] if sires else []
    parts: tuple[Part, ...] = (
        *eggs_facts(found),
        *named,
        *paragraphs(*([] if sire_given else [_sire_words(clutch, sires)])),
    )
    cautions = (AFTER_LAYING, *([EGG_CARE] if found.eggs.open(on) else []))
    title = f"Clutch {clutch.code} of {ask.book.animals[parent_of(clutch)].label}"
    return _entered(title, clutch, parts, cautions)


def _entered(title: str, clutch: Clutch, parts: Iterable[Part], cautions: Iterable[str]) -> Answer:
    """What was entered, what to watch for, and how it is taken back."""
    code = Fact("clutch", "clutch", clutch.code, Kind.CODE)
    undo = paragraphs("warmside undo (take it back)", tone=Tone.HINT)
    return Answer(title, (code, *parts, *paragraphs(*cautions, tone=Tone.CAUTION), *undo))


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


def hatched_told(ask: Ask, clutch: Clutch, made: Sequence[int], on: date) -> Answer:
    """The young with what was seen of each, what is left, and odd counts."""
    found = incubation(ask, clutch, on)
    left, was_born = found.eggs.left, bool(found.figures and found.figures.bears_live)
    was_born = was_born or clutch.laid == clutch.hatched_first
    rows = tuple(_row(ask, id) for id in made)
    parts: tuple[Part, ...] = (
        Fact("hatched", "born" if was_born else "hatched", len(made), Unit.COUNT),
        *([Fact("left", "eggs left", left, Unit.COUNT)] if left and not was_born else []),
        Table("young", COLUMNS, rows, "Young", "none was born alive"),
    )
    cautions = (
        *odd_words(ask, clutch, made, on),
        *([CARE] if made else []),
        *([AFTER_BIRTH] if was_born else []),
    )
    title = f"{counted(len(made), 'young', 'young')} of clutch {clutch.code}"
    return _entered(title, clutch, parts, cautions)


def _row(ask: Ask, id: int) -> tuple[str | float | None, ...]:
    animal = ask.book.animals[id]
    told = ask.book.latest_of(id, "weighed", "looks")
    weighed, looks = told.get("weighed"), told.get("looks")
    return (
        animal.code,
        animal.name,
        animal.sex,
        weighed.data["mass_g"] if weighed else None,
        looks.data["says"] if looks else None,
    )


def odd_words(ask: Ask, clutch: Clutch, made: Sequence[int], on: date) -> Iterator[str]:
    """Traits of which the counts are odd for the parents, as a plugin that knows genes answers."""
    for answered in ask.answers("clutch odds", About(made[0]), on) if made else ():
        given = answered.estimate
        if given.value is not None and given.value < ODD:
            yield (
                f"{given.basis.rule}: counts as odd come by luck in {_percent(given.value)} of "
                f"clutches, so what was stated of a parent may be doubtful; see: "
                f"warmside genes clutch {clutch.code}"
            )


def _percent(chance: float) -> str:
    """A small chance as a keeper reads it; 0 only where it cannot be."""
    return f"{100 * chance:.2g} %" if chance == 0 or chance >= 0.0005 else "under 0.1 %"
