"""What is asked for a few one by one is the same as what is read for all."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from warmside.core.record.book import Book
from warmside.core.record.few_first import FEW, FewFirst
from warmside.testing import Keeper

ids = st.integers(0, 9)


@given(st.dictionaries(ids, st.text(min_size=1, max_size=1)), st.lists(ids, max_size=8))
def test_it_gives_what_the_whole_gives_and_reads_one_by_one_but_a_few(
    whole: dict[int, str], asked: list[int]
) -> None:
    singly: list[int] = []

    def one(id: int) -> str | None:
        singly.append(id)
        return whole.get(id)

    few = FewFirst(one, lambda: whole)
    assert [few.get(id) for id in asked] == [whole.get(id) for id in asked]
    assert singly == list(dict.fromkeys(asked))[:FEW]
    assert (few.settled is whole) == (len(set(asked)) > FEW)
    assert dict(few) == whole and len(few) == len(whole) and few.settled is whole


def test_a_few_asked_singly_are_where_all_that_are_read_together_are(keeper: Keeper) -> None:
    """Two in one enclosure, one that moved out of it, one that died there, one lent out."""
    for code in ("TUB", "BOX", "BIN"):
        keeper.run("enclosure", "add", code)
    for code in ("ZOE", "ADA", "MAX", "OLD", "LOU"):
        keeper.run("animal", "add", code, "--species", "corn snake", "--enclosure", "TUB")
    keeper.pass_days(3)
    keeper.run("record", "moved", "MAX", "--enclosure", "BOX")
    keeper.run("record", "died", "OLD")
    keeper.run("record", "lent", "LOU", "--to", "Ruth")
    with keeper.book() as book:
        for on in (book.today, book.today - timedelta(days=1)):
            whole = told(book, on)
            assert len(whole[2]) == (2 if on == book.today else 1)
            for id in [*book.animals, 99]:
                with keeper.book() as other:
                    assert [t.get(id) for t in told(other, on)] == [t.get(id) for t in whole]


def told(book: Book, on: date) -> list[Mapping[int, object]]:
    """What is asked for a few first, each by id."""
    latest = book.latest("moved", "died", on=on)
    placed = book.latest_in("moved", on=on)["moved"]
    return [
        book.whereabouts(on),
        book.animals_here(on),
        book.occupants(on),
        *latest.values(),
        placed,
    ]
