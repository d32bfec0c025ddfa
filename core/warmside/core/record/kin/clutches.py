"""Entering clutches, and changing what was entered of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from itertools import count
from typing import Any

from msgspec.structs import replace

from warmside.core.record import tables
from warmside.core.record.book import Book
from warmside.core.record.entities import CERTAINTIES, Clutch, Sire
from warmside.core.record.entry_checks import free_code, one_of
from warmside.core.record.kin.lineage import Candidate, certainties, check_clutch
from warmside.core.record.kin.parentage import (
    clutch_candidates,
    clutch_certainty,
    in_role,
    set_parents,
)
from warmside.core.record.steps import StepWriter
from warmside.core.values.counts import counted
from warmside.core.values.errors import BadInput
from warmside.core.values.hints import plain_text

MOST_EGGS = 1_000
NOBODY = Clutch(0, "", None, (), None, None, None, None, None, "")


def add_clutch(
    writer: StepWriter,
    values: Mapping[str, Any],
    sires: Sequence[Candidate] = (),
    certainty: str | None = None,
) -> Clutch:
    """Enter a clutch; its code is C1, C2 … unless one is given.

    Values are named as the fields of a Clutch, days as dates; None is not known.
    """
    given = {k: v for k, v in values.items() if v is not None and k != "code"}
    taken = {c.code: c.label for c in writer.book.clutches.values()}
    code = free_code("clutch", values.get("code") or _next_code(taken), "", taken)
    wanted = replace(NOBODY, code=code, sires=_sires(sires, certainty), **given)
    if wanted.dam_id is None and not wanted.sires:
        raise BadInput("a clutch needs a parent: --dam CODE, --sire CODE or both")
    _check(writer.book, wanted)
    id = writer.insert(tables.clutch, **_row(wanted))
    for sire in wanted.sires:
        writer.insert(tables.clutch_sire, clutch_id=id, sire_id=sire.animal_id, **_how_sure(sire))
    return writer.reread().clutches[id]


def _next_code(taken: Mapping[str, str]) -> str:
    return next(f"C{n}" for n in count(1) if f"C{n}" not in taken)


def change_clutch(
    writer: StepWriter,
    clutch: Clutch,
    values: Mapping[str, Any],
    sires: Sequence[Candidate] = (),
    certainty: str | None = None,
) -> Clutch:
    """Change what was entered of a clutch; None is left, `sires` replace those before.

    Young whose parents still are those of the clutch get the new ones; what was recorded of one
    of them alone stays.
    """
    given = {k: v for k, v in values.items() if v is not None}
    if not given and not sires:
        raise BadInput("nothing to change; name what, such as --good 5")
    if "code" in given:
        others = {c.code: c.label for c in writer.book.clutches.values() if c.id != clutch.id}
        given["code"] = free_code("clutch", given["code"], "", others)
    wanted = replace(clutch, sires=_sires(sires, certainty) or clutch.sires, **given)
    _check(writer.book, wanted)
    writer.change(tables.clutch, {"id": clutch.id}, **_row(wanted))
    _change_sires(writer, clutch, wanted)
    writer.reread()
    _pass_on(writer, clutch, wanted)
    return writer.book.clutches[clutch.id]


def _check(book: Book, wanted: Clutch) -> None:
    check_clutch(wanted, book.animals)
    for day in (wanted.laid, wanted.hatched_first, wanted.hatched_last):
        if day is not None and day > book.today:
            raise BadInput(f"{wanted.label}: {day} is in the future")
    for number in (wanted.eggs, wanted.good):
        if number is not None and not 0 <= number <= MOST_EGGS:
            raise BadInput(f"{wanted.label}: {counted(number, 'egg')} cannot be; check the number")


def _row(wanted: Clutch) -> dict[str, Any]:
    return {
        "code": wanted.code,
        "dam_id": wanted.dam_id,
        "laid": _text(wanted.laid),
        "hatched_first": _text(wanted.hatched_first),
        "hatched_last": _text(wanted.hatched_last),
        "eggs": wanted.eggs,
        "good": wanted.good,
        "note": plain_text("note", wanted.note),
    }


def _text(day: date | None) -> str | None:
    return day.isoformat() if day else None


def _sires(candidates: Sequence[Candidate], certainty: str | None) -> tuple[Sire, ...]:
    if certainty is not None:
        certainty = one_of("certainty", certainty, CERTAINTIES)
    words = certainties("sire", candidates, certainty)
    return tuple(
        Sire(parent.id, word, weight)
        for (parent, weight), word in zip(candidates, words, strict=True)
    )


def _how_sure(sire: Sire) -> dict[str, Any]:
    return {"certainty": sire.certainty, "weight": sire.weight}


def _change_sires(writer: StepWriter, before: Clutch, wanted: Clutch) -> None:
    old = {s.animal_id for s in before.sires}
    new = {s.animal_id: s for s in wanted.sires}
    for gone in sorted(old - new.keys()):
        writer.remove(tables.clutch_sire, {"clutch_id": before.id, "sire_id": gone})
    for id, sire in new.items():
        key = {"clutch_id": before.id, "sire_id": id}
        if id in old:
            writer.change(tables.clutch_sire, key, **_how_sure(sire))
        else:
            writer.insert(tables.clutch_sire, **key, **_how_sure(sire))


def _pass_on(writer: StepWriter, before: Clutch, after: Clutch) -> None:
    """Give the new parents to the young that have those of the clutch."""
    for child in writer.book.young_of(before.id):
        for role in ("dam", "sire"):
            book = writer.book
            had = [(c.parent.id, c.weight) for c in clutch_candidates(book, before, role)]
            has = [(p.parent_id, p.weight) for p in in_role(book, child.id, role)]
            new = clutch_candidates(book, after, role)
            if sorted(had, key=str) == sorted(has, key=str) and new:
                set_parents(writer, child, role, new, clutch_certainty(after, role))
