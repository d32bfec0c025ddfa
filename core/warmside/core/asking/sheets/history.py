"""The history that a vet asks for, each part in few words: weight, food, droppings, sheds, housing,
company, treatment, breeding."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from warmside.core.answers.parts import Part, Section, Table, Words
from warmside.core.asking.ask import Ask
from warmside.core.asking.sheets.company import company
from warmside.core.asking.sheets.housing import housing
from warmside.core.asking.sheets.meals import meals
from warmside.core.asking.sheets.weight_told import weight
from warmside.core.asking.subjects.recorded import columns_for, event_row
from warmside.core.plugins.sheets import Place
from warmside.core.record.entities import Animal, Event
from warmside.core.values.counts import counted
from warmside.core.values.moments import days_ago_words

SEASON = timedelta(days=90)
BREEDING = ("mated", "gravid", "laid", "hatched")
TREATED = ("examined", "treated")
LAST_SHEDS, LAST_TREATED = 3, 6
NORMAL = "normal"


def sections_of_history(
    ask: Ask, animal: Animal, since: date, on: date, *, whole: bool
) -> Iterator[Section]:
    """Each part of the history; `whole` adds every event of the span at the end."""
    yield Section("Weight", weight(ask, animal, since, on), Place.WEIGHT)
    yield Section("Food", _food(ask, animal, on), Place.FOOD)
    yield Section("Droppings", _droppings(ask, animal, on), Place.DROPPINGS)
    yield Section("Sheds", _sheds(ask, animal, on), Place.SHEDS)
    yield Section("Housing", housing(ask, animal, on), Place.HOUSING)
    yield Section("Company", company(ask, animal, since, on), Place.CONTACTS)
    yield Section("Treatment", _treatment(ask, animal, since, on), Place.TREATMENT)
    bred = ask.book.events(*BREEDING, animal=animal.id, since=since, until=on)
    if bred:
        yield Section("Breeding", _told(ask, bred), Place.BREEDING)
    if whole:
        events = ask.book.events(animal=animal.id, since=since, until=on)
        rows = tuple(event_row(ask, event) for event in events)
        columns = columns_for(events, one_animal=True)
        yield Section("All on record of a year", (Table("events", columns, rows),), 10_000)


def _food(ask: Ask, animal: Animal, on: date) -> tuple[Part, ...]:
    fed = ask.book.events("fed", animal=animal.id, until=on)
    found = meals(fed, on - SEASON)
    if found.last is None:
        eaten = "no meal that was eaten is on record"
    else:
        eaten = f"last eaten {_when(found.last, on)}: {_words(ask, found.last)}"
    told = "; ".join(filter(None, (eaten, found.since_words)))
    back = [e for e in fed if e.data["outcome"] == "regurgitated"]
    brought_up = f"; last brought up {_when(back[-1], on)}" if back else ""
    return (Words(told), Words(f"in the last {SEASON.days} days: {found.words}{brought_up}"))


def _droppings(ask: Ask, animal: Animal, on: date) -> tuple[Part, ...]:
    seen = ask.book.events("defecated", animal=animal.id, until=on)
    if not seen:
        return (Words("none is on record"),)
    odd = [e for e in seen if e.day >= on - SEASON and e.data["looks"] != NORMAL]
    told = [f"last {_when(seen[-1], on)}: {_words(ask, seen[-1])}"]
    if odd:
        listed = ", ".join(f"{e.data['looks']} on {e.day}" for e in odd[-LAST_SHEDS:])
        told.append(f"odd ones in the last {SEASON.days} days: {listed}")
    return (Words("; ".join(told)),)


def _sheds(ask: Ask, animal: Animal, on: date) -> tuple[Part, ...]:
    sheds = ask.book.events("shed", animal=animal.id, until=on)
    stages = ask.book.events("shedding", animal=animal.id, until=on)
    told = [f"{_when(e, on)}: {_words(ask, e)}" for e in reversed(sheds[-LAST_SHEDS:])]
    if stages and (not sheds or stages[-1].order > sheds[-1].order):
        told.insert(0, f"{stages[-1].data['stage']} since {stages[-1].day}")
    return (Words("; ".join(told) or "none is on record"),)


def _treatment(ask: Ask, animal: Animal, since: date, on: date) -> tuple[Part, ...]:
    events = ask.book.events(*TREATED, animal=animal.id, since=since, until=on)
    if not events:
        return (Words("no visit to a vet and no dose given is on record for a year"),)
    left = len(events) - LAST_TREATED
    more = (Words(f"and {counted(left, 'entry', 'entries')} before"),) if left > 0 else ()
    return (*_told(ask, events[-LAST_TREATED:]), *more)


def _told(ask: Ask, events: Sequence[Event]) -> tuple[Words, ...]:
    """A line for each event, the newest first."""
    return tuple(Words(f"{e.day}: {ask.event_words(e)}") for e in reversed(events))


def _when(event: Event, on: date) -> str:
    """`2026-03-01 (4 days ago)`."""
    return f"{event.day} ({days_ago_words(event.day, on)})"


def _words(ask: Ask, event: Event) -> str:
    """The event without the title of its kind, which the section has said."""
    return ask.event_words(event).removeprefix(f"{ask.kind(event.kind).title}: ")
