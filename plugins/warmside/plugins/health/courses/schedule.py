"""The doses of an order on the wall's clock, and which record stands for which.

A dose every 12 hours is one at 08:00 and one at 20:00 on the wall, also where the clock is set
forward or back between them. A time that the clock jumps over is given when it shows the time after
the jump; of an hour that comes twice, the first counts.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import UTC, date, datetime, time, timedelta
from math import ceil, floor
from zoneinfo import ZoneInfo

from warmside.plugins.health.courses.order import MISSED, STOPPED, Course, Dose, Order, Slot


def on_the_wall(planned: datetime, zone: ZoneInfo) -> datetime:
    """What the clock of a zone shows at a planned time: later where it jumped over it."""
    aware = planned.replace(tzinfo=zone)
    return aware.astimezone(UTC).astimezone(zone).replace(tzinfo=None)


def course(order: Order, doses: Iterable[Dose], until: date, replaced: date | None) -> Course:
    """The order with its doses up to a day; another order of the medicine may have replaced it."""
    known = sorted(doses, key=lambda d: d.sorted_by)
    stopped = next((d for d in known if d.outcome == STOPPED), None)
    tried = [d for d in known if d.outcome != STOPPED and (stopped is None or d.day <= stopped.day)]
    slots, extra = (_from_last if order.from_last else _by_plan)(order, tried, until)
    kept = [s for s in slots if s.dose or not _is_past_end(s, stopped, replaced)]
    return Course(order, tuple(kept), tuple(extra), stopped, replaced)


def _is_past_end(slot: Slot, stopped: Dose | None, replaced: date | None) -> bool:
    if replaced is not None and slot.planned.date() >= replaced:
        return True
    if stopped is None:
        return False
    if stopped.at is not None:
        return slot.planned >= stopped.at
    return slot.planned.date() >= stopped.day


def planned(order: Order, until: date) -> Iterator[datetime]:
    """The times of an order up to a day, by the plan."""
    count = order.count if order.hours else 1
    last = min(until, order.until or until)
    at, number = order.first, 0
    while at.date() <= last and (count is None or number < count):
        yield at
        at, number = at + order.step, number + 1


def _by_plan(order: Order, doses: Sequence[Dose], until: date) -> tuple[list[Slot], list[Dose]]:
    """Each dose at the planned one that it is nearest to, one for each."""
    times = list(planned(order, until))
    filled: dict[int, Dose] = {}
    extra = []
    for dose in doses:
        number = next((n for n in _near(order, dose, times) if n not in filled), None)
        if number is None:
            extra.append(dose)
        else:
            filled[number] = dose
    return [Slot(at, filled.get(n)) for n, at in enumerate(times)], extra


def _near(order: Order, dose: Dose, times: Sequence[datetime]) -> Iterator[int]:
    """The numbers of planned doses that a record may stand for, the likeliest first."""
    if dose.planned in times:
        yield times.index(dose.planned)
        return
    if dose.at is None and order.clock is not None:
        yield from (n for n, at in enumerate(times) if at.date() == dose.day)
        return
    at = dose.at if dose.at and order.clock else datetime.combine(dose.day, time())
    place = (at - order.first) / order.step if order.hours else 0.0
    close = sorted({floor(place), ceil(place)}, key=lambda n: abs(n - place))
    yield from (n for n in close if abs(n - place) <= 0.5 and 0 <= n < len(times))


def _from_last(order: Order, doses: Sequence[Dose], until: date) -> tuple[list[Slot], list[Dose]]:
    """Each dose an interval after the one before; one too soon for that is beyond the order."""
    slots: list[Slot] = []
    extra: list[Dose] = []
    due, last = order.first, None
    for dose in doses:
        at = _moment(order, dose, due)
        if order.count == len(slots) or (last is not None and at - last < order.step / 2):
            extra.append(dose)
            continue
        slots.append(Slot(due, dose))
        last = at
        due = at + order.step
    final = min(until, order.until or until)
    count = order.count if order.hours else 1
    while due.date() <= final and (count is None or len(slots) < count):
        slots.append(Slot(due))
        due += order.step
    return slots, extra


def _moment(order: Order, dose: Dose, due: datetime) -> datetime:
    """From when the next dose is counted: a missed one from its own time."""
    if dose.outcome == MISSED:
        return dose.planned or due
    if order.clock is None:
        return datetime.combine(dose.day, time())
    return dose.at or dose.planned or datetime.combine(dose.day, due.time())


def unrecorded(one: Course, on: date) -> list[Slot]:
    """Doses of days before a day of which nothing is on record."""
    return [s for s in one.slots if s.dose is None and s.planned.date() < on]


def due_on(one: Course, on: date) -> list[Slot]:
    """Doses of a day of which nothing is on record; from the last dose on only the next one."""
    if one.order.from_last:
        following = next((s for s in one.slots if s.dose is None), None)
        return [following] if following and following.planned.date() <= on else []
    return [s for s in one.slots if s.dose is None and s.planned.date() == on]


def next_dose(one: Course, after: datetime) -> Slot | None:
    """The first dose without a record at a moment or later."""
    return next((s for s in one.slots if s.dose is None and s.planned >= after), None)


def horizon(order: Order, on: date) -> date:
    """A day by which a few doses after a day are known, for what comes next."""
    return on + max(timedelta(days=2), order.step * 2)
