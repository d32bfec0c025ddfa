"""Named values and rows of them."""

from __future__ import annotations

from msgspec import Struct

from warmside.core.answers.cells import Cell, Kind
from warmside.core.values.basis import Basis
from warmside.core.values.units import Unit


class Fact(Struct, frozen=True):
    """One named value; in JSON a key at the top of the object, ending in the unit.

    `basis` is said below the value in text and under `<key>_basis` in JSON. `missing` says why
    there is no value, or what it wants, where the value is None; in JSON that stays null.
    """

    key: str
    title: str
    value: Cell
    kind: Kind | Unit = Kind.TEXT
    basis: Basis | None = None
    missing: str = ""


class Column(Struct, frozen=True):
    """A column of a table; `key` plus the unit's ending is the key in JSON.

    `text` False leaves the column out of the terminal and the page, where width is short; `below`
    lets the terminal put it under its row where it would not fit beside it.
    """

    key: str
    title: str
    kind: Kind | Unit = Kind.TEXT
    text: bool = True
    below: bool = False


class Table(Struct, frozen=True):
    """Rows under columns; `key` names the list in JSON. `empty` is said when there is no row.

    `breaks` are words said before the row of that index (wash hands before the next group).
    `heads` are the names of groups of rows, for the eye alone: in JSON each row tells its own.
    `dense` lets the terminal leave out the headings and the blank lines around breaks: for a list
    that is to fit a screen and explains itself.
    `ticks` marks a list to work through: on paper each row has a box to tick and room to write.
    `prose` lets a single row be said as a sentence, as in reports, which are read and not compared.
    """

    key: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    title: str = ""
    empty: str = "nothing on record"
    breaks: tuple[tuple[int, str], ...] = ()
    heads: tuple[tuple[int, str], ...] = ()
    dense: bool = False
    ticks: bool = False
    prose: bool = False

    @property
    def before(self) -> dict[int, str]:
        """What is said before each row: its break, and its head on a line of its own."""
        heads, breaks = dict(self.heads), dict(self.breaks)
        rows = sorted({*heads, *breaks})
        return {n: "\n".join(filter(None, (breaks.get(n), heads.get(n)))) for n in rows}
