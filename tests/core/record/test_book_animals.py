"""The animals of a book: ancestors that nobody asks for are not read, and nothing is missed."""

from __future__ import annotations

import pytest

from warmside.core.record.animals import Animals
from warmside.core.record.whereabouts import NEVER
from warmside.testing import Keeper


@pytest.fixture
def family(keeper: Keeper) -> Keeper:
    """Two animals here, the later code first, and two ancestors that never came."""
    add = ("animal", "add")
    keeper.run(*add, "Zora", "--species", "corn snake", "--code", "ZOR", "--sex", "female")
    keeper.run(*add, "Ada", "--species", "corn snake", "--code", "ADA", "--sex", "female")
    for code in ("OLD", "OLD2"):
        keeper.run(*add, code, "--species", "corn snake", "--code", code, "--ancestor")
    return keeper


def test_few_are_read_one_by_one_those_with_events_in_one_go_and_ancestors_when_asked_for(
    family: Keeper,
) -> None:
    for code in ("BEA", "CLEO", "DORA"):
        family.run("animal", "add", code, "--species", "corn snake", "--code", code)
    with family.book() as book:
        asked: list[str] = []

        def rows(sql: str, values: object = ()) -> list[tuple[object, ...]]:
            asked.append(sql)
            return book.rows(sql, values)  # type: ignore[arg-type]

        ids = {a.code: id for id, a in book.animals.items()}
        animals = Animals(rows, book.species)
        assert animals[ids["ADA"]].code == "ADA" and animals[ids["ZOR"]].name == "Zora"
        assert animals[ids["BEA"]].code == "BEA" and len(asked) == 3
        assert animals[ids["CLEO"]].code == "CLEO" and animals[ids["DORA"]].code == "DORA"
        assert len(asked) == 4
        assert animals[ids["OLD"]].code == "OLD" and len(asked) == 5
        assert ids["OLD2"] in animals and 999 not in animals and animals.get(999) is None
        codes = ["ADA", "BEA", "CLEO", "DORA", "OLD", "OLD2", "ZOR"]
        assert [a.code for a in animals.values()] == codes
        assert animals == book.animals


def test_whereabouts_are_told_of_ancestors_too_but_walked_only_for_those_that_came(
    family: Keeper,
) -> None:
    with family.book() as book:
        where = book.whereabouts()
        assert [book.animals[id].code for id in where] == ["ADA", "ZOR"]
        assert where[book.animal("OLD").id] is NEVER
        assert list(book.animals_here()) == list(where)


def test_what_one_book_has_read_serves_the_next(family: Keeper) -> None:
    with family.book() as book:
        known = book.animals
        ada = known[1]
    with family.book() as later:
        assert isinstance(known, Animals)
        again = known.read_by(later.rows)  # the first book is shut
        assert again[1] is ada
        assert [a.code for a in again.values()] == ["ADA", "OLD", "OLD2", "ZOR"]
