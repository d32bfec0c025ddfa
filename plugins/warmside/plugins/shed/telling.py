"""What is known of an animal's sheds, as parts of answers, a report section and label lines."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from warmside.api import (
    Answer,
    Book,
    Cell,
    Column,
    Fact,
    Kind,
    LabelLine,
    Part,
    Section,
    Table,
    Tone,
    Words,
)
from warmside.plugins.shed.animal_sheds import AnimalSheds, left_on_words, stage_words
from warmside.plugins.shed.cycles_shown import cycles_table, timeline
from warmside.plugins.shed.forecast_shown import (
    expected_table,
    is_overdue,
    last_facts,
    missed_words,
    reading_words,
)
from warmside.plugins.shed.next_shed import NextShed, next_shed
from warmside.plugins.shed.predictive import Prior
from warmside.plugins.shed.reading import meals_taken, prior_of
from warmside.plugins.shed.what_to_do import Advice

REPORT_ORDER = 450
SHOWN_DAYS = 365  # how far back a timeline begins
ADVICE_COLUMNS = (
    Column("do", "what to do now"),
    Column("mark", "mark"),
    Column("caution", "caution", Kind.YESNO, text=False),
    Column("source", "source", text=False),
)
OVERVIEW_COLUMNS = (
    Column("animal", "who"),
    Column("code", "code", Kind.CODE, text=False),
    Column("stage", "stage"),
    Column("last_shed", "last shed", Kind.DATE),
    Column("low", "next from", Kind.DATE),
    Column("high", "to", Kind.DATE),
    Column("rule", "by", text=False),
    Column("note", "note"),
)


def ahead_of(book: Book, sheds: AnimalSheds, on: date, prior: Prior | None) -> NextShed | None:
    """The next shed of an animal, with age and meals where its own sheds show that they matter."""
    hatched = book.animals[sheds.rows.animal_id].hatched
    born = hatched.earliest if hatched else None
    meals = meals_taken(book, sheds.rows.animal_id, on)
    return next_shed(sheds.history, on, prior, born, meals)


def usual_ahead(book: Book, sheds: AnimalSheds, on: date) -> NextShed | None:
    """The next shed of an animal with the prior of its age."""
    prior = prior_of(book, book.animals[sheds.rows.animal_id].hatched, on)
    return ahead_of(book, sheds, on, prior)


def shown(book: Book, sheds: AnimalSheds, on: date) -> Answer:
    """One animal: stage, what is expected, what to do now, doubts and cycles."""
    label = book.animals[sheds.rows.animal_id].label
    ahead = usual_ahead(book, sheds, on)
    parts: list[Part] = [*_facts(sheds, ahead), expected_table(sheds, ahead)]
    parts += reading_words(sheds, ahead)
    if sheds.advice:
        parts.append(advice_table(sheds.advice))
    parts += [*doubt_words(sheds), *missed_words(sheds)]
    parts.append(cycles_table(sheds, on - timedelta(days=SHOWN_DAYS)))
    return Answer(f"Sheds of {label}, as of {on}", tuple(parts))


def _facts(sheds: AnimalSheds, ahead: NextShed | None) -> Iterator[Fact]:
    yield Fact("stage", "stage", stage_words(sheds))
    if ahead is not None:
        yield from last_facts(ahead)
    last = sheds.last
    if last is not None:
        yield Fact("outcome", "how it came off", last.outcome)
        if last.retained:
            yield Fact("retained", "left on", last.retained, Kind.LIST)
            yield Fact("still", "still on", last.still, Kind.LIST)


def advice_table(advice: tuple[Advice, ...]) -> Table:
    """What to do now, each piece with its mark."""
    rows = [
        (
            f"caution: {a.text}" if a.caution else a.text,
            a.source.mark.value,
            a.caution,
            a.source.text,
        )
        for a in advice
    ]
    return Table("advice", ADVICE_COLUMNS, tuple(rows))


def doubt_words(sheds: AnimalSheds) -> tuple[Words, ...]:
    """What is doubtful in the record."""
    return tuple(Words(f"In doubt: {d.words}", Tone.CAUTION) for d in sheds.history.doubts)


def overview(book: Book, sheds: list[AnimalSheds], on: date) -> Answer:
    """All animals here with a stage or shed on record, a line each."""
    rows = tuple(_line(book, s, on) for s in sheds)
    empty = "no stage or shed on record; record one: warmside record shed ANIMAL"
    return Answer(f"Sheds, as of {on}", (Table("animals", OVERVIEW_COLUMNS, rows, empty=empty),))


def _line(book: Book, sheds: AnimalSheds, on: date) -> tuple[Cell, ...]:
    animal = book.animals[sheds.rows.animal_id]
    ahead = usual_ahead(book, sheds, on)
    last = sheds.last.day if sheds.last else None
    stage = stage_words(sheds) if sheds.now.stage else None
    low, high, rule = _best(sheds, ahead) or (None, None, None)
    note = "; ".join(_notes(sheds, ahead))
    return animal.label, animal.code, stage, last, low, high, rule, note


def _best(sheds: AnimalSheds, ahead: NextShed | None) -> tuple[date, date, str] | None:
    """The range of the next shed: by the stage within a cycle, else by the intervals."""
    if sheds.now.shed is not None:
        return sheds.now.shed.low, sheds.now.shed.high, f"usual days after {sheds.now.stage}"
    return (*ahead.dates_50, "50 % chance") if ahead is not None else None


def _notes(sheds: AnimalSheds, ahead: NextShed | None) -> Iterator[str]:
    if sheds.last is not None and sheds.last.still:
        yield f"{left_on_words(sheds.last.still)} left on"
    if sheds.late:
        yield f"{sheds.now.stage} for longer than usual"
    elif is_overdue(sheds, ahead):
        yield "overdue"
    if sheds.new_doubts:
        yield "in doubt"


def report_section(book: Book, sheds: AnimalSheds, on: date) -> Section:
    """The sheds in an animal's report."""
    ahead = usual_ahead(book, sheds, on)
    since = on - timedelta(days=SHOWN_DAYS)
    parts: tuple[Part, ...] = (
        *_facts(sheds, ahead),
        expected_table(sheds, ahead),
        *doubt_words(sheds),
        cycles_table(sheds, since),
        timeline(sheds, since, ahead),
    )
    return Section("Sheds", parts, REPORT_ORDER)


def label_lines(book: Book, sheds: AnimalSheds, on: date) -> Iterator[LabelLine]:
    """The last shed, the stage, and the next shed."""
    if sheds.last is not None:
        left = f", {left_on_words(sheds.last.still)} left on" if sheds.last.still else ""
        yield LabelLine("shed.last", f"last shed {sheds.last.day}, {sheds.last.outcome}{left}")
    if sheds.now.stage is not None:
        yield LabelLine("shed.stage", stage_words(sheds))
    best = _best(sheds, usual_ahead(book, sheds, on))
    if best is not None:
        low, high, rule = best
        yield LabelLine("shed.next", f"next shed {low} to {high} ({rule})")
