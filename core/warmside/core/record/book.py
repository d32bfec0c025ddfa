"""Read access to a collection at one moment: one snapshot, for commands and plugins alike.

Plain SQL on the driver's own connection, so that reading imports no SQLAlchemy.
"""

from __future__ import annotations

import sqlite3
from collections import defaultdict
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from datetime import date, datetime
from functools import cache, cached_property, lru_cache, partial
from types import MappingProxyType
from typing import Any, TypeVar
from zoneinfo import ZoneInfo

from msgspec.json import decode

from warmside.core.record.animals import Animals
from warmside.core.record.derived import Kept, MakeEach
from warmside.core.record.entities import (
    Animal,
    Clutch,
    Enclosure,
    Event,
    Home,
    Parent,
    Species,
    Step,
)
from warmside.core.record.event_queries import (
    events_query,
    latest_query,
    newest_query,
    placed_query,
)
from warmside.core.record.event_rows import EVENT_COLUMNS, event_from
from warmside.core.record.few_first import FewFirst
from warmside.core.record.kin.clutch_rows import read_clutches
from warmside.core.record.naming import named
from warmside.core.record.pictures import COLUMNS as PICTURE_COLUMNS
from warmside.core.record.pictures import Picture, picture_from
from warmside.core.record.species.known import find
from warmside.core.record.stamps import FIRST, by_animal
from warmside.core.record.step_connection import endings_of
from warmside.core.record.whereabouts import (
    PLACING_KINDS,
    WHEREABOUTS_KINDS,
    Held,
    Whereabouts,
    history,
    latest,
)
from warmside.core.values.display import stored_display
from warmside.core.values.errors import FileProblem, NotFound, WarmsideError
from warmside.core.values.moments import parse_instant

T = TypeVar("T")
LARGEST = 2**63 - 1  # that a file can hold
_RESTS_ON = {
    "home": {"collection"},
    "species": {"species"},
    "animals": {"animal", "species", "clutch_young"},
    "enclosures": {"enclosure"},
    "parents": {"parentage", "animal"},
    "clutches": {"clutch", "clutch_sire", "animal"},
    "stored_settings": {"plugin_state"},
    "pictures": {"picture"},
}
"""What a book reads once and as a whole, with the tables whose rows tell of it."""


class Book:
    """What the record holds, as of `now`; answers are cached, since the snapshot cannot change.

    Animals and enclosures are found by code or name. Events that were corrected are left out
    unless asked for; events of undone steps are never seen.
    """

    def __init__(
        self, connection: sqlite3.Connection, now: datetime, kept: Kept | None = None
    ) -> None:
        self._connection = connection
        self._kept = kept
        self._once: dict[Any, Any] = {}
        self._latest: dict[tuple[str, date], dict[str, FewFirst[Event]]] = {}
        self._whereabouts: dict[date, FewFirst[Whereabouts]] = {}
        self.now = now
        self._guarded = bool(connection.execute("PRAGMA query_only").fetchone()[0])

    def rows(self, sql: str, parameters: Sequence[Any] = ()) -> list[tuple[Any, ...]]:
        """Rows of a query, also on a plugin's own tables; a write fails."""
        return self._connection.execute(sql, tuple(parameters)).fetchall()

    def stream(self, sql: str, parameters: Sequence[Any] = ()) -> Iterator[tuple[Any, ...]]:
        """As `rows`, one after the other, for what is too many to hold."""
        yield from self._connection.execute(sql, tuple(parameters))

    def watch(self) -> tuple[int, bool, object]:
        """What changes where somebody writes through this book, or takes its guard off."""
        (guarded,) = self._connection.execute("PRAGMA query_only").fetchone()
        return self._connection.total_changes, self._connection.in_transaction, guarded

    def endings(self) -> int:
        """How often the step that this book reads was to be ended from within; 0 in a snapshot."""
        return endings_of(self._connection)

    def shut(self) -> bool:
        """Take back what was written through a snapshot, and guard it again.

        False within a step, which is for its writer to give up.
        """
        if self._guarded:
            self._connection.rollback()
            self._connection.execute("PRAGMA query_only = ON")
            self._connection.execute("BEGIN")
        return self._guarded

    def once(self, key: Any, make: Callable[[], T]) -> T:
        """What `make` gives, worked out once for this snapshot; `key` begins with the owner."""
        if key not in self._once:
            self._once[key] = make()
        return self._once[key]  # type: ignore[no-any-return]

    def derived(self, key: str, rests_on: Sequence[str], make: Callable[[], Any]) -> Any:
        """A JSON value that is kept across runs until something that it rests on changes.

        `key` begins with the owner. `rests_on` names tables, series, or kinds of event as
        `event:weighed`. Kept apart from the collection: neither backup nor undo sees it.
        """
        if self._kept is None:
            return self.once(("derived", key), make)
        stamps = self._stamps()
        return self._kept.value(key, [stamps.get(r, "") for r in rests_on], make)

    def derived_each(
        self,
        key: str,
        on: date,
        animals: Mapping[int, Any],
        rests_on: Sequence[str],
        make: MakeEach[T],
        shape: type[T],
    ) -> dict[int, T]:
        """As `derived`, a value for each animal, by its own events of the kinds named alone.

        `animals` gives each with what else its value rests on; `shape` is the type of the values.
        `make` gets the animals whose values are not known and reads up to the day `on`, which may
        not count otherwise; what it gives must be the same once written and read.
        """
        first = self._stamps().get(FIRST)
        if self._kept is None or first is None or self._last_day > on.isoformat():
            return dict(make(list(animals)))
        touched = [
            self.once(("book", "stamps", kind), partial(by_animal, self.rows, kind))
            for kind in rests_on
        ]
        stamps = {
            id: (given, *(stamped.get(id, first) for stamped in touched))
            for id, given in animals.items()
        }
        return self._kept.each(key, stamps, make, shape)

    def _stamps(self) -> dict[str, str]:
        """The stamps but those of single animals' events, which are many."""
        query = "SELECT what, stamp FROM touched WHERE what NOT LIKE 'event:%:%'"
        return self.once(("book", "stamps"), lambda: dict(self.rows(query)))

    @cached_property
    def _last_day(self) -> str:
        """The last day that anything is recorded for, also a day to come; empty without any."""
        return self.rows("SELECT max(day) FROM event")[0][0] or ""

    @property
    def today(self) -> date:
        """The calendar day of `now` in the home zone."""
        return self.now.astimezone(self.home.zone).date()

    @cached_property
    def home(self) -> Home:
        """Name, zone, units and order of typed days of the collection."""
        rows = self.rows("SELECT name, zone, units, dates FROM collection")
        try:
            ((name, zone, units, dates),) = rows
            return Home(name, ZoneInfo(zone), stored_display(units), dates or "")
        except (ValueError, TypeError, KeyError, OSError, WarmsideError) as error:
            raise FileProblem(
                f"the collection's own row cannot be read ({error}); look with: warmside file check"
            ) from error

    @cached_property
    def species(self) -> dict[int, Species]:
        """All species by id."""
        rows = self.rows(
            "SELECT id, scientific, common, grp, sex_system FROM species ORDER BY scientific"
        )
        return {r[0]: Species(*r) for r in rows}

    @cached_property
    def animals(self) -> Animals:
        """All animals by id, also ancestors and those gone, in the order of their codes."""
        return Animals(self.rows, self.species)

    @cached_property
    def enclosures(self) -> dict[int, Enclosure]:
        """All enclosures by id, also retired ones, in the order of their codes."""
        rows = self.rows(
            "SELECT id, code, name, room, width_mm, depth_mm, height_mm, note, retired "
            "FROM enclosure ORDER BY code"
        )
        return {r[0]: _enclosure(r) for r in rows}

    @cached_property
    def parents(self) -> dict[int, tuple[Parent, ...]]:
        """All candidates for dam and sire of each child that has any, by the child's id.

        Dams come first, and of each role the candidate of the greatest weight.
        """
        found: dict[int, list[Parent]] = defaultdict(list)
        rows = self.rows(
            "SELECT child_id, role, parent_id, certainty, weight FROM parentage "
            "ORDER BY child_id, role, weight DESC, parent_id"
        )
        for row in rows:
            found[row[0]].append(Parent(*row))
        return {child: tuple(all) for child, all in found.items()}

    @cached_property
    def clutches(self) -> dict[int, Clutch]:
        """All clutches by id, in the order of their codes."""
        return read_clutches(self.rows)

    def young_of(self, clutch: int) -> list[Animal]:
        """The animals of a clutch, in the order of their codes."""
        return [a for a in self.animals.values() if a.clutch_id == clutch]

    def animal(self, code_or_name: str) -> Animal:
        """The animal of that code, or of that name where only one has it."""
        exactly = self.animals.coded(code_or_name)
        return exactly or named(code_or_name, self.animals.values(), "animal")

    def enclosure(self, code_or_name: str) -> Enclosure:
        """The enclosure of that code, or of that name where only one has it."""
        return named(code_or_name, self.enclosures.values(), "enclosure")

    def clutch(self, code: str) -> Clutch:
        """The clutch of that code."""
        return named(code, self.clutches.values(), "clutch")

    def species_named(self, name: str) -> Species:
        """The species of that scientific or common name, or whose name alone contains it."""
        return find(name, self.species.values())

    def events(
        self,
        *kinds: str,
        animal: int | None = None,
        enclosure: int | None = None,
        since: date | None = None,
        until: date | None = None,
        corrected: bool = False,
    ) -> list[Event]:
        """Events of these kinds (of all, if none is named), oldest first, both days included."""
        return self._events(*events_query(kinds, animal, enclosure, since, until, corrected))

    def newest(
        self, kind: str, animals: Collection[int], on: date, most: int
    ) -> list[tuple[int, date, Mapping[str, Any], int]]:
        """(animal id, day, data, event id) of the `most` newest events of a kind, each animal's."""
        rows = self.rows(*newest_query(kind, animals, on, most))
        return [(animal, _day(day), _parsed(data), id) for animal, day, data, id in rows]

    def event(self, id: int) -> Event:
        """One event by its number, corrected or not."""
        number = min(id, LARGEST)
        found = self._events(f"SELECT {EVENT_COLUMNS} FROM event WHERE id = ?", [number])
        if not found:
            raise NotFound(f"there is no event {id}; numbers are in: warmside history")
        return found[0]

    def _events(self, sql: str, values: Sequence[Any]) -> list[Event]:
        return [event_from(r) for r in self.rows(sql, values)]

    def latest_of(self, animal: int, *kinds: str, on: date | None = None) -> dict[str, Event]:
        """As `latest`, for one animal alone: kind → event."""
        query = latest_query("animal", list(kinds), on or self.today, animal)
        return {e.kind: e for e in self._events(*query)}

    def latest(self, *kinds: str, on: date | None = None) -> dict[str, Mapping[int, Event]]:
        """The last event of each kind for each animal up to a day: kind → animal id → event."""
        return self._latest_of("animal", kinds, on or self.today)

    def latest_in(self, *kinds: str, on: date | None = None) -> dict[str, Mapping[int, Event]]:
        """As `latest`, for each enclosure: kind → enclosure id → event."""
        return self._latest_of("enclosure", kinds, on or self.today)

    def _latest_of(
        self, subject: str, kinds: tuple[str, ...], on: date
    ) -> dict[str, Mapping[int, Event]]:
        known = self._latest.setdefault((subject, on), {})
        missing = [k for k in dict.fromkeys(kinds) if k not in known]
        if missing:
            whole = cache(lambda: self._latest_of_all(subject, missing, on))
            for kind in missing:
                one = partial(self._latest_of_one, subject, kind, on)
                known[kind] = FewFirst(one, lambda kind=kind: whole()[kind])  # type: ignore[misc]
        return {k: known[k].settled for k in kinds}

    def _latest_of_one(self, subject: str, kind: str, on: date, id: int) -> Event | None:
        return next(iter(self._events(*latest_query(subject, [kind], on, id))), None)

    def _latest_of_all(
        self, subject: str, kinds: Sequence[str], on: date
    ) -> dict[str, dict[int, Event]]:
        found: dict[str, dict[int, Event]] = {kind: {} for kind in kinds}
        for event in self._events(*latest_query(subject, kinds, on)):
            about = event.animal_id if subject == "animal" else event.enclosure_id
            assert about is not None
            found[event.kind][about] = event
        return found

    def whereabouts(self, on: date | None = None) -> Mapping[int, Whereabouts]:
        """Who holds each animal on a day, and which enclosure it is in.

        Walked through, it gives those that ever came, in the order of their codes; asked for
        another, that it was never here.
        """
        day = on or self.today
        if day not in self._whereabouts:
            one = partial(self.whereabouts_of, on=day)
            self._whereabouts[day] = FewFirst(one, lambda: self._whereabouts_of_all(day))
        return self._whereabouts[day].settled

    def _whereabouts_of_all(self, day: date) -> Held:
        mine: dict[int, list[Event]] = defaultdict(list)
        for last in self.latest(*WHEREABOUTS_KINDS, on=day).values():
            for animal_id, event in last.items():
                mine[animal_id].append(event)
        known = sorted(mine, key=lambda id: self.animals[id].code.lower())
        return Held({id: latest(mine[id]) for id in known})

    def whereabouts_of(self, animal: int, on: date | None = None) -> Whereabouts:
        """As `whereabouts`, for one animal alone."""
        return latest(self.latest_of(animal, *WHEREABOUTS_KINDS, on=on).values())

    def whereabouts_history(self, animal: int, until: date | None = None) -> list[Whereabouts]:
        """Where one animal was and who held it, oldest first, up to a day."""
        return history(self.events(*WHEREABOUTS_KINDS, animal=animal, until=until))

    def animals_here(self, on: date | None = None) -> Mapping[int, Whereabouts]:
        """The animals in the keeper's care on a day, with their enclosures."""
        day = on or self.today
        where = self.whereabouts(day)
        one = lambda id: where[id] if where[id].custody.is_here else None  # noqa: E731
        whole = lambda: {a: w for a, w in where.items() if w.custody.is_here}  # noqa: E731
        make = partial(FewFirst, one, whole)
        here: FewFirst[Whereabouts] = self.once(("book", "animals here", day), make)
        return here.settled

    def occupants(self, on: date | None = None) -> Mapping[int, tuple[int, ...]]:
        """The animals in each enclosure on a day, by enclosure id."""
        day = on or self.today
        one, whole = partial(self._occupants_of, day), partial(self._occupants, day)
        make = partial(FewFirst, one, whole)
        inside: FewFirst[tuple[int, ...]] = self.once(("book", "occupants", day), make)
        return inside.settled

    def _occupants(self, day: date) -> dict[int, tuple[int, ...]]:
        found: dict[int, list[int]] = defaultdict(list)
        for animal_id, where in self.animals_here(day).items():
            if where.enclosure_id is not None:
                found[where.enclosure_id].append(animal_id)
        return {e: tuple(a) for e, a in found.items()}

    def _occupants_of(self, day: date, enclosure: int) -> tuple[int, ...] | None:
        """Those in one enclosure, of all that were ever put there; None where it is empty."""
        placed = self.rows(*placed_query(PLACING_KINDS, enclosure, day))
        here = self.animals_here(day)
        inside = [a for (a,) in placed if a in here and here[a].enclosure_id == enclosure]
        return tuple(sorted(inside, key=lambda id: self.animals[id].code.lower())) or None

    @cached_property
    def pictures(self) -> dict[int, Picture]:
        """All pictures and papers by their numbers, the oldest day first."""
        rows = self.rows(f"SELECT {PICTURE_COLUMNS} FROM picture ORDER BY day, id")
        return {r[0]: picture_from(r) for r in rows}

    def pictures_of(
        self,
        *,
        animal: int | None = None,
        enclosure: int | None = None,
        event: int | None = None,
        thing: tuple[str, int] | None = None,
    ) -> list[Picture]:
        """Pictures and papers of what is named, the oldest day first; a thing as `health.paper`, 3.

        Those of an animal are its own, also the ones that show an event of it.
        """
        kind, number = thing or (None, None)
        wanted = (
            ("animal_id", animal),
            ("enclosure_id", enclosure),
            ("event_id", event),
            ("thing", kind),
            ("thing_id", number),
        )
        given = [(name, value) for name, value in wanted if value is not None]
        pictures = self.pictures.values()
        return [p for p in pictures if all(getattr(p, n) == value for n, value in given)]

    def steps(self, newest: int = 20) -> list[Step]:
        """The last steps, newest first."""
        rows = self.rows(
            "SELECT id, at, kind, words, of, undone_by, by FROM step ORDER BY id DESC LIMIT ?",
            [newest],
        )
        return [Step(r[0], parse_instant(r[1]), *r[2:]) for r in rows]

    @cached_property
    def stored_settings(self) -> dict[str, Mapping[str, Any]]:
        """The settings that the keeper changed, by plugin, also of plugins not at work."""
        rows = self.rows("SELECT name, settings FROM plugin_state")
        return {name: decode(text) for name, text in rows}


def take_over(book: Book, earlier: Book, touched: Collection[str]) -> None:
    """Give a book what an earlier one has read of tables that were not touched since."""
    for name, tables in _RESTS_ON.items():
        if name in earlier.__dict__ and tables.isdisjoint(touched):
            known = earlier.__dict__[name]
            book.__dict__[name] = known.read_by(book.rows) if name == "animals" else known


_day = lru_cache(maxsize=4096)(date.fromisoformat)


@lru_cache(maxsize=4096)
def _parsed(data: str) -> Mapping[str, Any]:
    """Event data, not to be written to: keepers do the same again and again, so texts repeat."""
    return MappingProxyType(decode(data))


def _enclosure(row: tuple[Any, ...]) -> Enclosure:
    id, code, name, room, width, depth, height, note, retired = row
    return Enclosure(id, code, name, room, width, depth, height, note, bool(retired))
