"""A sheet as a grid of text, whichever kind of file it came in."""

from __future__ import annotations

from msgspec import Struct


class Row(Struct, frozen=True):
    """A row: the line of the file (in a spreadsheet the row) on which it begins, and its cells."""

    line: int
    cells: tuple[str, ...]

    @property
    def filled(self) -> list[str]:
        """The cells that are not blank."""
        return [c for c in self.cells if c]

    def cell(self, place: int) -> str:
        """The cell at a place; blank where the row is shorter."""
        return self.cells[place] if place < len(self.cells) else ""


class Grid(Struct, frozen=True):
    """The rows of a sheet that are not blank; `exact` where numbers and dates came as such.

    `said` tells how the file was read, for the keeper.
    """

    rows: tuple[Row, ...]
    exact: bool = False
    said: tuple[str, ...] = ()


class Flat(Struct, frozen=True):
    """A sheet brought to one shape: names of columns, and rows below them."""

    columns: tuple[str, ...]
    rows: tuple[Row, ...]
    said: tuple[str, ...] = ()
    asks: tuple[str, ...] = ()
