"""The sheet for a sitter: whom to call, each day in the order of care, how, what if, never."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from msgspec import Struct

from warmside.core.answers.parts import Answer, Section, Tone, Words
from warmside.core.asking.ask import Ask
from warmside.core.asking.rounds.coming import each_due
from warmside.core.asking.rounds.shown import named
from warmside.core.asking.sheets import sitter_words as words
from warmside.core.asking.sheets.call import whom_to_call
from warmside.core.asking.sheets.given import beside, given_for, parts_at
from warmside.core.asking.sheets.paper import paper_named
from warmside.core.asking.sheets.pictured import faces, noted_places
from warmside.core.asking.sheets.residents import is_venomous, residents, residents_table
from warmside.core.asking.sheets.sitter_days import Group, day_rows, days_table
from warmside.core.asking.sheets.sitter_form import form
from warmside.core.asking.sheets.sitting import Sitting, sitting, to_thaw
from warmside.core.asking.sheets.steps import steps_at_home, told_never, told_steps
from warmside.core.plugins.sheets import Sheet, SitterPlace
from warmside.core.record.entities import Animal
from warmside.core.record.typed_subjects import enclosures_meant
from warmside.core.values.counts import counted
from warmside.core.values.errors import BadInput

MOST_DAYS, MOST_AHEAD = 60, 180


class SitterSheet(Struct, frozen=True):
    """From which day to which, in which enclosures (none named are all), and the keeper's words."""

    first: date
    last: date
    only: tuple[str, ...] = ()
    call: tuple[str, ...] = ()
    never: tuple[str, ...] = ()
    paper: str | None = None


def sitter_sheet(ask: Ask, wanted: SitterSheet) -> Answer:
    """All that a stranger needs to look after the animals for some days."""
    check_days(ask.book.today, wanted.first, wanted.last)
    found = planned(ask, wanted)
    animals = residents(ask, wanted.first, _enclosures(ask, wanted))
    if not animals:
        raise BadInput(f"no animal is here on {wanted.first}; name other days or enclosures")
    some = animals if wanted.only else None
    given = given_for(ask, Sheet.SITTER, wanted.first, wanted.last, some)
    own = _own(ask, wanted, found, animals, given)
    sections = (*own, *beside(given, SitterPlace.CALL, SitterPlace.NEVER))
    return Answer(
        f"For the sitter: {wanted.first} to {wanted.last}",
        (words.caution(), *_venomous(animals)),
        tuple(sorted(sections, key=lambda s: s.order)),
        warnings=tuple(_told_keeper(ask, wanted, found)),
        paper=paper_named(wanted.paper, ask.book.home.display),
    )


def sitter_form(ask: Ask, wanted: SitterSheet) -> str:
    """The same days as a CSV table to fill in; `import` reads it."""
    return form(ask.book, ask.kinds, planned(ask, wanted).turns)


def check_days(today: date, first: date, last: date) -> None:
    """BadInput for days that a sheet cannot be made of."""
    if last < first:
        raise BadInput(f"{last} is before {first}; --until is the last day of the sitter")
    if last < today:
        raise BadInput(f"{last} is over; name days to come")
    if (last - first).days >= MOST_DAYS:
        raise BadInput(f"{first} to {last} are too many days for a sheet; make one for each month")
    if (last - today).days > MOST_AHEAD:
        raise BadInput(f"{last} is too far ahead to know what will be due; ask again nearer to it")


def planned(ask: Ask, wanted: SitterSheet) -> Sitting:
    """What the sitter does by day, and what waits for the keeper."""
    first = max(wanted.first, ask.book.today)
    times = each_due(ask, wanted.last)
    return sitting(times, first, wanted.last, _enclosures(ask, wanted))


def _enclosures(ask: Ask, wanted: SitterSheet) -> list[int] | None:
    if not wanted.only:
        return None
    return enclosures_meant(ask.book, wanted.only, everyone=False, room=None, on=wanted.first)


def _own(
    ask: Ask,
    wanted: SitterSheet,
    found: Sitting,
    animals: list[Animal],
    given: list[Section],
) -> Iterator[Section]:
    groups = _groups(ask, wanted.first, animals)
    rows = day_rows(ask.book, found.turns, groups, wanted.first, wanted.last)
    at = SitterPlace
    steps = steps_at_home(ask, wanted.first, animals)
    never = [Words(f"– {text}") for text in (*wanted.never, *words.NEVER)]
    own = (*parts_at(given, at.NEVER), *told_never(steps))
    call = whom_to_call(wanted.call, parts_at(given, at.CALL), "near by, with a key:")
    yield Section("Whom to call", tuple(call), at.CALL)
    yield Section("Day by day", (days_table(ask.book, rows, groups),), at.DAYS)
    seen = noted_places(ask.book, animals, ask.book.today)
    told = (Words(words.LOOKING), Words(words.HANDS), *told_steps(steps), *seen)
    yield Section("How", told, at.HOW)
    yield Section("What if", words.what_if(), at.IF)
    yield Section("Never", (*own, *never), at.NEVER)
    yield Section("Call when an animal", tuple(Words(f"– {x}") for x in words.SIGNS), at.SIGNS)
    shown = faces(ask.book, animals, ask.book.today)
    who = residents_table(ask, wanted.first, animals)
    yield Section("Who lives where", (who, *shown), at.WHO)
    apart = [Words(f"{group.who}: {group.before}") for group in groups if group.before]
    if apart:
        yield Section("Last of all", tuple(apart), at.LAST)
    yield Section("Where this comes from", (Words(words.SOURCES),), at.LAST + 1)


def _groups(ask: Ask, on: date, animals: list[Animal]) -> list[Group]:
    """The care groups in their order, residents first."""
    ranks = {rank.enclosure_id: rank for rank in ask.care_ranks(on)}
    where = ask.book.whereabouts(on)
    inside: dict[tuple[int, str, str], list[str]] = {(0, "", ""): []}
    for animal in animals:
        rank = ranks.get(where[animal.id].enclosure_id or 0)
        key = (rank.rank, rank.group, rank.before) if rank else (0, "", "")
        inside.setdefault(key, []).append(animal.name)
    return [
        Group(name, before, ", ".join(who)) for (_, name, before), who in sorted(inside.items())
    ]


def _venomous(animals: list[Animal]) -> Iterator[Words]:
    names = [animal.label for animal in animals if is_venomous(animal)]
    if names:
        text = f"{', '.join(names)}: {words.VENOMOUS}"
        yield Words(text, Tone.CAUTION)


def _told_keeper(ask: Ask, wanted: SitterSheet, found: Sitting) -> Iterator[str]:
    """What the keeper sees to before and after; it is not on the sheet."""
    today, first = ask.book.today, wanted.first
    late = [stop for stop in ask.round(today) if stop.late_days(today)]
    if late and first > today:
        are = counted(len(late), "task is", "tasks are")
        yield f"{are} late now; what is due before {first} counts as done by you"
    names = dict.fromkeys(named(ask.book, turn.stop) for turn in found.waiting)
    if names:
        yield f"left for you, since it can wait or is yours: {'; '.join(names)}"
    if to_thaw(found.turns, first) and first > today:
        yield f"prey for {first} is to be thawed on {first - timedelta(days=1)}: by you"
