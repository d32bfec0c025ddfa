"""What the record says of signs, notes, condition and the climate of those here."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from warmside.api import About, Ask, Event
from warmside.plugins.signs.climate.judging import Needs, Reading
from warmside.plugins.signs.seen.notes import signs_in
from warmside.plugins.signs.seen.standing import Said, Written

BEFORE_DAYS = 30
"""So far back a reading still says that the last one is no chance."""
DAY_HOURS = range(10, 19)
"""Local hours in which lamps surely burn; a reading without a time may be of the night."""


def animals_meant(ask: Ask, on: date, about: About | None) -> list[int]:
    """The animals in care on a day; with `about`, that animal alone."""
    here = ask.book.animals_here(on)
    if about is None:
        return list(here)
    asked = about.animal_id or 0
    return [asked] if asked in here else []


def said_of(ask: Ask, on: date) -> dict[int, list[Said]]:
    """What was recorded of signs up to a day, in order of time, by animal."""
    return ask.book.once(("signs", "said", on), lambda: _said(ask, on))


def _said(ask: Ask, on: date) -> dict[int, list[Said]]:
    found: dict[int, list[Said]] = defaultdict(list)
    for e in ask.book.events("sign", until=on):
        said = Said(e.data["sign"], e.data["state"], e.day, e.id, e.data["where"])
        found[e.animal_id or 0].append(said)
    return found


def vet_seen(ask: Ask, animal: int, on: date) -> date | None:
    """The day of the last visit to a vet."""
    event = ask.book.latest("examined", on=on)["examined"].get(animal)
    return event.day if event else None


def written_of(
    ask: Ask, on: date, animals: Sequence[int] | None
) -> dict[int, list[tuple[Written, str]]]:
    """Notes of the last weeks that name a sign, with its word, in order of time, by animal.

    Of the few `animals`, or of all with None.
    """
    found: dict[int, list[tuple[Written, str]]] = defaultdict(list)
    for animal, event, day, text in _with_words(ask, on, animals):
        for named in signs_in(text):
            note = Written(text, date.fromisoformat(day), event, named.level)
            found[animal].append((note, named.sign.word))
    return found


def _with_words(
    ask: Ask, on: date, animals: Sequence[int] | None
) -> Iterator[tuple[int, int, str, str]]:
    """(animal, event, day, text) of what was written: in one query, for there are thousands."""
    since = on - timedelta(days=ask.setting("signs", "written_days"))
    few = "" if animals is None else f"AND animal_id IN ({', '.join('?' * len(animals))}) "
    rows = ask.book.rows(
        "SELECT animal_id, id, day, json_extract(data, '$.what'), note FROM event WHERE day "
        "BETWEEN ? AND ? AND replaced_by IS NULL AND animal_id IS NOT NULL AND (kind = 'observed' "
        f"OR note <> '') AND kind NOT IN ('sign', 'examined', 'treated') {few}ORDER BY day, id",
        (since.isoformat(), on.isoformat(), *(animals or ())),
    )
    for animal, event, day, what, note in rows:
        yield animal, event, day, "; ".join(text for text in (what, note) if text)


def condition_of(ask: Ask, animal: int, on: date) -> Event | None:
    """The last body condition."""
    return ask.book.latest("condition", on=on)["condition"].get(animal)


def readings(ask: Ask, on: date, about: About | None) -> Iterator[tuple[int, Event, Reading]]:
    """The last reading of each enclosure that is lived in."""
    last = ask.book.latest_in("climate", on=on)["climate"]
    for enclosure in ask.book.occupants(on):
        event = last.get(enclosure)
        if event is not None and about in (None, About(enclosure_id=enclosure)):
            yield enclosure, event, _read(ask, event)


def reading_before(ask: Ask, enclosure: int, last: Event) -> tuple[date, Reading] | None:
    """The reading of the weeks before the last one, with its day; None without one."""
    since = last.day - timedelta(days=BEFORE_DAYS)
    known = ask.book.events("climate", enclosure=enclosure, since=since, until=last.day)
    place = next((i for i, event in enumerate(known) if event.id == last.id), 0)
    return (known[place - 1].day, _read(ask, known[place - 1])) if place else None


def _read(ask: Ask, event: Event) -> Reading:
    data, hour = event.data, _hour(ask, event)
    return Reading(data.get("warm_c"), data.get("cool_c"), data.get("humidity_percent"), hour)


def _hour(ask: Ask, event: Event) -> bool:
    return event.at is not None and event.at.astimezone(ask.book.home.zone).hour in DAY_HOURS


def needs_of(ask: Ask, animal: int, on: date, read: date) -> Needs:
    """What an animal needs: the keeper's own values before its species' figures.

    `read` is the day of the reading, on which it may have been in a winter rest that is over.
    """
    own = _own(ask, animal)
    figures = ask.figures(ask.book.animals[animal].species)
    limits = figures.limits if figures else None
    cooling = ask.book.latest("cooling", on=on)["cooling"].get(animal)
    warm = figures.warm if figures else None
    humid = figures.humidity if figures else None
    return Needs(
        hot=_pair(own["too_hot"], 4.0, (limits.hot_act, limits.hot_emergency) if limits else None),
        cold=_pair(
            own["too_cold"], -6.0, (limits.cold_act, limits.cold_emergency) if limits else None
        ),
        touch=limits.touch if limits else None,
        basks=figures.basks if figures else False,
        warm=_ends(own["warm_least"], own["warm_most"], (warm.low, warm.high) if warm else None),
        night_low=figures.night.low if figures and figures.night else None,
        cool_high=figures.cool.high if figures and figures.cool else None,
        humidity=_ends(
            own["humidity_least"], own["humidity_most"], (humid.low, humid.high) if humid else None
        ),
        rests=cooling is not None and _rested(cooling, read),
    )


def _rested(cooling: Event, day: date) -> bool:
    """Whether it was cooled on a day, by the last begin or end: before an end it was."""
    return (cooling.data["state"] == "begun") is (cooling.day <= day)


_OWN = ("too_hot", "too_cold", "warm_least", "warm_most", "humidity_least", "humidity_most")


def _own(ask: Ask, animal: int) -> dict[str, float]:
    return {name: ask.setting("signs", name, About(animal)) for name in _OWN}


def _pair(
    own: float, further: float, shipped: tuple[float, float] | None
) -> tuple[float, float] | None:
    return (own, own + further) if own else shipped


def _ends(
    least: float, most: float, shipped: tuple[float, float] | None
) -> tuple[float, float] | None:
    """The shipped pair with the keeper's ends; None where an end is known to nobody."""
    if shipped is None:
        return (least, most) if least and most else None
    return least or shipped[0], most or shipped[1]
