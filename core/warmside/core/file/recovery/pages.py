"""Rows of a damaged file, page by page by our own reading, where SQLite itself gives up.

After "Database File Format" (sqlite.org/fileformat2.html): leaf pages of tables (type 13), pages of
tables that are stored in their key (types 10 and 2, both of which hold rows), records with their
serial types, overflow pages. Which table a page belongs to is told from the roots down, as far as
the pages between can be read; what hangs nowhere is passed over.
"""

from __future__ import annotations

import struct
from collections.abc import Callable, Iterator
from typing import NamedTuple

LEAF, INTERIOR = 13, 5
KEY_LEAF, KEY_INTERIOR = 10, 2
MOST_PAGES = 1 << 22
Value = int | float | str | bytes | None


class Row(NamedTuple):
    """A row as it lies in a page: its number and the values of its columns, as stored.

    The number of a row that is stored in its key is 0; the columns of the key come first there.
    """

    rowid: int
    values: tuple[Value, ...]


class Pages:
    """The pages of a file's bytes; `size` is taken from the header, or is the usual one.

    `unread` counts what could not be read so far: pages that hang in a table, and rows of a leaf.
    """

    def __init__(self, content: bytes, size: int | None = None) -> None:
        self.content = content
        self.unread = 0
        self.size = size or _page_size(content)

    def page(self, number: int) -> bytes:
        """A page by its number from 1; empty where there is none."""
        return self.content[(number - 1) * self.size : number * self.size]

    def rows(self, root: int, *, in_key: bool = False) -> Iterator[Row]:
        """The rows of the table of that root, of all its pages that can be read.

        `in_key` for a table that is stored in its key.
        """
        leaf, interior = (KEY_LEAF, KEY_INTERIOR) if in_key else (LEAF, INTERIOR)
        waiting, seen = [root], set[int]()
        while waiting and len(seen) < MOST_PAGES:
            number = waiting.pop()
            page, start = self.page(number), 100 if number == 1 else 0
            if number in seen or len(page) < self.size:
                self.unread += 1
                continue
            seen.add(number)
            if page[start] == leaf:
                yield from self._rows_in(page, start, 8, self._key_row if in_key else self._row)
            elif page[start] == interior:
                waiting += reversed(self._children(page, start))
                if in_key:
                    yield from self._rows_in(page, start, 12, self._row_between)
            else:
                self.unread += 1

    def _children(self, page: bytes, start: int) -> list[int]:
        (cells,) = struct.unpack_from(">H", page, start + 3)
        found = []
        for n in range(cells):
            place = start + 12 + 2 * n
            if place + 2 > len(page):
                break
            (cell,) = struct.unpack_from(">H", page, place)
            if cell + 4 <= len(page):
                found.append(struct.unpack_from(">I", page, cell)[0])
        return [*found, struct.unpack_from(">I", page, start + 8)[0]]

    def _rows_in(
        self, page: bytes, start: int, header: int, read: Callable[[bytes, int], Row]
    ) -> Iterator[Row]:
        (cells,) = struct.unpack_from(">H", page, start + 3)
        for n in range(min(cells, self.size // 4)):
            try:
                (cell,) = struct.unpack_from(">H", page, start + header + 2 * n)
                yield read(page, cell)
            except (struct.error, IndexError, ValueError, OverflowError):
                self.unread += 1

    def _row(self, page: bytes, cell: int) -> Row:
        length, place = _varint(page, cell)
        rowid, place = _varint(page, place)
        return Row(_signed(rowid), _values(self._payload(page, place, length, self.size - 35)))

    def _key_row(self, page: bytes, cell: int) -> Row:
        length, place = _varint(page, cell)
        most = (self.size - 12) * 64 // 255 - 23
        return Row(0, _values(self._payload(page, place, length, most)))

    def _row_between(self, page: bytes, cell: int) -> Row:
        return self._key_row(page, cell + 4)  # behind the number of the page before it

    def _payload(self, page: bytes, place: int, length: int, most: int) -> bytes:
        """The bytes of a record, of which a page holds at most so many, and others the rest."""
        if length > len(self.content):
            raise ValueError(length)
        if length <= most:
            return page[place : place + length]
        least = (self.size - 12) * 32 // 255 - 23
        here = least + (length - least) % (self.size - 4)
        here = here if here <= most else least
        (following,) = struct.unpack_from(">I", page, place + here)
        parts, left = [page[place : place + here]], length - here
        while left > 0 and following:
            more = self.page(following)
            parts.append(more[4 : 4 + left])
            left -= self.size - 4
            (following,) = struct.unpack_from(">I", more)
        return b"".join(parts)


def _page_size(content: bytes) -> int:
    size = int.from_bytes(content[16:18], "big")
    size = 65_536 if size == 1 else size
    return size if size >= 512 and size & (size - 1) == 0 else 4096


def _varint(data: bytes, place: int) -> tuple[int, int]:
    found = 0
    for n in range(9):
        byte = data[place + n]
        if n == 8:
            return found << 8 | byte, place + 9
        found = found << 7 | byte & 0x7F
        if not byte & 0x80:
            return found, place + n + 1
    raise ValueError(place)


def _signed(number: int) -> int:
    return number - (1 << 64) if number >= 1 << 63 else number


def _values(record: bytes) -> tuple[Value, ...]:
    header, place = _varint(record, 0)
    types = []
    while place < header:
        serial, place = _varint(record, place)
        types.append(serial)
    values: list[Value] = []
    for serial in types:
        length = _length(serial)
        part = record[place : place + length]
        if len(part) < length:
            raise ValueError(serial)
        values.append(_value(serial, part))
        place += length
    return tuple(values)


def _length(serial: int) -> int:
    if serial >= 12:
        return (serial - 12) // 2
    return (0, 1, 2, 3, 4, 6, 8, 8, 0, 0)[serial]


def _value(serial: int, part: bytes) -> Value:
    if serial == 0:
        return None
    if serial == 7:
        return float(struct.unpack(">d", part)[0])
    if serial in (8, 9):
        return serial - 8
    if serial < 7:
        return int.from_bytes(part, "big", signed=True)
    return part.decode() if serial % 2 else part
