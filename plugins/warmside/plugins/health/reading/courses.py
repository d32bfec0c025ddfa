"""The courses on record: orders, doses and bottles as plain values."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime, time

from warmside.api import Animal, Book, Event, NotFound, quoted
from warmside.plugins.health.courses.amount import amount_of
from warmside.plugins.health.courses.bottle import Bottle
from warmside.plugins.health.courses.interval import hours_of
from warmside.plugins.health.courses.order import GIVEN, Course, Dose, Order
from warmside.plugins.health.courses.schedule import course, horizon
from warmside.plugins.health.courses.weight import goes_by_weight
from warmside.plugins.health.kinds import BOTTLE, COURSE, FROM_LAST, TREATED


def same_name(one: str, other: str) -> bool:
    """Whether two names of a medicine are the same but for case and blanks."""
    return name_key(one) == name_key(other)


def name_key(what: str) -> str:
    """A medicine's name without case and outer blanks."""
    return " ".join(what.casefold().split())


def order(event: Event) -> Order:
    """An event as an order; BadInput where its interval or amount cannot be read."""
    said = event.data
    return Order(
        event.id,
        said["what"],
        said["dose"],
        hours_of(said["every"] or "once"),
        _day(said["start"]) or event.day,
        time.fromisoformat(said["clock"]) if said["clock"] else None,
        _day(said["until"]),
        said["doses"],
        said["counted"] == FROM_LAST,
        said["window_hours"],
        amount_of(said["amount"]) if said["amount"] else None,
        said["way"],
        said["food"] or "",
        said["watch"],
        said["by"],
        said["mass_g"],
    )


def dose(book: Book, event: Event) -> Dose:
    """A treatment that was recorded, on the home zone's clock."""
    at = event.at.astimezone(book.home.zone).replace(tzinfo=None) if event.at else None
    planned = event.data.get("planned") or ""
    return Dose(
        event.id,
        event.day,
        event.data.get("outcome") or GIVEN,
        at,
        datetime.fromisoformat(planned) if planned else None,
    )


def bottle(event: Event) -> Bottle:
    """An event as a bottle; BadInput where what it holds cannot be read."""
    said = event.data
    holds = amount_of(said["holds"], "holds")
    return Bottle(event.id, event.day, said["of"], holds, _day(said["expires"]), said["storage"])


def courses_of(book: Book, animal: int, on: date) -> list[Course]:
    """All courses of an animal that were ordered by a day, the oldest first."""
    return book.once(("health", "courses", animal, on), lambda: _courses_of(book, animal, on))


def _courses_of(book: Book, animal: int, on: date) -> list[Course]:
    orders = sorted(
        (order(e) for e in book.events(COURSE, animal=animal, until=on)),
        key=lambda o: (o.start, o.event),
    )
    doses = [(e.data["what"], dose(book, e)) for e in book.events(TREATED, animal=animal, until=on)]
    found = []
    for number, one in enumerate(orders):
        later = [o for o in orders[number + 1 :] if same_name(o.what, one.what)]
        replaced = later[0].start if later else None
        earlier = any(same_name(o.what, one.what) for o in orders[:number])
        mine = [
            d
            for what, d in doses
            if same_name(what, one.what)
            and (replaced is None or d.day < replaced)
            and (d.day >= one.start or not earlier)
        ]
        found.append(course(one, mine, horizon(one, on), replaced))
    return found


def bottle_of(book: Book, animal: int, what: str, on: date) -> Bottle | None:
    """The newest bottle of a medicine."""
    events = book.events(BOTTLE, animal=animal, until=on)
    return next((bottle(e) for e in reversed(list(events)) if same_name(e.data["of"], what)), None)


def bottles_of(book: Book, animal: int, courses: Iterable[Course], on: date) -> dict[int, Bottle]:
    """The newest bottle of each course's medicine, by the event of its order."""
    found = ((c, bottle_of(book, animal, c.order.what, on)) for c in courses)
    return {c.order.event: has for c, has in found if has is not None}


def weights(book: Book, animal: int, one: Order, on: date) -> tuple[Event | None, Event | None]:
    """The newest weighing by the day of the order, and the newest of all; the same where none came
    after."""
    weighed = book.events("weighed", animal=animal, until=on)
    ordered = book.event(one.event).order
    by_then = [e for e in weighed if e.order < ordered]
    return (by_then[-1] if by_then else None, weighed[-1] if weighed else None)


def mass_of_order(one: Order, weighed: Event | None) -> float | None:
    """The mass that a dose goes by: as ordered, else as weighed last where its words name one."""
    if one.at_mass_g is not None:
        return one.at_mass_g
    return weighed.data["mass_g"] if weighed and goes_by_weight(one.dose) else None


def wall_now(book: Book, on: date) -> datetime:
    """What the clock of the home zone shows on a day: now today, else the day's first moment."""
    if on == book.today:
        return book.now.astimezone(book.home.zone).replace(tzinfo=None)
    return datetime.combine(on, time())


def _day(text: str | None) -> date | None:
    return date.fromisoformat(text) if text else None


def running_named(book: Book, animal: Animal, what: str, on: date) -> Course:
    """The course of that medicine that runs on a day; NotFound names those that do."""
    running = [c for c in courses_of(book, animal.id, on) if c.runs(on)]
    found = [c for c in running if same_name(c.order.what, what)]
    if not found:
        names = [c.order.what for c in running]
        listed = f"; what runs: {', '.join(names)}" if names else "; none runs"
        raise NotFound(f"{animal.label} has no course of {quoted(what)} on {on}{listed}")
    return found[-1]
