"""The round: tasks in the order in which enclosures are cared for."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from enum import StrEnum
from functools import cached_property

from msgspec import Struct
from msgspec.structs import replace

from warmside.core.plugins.hook_values import CareRank, Task

FIRST = CareRank(0, 0, "")


class Pace(StrEnum):
    """How much a task presses on a day."""

    OVERDUE = "overdue"
    TODAY = "today"
    MAY = "may be done"


_PACES = list(Pace)


class Stop(Struct, frozen=True, dict=True):
    """One task of the round, with the plugin that asks for it and where it is done.

    `also` holds tasks of other plugins that the same event settles.
    """

    plugin: str
    task: Task
    enclosure_id: int | None
    room: str
    rank: CareRank
    also: tuple[tuple[str, Task], ...] = ()

    @property
    def every_days(self) -> int | None:
        """After how many days it is due again once it is done; the shortest, if several ask."""
        tasks = (self.task, *(task for _, task in self.also))
        return min((t.every_days for t in tasks if t.every_days), default=None)

    @cached_property
    def last_day(self) -> date | None:
        """The last day on which it is in time for all that ask; None where it is never late."""
        tasks = (self.task, *(task for _, task in self.also))
        return min((t.by or t.due for t in tasks if not t.may), default=None)

    def late_days(self, on: date) -> int:
        """For how many days it has been late."""
        last = self.last_day
        return max(0, (on - last).days) if last else 0

    def pace(self, on: date) -> Pace:
        """Whether it is late, to be done on that day, or may wait."""
        last = self.last_day
        if last is None or last > on:
            return Pace.MAY
        return Pace.OVERDUE if last < on else Pace.TODAY

    @property
    def key(self) -> str:
        """What makes the task the very one that was shown, its words too."""
        return self._joined(self.task.what)

    @property
    def identity(self) -> str:
        """What makes it the same task from day to day, for calendars."""
        return self._joined(self.task.key or self.task.what)

    def _joined(self, name: str) -> str:
        t = self.task
        parts = (self.plugin, t.about.animal_id, t.about.enclosure_id, t.settles, name)
        return "|".join(str(x) for x in parts)


class Keyed(Struct, frozen=True):
    """Whom a task that was shown is about, and the kind of event that settles it, by its key."""

    animal_id: int | None
    enclosure_id: int | None
    settles: str


def keyed(key: str) -> Keyed | None:
    """What a task's key says; None for a text that is none."""
    plugin, *parts = key.split("|", 4)
    if not plugin or len(parts) != 4 or not all(p == "None" or p.isdigit() for p in parts[:2]):
        return None
    animal, place = (None if p == "None" else int(p) for p in parts[:2])
    return Keyed(animal, place, parts[2])


def ordered(
    tasks: Iterable[tuple[str, Task]],
    places: Mapping[int, int],
    rooms: Mapping[int, str],
    ranks: Iterable[CareRank],
    on: date,
) -> list[Stop]:
    """Tasks due up to `on`: by care order and its group, then what is late, due, and may wait.

    Within these by room, enclosure, and longest due first. What presses never breaks the order of
    care: residents come before those in quarantine, however late a task there is.

    `places` gives the enclosure of each animal, `rooms` the room of each enclosure. Of several
    ranks for one enclosure the latest counts.
    """
    latest: dict[int, CareRank] = {}
    for rank in sorted(ranks, key=lambda r: (r.rank, r.group)):
        latest[rank.enclosure_id] = rank
    stops = []
    for plugin, task in tasks:
        if task.due <= on:
            place = task.about.enclosure_id
            if place is None and task.about.animal_id is not None:
                place = places.get(task.about.animal_id)
            room = rooms.get(place, "") if place is not None else ""
            rank = latest.get(place, FIRST) if place is not None else FIRST
            stops.append(Stop(plugin, task, place, room, rank))
    return sorted(_merged(stops), key=lambda stop: _order(stop, on))


def _merged(stops: Iterable[Stop]) -> list[Stop]:
    """The stops, those that one event settles made one: the one that knows most speaks."""
    found: dict[tuple[object, ...], list[Stop]] = {}
    for stop in sorted(stops, key=_most_known_first):
        t = stop.task
        near = found.setdefault((t.settles, t.about), [])
        same = next((n for n, s in enumerate(near) if _one_event_settles(s.task, t)), None)
        if same is None:
            near.append(stop)
        else:
            first = near[same]
            near[same] = replace(first, also=(*first.also, (stop.plugin, t)))
    return [stop for near in found.values() for stop in near]


def _most_known_first(stop: Stop) -> tuple[object, ...]:
    return (-len(stop.task.data), stop.task.due, stop.plugin, stop.task.what)


def _one_event_settles(one: Task, other: Task) -> bool:
    if not one.settles:
        return False
    shared = set(one.data) & set(other.data)
    return all(one.data[name] == other.data[name] for name in shared)


def _order(stop: Stop, on: date) -> tuple[object, ...]:
    task = stop.task
    return (
        stop.rank.rank,
        stop.rank.group,
        _PACES.index(stop.pace(on)),
        stop.room,
        stop.enclosure_id or 0,
        task.due,
        task.about.animal_id or 0,
        task.about.enclosure_id or 0,
        task.what,
        stop.plugin,
    )


def before_each(stops: list[Stop]) -> tuple[tuple[int, str], ...]:
    """Where the care group changes: the index of its first task, and what is said before it."""
    found = []
    last = ""
    for index, stop in enumerate(stops):
        if stop.rank.group != last and stop.rank.before:
            found.append((index, stop.rank.before))
        last = stop.rank.group
    return tuple(found)


def paces(stops: list[Stop], on: date) -> tuple[tuple[int, str], ...]:
    """Where the pace changes: the index of its first task, and the pace.

    Only in the care group that comes first: a later one is short, and has its own line before it.
    """
    marks = [stop.pace(on).value for stop in stops if stop.rank.group == stops[0].rank.group]
    before = [None, *marks]
    return tuple((n, mark) for n, mark in enumerate(marks) if mark != before[n])
