"""The triggers that keep events and series append-only and days days, word for word.

No heavy imports: every opening holds the triggers of a file against these.
"""

from __future__ import annotations

import re

EVENT_GUARDS = (
    """CREATE TRIGGER event_is_append_only BEFORE UPDATE OF
id, kind, animal_id, enclosure_id, day, at, zone, data, note, step_id ON event
BEGIN SELECT RAISE(ABORT, 'events are append-only'); END""",
    """CREATE TRIGGER event_leaves_by_the_shelf BEFORE DELETE ON event
WHEN NOT EXISTS (SELECT 1 FROM event_shelf WHERE event_shelf.id = OLD.id)
BEGIN SELECT RAISE(ABORT, 'events are append-only'); END""",
    """CREATE TRIGGER event_days_are_days BEFORE INSERT ON event
WHEN date(NEW.day, '+0 days') IS NOT NEW.day OR NEW.day < '1800-01-01' OR NEW.day > '2999-12-31'
OR (NEW.at IS NOT NULL AND strftime('%Y-%m-%dT%H:%M:%SZ', NEW.at) IS NOT NEW.at)
BEGIN SELECT RAISE(ABORT, 'the day or instant of an event is none'); END""",
)
GUARD_NAMES = frozenset(guard.split()[2] for guard in EVENT_GUARDS)
STEP = "step_id"


def series_guards(name: str, key: tuple[str, ...]) -> tuple[str, str]:
    """The triggers of a series: a row is never changed, and leaves only by the shelf."""
    same = " AND ".join(f's."{column}" = OLD."{column}"' for column in (STEP, *key))
    return (
        f'CREATE TRIGGER "{name}_is_append_only" BEFORE UPDATE ON "{name}"\n'
        f"BEGIN SELECT RAISE(ABORT, '{name} is append-only'); END",
        f'CREATE TRIGGER "{name}_leaves_by_the_shelf" BEFORE DELETE ON "{name}"\n'
        f'WHEN NOT EXISTS (SELECT 1 FROM "{name}_shelf" s WHERE {same})\n'
        f"BEGIN SELECT RAISE(ABORT, '{name} is append-only'); END",
    )


KEY_COLUMN = re.compile(r's\."(\w+)" = OLD\."\1"')


def is_guard(table: str, sql: str) -> bool:
    """Whether a trigger is one of ours; of a series' key only the names are its own."""
    if table == "event":
        return sql in EVENT_GUARDS
    _, *key = KEY_COLUMN.findall(sql) or ("",)
    return sql in series_guards(table, tuple(key))
