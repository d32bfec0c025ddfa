"""The step writer: all writes of one command, in one transaction, so that undo can take them back.

Rows other than events keep an image before and after, as SQLite sees them, so that a step can be
undone even when the plugin that wrote it is gone. Events and rows of series need none: they carry
their step.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime
from functools import cache
from typing import Any

from msgspec.structs import replace
from sqlalchemy import Connection, Table, insert, update
from sqlalchemy.sql.dml import ReturningInsert

from warmside.core.kinds.kind import EventKind, Subject
from warmside.core.kinds.known import Kinds
from warmside.core.record import sums, tables
from warmside.core.record.book import Book, take_over
from warmside.core.record.entities import AT_THE_DESK, Event, NewEvent, RowChange, Sender
from warmside.core.record.plausible import Known, doubts, later_today
from warmside.core.record.references import check_references
from warmside.core.record.series.declared import Inserted, Series
from warmside.core.record.series.rows import OnSame, insert_rows
from warmside.core.record.stamps import of_events, stamp
from warmside.core.record.step_rows import begin_step, writable
from warmside.core.values.calendar_checks import FIRST_YEAR, LAST_YEAR
from warmside.core.values.errors import BadInput, Doubtful, NotFound, Refused
from warmside.core.values.moments import instant_text

Key = Mapping[str, Any]
EVENT_INSERT = (
    "INSERT INTO event (id, kind, animal_id, enclosure_id, day, at, zone, data, note, step_id, "
    "sum) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
)
CHANGE_INSERT = 'INSERT INTO change (step_id, tbl, "key", "before", "after") VALUES (?, ?, ?, ?, ?)'


class StepWriter:
    """Writes one step; `book` reads the collection as it was when first asked, until `reread`."""

    def __init__(
        self,
        connection: Connection,
        kinds: Kinds,
        now: datetime,
        words: str,
        confirmed: bool,
        sender: Sender = AT_THE_DESK,
    ) -> None:
        self._connection = connection
        self._kinds = kinds
        self._touched: set[str] = set()
        self._as_sealed: dict[str, bool] = {}  # the tables to be changed, as this step found them
        self._changes: list[RowChange] = []
        self.now = now
        self.confirmed = confirmed
        self.recorded: list[Event] = []
        self.changed = False
        self.book = Book(self._driver, now)
        self.id = begin_step(connection, now, sender, kind="do", words=writable(words), of=None)

    def say(self, words: str) -> None:
        """Replace the step's words, once it is known what was done."""
        where = tables.step.c.id == self.id
        self._connection.execute(update(tables.step).where(where).values(words=writable(words)))

    def reread(self) -> Book:
        """A fresh book that sees what this step has written."""
        book = Book(self._driver, self.now)
        pass_on(self, book)
        self.book = book
        return book

    @property
    def _driver(self) -> sqlite3.Connection:
        return driver_of(self._connection)

    def _before_changing(self, table: str) -> None:
        """Look whether the table is as it was left: what is wrong in it is not to be sealed."""
        if table not in self._as_sealed and table not in sums.OWN_SUMS:
            self._as_sealed[table] = sums.is_sealed(self._driver, table)

    def insert(self, table: Table, **values: Any) -> Any:
        """Add a row; returns the first column of its primary key."""
        self._before_changing(table.name)
        names = [c.name for c in table.primary_key]
        primary = tuple(self._connection.execute(_insertion(table), values).one())
        key = dict(zip(names, primary, strict=True))
        self._log(table.name, key, None, image(self._connection, table.name, key))
        return primary[0]

    def change(self, table: Table, key: Key, **values: Any) -> None:
        """Change the row of that primary key; raises NotFound where there is none."""
        before = self._existing(table, key)
        clauses = [table.c[name] == value for name, value in key.items()]
        self._connection.execute(update(table).where(*clauses).values(**values))
        after = image(self._connection, table.name, key)
        if after != before:
            self._log(table.name, key, before, after)

    def remove(self, table: Table, key: Key) -> None:
        """Remove the row of that primary key; raises NotFound where there is none."""
        before = self._existing(table, key)
        self._connection.execute(
            table.delete().where(*[table.c[name] == value for name, value in key.items()])
        )
        self._log(table.name, key, before, None)

    def insert_many(
        self, series: Series, rows: Iterable[Sequence[Any]], *, on_same: OnSame
    ) -> Inserted:
        """Add rows to a series, each in the order of its columns, from any iterable, in a stream.

        A row whose key is there already is left out ("skip") or raises Refused ("refuse"); one
        that does not fit raises BadInput. Then none of them is written.
        """
        found = insert_rows(self._connection, series, rows, self.id, on_same)
        if found.new:
            self.changed = True
            self._touched.add(series.name)
        return found

    def _existing(self, table: Table, key: Key) -> dict[str, Any]:
        if table.name == "event":
            raise TypeError("events are append-only: use record or correct")
        self._before_changing(table.name)
        before = image(self._connection, table.name, key)
        if before is None:
            raise NotFound(f"{table.name} has no row {dict(key)}")
        return before

    def _log(
        self, table: str, key: Key, before: dict[str, Any] | None, after: dict[str, Any] | None
    ) -> None:
        self.changed = True
        self._touched.add(table)
        self._changes.append(RowChange(table, key, before, after))
        texts = [None if i is None else json.dumps(i) for i in (before, after)]
        self._driver.execute(CHANGE_INSERT, (self.id, table, json.dumps(dict(key)), *texts))

    def record(self, new: NewEvent) -> Event:
        """Record one event; an implausible one is refused unless the step is confirmed."""
        self.check(new)
        return self.record_checked([new])[0]

    def check(self, new: NewEvent) -> None:
        """Raise Doubtful for a doubtful event, BadInput or NotFound for an impossible one."""
        kind = self._kinds.named(new.kind)
        check_subject(kind, new, self.book)
        found = doubts(
            new.kind,
            new.day,
            new.data,
            self.book.today,
            self._known(new.animal_id, new.day),
            self.book.home.display,
            later_today=later_today(new, self.now, self.book.today),
            absent=kind.absent,
            dead=kind.dead,
        )
        if found and not self.confirmed:
            raise Doubtful(f"{kind.title}: {'; '.join(found)}", found)

    def _known(self, animal_id: int | None, day: date) -> Known | None:
        if animal_id is None:
            return None
        animal = self.book.animals[animal_id]
        weighed = self.book.latest_of(animal_id, "weighed", on=day).get("weighed")
        mass = weighed.data["mass_g"] if weighed else None
        custody = self.book.whereabouts_of(animal_id, day).custody
        return Known(animal.name, animal.hatched, custody, mass)

    def record_checked(self, events: Iterable[NewEvent]) -> list[Event]:
        """Record many events whose plausibility the caller has checked; data are validated here."""
        kinds = self._kinds.named
        return self.record_valid([replace(e, data=kinds(e.kind).validate(e.data)) for e in events])

    def record_valid(self, events: Sequence[NewEvent]) -> list[Event]:
        """Record many events whose data are valid and whose plausibility is checked."""
        for e in events:
            if type(e.day) is not date or not FIRST_YEAR <= e.day.year <= LAST_YEAR:
                raise BadInput(
                    f"{e.kind}: {e.day!r} is no day between {FIRST_YEAR} and {LAST_YEAR}"
                )
        first = self._next_event_id()
        zone = self.book.home.zone.key
        made = [
            Event(
                first + n,
                e.kind,
                e.animal_id,
                e.enclosure_id,
                e.day,
                e.at,
                e.data,
                e.note,
                self.id,
                None,
            )
            for n, e in enumerate(events)
        ]
        if made:
            self._connection.exec_driver_sql(EVENT_INSERT, [_row(e, zone) for e in made])
            self.changed = True
            self._touched |= of_events((e.kind, e.animal_id) for e in made)
        self.recorded += made
        return made

    def _next_event_id(self) -> int:
        """The next number, also past those of undone events that an archive brought along."""
        highest = self._connection.exec_driver_sql(
            "SELECT max(coalesce((SELECT seq FROM sqlite_sequence WHERE name = 'event'), 0), "
            "coalesce((SELECT max(id) FROM event_shelf), 0))"
        )
        return int(highest.scalar_one()) + 1

    def correct(self, old: Event, new: NewEvent) -> Event:
        """Record `new` in the place of `old`, which stays visible as corrected."""
        if old.replaced_by is not None:
            raise Refused(f"event {old.id} was corrected already, by event {old.replaced_by}")
        made = self._replacing(old, new)
        key = {"id": old.id}
        before = image(self._connection, "event", key)
        self._connection.exec_driver_sql(
            "UPDATE event SET replaced_by = ? WHERE id = ?", (made.id, old.id)
        )
        self._log("event", key, before, image(self._connection, "event", key))
        self._touched |= of_events([(old.kind, old.animal_id)])
        self._move_pictures(old, made)
        return made

    def _move_pictures(self, old: Event, new: Event) -> None:
        """What showed the old event shows the new one, and whom that is about."""
        query = "SELECT id, animal_id, enclosure_id FROM picture WHERE event_id = ?"
        for id, animal, enclosure in self._connection.exec_driver_sql(query, (old.id,)).all():
            self.change(
                tables.picture,
                {"id": id},
                event_id=new.id,
                animal_id=new.animal_id if animal == old.animal_id else animal,
                enclosure_id=new.enclosure_id if enclosure == old.enclosure_id else enclosure,
            )

    def _replacing(self, old: Event, new: NewEvent) -> Event:
        without_old = [e for e in self._doubts_without(old, new) if e]
        if without_old and not self.confirmed:
            title = self._kinds.named(new.kind).title
            raise Doubtful(f"{title}: {'; '.join(without_old)}", without_old)
        return self.record_checked([new])[0]

    def _doubts_without(self, old: Event, new: NewEvent) -> list[str]:
        """Doubts about a correction; the weight it replaces is no measure for it."""
        kind = self._kinds.named(new.kind)
        check_subject(kind, new, self.book)
        known = self._known(new.animal_id, new.day)
        if known and new.animal_id is not None:
            earlier = [
                e
                for e in self.book.events("weighed", animal=new.animal_id, until=new.day)
                if e.id != old.id
            ]
            mass = earlier[-1].data["mass_g"] if earlier else None
            known = Known(known.name, known.hatched, known.custody, mass)
        return doubts(
            new.kind,
            new.day,
            new.data,
            self.book.today,
            known,
            self.book.home.display,
            later_today=later_today(new, self.now, self.book.today),
            absent=kind.absent,
            dead=kind.dead,
        )

    def changes(self) -> tuple[RowChange, ...]:
        """The rows that the step has changed so far; of events, see `recorded`."""
        return tuple(c for c in self._changes if c.table != "event")

    def finish(self) -> None:
        """Stamp and seal what the step touched; called once, before it commits."""
        if not self.changed:
            return
        stamp(self._connection, self._touched)
        sums.sum_step(self._driver, self.id)
        sums.seal(self._driver, [table for table, sound in self._as_sealed.items() if sound])


def pass_on(writer: StepWriter, book: Book) -> None:
    """Give a book of after the step what the step has read and left as it was."""
    take_over(book, writer.book, writer._touched)


def check_subject(kind: EventKind, new: NewEvent, book: Book) -> None:
    """Raise unless the event is about what its kind is about, and its enclosure is in use."""
    if new.animal_id is not None and new.animal_id not in book.animals:
        raise NotFound(f"there is no animal number {new.animal_id}")
    if new.enclosure_id is not None and new.enclosure_id not in book.enclosures:
        raise NotFound(f"there is no enclosure number {new.enclosure_id}")
    if kind.subject is Subject.ENCLOSURE and new.enclosure_id is None:
        raise BadInput(f"{kind.name} is about an enclosure; name one")
    if kind.subject is not Subject.ENCLOSURE and new.animal_id is None:
        raise BadInput(f"{kind.name} is about an animal; name one")
    if kind.name == "moved" and new.enclosure_id is None:
        raise BadInput("moved needs an enclosure to move to")
    check_references(new, book)
    place = book.enclosures.get(new.enclosure_id) if new.enclosure_id is not None else None
    if place is not None and place.retired and kind.subject is Subject.PLACING:
        raise Refused(
            f"enclosure {place.code} is retired; use it again: "
            f"warmside enclosure change {place.code} --in-use"
        )


@cache
def _insertion(table: Table) -> ReturningInsert[Any]:
    """One statement for all rows of a table: to build it anew takes longer than to run it."""
    return insert(table).returning(*table.primary_key)


_encoded = json.JSONEncoder(ensure_ascii=False, separators=(",", ":")).encode


def data_text(data: Mapping[str, Any]) -> str:
    """Valid data as the file holds them."""
    return _encoded(data)


def _row(event: Event, zone: str) -> tuple[Any, ...]:
    at = instant_text(event.at) if event.at else None
    row = (
        event.id,
        event.kind,
        event.animal_id,
        event.enclosure_id,
        event.day.isoformat(),
        at,
        zone if at else None,
        data_text(event.data),
        event.note,
        event.step_id,
    )
    return (*row, sums.row_sum(row))


def driver_of(connection: Connection) -> sqlite3.Connection:
    """The connection of sqlite3 beneath, in the same transaction."""
    driver = connection.connection.driver_connection
    assert isinstance(driver, sqlite3.Connection)
    return driver


def image(connection: Connection, table: str, key: Key) -> dict[str, Any] | None:
    """The row as SQLite holds it, by column name; None where there is none."""
    where = " AND ".join(f'"{name}" = ?' for name in key)
    found = driver_of(connection).execute(
        f'SELECT * FROM "{table}" WHERE {where}', tuple(key.values())
    )
    row = found.fetchone()
    names = [column[0] for column in found.description]
    return None if row is None else dict(zip(names, row, strict=True))
