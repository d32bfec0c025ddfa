"""What is known of an animal's sheds, as parts of answers, a report section and label lines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta

from warmside.api import (
    Answer,
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
from warmside.plugins.shed.cycles.advice import Advice
from warmside.plugins.shed.cycles.aftermath import NOT_SAID
from warmside.plugins.shed.cycles.animal import AnimalSheds, left_on_words, stage_words
from warmside.plugins.shed.forecast.next_shed import NextShed
from warmside.plugins.shed.telling.cycles import cycles_table, timeline
from warmside.plugins.shed.telling.forecast import (
    expected_table,
    is_overdue,
    last_facts,
    missed_words,
    reading_words,
)

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


Ahead = tuple[AnimalSheds, NextShed | None]


def shown(sheds: AnimalSheds, ahead: NextShed | None) -> Answer:
    """One animal: stage, what is expected, what to do now, doubts and cycles."""
    parts: list[Part] = [*_facts(sheds, ahead), expected_table(sheds, ahead)]
    parts += reading_words(sheds, ahead)
    if sheds.advice:
        parts.append(advice_table(sheds.advice))
    parts += [*doubt_words(sheds), *missed_words(sheds)]
    parts.append(cycles_table(sheds, shown_since(sheds)))
    return Answer(f"Sheds of {sheds.rows.label}, as of {sheds.on}", tuple(parts))


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


def overview(found: Iterable[Ahead]) -> Table:
    """Animals with a stage or shed on record, a line each."""
    rows = tuple(_line(sheds, ahead) for sheds, ahead in found)
    empty = "no stage or shed on record; record one: warmside record shed ANIMAL"
    return Table("animals", OVERVIEW_COLUMNS, rows, empty=empty)


def _line(sheds: AnimalSheds, ahead: NextShed | None) -> tuple[Cell, ...]:
    last = sheds.last.day if sheds.last else None
    stage = stage_words(sheds) if sheds.now.stage else None
    low, high, rule = _best(sheds, ahead) or (None, None, None)
    note = "; ".join(_notes(sheds, ahead))
    return sheds.rows.label, sheds.rows.code, stage, last, low, high, rule, note


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


def section_of_animal(sheds: AnimalSheds, ahead: NextShed | None) -> Iterator[Section]:
    """The sheds in an animal's report; nothing where none is on record."""
    if not sheds.rows.seen:
        return
    since = shown_since(sheds)
    parts: tuple[Part, ...] = (
        *_facts(sheds, ahead),
        expected_table(sheds, ahead),
        *doubt_words(sheds),
        cycles_table(sheds, since),
        timeline(sheds, since, ahead),
    )
    yield Section("Sheds", parts, REPORT_ORDER)


def section_of_enclosure(found: Sequence[Ahead]) -> Iterator[Section]:
    """The sheds of those that live there, a line each; nothing where none is on record."""
    if found:
        yield Section("Sheds", (overview(found),), REPORT_ORDER)


def shown_since(sheds: AnimalSheds) -> date:
    """From which day on cycles are shown unless another is asked for: a year back."""
    return sheds.on - timedelta(days=SHOWN_DAYS)


def label_lines(sheds: AnimalSheds, ahead: NextShed | None) -> Iterator[LabelLine]:
    """The last shed, the stage, and the next shed."""
    if sheds.last is not None:
        left = f", {left_on_words(sheds.last.still)} left on" if sheds.last.still else ""
        how = f", {sheds.last.outcome}" if sheds.last.outcome != NOT_SAID else ""
        yield LabelLine("shed.last", f"last shed {sheds.last.day}{how}{left}")
    if sheds.now.stage is not None:
        yield LabelLine("shed.stage", stage_words(sheds))
    best = _best(sheds, ahead)
    if best is not None:
        low, high, rule = best
        yield LabelLine("shed.next", f"next shed {low} to {high} ({rule})")
