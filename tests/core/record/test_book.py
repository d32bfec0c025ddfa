"""The book: what is worked out once, what streams, and that nothing can be written through it."""

from __future__ import annotations

import sqlite3

import pytest

from warmside.testing import Keeper


def test_what_is_asked_once_is_worked_out_once_for_a_snapshot(keeper: Keeper) -> None:
    made: list[int] = []

    def make() -> int:
        made.append(1)
        return len(made)

    with keeper.book() as book:
        assert [book.once(("mine", 1), make) for _ in range(3)] == [1, 1, 1]
        assert book.once(("mine", 2), make) == 2
    with keeper.book() as later:
        assert later.once(("mine", 1), make) == 3


def test_rows_stream_one_by_one(keeper: Keeper) -> None:
    with keeper.book() as book:
        streamed = book.stream("SELECT id FROM species WHERE id <= ? ORDER BY id", [3])
        assert next(streamed) == (1,)
        assert [row[0] for row in streamed] == [2, 3]
        assert book.rows("SELECT count(*) FROM species")[0][0] == len(book.species)


def test_nothing_can_be_written_through_a_book(keeper: Keeper) -> None:
    with keeper.book() as book, pytest.raises(sqlite3.OperationalError, match="readonly"):
        book.rows("DELETE FROM species")
