"""What holds in a sound file between its rows: each rule a query that counts what breaks it."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator

from warmside.core.kinds.fields import Target

INVARIANTS = (
    (
        "events belong to steps in force",
        "SELECT count(*) FROM event e JOIN step s ON s.id = e.step_id "
        "WHERE s.undone_by IS NOT NULL",
        "{} events of undone steps are still in force",
    ),
    (
        "shelved events belong to undone steps",
        "SELECT count(*) FROM event_shelf e LEFT JOIN step s ON s.id = e.step_id "
        "WHERE s.undone_by IS NULL",
        "{} shelved events belong to no undone step",
    ),
    (
        "undone steps and undoing ones name each other",
        "SELECT (SELECT count(*) FROM step s WHERE s.undone_by IS NOT NULL AND NOT EXISTS "
        "(SELECT 1 FROM step u WHERE u.id = s.undone_by AND u.of = s.id AND u.id > s.id "
        "AND u.kind = CASE s.kind WHEN 'do' THEN 'undo' WHEN 'undo' THEN 'redo' END)) + "
        "(SELECT count(*) FROM step u WHERE u.kind = 'undo' AND u.undone_by IS NULL AND "
        "(SELECT s.undone_by FROM step s WHERE s.id = u.of) IS NOT u.id)",
        "{} steps are marked undone, or undoing, by themselves alone",
    ),
    (
        "steps are numbered without a gap",
        "SELECT coalesce(max(id), 0) - count(*) FROM step",
        "{} steps are missing",
    ),
    (
        "corrected events are replaced by one of the same kind",
        "SELECT count(*) FROM event e JOIN event r ON r.id = e.replaced_by WHERE r.kind <> e.kind",
        "{} events are replaced by one of another kind",
    ),
    (
        "corrections are in force as their steps say",
        "WITH said(id, new) AS (SELECT json_extract(c.key, '$.id'), "
        "json_extract(c.after, '$.replaced_by') FROM change c JOIN step s ON s.id = c.step_id "
        "WHERE c.tbl = 'event' AND s.undone_by IS NULL), "
        "now(id, new) AS (SELECT id, replaced_by FROM event WHERE replaced_by IS NOT NULL) "
        "SELECT (SELECT count(*) FROM (SELECT * FROM said EXCEPT SELECT * FROM now)) + "
        "(SELECT count(*) FROM (SELECT * FROM now EXCEPT SELECT * FROM said))",
        "{} corrections are not as their steps say",
    ),
    (
        "days are dates",
        # date('2026-02-30') is taken as it stands; adding nothing makes SQLite reckon
        "SELECT count(*) FROM event WHERE date(day, '+0 days') IS NOT day "
        "OR day NOT BETWEEN '1800-01-01' AND '2999-12-31'",
        "{} events have a day that is no date",
    ),
    (
        "instants are instants",
        "SELECT (SELECT count(*) FROM event WHERE at IS NOT NULL AND "
        "strftime('%Y-%m-%dT%H:%M:%SZ', at) IS NOT at) + (SELECT count(*) FROM step WHERE "
        "strftime('%Y-%m-%dT%H:%M:%SZ', at) IS NOT at)",
        "{} instants are none",
    ),
    (
        "numbers of events are not given twice",
        "SELECT count(*) FROM event WHERE id > coalesce((SELECT seq FROM sqlite_sequence WHERE "
        "name = 'event'), 0) OR id IN (SELECT id FROM event_shelf)",
        "{} events have a number that may be given again",
    ),
    (
        "nobody is an own ancestor",
        "WITH RECURSIVE up(child, ancestor) AS (SELECT child_id, parent_id FROM parentage "
        "UNION SELECT up.child, p.parent_id FROM up JOIN parentage p ON p.child_id = up.ancestor) "
        "SELECT count(*) FROM up WHERE child = ancestor",
        "{} animals descend from themselves",
    ),
    (
        "weights of parents sum to at most 1",
        "SELECT count(*) FROM (SELECT sum(weight) AS total FROM parentage GROUP BY child_id, role "
        "UNION ALL SELECT sum(weight) FROM clutch_sire GROUP BY clutch_id) WHERE total > 1.000001",
        "{} sums of weights are more than 1",
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
        yield what, _told(connection, query, problem)
    for target in Target:
        query = DATA_REFER.format(ending=target.ending, table=target.value)
        what = f"events refer to a known {target.value}"
        yield what, _told(connection, query, f"{{}} events refer to no {target.value}")


def _told(connection: sqlite3.Connection, query: str, problem: str) -> str:
    try:
        number = connection.execute(query).fetchone()[0]
    except sqlite3.OperationalError as error:  # such as JSON that is none, which others name
        return f"cannot be told ({error})"
    return problem.format(number) if number else ""
