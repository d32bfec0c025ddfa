"""Putting a finding off until a day, with the reason."""

from __future__ import annotations

from datetime import date

from msgspec import Struct

from warmside.core.answers.parts import Answer, said
from warmside.core.asking.ask import Ask
from warmside.core.asking.rounds.findings_told import letter, subject_words
from warmside.core.asking.rounds.put_off import all_put_off
from warmside.core.asking.rounds.shown import Shown, shown_findings, shown_round
from warmside.core.asking.subjects.recorded import TAKE_BACK
from warmside.core.plugins.hook_values import Finding, Level
from warmside.core.record import tables
from warmside.core.session.session import Session
from warmside.core.values.errors import BadInput, NotFound, Refused
from warmside.core.values.hints import plain_text, quoted
from warmside.core.values.questions import Question

LONGEST_DAYS = {Level.ACT_NOW: 3, Level.LOOK_SOON: 60, Level.NOTE: 366}
"""For how long a finding may be put off: ours, no source; what cannot wait is seen again soon."""


class PuttingOff(Struct, frozen=True):
    """A finding by its letter in the round last shown, until when it may wait, and why."""

    line: str
    until: str | None = None
    reason: str | None = None
    shown: Shown | None = None


def put_off(session: Session, wanted: PuttingOff) -> Answer:
    """Hide the finding from the round until the day, unless it becomes more urgent."""
    until = Question("until", "Until which day", "--until DAY").answered(wanted.until)
    reason = Question("reason", "Why it can wait", "--reason TEXT").answered(wanted.reason)
    if not reason.strip():
        raise BadInput("say why it can wait, for whoever reads the report: --reason TEXT")
    with session.step("put off") as writer:
        ask = session.asking(writer.book)
        finding = _found(ask, wanted)
        day = _day(session, ask, finding, until)
        about = finding.about
        for old in all_put_off(writer.book):
            if (old.code, old.about) == (finding.code, about):
                writer.remove(tables.put_off, {"id": old.id})
        writer.insert(
            tables.put_off,
            code=finding.code,
            level=finding.level.value,
            animal_id=about.animal_id,
            enclosure_id=about.enclosure_id,
            until=day.isoformat(),
            reason=plain_text("reason", reason),
        )
        who = subject_words(writer.book, finding)
        words = f"put off until {day}: {f'{who}, ' if who else ''}{finding.words}"
        writer.say(words)
    return said(words, hints=[TAKE_BACK])


def _found(ask: Ask, wanted: PuttingOff) -> Finding:
    shown = wanted.shown or shown_round(ask, ask.book.today)
    line = wanted.line.strip().casefold()
    if line.isdecimal():
        raise BadInput(f"{line} is a task, which waits by itself; findings have letters: later a")
    names = [letter(number) for number in range(len(shown.findings))]
    if line not in names:
        raise NotFound(f"the round has no finding {quoted(wanted.line)!r}; see: warmside today")
    seen = shown.findings[names.index(line)]
    for finding in shown_findings(ask, ask.book.today):
        about = finding.about
        if (finding.code, about.animal_id or 0, about.enclosure_id or 0, finding.words) == (
            seen.code,
            seen.animal_id,
            seen.enclosure_id,
            seen.words,
        ):
            return finding
    raise Refused(f"finding {line}, {seen.words}, is gone or has changed; see: warmside today")


def _day(session: Session, ask: Ask, finding: Finding, until: str) -> date:
    day, today = session.day(until, ask.book), ask.book.today
    if day <= today:
        raise BadInput(f"{day} is not after today; name a later day")
    longest = LONGEST_DAYS[finding.level]
    if (day - today).days > longest:
        raise Refused(
            f"{finding.level.value} can be put off for {longest} days at most, not longer"
        )
    return day
