"""Findings that the keeper has put off: hidden from the round until their day, told in reports."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from msgspec import Struct

from warmside.core.answers.parts import Cell, Column, Kind, Table
from warmside.core.asking.rounds.findings_told import LEVELS, brief, subject_words
from warmside.core.plugins.hook_values import Finding, Level
from warmside.core.record.book import Book
from warmside.core.values.about import About

QUERY = "SELECT id, code, level, animal_id, enclosure_id, until, reason FROM put_off ORDER BY id"


class PutOff(Struct, frozen=True):
    """A finding of that code and level about one subject, which may wait until a day, and why."""

    id: int
    code: str
    level: Level
    about: About
    until: date
    reason: str

    def hides(self, finding: Finding, on: date) -> bool:
        """Whether a finding is not to be shown on a day; one that has become worse is shown."""
        same = finding.code == self.code and finding.about == self.about
        worse = LEVELS.index(finding.level) < LEVELS.index(self.level)
        return same and not worse and on < self.until


def all_put_off(book: Book) -> list[PutOff]:
    """All that was put off, also what is over."""
    return [
        PutOff(id, code, Level(level), About(animal, place), date.fromisoformat(until), reason)
        for id, code, level, animal, place, until, reason in book.rows(QUERY)
    ]


def apart(
    book: Book, findings: Iterable[Finding], on: date
) -> tuple[list[Finding], list[tuple[Finding, PutOff]]]:
    """The findings to be shown, and those that wait with what put them off."""
    known, shown, waiting = all_put_off(book), [], []
    for finding in findings:
        by = next((p for p in reversed(known) if p.hides(finding, on)), None)
        if by is None:
            shown.append(finding)
        else:
            waiting.append((finding, by))
    return shown, waiting


def put_off_table(
    book: Book, waiting: list[tuple[Finding, PutOff]], *, sentence: bool = True
) -> Table:
    """What waits, until when and why: as a sentence each below the round, as rows in a report."""
    rows: list[tuple[Cell, ...]] = [
        (subject_words(book, finding), finding.words, by.until, by.reason, finding.code)
        for finding, by in waiting
    ]
    columns = (
        Column("subject", "who", text=not sentence),
        Column("words", "what", text=not sentence),
        Column("until", "put off until", Kind.DATE, text=not sentence),
        Column("reason", "because", text=not sentence),
        Column("code", "finding", text=False),
    )
    said = (
        f"put off until {by.until}: {subject_words(book, finding)}, {brief(finding.words)}"
        for finding, by in waiting
    )
    title = "" if sentence else "Put off by the keeper"
    return Table("put_off", columns, tuple(rows), title, empty="\n".join(said) if sentence else "")
