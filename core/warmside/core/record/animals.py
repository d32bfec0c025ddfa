"""All animals of a snapshot by id; ancestors by the thousand cost nothing until asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache
from typing import Any

from warmside.core.record.entities import Animal, Species
from warmside.core.record.event_queries import who
from warmside.core.record.few_first import FEW
from warmside.core.values.moments import parse_partial_date

Rows = Callable[[str, Sequence[Any]], list[tuple[Any, ...]]]
_SELECT = (
    "SELECT id, code, name, species_id, sex, sex_known_by, hatched, origin, note, clutch_id "
    "FROM animal LEFT JOIN clutch_young ON young_id = id"
)
_born = lru_cache(maxsize=4096)(parse_partial_date)  # every command reads the same again


class Animals(Mapping[int, Animal]):
    """All animals by id, also ancestors and those gone, in the order of their codes.

    The first few are read one by one, then those that have events together, and another by
    itself again; only who walks through all of them has them all read.
    """

    def __init__(self, rows: Rows, species: Mapping[int, Species]) -> None:
        self._rows, self._species = rows, species
        self._known: dict[int, Animal] = {}
        self._begun = self._whole = False

    def __getitem__(self, id: int) -> Animal:
        """The animal of a number; KeyError where there is none."""
        if id not in self._known and not self._whole:
            if len(self._known) >= FEW:
                self._read_those_with_events()
            if id not in self._known:
                self._known |= self._read("WHERE id = ?", [id])
        return self._known[id]

    def __iter__(self) -> Iterator[int]:
        if not self._whole:
            self._known, self._whole = self._read("ORDER BY code"), True
        return iter(self._known)

    def __len__(self) -> int:
        return sum(1 for _ in self)

    def coded(self, code: str) -> Animal | None:
        """The animal of exactly that code; another spelling of it is not looked for."""
        known = next((a for a in self._known.values() if a.code == code), None)
        typed = code.isprintable()  # half a character, which no code has, cannot be asked for
        if known is None and not self._whole and typed:
            found = self._read("WHERE code = ?", [code])
            self._known |= found
            known = next(iter(found.values()), None)
        return known

    def read_by(self, rows: Rows) -> Animals:
        """The same animals, read further by the queries of another snapshot."""
        other = Animals(rows, self._species)
        other._known, other._begun, other._whole = dict(self._known), self._begun, self._whole
        return other

    def _read_those_with_events(self) -> None:
        if not self._begun:
            self._begun = True
            self._known |= self._read(
                f"WHERE id IN (WITH RECURSIVE {who('animal')} SELECT id FROM who)"
            )

    def _read(self, which: str, values: Sequence[Any] = ()) -> dict[int, Animal]:
        return {row[0]: self._animal(row) for row in self._rows(f"{_SELECT} {which}", values)}

    def _animal(self, row: tuple[Any, ...]) -> Animal:
        id, code, name, species_id, sex, known_by, hatched, *rest = row
        born = _born(hatched) if hatched else None
        return Animal(id, code, name, self._species[species_id], sex, known_by, born, *rest)
