"""The keeper's words for labels on sheets for other people: whom to call, what never to do."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from warmside.api import Section, Words, sheets


def for_sheet(sheet: sheets.Sheet, settings: Mapping[str, str]) -> Iterator[Section]:
    """Whom to call, at the head of a sitter's and an emergency sheet; what no sitter may do."""
    if sheet not in (sheets.Sheet.SITTER, sheets.Sheet.EMERGENCY):
        return
    numbers = (("keeper", settings["contact"]), ("vet", settings["vet"]))
    words = tuple(Words(f"{who}: {said}") for who, said in numbers if said)
    if words:
        yield Section("Numbers", words, sheets.SitterPlace.CALL)
    never = [text.strip() for text in settings["do_nots"].split(";") if text.strip()]
    if never and sheet is sheets.Sheet.SITTER:
        told = tuple(Words(f"– {text}") for text in never)
        yield Section("Never in this house", told, sheets.SitterPlace.NEVER)
