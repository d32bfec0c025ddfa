"""Findings as a table, for the round and for reports."""

from __future__ import annotations

import re

from msgspec.structs import replace

from warmside.core.answers.parts import Cell, Column, Kind, Table
from warmside.core.plugins.hook_values import Finding, Level
from warmside.core.record.book import Book
from warmside.core.values.about import About
from warmside.core.values.basis import Basis

LEVELS = list(Level)
FINDING_COLUMNS = (
    Column("level", "level"),
    Column("subject", "who"),
    Column("words", "what"),
    Column("why", "why", below=True),
    Column("code", "finding", text=False),
    Column("source", "source", text=False),
    Column("mark", "mark", text=False),
    Column("events", "events", Kind.LIST, text=False),
)
_LEVEL, _SUBJECT, _WORDS, _WHY, *_REST = FINDING_COLUMNS
ROUND_COLUMNS = (
    Column("letter", ""),
    _LEVEL,
    Column("who", "who"),
    Column("brief", "what"),
    Column("subject", "subject", text=False),
    Column("words", "words", text=False),
    Column("why", "why", text=False),
    *_REST,
)
WHOLE_COLUMNS = (
    Column("letter", ""),
    _LEVEL,
    Column("who", "who"),
    Column("words", "what"),
    Column("why", "why", below=True),
    Column("subject", "subject", text=False),
    Column("brief", "brief", text=False),
    *_REST,
)
_SHORTEST = 12
_ENDS = re.compile(r"[:;] ")


def sourced(basis: Basis) -> tuple[str, str, tuple[int, ...]]:
    """Source, mark and events of a basis, as cells."""
    return basis.source.text, basis.source.mark.value, basis.events


def by_urgency(book: Book, findings: list[Finding]) -> list[Finding]:
    """The findings, the most urgent first, then by the animal's name."""
    return sorted(
        findings,
        key=lambda f: (LEVELS.index(f.level), _name(book, f).casefold(), f.code, f.words),
    )


def findings_table(
    book: Book, findings: list[Finding], title: str = "Findings", about: About | None = None
) -> Table:
    """Findings with their reasons, the most urgent first; whom they are about, unless it is all
    about one animal."""
    rows = tuple(
        (f.level.value, subject_words(book, f), f.words, reason(f), f.code, *sourced(f.basis))
        for f in by_urgency(book, findings)
    )
    one = about is not None and all(f.about == about for f in findings)
    columns = (_LEVEL, replace(_SUBJECT, text=not one), _WORDS, _WHY, *_REST)
    return Table("findings", columns, rows, title, empty="")


def round_findings(book: Book, findings: list[Finding], *, whole: bool) -> Table:
    """Findings for the top of the round: in brief, but what asks to act now in all its words."""
    rows = []
    for number, f in enumerate(by_urgency(book, findings)):
        said = {
            "letter": letter(number),
            "level": f.level.value,
            "who": _name(book, f),
            "brief": f.words if f.level is Level.ACT_NOW else brief(f.words),
            "subject": subject_words(book, f),
            "words": f.words,
            "why": reason(f),
            "code": f.code,
        }
        rows.append((said, sourced(f.basis)))
    columns = WHOLE_COLUMNS if whole else ROUND_COLUMNS
    cells = tuple(_cells(columns, said, basis) for said, basis in rows)
    return Table("findings", columns, cells, empty="", dense=True)


def _cells(
    columns: tuple[Column, ...],
    said: dict[str, str | None],
    basis: tuple[str, str, tuple[int, ...]],
) -> tuple[Cell, ...]:
    return (*(said[c.key] for c in columns[: len(said)]), *basis)


def letter(number: int) -> str:
    """The letter of a finding in the round, from 0 on: a, b, ..., z, aa, ab."""
    beyond, place = divmod(number, 26)
    return (letter(beyond - 1) if beyond else "") + chr(ord("a") + place)


def brief(words: str) -> str:
    """The first clause of a finding; an ellipsis tells that there is more."""
    ends = (found.start() for found in _ENDS.finditer(words))
    end = next((e for e in ends if e >= _SHORTEST), None)
    return words if end is None else f"{words[:end]} …"


def reason(finding: Finding) -> str | None:
    """Why it was found; nothing where its words say so already."""
    rule = finding.basis.rule
    return None if rule.casefold() in finding.words.casefold() else rule


def subject_words(book: Book, finding: Finding) -> str:
    """Whom a finding is about: the animal's label, or the enclosure's code."""
    if finding.about.animal_id is not None:
        return book.animals[finding.about.animal_id].label
    return _name(book, finding)


def _name(book: Book, finding: Finding) -> str:
    """The animal's name, or the code of the enclosure."""
    if finding.about.animal_id is not None:
        return book.animals[finding.about.animal_id].name
    if finding.about.enclosure_id is not None:
        return book.enclosures[finding.about.enclosure_id].code
    return ""
