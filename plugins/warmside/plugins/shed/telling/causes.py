"""Why sheds go wrong: the collection's sheds with the air before them, compared in two groups."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from warmside.api import Answer, Cell, Column, Kind, Table, Tone, Unit, Words, counted
from warmside.plugins.shed.causes.why import (
    DAYS_BEFORE,
    Comparison,
    Group,
    ShedSeen,
    by_humidity,
    by_misting,
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


def comparisons(sheds: Sequence[ShedSeen], dry_below: float, misted: int) -> Answer:
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
    seen = counted(len(sheds), "shed")
    unsaid = sum(s.went_wrong is None for s in sheds)
    if unsaid:
        words = f"{unsaid} of {seen} without a word on how it came off"
        yield Words(f"{words}: warmside correct EVENT outcome=pieces", Tone.HINT)
    dry = sum(s.humidity_percent is None for s in sheds)
    if dry:
        words = f"{dry} of {seen} without humidity on record before"
        yield Words(f"{words}: warmside record climate ENCLOSURE --humidity 65", Tone.HINT)
    unmisted = sum(s.mistings is None for s in sheds)
    if unmisted:
        words = f"{unmisted} of {seen} in enclosures without mistings on record"
        yield Words(f"{words}: warmside record misted ENCLOSURE", Tone.HINT)
