"""What is written when eggs or young are entered: the clutch, the young, what was seen of them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from warmside.api import (
    Ask,
    BadInput,
    Clutch,
    Enclosure,
    NewEvent,
    PartialDate,
    StepWriter,
    When,
    entering,
    progress,
)
from warmside.plugins.lineage.commands.mothers import Mother
from warmside.plugins.lineage.hatching.brood import named
from warmside.plugins.lineage.hatching.typed import Young
from warmside.plugins.lineage.kinds import EGGS
from warmside.plugins.lineage.reading.eggs import parent_of
from warmside.plugins.lineage.reading.sires import mates

BRED = "bred here"


def enter_clutch(
    writer: StepWriter,
    mother: Mother,
    eggs: tuple[int, int | None],
    sires: list[str] | None,
    *,
    code: str | None,
    note: str,
) -> Clutch:
    """The clutch, and that it was laid; without --sire the males that she mated with."""
    ask, her, day = mother.ask, mother.animal, mother.when.day
    died = ask.book.latest_of(her.id, "died").get("died")
    if died is not None and died.day < day:
        raise BadInput(f"{her.label} died on {died.day} and cannot have laid on {day}")
    values: dict[str, Any] = {"code": code, "dam_id": her.id, "laid": day}
    values |= {"eggs": eggs[0], "good": eggs[1], "note": note or None}
    candidates, certainty = _candidates(mother, sires)
    made = entering.add_clutch(writer, values, candidates, certainty)
    data = {"count": eggs[0], "good": eggs[1], "clutch_id": made.id}
    writer.record(mother.event("laid", data, note))
    return made


def _candidates(
    mother: Mother, sires: list[str] | None
) -> tuple[list[entering.Candidate], str | None]:
    """The sires that were named, else her mates: one is probable, several are possible."""
    if sires:
        return entering.candidates(mother.ask.book, "sire", sires), None
    found = mates(mother.ask, mother.animal, mother.when.day)
    word = "probable" if len(found) == 1 else "possible" if found else None
    return [entering.Candidate(animal) for animal in found], word


def enter(
    writer: StepWriter,
    ask: Ask,
    clutch: Clutch,
    young: Sequence[Young],
    when: When,
    *,
    into: str | None,
    stem: str | None,
    note: str = "",
) -> list[int]:
    """The young as animals, what was seen of each, and that they hatched; their ids."""
    book = ask.book
    place = book.enclosure(into) if into else None
    taken = {a.code for a in book.animals.values()}
    called = list(named(young, stem or clutch.code, clutch.code, taken))
    first = min(clutch.hatched_first or when.day, when.day)
    last = max(clutch.hatched_last or clutch.hatched_first or when.day, when.day)
    values = {"hatched_first": first, "hatched_last": last if last != first else None}
    changed = entering.change_clutch(writer, writer.reread().clutches[clutch.id], values)
    species = book.animals[parent_of(clutch)].species.scientific
    with progress("entering", len(called)) as done:
        newcomers = [_newcomer(y, species, when) for y in called]
        ids = entering.enter_young(writer, changed, newcomers, done)
    events = [e for id, y in zip(ids, called, strict=True) for e in _events(id, y, when, place)]
    data = {"count": len(ids), "clutch_id": clutch.id}
    told = NewEvent("hatched", when.day, data, parent_of(clutch), at=when.at, note=note)
    writer.record_checked([told, *events])
    return ids


def _newcomer(young: Young, species: str, when: When) -> entering.Newcomer:
    hatched = PartialDate(when.day.year, when.day.month, when.day.day)
    known_by = "not known" if young.sex == "unknown" else "observed at hatching"
    return entering.Newcomer(
        young.name,
        species,
        young.code,
        young.sex,
        hatched,
        sex_known_by=known_by,
        origin=BRED,
    )


def _events(id: int, young: Young, when: When, place: Enclosure | None) -> list[NewEvent]:
    """That it is here, what it weighed, how it looks."""
    where = place.id if place else None
    found = [NewEvent("arrived", when.day, {"how": BRED}, id, where, at=when.at)]
    if young.mass_g is not None:
        found.append(NewEvent("weighed", when.day, {"mass_g": young.mass_g}, id, at=when.at))
    if young.looks:
        found.append(NewEvent("looks", when.day, {"says": young.looks}, id, at=when.at))
    return found


def note_lost(writer: StepWriter, clutch: Clutch, when: When, lost: int) -> None:
    """That no more will hatch."""
    data = {"clutch_id": clutch.id, "good": 0, "removed": lost}
    writer.record_checked([NewEvent(EGGS, when.day, data, parent_of(clutch), at=when.at)])
