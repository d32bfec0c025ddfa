"""The quarantines of a collection on a day, computed from its record once a snapshot."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from warmside.api import About, Animal, Ask, Book, Event, WarmsideError
from warmside.plugins.quarantine.clock.missing import missing_end_of
from warmside.plugins.quarantine.clock.state import QuarantineState
from warmside.plugins.quarantine.clock.timeline import quarantines, running
from warmside.plugins.quarantine.kinds import RELEASED, RESULTED, STARTED
from warmside.plugins.quarantine.odds.methods import agents_of
from warmside.plugins.quarantine.reading.events import CAME, current, events_of
from warmside.plugins.quarantine.reading.stored import NAME, originals, protocols

Course = tuple[Animal, QuarantineState]


class Standing(Struct, frozen=True):
    """The animals in quarantine here, by animal id, and those whose record cannot be computed."""

    states: dict[int, QuarantineState]
    troubles: dict[int, str]


def asked_about(book: Book, about: About | None, on: date) -> Collection[int]:
    """The animals here that a question is about: all (None), one, or those in an enclosure."""
    here = book.animals_here(on)
    if about is None:
        return here
    if about.animal_id is not None:
        return {about.animal_id} & here.keys()
    return book.occupants(on).get(about.enclosure_id or 0, ())


def quarantines_of(ask: Ask, animal_id: int, on: date) -> tuple[QuarantineState, ...]:
    """Every quarantine of an animal up to a day, oldest first."""

    def make() -> tuple[QuarantineState, ...]:
        events = events_of(ask.book, animal_id, on)
        if not events:
            return ()
        found = quarantines(events, protocols(ask), on, originals(ask.book))
        return (*found[:-1], _with_treatment(ask, animal_id, found[-1], on)) if found else ()

    return ask.book.once((NAME, "quarantines", animal_id, on), make)


def _with_treatment(ask: Ask, animal_id: int, state: QuarantineState, on: date) -> QuarantineState:
    """The same with a treatment, of which another plugin knows, as what release waits for."""
    if not state.running:
        return state
    told = [a.given.basis.rule for a in ask.answers("treatment", About(animal_id), on)]
    return replace(state, missing=(*missing_end_of(told, on), *state.missing)) if told else state


def computable(ask: Ask, animal_id: int, on: date) -> tuple[QuarantineState, ...]:
    """As `quarantines_of`; none where they cannot be computed, which others say."""
    try:
        return quarantines_of(ask, animal_id, on)
    except WarmsideError:
        return ()


def running_of(ask: Ask, animal_id: int, on: date) -> QuarantineState | None:
    """The quarantine that an animal is in on a day; none where it is not here."""
    if animal_id not in ask.book.animals_here(on):
        return None
    return running(quarantines_of(ask, animal_id, on))


def standing(ask: Ask, on: date, asked: Collection[int] | None = None) -> Standing:
    """The quarantines of the animals here on a day, of all or of those asked about, in order."""
    key = (NAME, "standing", on, None if asked is None else frozenset(asked))
    return ask.book.once(key, lambda: _standing(ask, on, asked))


def _standing(ask: Ask, on: date, asked: Collection[int] | None) -> Standing:
    states: dict[int, QuarantineState] = {}
    troubles: dict[int, str] = {}
    for animal_id in candidates(ask.book, on, asked):
        try:
            state = running(quarantines_of(ask, animal_id, on))
        except WarmsideError as error:
            troubles[animal_id] = str(error)
        else:
            if state is not None:
                states[animal_id] = state
    return Standing(states, troubles)


def candidates(book: Book, on: date, asked: Collection[int] | None = None) -> list[int]:
    """Animals here that may be in quarantine: a start without a release of a later day.

    A corrected arrival can move its start behind a release, so these are looked at too.
    """
    last, came = book.latest(STARTED, RELEASED, on=on), book.latest(*CAME, on=on)
    started, here = last[STARTED], book.animals_here(on)
    if asked is None:
        asked = sorted(started, key=lambda id: book.animals[id].code.lower())
    return [
        a
        for a in asked
        if a in started
        and _may_run(started[a], last[RELEASED].get(a), {e.id for e in _of(came, a)})
        and a in here
    ]


def _may_run(start: Event, release: Event | None, unchanged: Collection[int]) -> bool:
    arrival = start.data["arrival"]
    corrected = arrival is not None and arrival not in unchanged
    return release is None or release.day <= start.day or corrected


def _of(last: Mapping[str, Mapping[int, Event]], animal_id: int) -> Iterator[Event]:
    return (by_animal[animal_id] for by_animal in last.values() if animal_id in by_animal)


def courses(ask: Ask, on: date, about: About | None = None) -> list[Course]:
    """The animals in quarantine with where each stands, in their order."""
    asked = asked_about(ask.book, about, on)
    return [(ask.book.animals[a], s) for a, s in standing(ask, on, asked).states.items()]


def troubles(ask: Ask, on: date, about: About | None = None) -> list[tuple[Animal, str]]:
    """The animals whose quarantine cannot be computed, with what is wrong."""
    asked = asked_about(ask.book, about, on)
    return [(ask.book.animals[a], words) for a, words in standing(ask, on, asked).troubles.items()]


def ended(ask: Ask, on: date) -> list[Course]:
    """Quarantines that were released up to a day, of the animals in their order."""
    released = ask.book.latest(RELEASED, on=on)[RELEASED]
    return [
        (animal, state)
        for a, animal in ask.book.animals.items()
        if a in released
        for state in quarantines_of(ask, a, on)
        if not state.running
    ]


def positive_agents(ask: Ask, animal_id: int, state: QuarantineState, on: date) -> set[str]:
    """What tests found in a quarantine, whoever has seen the animal since."""
    told = ask.book.events(RESULTED, animal=animal_id, since=state.started, until=on)
    found: set[str] = set()
    for result in told:
        sample = current(ask.book, result.data["sample"])
        if result.data["outcome"] == "positive" and sample is not None:
            test = state.protocol.test(sample.data["test"])
            found |= agents_of(test.methods if test else (), sample.data["method"])
    return found


def positives(ask: Ask, on: date, about: About | None) -> list[Course]:
    """Every quarantine of an animal here in which a positive stands, also ended ones, latest first.

    One that runs knows the positives of those before it.
    """
    asked = asked_about(ask.book, about, on)
    told = _results(ask.book, asked if about else None, on)
    found = {r.animal_id: None for r in told if r.data["outcome"] == "positive"}
    return [
        (ask.book.animals[a], state)
        for a in found
        if a is not None and a in asked
        for state in reversed(computable(ask, a, on))
        if state.positives or state.late_positives
    ]


def _results(book: Book, asked: Collection[int] | None, on: date) -> Iterable[Event]:
    if asked is None:
        return book.events(RESULTED, until=on)
    return (e for animal_id in asked for e in book.events(RESULTED, animal=animal_id, until=on))
