"""The seasons on record: what was seen of each female, her figures, her fitness."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from msgspec import Struct

from warmside.api import About, Animal, Ask, Book, Event
from warmside.plugins.lineage.kinds import CYCLE
from warmside.plugins.lineage.season.course import SEASON_DAYS, Course, Seen, Sign, course_of
from warmside.plugins.lineage.season.figures import SeasonFigures, season_figures
from warmside.plugins.lineage.season.gates import Fitness, Limit, Limits
from warmside.plugins.lineage.season.overdue import Late, late
from warmside.plugins.lineage.season.windows import Window, window_of

STARTS = ("gravid", CYCLE, "mated")
OF_GRAVID = {"suspected": Sign.SUSPECTED, "confirmed": Sign.CONFIRMED, "over": Sign.OVER}
OF_CYCLE = {
    "ovulation": Sign.OVULATION,
    "pre-lay shed": Sign.LAYING_SHED,
    "laying begun": Sign.LAYING,
}


class Season(Struct, frozen=True):
    """One female's season: its course, what ships of her species, her window, what is late."""

    animal: Animal
    course: Course
    figures: SeasonFigures | None
    window: Window | None
    late: Late | None


def figures_of(ask: Ask, animal: Animal) -> SeasonFigures | None:
    """What ships of the season of an animal's species, also by an older name."""
    own = season_figures(animal.species.scientific)
    if own is not None:
        return own
    known = ask.figures(animal.species)
    return season_figures(known.scientific) if known else None


def seasons(ask: Ask, on: date) -> list[Season]:
    """The females of which anything was seen since they last laid, by their codes."""
    return ask.book.once(("lineage", "seasons", on), lambda: list(_seasons(ask, on)))


def _seasons(ask: Ask, on: date) -> Iterator[Season]:
    since = on - timedelta(days=SEASON_DAYS)
    events = ask.book.events(*STARTS, since=since, until=on)
    females = {id for e in events for id in _female(ask.book, e)}
    gone = {e.animal_id for e in ask.book.events("died", until=on)} if females else set()
    found = [ask.book.animals[id] for id in females - gone]
    for animal in sorted(found, key=lambda a: a.code):
        season = season_of(ask, animal, on)
        if season.course.signs:
            yield season


def _female(book: Book, event: Event) -> Iterator[int]:
    """Whose season an event tells of: a mating may stand with the male."""
    both: tuple[int | None, ...] = (event.animal_id, event.data.get("partner_animal_id"))
    yield from (id for id in both if id is not None and book.animals[id].sex != "male")


def season_of(ask: Ask, animal: Animal, on: date) -> Season:
    """The season of one female."""
    figures = figures_of(ask, animal)
    shed_from = figures.shed_from if figures else None
    course = course_of(_seen(ask.book, animal, on), on, shed_from)
    window = window_of(course, figures)
    days = float(ask.setting("lineage", "late_days", About(animal.id)))
    live = bool(figures and figures.bears_live)
    found = late(course, window, days, on, bears_live=live, group=animal.species.group)
    return Season(animal, course, figures, window, found)


def _seen(book: Book, animal: Animal, on: date) -> Iterator[Seen]:
    since = on - timedelta(days=SEASON_DAYS)
    for event in book.events("gravid", CYCLE, "shed", "laid", animal=animal.id, until=on):
        if event.day >= since or event.kind == "laid":
            yield from _sign(event)
    yield from _matings(book, on).get(animal.id, ())
    told = {e.data.get("clutch_id") for e in book.events("laid", animal=animal.id, until=on)}
    for clutch in book.clutches.values():
        if clutch.dam_id == animal.id and clutch.laid and clutch.id not in told:
            yield Seen(Sign.LAID, clutch.laid)


def _matings(book: Book, on: date) -> dict[int, list[Seen]]:
    """The matings of each animal of late, whichever of both they were written of."""
    return book.once(("lineage", "matings", on), lambda: _by_animal(book, on))


def _by_animal(book: Book, on: date) -> dict[int, list[Seen]]:
    found: dict[int, list[Seen]] = {}
    for event in book.events("mated", since=on - timedelta(days=SEASON_DAYS), until=on):
        both = event.animal_id, event.data.get("partner_animal_id")
        for mine, other in (both, both[::-1]):
            if mine is not None:
                seen = Seen(Sign.MATED, event.day, event.id, other)
                found.setdefault(mine, []).append(seen)
    return found


def _sign(event: Event) -> Iterator[Seen]:
    signs = {"shed": Sign.SHED, "laid": Sign.LAID}
    if event.kind == "gravid":
        yield Seen(OF_GRAVID[event.data["state"]], event.day, event.id)
    elif event.kind == CYCLE:
        sign = OF_CYCLE.get(event.data["seen"])
        yield from () if sign is None else (Seen(sign, event.day, event.id),)
    else:
        yield Seen(signs[event.kind], event.day, event.id)


def fitness(ask: Ask, animal: Animal, on: date) -> Fitness:
    """What is known of an animal that its gates are held against."""
    latest = ask.book.latest_of(animal.id, "weighed", "condition", on=on)
    weighed, scored = latest.get("weighed"), latest.get("condition")
    course = season_of(ask, animal, on).course if animal.sex == "female" else Course()
    return Fitness(
        sex=animal.sex,
        mass_g=weighed.data["mass_g"] if weighed else None,
        weighed=weighed.day if weighed else None,
        hatched=animal.hatched,
        condition=scored.data["score"] if scored else None,
        scored=scored.day if scored else None,
        last_laid=course.last_laid.day if course.last_laid else None,
        carries=course.carries,
        events=tuple(e.id for e in (weighed, scored) if e),
    )


def limits_of(ask: Ask, animal: Animal) -> Limits:
    """The gates that hold for an animal."""
    sex = "male" if animal.sex == "male" else "female"
    found = (_limit(ask, animal, n) for n in (f"{sex}_mass", f"{sex}_age", "rest_days"))
    return Limits(*found)


def _limit(ask: Ask, animal: Animal, name: str) -> Limit:
    found = ask.value("lineage", name, About(animal.id))
    return Limit(float(found.value), found.basis)


def meant(ask: Ask, on: date) -> set[tuple[int, int]]:
    """Dam and sire of each pair that the keeper planned, put together or saw mate."""
    book = ask.book
    events = [
        *book.events("pairing", since=on - timedelta(days=365), until=on),
        *book.events("mated", since=on - timedelta(days=60), until=on),
    ]
    found = set()
    for event in events:
        one, other = event.animal_id, event.data.get("partner_animal_id")
        if one is not None and other is not None:
            found |= {(one, other), (other, one)}
    return found
