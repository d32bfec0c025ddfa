"""Importing a keeper's spreadsheet: all rows are one step, or none is."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any

from msgspec import Struct, field
from msgspec.structs import replace

from warmside.core.answers.parts import Answer
from warmside.core.asking.ask import Ask
from warmside.core.csv.causes import causes, lines_said
from warmside.core.csv.events import outcomes
from warmside.core.csv.mapping import (
    SKIP,
    CsvMapping,
    mapping_text,
    read_mapping,
    typed_fields,
    typed_words,
)
from warmside.core.csv.plan import Plan, plan
from warmside.core.csv.sheet.asked import Open, check_answers, with_answers
from warmside.core.csv.sheet.open_points import unsaid_questions
from warmside.core.doing.import_told import (
    Objections,
    belief,
    events_of,
    sample,
    still_to_say,
    told,
)
from warmside.core.doing.taking_in import Taken, taken_in
from warmside.core.session.session import Session
from warmside.core.values.errors import BadInput, Doubtful, FileProblem, Refused
from warmside.core.values.questions import Question, Unanswered

Sample = tuple[tuple[str, str, str], ...]
Watch = Callable[[Iterable[Any], int], Iterable[Any]]
"""Gives the items as they are, and may count them against about so many."""


class Import(Struct, frozen=True):
    """The file, its mapping, what the options say over it, and what may pass.

    `shown` where the keeper has seen what is believed, and need not be told again.
    """

    source: Path
    map_file: Path | None = None
    options: Mapping[str, str | None] = field(default_factory=dict)
    fields: tuple[str, ...] = ()
    unsaid: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    skipped: tuple[str, ...] = ()
    encoding: str | None = None
    save_map: Path | None = None
    dry_run: bool = False
    skip_bad: bool = False
    confirmed: bool = False
    agreed: bool = False
    shown: bool = False
    answers: Mapping[str, str] = field(default_factory=dict)


class Rehearsed(Exception):
    """A step was written to see what comes of it, and is given up."""


def import_events(
    session: Session, wanted: Import, watch: Watch = lambda items, _: items
) -> Answer:
    """Import the events; the same file twice changes nothing."""
    session.open()  # where there is none yet, that is said first
    saved = wanted.save_map
    if saved is not None and saved.exists():
        raise Refused(f"{saved} is there already; name another file for the mapping")
    try:
        sheet = (wanted.source, wanted.encoding, mapped(wanted))
        taken = taken_in(session, *sheet, confirmed=wanted.confirmed)
    except Open as asked:
        if not wanted.dry_run:
            raise
        return still_to_say(wanted.source, asked)
    if wanted.dry_run:
        made, shown, against = _rehearsed(session, wanted, taken, watch)
    else:
        made, shown = _recorded(session, wanted, taken, watch)
        against = ()
    if saved is not None:
        save(taken.saved, saved)
    believed = () if wanted.shown else taken.believed
    shown = () if wanted.shown else shown
    return told(made, wanted.source, wanted.dry_run, saved, believed, shown, against)


def _rehearsed(
    session: Session, wanted: Import, taken: Taken, watch: Watch
) -> tuple[Plan, Sample, Objections]:
    """What would be recorded, and what plugins would have against it; nothing stays written."""
    with suppress(Rehearsed), session.step("rehearsed") as writer:
        ask = session.asking(writer.book)
        made, shown = _planned(ask, taken, watch)
        writer.record_valid(made.new)
        against = tuple(session.objections(writer))
        raise Rehearsed
    return made, shown, against


def _planned(ask: Ask, taken: Taken, watch: Watch) -> tuple[Plan, Sample]:
    """The rows by what becomes of them, and some events as they would be recorded."""
    read = outcomes(ask, taken.mapping, taken.columns, taken.rows)
    made = plan(ask, watch(read, taken.about))
    made.left_out.extend(taken.left_out)
    return made, sample(ask, made.new) if taken.looked else ()


def _recorded(session: Session, wanted: Import, taken: Taken, watch: Watch) -> tuple[Plan, Sample]:
    """Record what is new; nothing is written where something is open."""
    name = wanted.source.name
    with session.step(f"imported {name}", confirmed=wanted.confirmed) as writer:
        ask = session.asking(writer.book)
        made, shown = _planned(ask, taken, watch)
        refuse_bad(made, wanted.source, wanted.skip_bad)
        ask_unsaid(session, ask, made, wanted.confirmed)
        refuse_doubtful(made, wanted.confirmed)
        ask_whether_right(session, wanted, taken, made, shown)
        writer.record_valid(made.new)
        writer.say(f"imported {events_of(made)} from {name}")
    return made, shown


def ask_unsaid(session: Session, ask: Ask, made: Plan, confirmed: bool) -> None:
    """Ask on a terminal what rows leave unsaid, else refuse them, unless they may be left out."""
    if made.unsaid and session.asks and not confirmed:
        raise Open(unsaid_questions(made.unsaid, ask.kinds))
    refuse_unsaid(made, confirmed)


def ask_whether_right(
    session: Session, wanted: Import, taken: Taken, made: Plan, shown: Sample
) -> None:
    """Ask on a terminal whether what is believed of a sheet is right, showing three events."""
    if not taken.looked or not session.asks or wanted.agreed or not made.new:
        return
    words = "\n".join([*belief(taken.believed, shown), f"record {events_of(made)}?"])
    raise Unanswered(Question("agreed", words, "--yes", yes_or_no=True))


def replied(wanted: Import, question: Question, answer: Any) -> Import:
    """The request with one more question answered; BadInput where that is no answer to it."""
    if question.key in ("agreed", "confirmed"):
        given = {question.key: bool(answer), "shown": wanted.shown or question.key == "agreed"}
        return replace(wanted, **given)
    check_answers(with_answers(CsvMapping(), {question.key: str(answer)}))
    return replace(wanted, answers={**wanted.answers, question.key: str(answer)})


def mapped(wanted: Import) -> CsvMapping:
    """The saved mapping, or the plain one, with the options over it."""
    mapping = read_mapping(wanted.map_file) if wanted.map_file else CsvMapping()
    given = {name: value for name, value in wanted.options.items() if value is not None}
    mapping = replace(
        mapping,
        **given,
        fields={**mapping.fields, **typed_fields(wanted.fields)},
        unsaid={**mapping.unsaid, **typed_words(wanted.unsaid, "--unsaid")},
        words={**mapping.words, **typed_words(wanted.words, "--word")},
        skipped={**mapping.skipped, **dict.fromkeys(wanted.skipped, SKIP)},
    )
    return with_answers(mapping, wanted.answers)


def refuse_bad(made: Plan, source: Path, allowed: bool) -> None:
    """Raise BadInput naming the first causes, each with its lines."""
    if made.bad and not allowed:
        raise BadInput(
            f"{source}: {first_of([c.said for c in causes(made.bad)])}; nothing was imported; "
            "mend the file, look at all with --dry-run, or leave them out with --skip-bad"
        )


def refuse_doubtful(made: Plan, allowed: bool) -> None:
    """Raise Doubtful naming the first doubts, each with its lines."""
    if made.doubtful and not allowed:
        said = [c.said for c in causes(made.doubtful)]
        raise Doubtful(f"{first_of(said)}; nothing was imported", said)


def refuse_unsaid(made: Plan, allowed: bool) -> None:
    """Raise Doubtful where rows do not say what came of it; how to settle them all at once."""
    if made.unsaid and not allowed:
        said = [unsaid_words(field, lines) for field, lines in made.unsaid.items()]
        raise Doubtful(f"{first_of(said)}; nothing was imported; confirmed, they are left out")


def unsaid_words(field: str, lines: list[int]) -> str:
    """What rows leave unsaid, and the option that says it for all of them."""
    return (
        f"{lines_said(lines)}: {field} is not said, and is not guessed; say what it was with "
        f"--unsaid {field}=VALUE, or leave them out with --unsaid {field}=skip"
    )


def first_of(said: list[str]) -> str:
    """The first three of several sentences, and how many more there are."""
    more = f"; and {len(said) - 3} more causes" if len(said) > 4 else ""
    return "; ".join(said[: 3 if more else 4]) + more


def save(mapping: CsvMapping, path: Path) -> None:
    """Write the mapping to a new file."""
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(mapping_text(mapping))
    except OSError as error:
        raise FileProblem(f"cannot write {path}: {error.strerror}") from error
