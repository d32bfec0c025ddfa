"""`warmside habitat describe`, `preset`, `export` and `show`: how an enclosure is set up."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from warmside.api import Answer, BadInput, Book, Enclosure, NotFound, StepWriter, said, session_of
from warmside.plugins.habitat.described.description_file import read_description
from warmside.plugins.habitat.described.presets import PRESETS, preset_text
from warmside.plugins.habitat.reading.describing import described, description_text
from warmside.plugins.habitat.telling.description import sheet_parts

MOST_BYTES = 200_000
Which = Annotated[str, typer.Argument(help="Code or name of the enclosure.")]
On = Annotated[str | None, typer.Option(help="As of that day; today unless named.")]


def describe(
    context: typer.Context,
    enclosure: Which,
    file: Annotated[Path, typer.Argument(help="TOML file; begin with: warmside habitat preset")],
    on: Annotated[str | None, typer.Option(help="Set up so since that day; today.")] = None,
) -> Answer:
    """Take the description of an enclosure from a file; what held before stays on record."""
    text = _text_of(file)
    found = read_description(text, file.name)
    session = session_of(context)
    with session.step(f"described {enclosure}") as writer:
        where = writer.book.enclosure(enclosure)
        since = session.day(on, writer.book)
        if since > writer.book.today:
            raise BadInput(f"--on {since} is still to come; describe what stands there")
        _store(writer, where, since, text)
        writer.say(f"{where.code}: set-up described, from {since} on")
    many = f"{len(found.zones)} zones, {len(found.fittings)} fittings"
    hints = [f"warmside habitat show {where.code} (plan and reasons; --save sheet.pdf)"]
    return said(f"{where.code} is described from {since} on: {many}", hints=hints)


def preset(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help=f"One of: {', '.join(PRESETS)}.")],
    file: Annotated[Path, typer.Argument(help="A new file, to be edited.")],
) -> Answer:
    """Write a set-up to begin with into a file; what only you can see is left for you to say."""
    _write_new(file, preset_text(name))
    return said(
        f"{file} describes {PRESETS[name]}; an invented example",
        hints=[f"edit it, then: warmside habitat describe ENCLOSURE {file}"],
    )


def export(
    context: typer.Context,
    enclosure: Which,
    file: Annotated[Path, typer.Argument(help="A new file.")],
    on: On = None,
) -> Answer:
    """Write the description of an enclosure into a file, as it was given."""
    session = session_of(context)
    with session.read() as book:
        where = book.enclosure(enclosure)
        text = description_text(book, where.id, session.day(on, book))
    if text is None:
        raise _nothing(where)
    _write_new(file, text)
    return said(f"{file} describes {where.code}")


def show(context: typer.Context, enclosure: Which, on: On = None) -> Answer:
    """The set-up sheet: plan to scale, targets, each fitting with its reason; --save sheet.pdf."""
    session = session_of(context)
    with session.read() as book:
        where = book.enclosure(enclosure)
        found = described(book, where.id, session.day(on, book))
        title = f"{where.code} {where.name}".strip()
    if found is None:
        raise _nothing(where)
    size = " × ".join(f"{mm / 10:g}" for mm in (found.width, found.depth, found.height))
    parts = sheet_parts(found, f"{size} cm, {found.wall}")
    return Answer(f"{title}: how it is set up, and why", parts, page="one")


def _store(writer: StepWriter, where: Enclosure, since: object, text: str) -> None:
    from warmside.plugins.habitat.tables import description

    number = _number(writer.book, where, since)
    if number is None:
        writer.insert(description, enclosure_id=where.id, since=since, text=text)
    else:
        writer.change(description, {"id": number}, text=text)


def _number(book: Book, where: Enclosure, since: object) -> int | None:
    query = "SELECT id, enclosure_id, since FROM habitat_description"
    same = [n for n, e, day in book.rows(query) if (e, str(day)) == (where.id, str(since))]
    return same[0] if same else None


def _text_of(file: Path) -> str:
    try:
        if file.stat().st_size > MOST_BYTES:
            raise BadInput(f"{file} is too large for a description; name the TOML file")
        return file.read_text("utf-8")
    except (OSError, UnicodeDecodeError) as wrong:
        why = getattr(wrong, "strerror", None) or "it is no UTF-8 text"
        raise BadInput(f"cannot read {file}: {why}") from None


def _write_new(file: Path, text: str) -> None:
    """Write a file that is not there yet; nothing is overwritten."""
    try:
        with file.open("x", encoding="utf-8") as out:
            out.write(text)
    except OSError as wrong:
        why = "it is there already" if isinstance(wrong, FileExistsError) else wrong.strerror
        raise BadInput(f"cannot write {file}: {why}; name a new file") from None


def _nothing(where: Enclosure) -> NotFound:
    return NotFound(
        f"nobody has described {where.code} for that day; begin with: "
        "warmside habitat preset snake setup.toml"
    )
