"""Queries of the events of all animals go by an index: without, a large record takes minutes."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import date

import pytest

from warmside.core.record.event_queries import Query, events_query, latest_query, newest_query
from warmside.testing import Keeper

DAY = date(2026, 3, 5)
QUERIES = {
    "latest of each animal": latest_query("animal", ["weighed", "shed"], DAY),
    "latest of rare kinds": latest_query("animal", ["died", "shed"], DAY),
    "latest of each enclosure": latest_query("enclosure", ["cleaned"], DAY),
    "latest of one animal": latest_query("animal", ["weighed"], DAY, 1),
    "all of some kinds": events_query(("laid", "hatched"), None, None, None, DAY, False),
    "some kinds since a day": events_query(("laid",), None, None, DAY, DAY, False),
    "newest of some animals": newest_query("fed", [1, 2], DAY, 40),
}


@pytest.mark.parametrize(
    "query",
    [latest_query("animal", ["died"], DAY), events_query(("laid",), None, None, DAY, DAY, False)],
)
def test_animals_with_events_of_a_rare_kind_are_found_by_their_index(
    keeper: Keeper, query: Query
) -> None:
    """Else every animal is asked for every rare kind, which none of them may have."""
    assert any("ix_event_rare (kind=? AND animal_id>?)" in step for step in plan(keeper, query))


@pytest.mark.parametrize("query", QUERIES.values(), ids=QUERIES)
def test_no_query_walks_through_all_events(keeper: Keeper, query: Query) -> None:
    steps = plan(keeper, query)
    of_events = [p for p in steps if p.split()[0] in ("SEARCH", "SCAN")]
    of_events = [p for p in of_events if p.split()[1] in ("event", "x", "e")]
    assert of_events and all(p.startswith("SEARCH") and " USING " in p for p in of_events), steps
    assert not any("ix_event_day" in p for p in of_events), "a year of all events for a few"


def plan(keeper: Keeper, query: Query) -> list[str]:
    """How SQLite goes about a query."""
    sql, values = query
    with closing(sqlite3.connect(keeper.path)) as connection:
        return [row[3] for row in connection.execute(f"EXPLAIN QUERY PLAN {sql}", values)]
