"""Why sheds go wrong: the collection's sheds with the air before them, compared in two groups."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from warmside.api import Answer, Book, Cell, Column, Event, Kind, Table, Tone, Unit, Words
from warmside.core.record.whereabouts import WHEREABOUTS_KINDS, history
from warmside.plugins.shed.air import Air, Noted, Stays, humidity_before, mistings_before
from warmside.plugins.shed.animal_sheds import as_of
from warmside.plugins.shed.reading import all_rows
from warmside.plugins.shed.why import (
    DAYS_BEFORE,
    Comparison,
    Group,
    ShedSeen,
    by_humidity,
    by_misting,
    went_wrong,
)

GROUP_COLUMNS = (
    Column("group", "sheds"),
    Column("wrong", "went wrong", Unit.COUNT),
    Column("sheds", "of", Unit.COUNT),
    Column("share", "share", Unit.PERCENT),
    Column("share_low", "95 % from", Unit.PERCENT),
    Column("share_high", "to", Unit.PERCENT),
)
COMPARISON_COLUMNS = (
    Column("question", "compared"),
    Column("animals", "animals", Unit.COUNT),
    Column("p_value", "p", Unit.PROBABILITY),
    Column("odds_low", "odds from", Unit.RATIO),
    Column("odds_high", "to", Unit.RATIO),
    Column("enough", "enough sheds", Kind.YESNO),
    Column("events", "events", Kind.LIST, text=False),
)
METHOD = (
    f"Humidity is the middle reading, misting the count, in the {DAYS_BEFORE} days before a shed "
    "in the enclosure where the animal then lived. A shed went wrong if it came off in pieces or "
    "skin was left on. p: Fisher's exact test; odds: exact 95 % interval of the odds of a bad "
    "shed, first group over second; shares: Wilson's 95 % interval."
)


def sheds_with_air(book: Book, on: date) -> list[ShedSeen]:
    """All sheds up to a day, each with the humidity and the mistings before it."""
    air = Air(_humidity(book, on), _misted(book, on))
    stays = _stays(book, on)
    return [
        ShedSeen(
            animal_id,
            went_wrong(shed.outcome, shed.retained),
            humidity_before(shed.day, stays.get(animal_id, ()), air),
            mistings_before(shed.day, stays.get(animal_id, ()), air),
            shed.events[0],
        )
        for animal_id, rows in all_rows(book).items()
        for shed in as_of(rows, on).sheds
    ]


def shown(sheds: Sequence[ShedSeen], dry_below: float, misted: int) -> Answer:
    """The two comparisons."""
    found = (by_humidity(sheds, dry_below), by_misting(sheds, misted))
    groups = tuple(_group(g) for c in found for g in (c.first, c.second))
    return Answer(
        "Sheds that went wrong, and the air before them",
        (
            Table("groups", GROUP_COLUMNS, groups),
            Table("comparisons", COMPARISON_COLUMNS, tuple(_comparison(c) for c in found)),
            *(Words(f"{c.question.capitalize()}: {c.words}") for c in found),
            *_unknown(sheds),
            Words(METHOD),
        ),
    )


def _group(group: Group) -> tuple[Cell, ...]:
    share = group.bad / group.total if group.total else None
    shares = (_percent(s) for s in (share, group.low, group.high))
    return group.name, group.bad, group.total, *shares


def _percent(share: float | None) -> float | None:
    return None if share is None else 100 * share


def _comparison(found: Comparison) -> tuple[Cell, ...]:
    return (
        found.question,
        found.animals,
        found.p_value,
        found.odds_low,
        found.odds_high,
        found.p_value is not None,
        tuple(str(e) for e in found.events),
    )


def _unknown(sheds: Sequence[ShedSeen]) -> Iterator[Words]:
    """How many sheds could not be used, and what would help."""
    dry = sum(s.humidity_percent is None for s in sheds)
    if dry:
        words = f"{dry} of {len(sheds)} sheds have no humidity on record before them"
        yield Words(f"{words}: warmside record climate ENCLOSURE --humidity 65", Tone.HINT)
    unmisted = sum(s.mistings is None for s in sheds)
    if unmisted:
        words = f"{unmisted} of {len(sheds)} sheds were in enclosures without mistings on record"
        yield Words(f"{words}: warmside record misted ENCLOSURE", Tone.HINT)


def _humidity(book: Book, on: date) -> Mapping[int, list[Noted]]:
    return _by_enclosure(
        (e, e.data["humidity_percent"])
        for e in book.events("climate", until=on)
        if e.data["humidity_percent"] is not None
    )


def _misted(book: Book, on: date) -> Mapping[int, list[Noted]]:
    return _by_enclosure((e, 1.0) for e in book.events("misted", until=on))


def _by_enclosure(noted: Iterator[tuple[Event, float]]) -> Mapping[int, list[Noted]]:
    found: dict[int, list[Noted]] = defaultdict(list)
    for event, value in noted:
        if event.enclosure_id is not None:
            found[event.enclosure_id].append((event.day, value))
    return found


def _stays(book: Book, on: date) -> dict[int, Stays]:
    """Where each animal lived: its enclosures from day to day."""
    mine: dict[int, list[Event]] = defaultdict(list)
    for event in book.events(*WHEREABOUTS_KINDS, until=on):
        if event.animal_id is not None:
            mine[event.animal_id].append(event)
    return {a: [(w.since, w.enclosure_id) for w in history(events)] for a, events in mine.items()}
