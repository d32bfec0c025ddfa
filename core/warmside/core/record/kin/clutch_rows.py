"""Reading clutches from their rows."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from datetime import date
from typing import Any

from warmside.core.record.entities import Clutch, Sire

Rows = Callable[[str], list[tuple[Any, ...]]]


def read_clutches(rows: Rows) -> dict[int, Clutch]:
    """All clutches by id, in the order of their codes, each with its sires."""
    sires: dict[int, list[Sire]] = defaultdict(list)
    for clutch, *sire in rows(
        "SELECT clutch_id, sire_id, certainty, weight FROM clutch_sire "
        "ORDER BY clutch_id, weight DESC, sire_id"
    ):
        sires[clutch].append(Sire(*sire))
    found = rows(
        "SELECT id, code, dam_id, laid, hatched_first, hatched_last, eggs, good, note "
        "FROM clutch ORDER BY code"
    )
    return {r[0]: _clutch(r, tuple(sires[r[0]])) for r in found}


def _clutch(row: tuple[Any, ...], sires: tuple[Sire, ...]) -> Clutch:
    id, code, dam, laid, first, last, eggs, good, note = row
    return Clutch(id, code, dam, sires, _day(laid), _day(first), _day(last), eggs, good, note)


def _day(text: str | None) -> date | None:
    return date.fromisoformat(text) if text else None
