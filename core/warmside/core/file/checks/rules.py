"""What holds in a sound file between its rows: each rule a query that counts what breaks it."""

from __future__ import annotations

import sqlite3
from collections import Counter, defaultdict
from collections.abc import Iterator

from warmside.core.kinds.fields import Target
from warmside.core.values.counts import counted

PARENTAGE = "SELECT child_id, parent_id FROM parentage"
INVARIANTS = (
    (
        "events belong to steps in force",
        "SELECT count(*) FROM event e JOIN step s ON s.id = e.step_id "
        "WHERE s.undone_by IS NOT NULL",
        "event of undone steps still in force",
    ),
    (
        "shelved events belong to undone steps",
        "SELECT count(*) FROM event_shelf e LEFT JOIN step s ON s.id = e.step_id "
        "WHERE s.undone_by IS NULL",
        "event on the shelf of no undone step",
    ),
    (
        "undone steps and undoing ones name each other",
        "SELECT (SELECT count(*) FROM step s WHERE s.undone_by IS NOT NULL AND NOT EXISTS "
        "(SELECT 1 FROM step u WHERE u.id = s.undone_by AND u.of = s.id AND u.id > s.id "
        "AND u.kind = CASE s.kind WHEN 'do' THEN 'undo' WHEN 'undo' THEN 'redo' END)) + "
        "(SELECT count(*) FROM step u WHERE u.kind = 'undo' AND u.undone_by IS NULL AND "
        "(SELECT s.undone_by FROM step s WHERE s.id = u.of) IS NOT u.id)",
        "step marked undone, or undoing, that no other names",
    ),
    (
        "steps are numbered without a gap",
        "SELECT coalesce(max(id), 0) - count(*) FROM step",
        "step missing",
    ),
    (
        "corrected events are replaced by one of the same kind",
        "SELECT count(*) FROM event e JOIN event r ON r.id = e.replaced_by WHERE r.kind <> e.kind",
        "event replaced by one of another kind",
    ),
    (
        "corrections are in force as their steps say",
        "WITH said(id, new) AS (SELECT json_extract(c.key, '$.id'), "
        "json_extract(c.after, '$.replaced_by') FROM change c JOIN step s ON s.id = c.step_id "
        "WHERE c.tbl = 'event' AND s.undone_by IS NULL), "
        "now(id, new) AS (SELECT id, replaced_by FROM event WHERE replaced_by IS NOT NULL) "
        "SELECT (SELECT count(*) FROM (SELECT * FROM said EXCEPT SELECT * FROM now)) + "
        "(SELECT count(*) FROM (SELECT * FROM now EXCEPT SELECT * FROM said))",
        "correction in force other than steps say",
    ),
    (
        "days are dates",
        # date('2026-02-30') is taken as it stands; adding nothing makes SQLite reckon
        "SELECT count(*) FROM event WHERE date(day, '+0 days') IS NOT day "
        "OR day NOT BETWEEN '1800-01-01' AND '2999-12-31'",
        "event with a day that is no date",
    ),
    (
        "instants are instants",
        "SELECT (SELECT count(*) FROM event WHERE at IS NOT NULL AND "
        "strftime('%Y-%m-%dT%H:%M:%SZ', at) IS NOT at) + (SELECT count(*) FROM step WHERE "
        "strftime('%Y-%m-%dT%H:%M:%SZ', at) IS NOT at)",
        "instant that is none",
    ),
    (
        "numbers of events are not given twice",
        "SELECT count(*) FROM event WHERE id > coalesce((SELECT seq FROM sqlite_sequence WHERE "
        "name = 'event'), 0) OR id IN (SELECT id FROM event_shelf)",
        "event with a number that may be given again",
    ),
    (
        "the next event follows the newest",
        # one that is far above all others is rot, and at the end of all numbers nothing is recorded
        "SELECT count(*) FROM sqlite_sequence WHERE name = 'event' AND seq > (SELECT max(id) FROM "
        "(SELECT id FROM event UNION ALL SELECT id FROM event_shelf UNION ALL SELECT 0))",
        "number that passes over those of events to come",
    ),
    (
        "undone events were corrected by one of the same kind",
        "SELECT count(*) FROM event_shelf s WHERE replaced_by IS NOT NULL AND NOT EXISTS ("
        "SELECT 1 FROM (SELECT id, kind FROM event UNION ALL SELECT id, kind FROM event_shelf) r "
        "WHERE r.id = s.replaced_by AND r.kind = s.kind AND r.id > s.id)",
        "undone event replaced by none of its kind",
    ),
    (
        "nobody is an own ancestor",
        PARENTAGE,
        "animal in a circle of parents",
    ),
    (
        "weights of parents sum to at most 1",
        "SELECT count(*) FROM (SELECT sum(weight) AS total FROM parentage GROUP BY child_id, role "
        "UNION ALL SELECT sum(weight) FROM clutch_sire GROUP BY clutch_id) WHERE total > 1.000001",
        "sum of weights above 1",
    ),
)

DATA_REFER = (
    "SELECT count(*) FROM event e, json_each(CASE WHEN json_valid(e.data) THEN e.data END) j "
    "WHERE e.data LIKE '%{ending}%' AND j.type <> 'null' "
    "AND (j.key = '{ending}' OR j.key LIKE '%\\_{ending}' ESCAPE '\\') "
    'AND j.value NOT IN (SELECT id FROM "{table}")'
)


def check(connection: sqlite3.Connection) -> Iterator[tuple[str, str]]:
    """Each rule, and what breaks it."""
    for what, query, problem in INVARIANTS:
        told = _own_ancestors if query == PARENTAGE else _told
        yield what, told(connection, query, problem)
    for target in Target:
        query = DATA_REFER.format(ending=target.ending, table=target.value)
        what = f"events refer to a known {target.value}"
        yield what, _told(connection, query, f"event referring to no {target.value}")


def _told(connection: sqlite3.Connection, query: str, problem: str) -> str:
    try:
        number = connection.execute(query).fetchone()[0]
    except sqlite3.OperationalError as error:  # such as JSON that is none, which others name
        return f"cannot be told ({error})"
    return _counted(number, problem)


def _counted(number: int, problem: str) -> str:
    """`2 events with a day that is no date`, the problem's first word counted; nothing for none."""
    noun, _, rest = problem.partition(" ")
    return f"{counted(number, noun)} {rest}" if number else ""


def _own_ancestors(connection: sqlite3.Connection, query: str, problem: str) -> str:
    """How many animals are left when all without parents, then all without young are taken away.

    All pairs of animals and ancestors would be millions in a pedigree of ten thousand.
    """
    pairs = set(connection.execute(query).fetchall())
    pairs = _peeled({(parent, child) for child, parent in _peeled(pairs)})
    left = {one for pair in pairs for one in pair}
    return _counted(len(left), problem)


def _peeled(pairs: set[tuple[int, int]]) -> set[tuple[int, int]]:
    """The pairs left when those whose second is the first of no pair go, again and again."""
    above: dict[int, int] = Counter(first for first, _ in pairs)
    below: dict[int, list[int]] = defaultdict(list)
    for first, second in pairs:
        below[second].append(first)
    waiting = [second for second in below if not above[second]]
    gone: set[int] = set()
    while waiting:
        one = waiting.pop()
        gone.add(one)
        for first in below[one]:
            above[first] -= 1
            if not above[first]:
                waiting.append(first)
    return {(first, second) for first, second in pairs if second not in gone}
