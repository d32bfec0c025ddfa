"""Writing a description of an enclosure, new or changed, from a day on."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import typer

from warmside.api import (
    Answer,
    Ask,
    BadInput,
    Book,
    Display,
    Doubtful,
    Enclosure,
    NotFound,
    StepWriter,
    Unit,
    format_quantity,
    said,
    session_of,
)
from warmside.plugins.habitat.described import enclosure as described_as
from warmside.plugins.habitat.described.description_file import read_description
from warmside.plugins.habitat.reading.describing import (
    all_descriptions,
    described,
    description_text,
)
from warmside.plugins.habitat.reading.odd_targets import warm_cool_side

OFF_MM = 10.0
"""Sizes on record and as described may differ by so much: rounding from feet and inches."""
Found = described_as.Enclosure


def store(writer: StepWriter, where: Enclosure, since: date, text: str, confirmed: bool) -> None:
    """Write the description that holds from a day on.

    Doubtful where it is newly of another size than the record of the enclosure.
    """
    from warmside.plugins.habitat.tables import description

    if since > writer.book.today:
        raise BadInput(f"--on {since} is still to come; describe what stands there")
    found, before = read_description(text, ""), described(writer.book, where.id, since)
    if not confirmed and (before is None or _size(before) != _size(found)):
        doubt = other_size(where, found, writer.book.home.display)
        if doubt:
            raise Doubtful(doubt)
    number = _number(writer.book, where, since)
    if number is None:
        writer.insert(description, enclosure_id=where.id, since=since, text=text)
    else:
        writer.change(description, {"id": number}, text=text)


def other_size(where: Enclosure, found: Found, display: Display) -> str:
    """Where the description is of another size than the record of the enclosure; else nothing."""
    pairs = (
        ("wide", where.width_mm, found.width),
        ("deep", where.depth_mm, found.depth),
        ("high", where.height_mm, found.height),
    )
    told = [
        f"{_told(mm, display)} {word} on record and {_told(typed, display)} as described"
        for word, mm, typed in pairs
        if mm is not None and abs(mm - typed) > OFF_MM
    ]
    if not told:
        return ""
    return f"{where.code} is {', '.join(told)}; mend one: warmside enclosure change {where.code}"


def ask_about_targets(ask: Ask, where: Enclosure, since: date, found: Found) -> None:
    """Doubtful where its cool side is to be warmer than the warm side of who lives there."""
    if doubt := warm_cool_side(ask, where.id, since, found):
        raise Doubtful(f"{where.code}: {doubt}")


def _size(found: Found) -> tuple[float, float, float]:
    return found.width, found.depth, found.height


def changed(
    context: typer.Context,
    enclosure: str,
    on: str | None,
    confirmed: bool,
    edit: Callable[[str, Found], tuple[str, str]],
) -> Answer:
    """Change the description that holds on a day by a function of its text and what it says.

    The function gives the new text, and what was done in words.
    """
    session = session_of(context)
    with session.step(f"changed the set-up of {enclosure}", confirmed=confirmed) as writer:
        where = writer.book.enclosure(enclosure)
        since = session.day(on, writer.book)
        text = _holding(writer.book, where, since)
        new, words = edit(text, read_description(text, ""))
        found = read_description(new, "")
        if not confirmed:
            ask_about_targets(session.asking(writer.book), where, since, found)
        store(writer, where, since, new, confirmed)
        writer.say(f"{where.code}: {words}")
    hints = [f"warmside habitat show {where.code}", "warmside undo (take it back)"]
    return said(f"{where.code}: {words}, from {since} on", hints=hints)


def described_there(book: Book, where: Enclosure, on: date) -> Found:
    """The description that holds on a day; NotFound where there is none."""
    found = described(book, where.id, on)
    if found is None:
        raise nothing(where)
    return found


def nothing(where: Enclosure) -> NotFound:
    """That nobody has described an enclosure, and how to begin."""
    return NotFound(
        f"nobody has described {where.code} for that day; begin with: "
        f"warmside habitat describe {where.code}"
    )


def _holding(book: Book, where: Enclosure, since: date) -> str:
    """The text that holds on a day; BadInput where a later one would hide the change."""
    text = description_text(book, where.id, since)
    if text is None:
        raise nothing(where)
    later = [day for e, day, _ in all_descriptions(book) if e == where.id and day > since]
    if later:
        raise BadInput(
            f"{where.code} is described anew from {later[0]} on, which would not change; "
            f"name that day or a later one: --on {later[-1]}"
        )
    return text


def _number(book: Book, where: Enclosure, since: date) -> int | None:
    query = "SELECT id FROM habitat_description WHERE enclosure_id = ? AND since = ?"
    found = list(book.rows(query, (where.id, since.isoformat())))
    return found[0][0] if found else None


def _told(mm: float, display: Display) -> str:
    return format_quantity(mm, Unit.LENGTH, display)
