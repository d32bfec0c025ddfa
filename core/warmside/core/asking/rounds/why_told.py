"""The whole reason of lines of the round: rule, source, what to mind, and the command."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from warmside.core.answers.parts import Answer, paragraphs
from warmside.core.asking.ask import Ask
from warmside.core.asking.rounds.findings_told import letter, reason
from warmside.core.asking.rounds.round_told import when_words, why_words
from warmside.core.asking.rounds.shown import Shown, named, shown_findings
from warmside.core.values.basis import Basis
from warmside.core.values.errors import NotFound
from warmside.core.values.hints import quoted

KEYS = ("line", "what", "when", "why", "source", "command", "events")
Row = tuple[str, str, str, str | None, str, str | None, tuple[int, ...]]


def told_why(ask: Ask, shown: Shown, wanted: Iterable[str]) -> Answer:
    """The lines with these numbers and letters, or all; of the round as it was shown."""
    rows = {row[0]: row for row in (*_findings(ask, shown), *_tasks(ask, shown))}
    names = [name.casefold() for name in wanted]
    if "all" in names:
        names = list(rows)
    for name in names:
        if name not in rows:
            said = f"the round has no line {quoted(name)!r}"
            raise NotFound(f"{said}, or it has changed; see: warmside today")
    found = [rows[name] for name in names]
    told = [dict(zip(KEYS, row, strict=True)) for row in found]
    return Answer(parts=paragraphs(*map(_said, found)), extra={"why": told})


def _said(row: Row) -> str:
    """A line of the round in one paragraph."""
    line, what, when, why, source, _, _ = row
    reason = f" Why: {why}." if why else ""
    return f"{line}  {what} ({when}).{reason} Source: {source}"


def _findings(ask: Ask, shown: Shown) -> Iterator[Row]:
    for number, finding in enumerate(shown_findings(ask, shown.on)):
        name, why = letter(number), reason(finding)
        yield (name, finding.words, finding.level.value, why, *_source(finding.basis))


def _tasks(ask: Ask, shown: Shown) -> Iterator[Row]:
    stops = {s.key: s for s in ask.round(shown.on)}
    for number, line in enumerate(shown.tasks, 1):
        stop = stops.get(line.key)
        if stop is not None:
            source, _, events = _source(stop.task.basis)
            what, when = named(ask.book, stop), when_words(stop, shown.on)
            command = stop.task.command or None
            why = "; ".join((why_words(stop), *([f"do it with: {command}"] if command else ())))
            yield (
                str(number),
                what,
                when or stop.pace(shown.on),
                why,
                source,
                command,
                events,
            )


def _source(basis: Basis) -> tuple[str, None, tuple[int, ...]]:
    return f"{basis.source.text} [{basis.source.mark.value}]", None, basis.events
