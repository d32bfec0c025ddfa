"""Findings as a table, for the round and for reports."""

from __future__ import annotations

from warmside.core.answers.parts import Column, Kind, Table
from warmside.core.plugins.hook_values import Finding, Level
from warmside.core.record.book import Book
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


def sourced(basis: Basis) -> tuple[str, str, tuple[int, ...]]:
    """Source, mark and events of a basis, as cells."""
    return basis.source.text, basis.source.mark.value, basis.events


def findings_table(book: Book, findings: list[Finding], title: str = "Findings") -> Table:
    """Findings, the most urgent first."""
    ordered_findings = sorted(
        findings, key=lambda f: (LEVELS.index(f.level), f.about.animal_id or 0, f.code, f.words)
    )
    rows = tuple(
        (f.level.value, _subject(book, f), f.words, f.basis.rule, f.code, *sourced(f.basis))
        for f in ordered_findings
    )
    return Table("findings", FINDING_COLUMNS, rows, title, empty="")


def _subject(book: Book, finding: Finding) -> str:
    if finding.about.animal_id is not None:
        return book.animals[finding.about.animal_id].label
    if finding.about.enclosure_id is not None:
        return book.enclosures[finding.about.enclosure_id].code
    return ""
