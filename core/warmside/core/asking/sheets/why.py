"""Why an animal comes to the vet: the keeper's words, the signs that were seen, recent notes."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from warmside.core.answers.forms import lines_to_write
from warmside.core.answers.parts import Column, Part, Table, Words
from warmside.core.asking.ask import Ask
from warmside.core.asking.sheets.standing_signs import SeenSign, seen_signs
from warmside.core.record.entities import Animal

NOTED = timedelta(days=60)
MOST_NOTES = 5
SIGN_COLUMNS = (
    Column("sign", "sign seen"),
    Column("when", "since when"),
    Column("where", "where, how much"),
)
NO_SIGN = "no sign of illness is on record"


def why(ask: Ask, animal: Animal, since: date, on: date, reason: str) -> tuple[Part, ...]:
    """The reason as typed or a line for it, signs, and what was noted in the last two months."""
    signs = seen_signs(ask.book.events("sign", animal=animal.id, until=on))
    recent = [sign for sign in signs if (sign.gone or on) >= since]
    return (
        *_died(ask, animal, on),
        Words(reason) if reason else lines_to_write("reason", "reason for the visit:"),
        _signs(recent),
        *_notes(ask, animal, on),
    )


def _died(ask: Ask, animal: Animal, on: date) -> Iterator[Words]:
    """That it is dead, which a vet who opens it must read first."""
    for event in ask.book.events("died", animal=animal.id, until=on)[-1:]:
        yield Words(f"{ask.when_words(event)}: {ask.event_words(event)}")


def _signs(signs: list[SeenSign]) -> Table:
    rows = tuple((s.sign, s.when, s.where or None) for s in signs)
    where = any(s.where for s in signs)
    columns = SIGN_COLUMNS if where else SIGN_COLUMNS[:-1]
    return Table("signs", columns, rows if where else tuple(r[:-1] for r in rows), empty=NO_SIGN)


def _notes(ask: Ask, animal: Animal, on: date) -> Iterator[Words]:
    """What the keeper noted without a kind of its own."""
    noted = ask.book.events("observed", animal=animal.id, since=on - NOTED, until=on)
    for event in noted[-MOST_NOTES:]:
        yield Words(f"noted on {event.day}: {event.data['what']}")
