"""The clutches on record as eggs: what is left of them, and when they are to hatch."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from msgspec import Struct

from warmside.api import About, Ask, Book, Clutch, DayRange, Event
from warmside.plugins.lineage.eggs.clutch_course import (
    FORGOTTEN_DAYS,
    Eggs,
    Hatch,
    Look,
    hatch_window,
    next_look,
)
from warmside.plugins.lineage.kinds import EGGS, INCUBATED
from warmside.plugins.lineage.reading.season import figures_of
from warmside.plugins.lineage.season.figures import SeasonFigures


class Incubation(Struct, frozen=True):
    """A clutch with its eggs, when they are to hatch and to be looked at.

    `here` says that the keeper put them to incubate; `look` is None where none is asked for.
    """

    clutch: Clutch
    eggs: Eggs
    figures: SeasonFigures | None
    window: DayRange | None
    look: date | None
    here: bool
    where: str = ""


def incubations(ask: Ask, on: date) -> list[Incubation]:
    """The clutches of which eggs are still awaited, the oldest first."""
    return ask.book.once(("lineage", "incubations", on), lambda: _open(ask, on))


def _open(ask: Ask, on: date) -> list[Incubation]:
    since = on - timedelta(days=FORGOTTEN_DAYS)
    young = [c for c in ask.book.clutches.values() if c.laid and since <= c.laid <= on]
    found = [incubation(ask, c, on) for c in young]
    return sorted((i for i in found if i.eggs.open(on)), key=lambda i: (i.eggs.laid, i.clutch.id))


def incubation(ask: Ask, clutch: Clutch, on: date) -> Incubation:
    """One clutch as it is on a day."""
    parent = parent_of(clutch)
    figures = figures_of(ask, ask.book.animals[parent])
    told = _told(ask.book, clutch, on)
    kept = [e for e in told if e.kind == INCUBATED]
    eggs = _eggs(ask.book, clutch, told, on)
    every = int(ask.setting("lineage", "egg_check", About(parent)))
    look = next_look(eggs, every, on) if kept else None
    where = next((e.data["where"] for e in reversed(kept) if e.data.get("where")), "")
    window = hatch_window(eggs, figures)
    return Incubation(clutch, eggs, figures, window, look, bool(kept), where)


def own_clutches(ask: Ask, like: Incubation, on: date) -> list[Eggs]:
    """The keeper's own clutches of the species, those that hatched already."""
    animals = ask.book.animals
    species = animals[parent_of(like.clutch)].species.id
    found = [
        incubation(ask, c, on).eggs
        for c in ask.book.clutches.values()
        if c.id != like.clutch.id and animals[parent_of(c)].species.id == species
    ]
    return [eggs for eggs in found if eggs.hatches]


def parent_of(clutch: Clutch) -> int:
    """The animal that what happens to a clutch is written of: the dam, else the first sire."""
    return clutch.dam_id if clutch.dam_id is not None else clutch.sires[0].animal_id


def _told(book: Book, clutch: Clutch, on: date) -> list[Event]:
    """What was recorded of a clutch since it was laid."""
    if clutch.laid is None:
        return []
    ids = {s.animal_id for s in clutch.sires} | ({clutch.dam_id} if clutch.dam_id else set())
    kinds = (INCUBATED, EGGS, "hatched")
    return [
        e
        for id in sorted(ids)
        for e in book.events(*kinds, animal=id, since=clutch.laid, until=on)
        if e.data.get("clutch_id") == clutch.id
    ]


def _eggs(book: Book, clutch: Clutch, told: list[Event], on: date) -> Eggs:
    looks = (e for e in told if e.kind == EGGS)
    kept = [e.data["kept_c"] for e in told if e.kind == INCUBATED and e.data.get("kept_c")]
    return Eggs(
        clutch.laid,
        clutch.eggs,
        clutch.good,
        tuple(Look(e.day, e.data.get("good"), e.id) for e in looks),
        tuple(_hatches(book, clutch, told, on)),
        kept[-1] if kept else None,
    )


def _hatches(book: Book, clutch: Clutch, told: list[Event], on: date) -> Iterator[Hatch]:
    """As they were counted; else by the young on record; else that some did."""
    counted = [e for e in told if e.kind == "hatched"]
    if counted:
        yield from (Hatch(e.day, e.data["count"], e.id) for e in counted)
        return
    first = clutch.hatched_first
    young = [a for a in book.young_of(clutch.id) if not a.hatched or a.hatched.earliest <= on]
    if young or (first is not None and first <= on):
        day = first or next((a.hatched.earliest for a in young if a.hatched), on)
        yield Hatch(day, len(young) or clutch.good or clutch.eggs or 1)
