"""What to know: what wants the keeper is said at once, mere notes unfold."""

from __future__ import annotations

from collections.abc import Sequence

from warmside.core.asking.rounds.findings_told import by_urgency
from warmside.core.plugins.hook_values import Finding, Level
from warmside.core.record.book import Book
from warmside.faces.web.markup import Child, Markup, element, unbroken
from warmside.page.visits.visit import address


def finding_list(book: Book, findings: Sequence[Finding]) -> Child:
    """The findings, the most urgent first; nothing where there is none."""
    ordered = by_urgency(book, list(findings))
    pressing = [f for f in ordered if f.level is not Level.NOTE]
    notes = [f for f in ordered if f.level is Level.NOTE]
    return [_listed(book, pressing), _folded(book, notes)]


def _listed(book: Book, findings: list[Finding]) -> Child:
    return (
        element("ul", [_item(book, f) for f in findings], class_="findings") if findings else None
    )


def _folded(book: Book, notes: list[Finding]) -> Child:
    if not notes:
        return None
    said = "1 note" if len(notes) == 1 else f"{len(notes)} notes"
    return element("details", element("summary", said), _listed(book, notes))


def _item(book: Book, finding: Finding) -> Markup:
    pressing = finding.level is not Level.NOTE
    level = element("strong", f"{finding.level.value}: ") if pressing else None
    why = element("small", unbroken(finding.basis.rule)) if finding.basis.rule else None
    class_ = "pressing" if pressing else None
    return element(
        "li", level, _who(book, finding), " ", unbroken(finding.words), why, class_=class_
    )


def _who(book: Book, finding: Finding) -> Child:
    animal = book.animals.get(finding.about.animal_id or 0)
    place = book.enclosures.get(finding.about.enclosure_id or 0)
    if animal is not None:
        return [element("a", animal.name, href=address("A", animal.code)), ":"]
    return [element("a", place.name, href=address("E", place.code)), ":"] if place else None
