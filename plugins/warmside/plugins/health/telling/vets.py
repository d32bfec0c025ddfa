"""The keeper's vets: a list, and whom to call on sheets for other people."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from warmside.api import Column, Section, Table, Words, sheets
from warmside.plugins.health.vets.vet import Vet, to_call

COLUMNS = (
    Column("name", "vet"),
    Column("reptiles", "treats reptiles"),
    Column("telephone", "telephone"),
    Column("emergency", "in an emergency"),
    Column("hours", "open", below=True),
    Column("address", "address", below=True),
    Column("note", "note", below=True),
)
NONE_YET = "no vet yet; enter one: warmside health vet NAME --telephone NUMBER --reptiles yes"


def table(vets: Sequence[Vet]) -> Table:
    """All vets of the address book."""
    rows = tuple(
        (v.name, v.reptiles, *(x or None for x in (v.telephone, v.emergency)), *_below(v))
        for v in vets
    )
    return Table("vets", COLUMNS, rows, empty=NONE_YET)


def _below(vet: Vet) -> tuple[str | None, str | None, str | None]:
    return vet.hours or None, vet.address or None, vet.note or None


def whom_to_call(vets: Sequence[Vet]) -> Iterator[Section]:
    """The vets who treat reptiles, or may, at the head of a sheet; nothing where none is known."""
    words = tuple(Words(vet.words) for vet in to_call(vets))
    if words:
        yield Section("Vets", words, sheets.SitterPlace.CALL)
