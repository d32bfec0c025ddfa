"""Taking a step back and putting it in force again; both are steps themselves."""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import datetime
from typing import Any

from sqlalchemy import ColumnElement, Connection, exists, or_, select, update
from sqlalchemy.exc import IntegrityError

from warmside.core.kinds.fields import Target
from warmside.core.record import resting, sums, tables
from warmside.core.record.book import LARGEST
from warmside.core.record.entities import AT_THE_DESK, RowChange, Sender, Step
from warmside.core.record.series import rows as series_rows
from warmside.core.record.stamps import stamp, touched_by
from warmside.core.record.step_rows import begin_step
from warmside.core.record.steps import driver_of, image
from warmside.core.values.errors import NotFound, Refused
from warmside.core.values.moments import parse_instant

SHELF_COLUMNS = (
    "id, kind, animal_id, enclosure_id, day, at, zone, data, note, step_id, replaced_by, sum"
)


def step_meant(connection: Connection, number: int | None) -> Step:
    """The step of that number, else the last with something to take back."""
    return last_to_undo(connection) if number is None else step_numbered(connection, number)


def last_to_undo(connection: Connection) -> Step:
    """The last step in force with something to take back; raises NotFound where there is none."""
    s = tables.step.c
    query = select(tables.step).where(s.kind == "do", s.undone_by.is_(None), _wrote())
    return _one(connection, query, "there is nothing to undo")


def _wrote() -> ColumnElement[bool]:
    """Steps of which something is left; the rows of a plugin may have been forgotten."""
    s, c, e = tables.step.c, tables.change.c, tables.event.c
    return or_(
        exists().where(c.step_id == s.id).correlate(tables.step),
        exists().where(e.step_id == s.id).correlate(tables.step),
    )


def last_to_redo(connection: Connection) -> Step:
    """The last undo in force; raises NotFound where something was recorded after it."""
    s = tables.step.c
    in_force = select(tables.step).where(s.undone_by.is_(None))
    undone = _one(connection, in_force.where(s.kind == "undo"), "there is nothing to redo")
    later = in_force.where(s.kind == "do", s.id > undone.id).limit(1)
    if connection.execute(later).first() is not None:
        raise NotFound("there is nothing to redo: something was recorded after the last undo")
    return undone


def step_numbered(connection: Connection, id: int) -> Step:
    """The step of that number, if it is in force."""
    query = select(tables.step).where(tables.step.c.id == min(id, LARGEST))
    step = _one(connection, query, f"there is no step {id}; list them with: warmside undo --list")
    if step.kind != "do":
        raise Refused(f"step {id} took back or redid another itself; use: warmside redo")
    if step.undone_by is not None:
        raise Refused(f"step {id} is undone already")
    if connection.execute(query.where(_wrote())).first() is None:
        raise Refused(f"step {id} wrote only data of a plugin that were removed since")
    return step


def _one(connection: Connection, query: Any, missing: str) -> Step:
    row = connection.execute(query.order_by(tables.step.c.id.desc()).limit(1)).first()
    if row is None:
        raise NotFound(missing)
    return Step(row.id, parse_instant(row.at), row.kind, row.words, row.of, row.undone_by, row.by)


def undo(connection: Connection, step: Step, now: datetime, sender: Sender = AT_THE_DESK) -> int:
    """Take a step back; refused where later steps rest on it. Returns the undo's own number."""
    _refuse_if_needed_later(connection, step)
    undoing = _log(connection, "undo", step, now, sender)
    changes = _to_move(connection, step.id)
    sound = _sound_tables(connection, changes)
    try:
        for change in reversed([c for c in changes if c.table == "event"]):
            _put(connection, change.table, change.key, change.before)
        _shelve(connection, step.id)
        for change in reversed([c for c in changes if c.table != "event"]):
            _take_back(connection, change, step.id)
    except IntegrityError as error:
        raise Refused(f"cannot undo step {step.id}: later records rest on it") from error
    _mark(connection, step.id, undoing)
    stamp(connection, touched_by(connection, step.id))
    _seal(connection, undoing, sound)
    return undoing


def redo(connection: Connection, undone: Step, now: datetime, sender: Sender = AT_THE_DESK) -> int:
    """Put the step that `undone` took back in force again. Returns the redo's own number."""
    assert undone.of is not None
    redoing = _log(connection, "redo", undone, now, sender)
    changes = _to_move(connection, undone.of)
    sound = _sound_tables(connection, changes)
    for change in [c for c in changes if c.table != "event"]:
        _put_again(connection, change, undone.of)
    _unshelve(connection, undone.of)
    for change in [c for c in changes if c.table == "event"]:
        _put(connection, change.table, change.key, change.after)
    _mark(connection, undone.of, None)
    _mark(connection, undone.id, redoing)
    stamp(connection, touched_by(connection, undone.of))
    _seal(connection, redoing, sound)
    return redoing


def _sound_tables(connection: Connection, changes: list[RowChange]) -> list[str]:
    """The tables that are about to change and are as they were left; others are not sealed."""
    names = {c.table for c in changes if c.table != "event" and not series_rows.is_line(c.key)}
    driver = driver_of(connection)
    return [n for n in sorted(names) if sums.is_sealed(driver, n)]


def _seal(connection: Connection, step_id: int, tables_to_seal: list[str]) -> None:
    sums.sum_step(driver_of(connection), step_id)
    sums.seal(driver_of(connection), tables_to_seal)


def _to_move(connection: Connection, step_id: int) -> list[RowChange]:
    changes = changes_of(connection, step_id)
    if any(series_rows.is_line(change.key) for change in changes):
        series_rows.defer_references(connection)
    return changes


def _take_back(connection: Connection, change: RowChange, step_id: int) -> None:
    if series_rows.is_line(change.key):
        series_rows.shelve(connection, change.table, step_id)
    else:
        _put(connection, change.table, change.key, change.before)


def _put_again(connection: Connection, change: RowChange, step_id: int) -> None:
    if series_rows.is_line(change.key):
        series_rows.unshelve(connection, change.table, step_id)
    else:
        _put(connection, change.table, change.key, change.after)


def changes_of(connection: Connection, step_id: int) -> list[RowChange]:
    """The rows other than new events that a step wrote, in order; one line for all of a series."""
    c = tables.change.c
    query = select(c.table, c.key, c.before, c.after).where(c.step_id == step_id).order_by(c.id)
    return [
        RowChange(table, json.loads(key), _image(before), _image(after))
        for table, key, before, after in connection.execute(query)
    ]


def _image(text: str | None) -> dict[str, Any] | None:
    return None if text is None else json.loads(text)


def _refuse_if_needed_later(connection: Connection, step: Step) -> None:
    later = [_later_touching(connection, step), *_later_referring(connection, step)]
    if any(later):
        number, words = max(found for found in later if found)
        raise Refused(
            f"cannot undo step {step.id} ({step.words}): step {number} ({words}) rests on it; "
            f"undo that first: warmside undo {number}"
        )


def _later_touching(connection: Connection, step: Step) -> tuple[int, str] | None:
    """A later step in force that wrote one of the same rows, or corrected one of its events."""
    row = connection.exec_driver_sql(
        "SELECT s.id, s.words FROM step s JOIN change c ON c.step_id = s.id "
        "WHERE s.id > ? AND s.kind = 'do' AND s.undone_by IS NULL AND ("
        "EXISTS (SELECT 1 FROM change m WHERE m.step_id = ? AND m.tbl = c.tbl AND m.key = c.key) "
        "OR (c.tbl = 'event' AND EXISTS (SELECT 1 FROM event e WHERE e.step_id = ? "
        "AND e.id = json_extract(c.key, '$.id')))) ORDER BY s.id DESC LIMIT 1",
        (step.id, step.id, step.id),
    ).first()
    return None if row is None else (row[0], row[1])


def _later_referring(connection: Connection, step: Step) -> list[tuple[int, str] | None]:
    """Later steps in force whose events or rows refer to a row that this step made.

    The file's own foreign keys are asked, so that a plugin's row counts whatever its columns are
    called, and even where the key would cascade: undo must not lose what a later step wrote.
    """
    found = [_referring_to_events(connection, step.id)]
    stepped = {"event", *series_rows.names(connection)}
    for change in changes_of(connection, step.id):
        if series_rows.is_line(change.key):
            found.append(resting.on_series(connection, change.table, step.id, stepped))
        elif change.before is None and change.after is not None:
            for table, column, target in _references(connection, change.table):
                value = change.after[target] if target else next(iter(change.key.values()))
                look = _referring_stepped if table in stepped else _referring_row
                found.append(look(connection, step.id, table, column, value))
            found.append(_referring_data(connection, step.id, change))
    return found


def _references(connection: Connection, table: str) -> list[tuple[str, str, str | None]]:
    """Tables and columns that refer to a table, and the column meant (None: its primary key)."""
    rows = connection.exec_driver_sql(
        'SELECT m.name, f."from", f."to" FROM sqlite_schema m JOIN pragma_foreign_key_list(m.name) '
        "f WHERE m.type = 'table' AND f.\"table\" = ? COLLATE NOCASE",
        (table,),
    )
    return [(row[0], row[1], row[2]) for row in rows]


def _referring_stepped(
    connection: Connection, step_id: int, table: str, column: str, value: Any
) -> tuple[int, str] | None:
    """As `_referring_row`, for a table whose rows carry their step."""
    row = connection.exec_driver_sql(
        "SELECT s.id, s.words FROM step s WHERE s.id = (SELECT max(e.step_id) "
        f'FROM "{table}" e WHERE e."{column}" = ? AND e.step_id > ?)',
        (value, step_id),
    ).first()
    return None if row is None else (row[0], row[1])


def _referring_data(
    connection: Connection, step_id: int, change: RowChange
) -> tuple[int, str] | None:
    """An event whose data refer to a new row: no foreign key knows, the field's name does.

    Also an older one: words that named an animal became references when files were migrated.
    """
    target = next((t for t in Target if t.value == change.table), None)
    if target is None or change.after is None:
        return None
    ending, id = target.ending, change.after["id"]
    row = connection.exec_driver_sql(
        "SELECT s.id, s.words FROM event e JOIN step s ON s.id = e.step_id WHERE e.step_id <> ? "
        "AND e.data LIKE ? AND EXISTS (SELECT 1 FROM json_each(e.data) j WHERE j.value = ? "
        "AND (j.key = ? OR substr(j.key, ?) = ?)) ORDER BY s.id DESC LIMIT 1",
        (step_id, f'%{ending}":{id}%', id, ending, -len(ending) - 1, f"_{ending}"),
    ).first()
    return None if row is None else (row[0], row[1])


LATER_ROW = (
    "SELECT s.id, s.words FROM change c JOIN step s ON s.id = c.step_id WHERE s.id > ? "
    "AND s.kind = 'do' AND s.undone_by IS NULL AND c.tbl = ? AND json_extract(c.after, ?) {} "
    "ORDER BY s.id DESC LIMIT 1"
)


def _referring_row(
    connection: Connection, step_id: int, table: str, column: str, value: Any
) -> tuple[int, str] | None:
    row = connection.exec_driver_sql(
        LATER_ROW.format("= ?"), (step_id, table, f'$."{column}"', value)
    ).first()
    return None if row is None else (row[0], row[1])


def _referring_to_events(connection: Connection, step_id: int) -> tuple[int, str] | None:
    """A later step in force with a plugin's row about an event of this step."""
    query = LATER_ROW.format("IN (SELECT id FROM event WHERE step_id = ?)")
    for table, column, _ in _references(connection, "event"):
        if table != "event":  # a correction, which touches the event's own row
            values = (step_id, table, f'$."{column}"', step_id)
            row = connection.exec_driver_sql(query, values).first()
            if row is not None:
                return row[0], row[1]
    return None


def _log(connection: Connection, kind: str, of: Step, now: datetime, sender: Sender) -> int:
    values = {"kind": kind, "words": of.words, "of": of.id}
    return begin_step(connection, now, sender, **values)


def _mark(connection: Connection, step_id: int, by: int | None) -> None:
    where = tables.step.c.id == step_id
    connection.execute(update(tables.step).where(where).values(undone_by=by))


def _shelve(connection: Connection, step_id: int) -> None:
    for statement in (
        f"INSERT INTO event_shelf ({SHELF_COLUMNS}) SELECT {SHELF_COLUMNS} FROM event "
        "WHERE step_id = ?",
        "DELETE FROM event WHERE step_id = ?",
    ):
        connection.exec_driver_sql(statement, (step_id,))


def _unshelve(connection: Connection, step_id: int) -> None:
    for statement in (
        f"INSERT INTO event ({SHELF_COLUMNS}) SELECT {SHELF_COLUMNS} FROM event_shelf "
        "WHERE step_id = ?",
        "DELETE FROM event_shelf WHERE step_id = ?",
    ):
        connection.exec_driver_sql(statement, (step_id,))


def _put(
    connection: Connection, table: str, key: Mapping[str, Any], row: Mapping[str, Any] | None
) -> None:
    """Make the row of that key be `row`, or not be."""
    where = " AND ".join(f'"{name}" = ?' for name in key)
    there = image(connection, table, key) is not None
    if row is None:
        connection.exec_driver_sql(f'DELETE FROM "{table}" WHERE {where}', tuple(key.values()))
    elif table == "event":
        connection.exec_driver_sql(
            f"UPDATE event SET replaced_by = ? WHERE {where}",
            (row["replaced_by"], *key.values()),
        )
    elif there:
        sets = ", ".join(f'"{name}" = ?' for name in row)
        connection.exec_driver_sql(
            f'UPDATE "{table}" SET {sets} WHERE {where}', (*row.values(), *key.values())
        )
    else:
        names = ", ".join(f'"{name}"' for name in row)
        marks = ", ".join("?" * len(row))
        connection.exec_driver_sql(
            f'INSERT INTO "{table}" ({names}) VALUES ({marks})', tuple(row.values())
        )
