"""`warmside habitat describe`, `preset`, `export` and `show`: how an enclosure is set up."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Annotated

import typer

from warmside.api import (
    Answer,
    BadInput,
    Display,
    Enclosure,
    Unit,
    counted,
    format_quantity,
    said,
    session_of,
)
from warmside.plugins.habitat.commands.stored import (
    ask_about_targets,
    described_there,
    nothing,
    store,
)
from warmside.plugins.habitat.described.asked import asked_of_box, zones_typed
from warmside.plugins.habitat.described.description_file import read_description
from warmside.plugins.habitat.described.editing import new_text
from warmside.plugins.habitat.described.enclosure import WALLS
from warmside.plugins.habitat.described.presets import PRESETS, preset_text
from warmside.plugins.habitat.reading.describing import description_text
from warmside.plugins.habitat.reading.seen_here import seen_here
from warmside.plugins.habitat.reading.wanted import lights, wanted
from warmside.plugins.habitat.telling.description import sheet_parts

MOST_BYTES = 200_000
Which = Annotated[str, typer.Argument(help="Code or name of the enclosure.")]
On = Annotated[str | None, typer.Option(help="As of that day; today unless named.")]


def describe(
    context: typer.Context,
    enclosure: Which,
    file: Annotated[
        Path | None, typer.Argument(help="TOML file; see: warmside habitat preset")
    ] = None,
    width: Annotated[str | None, typer.Option(help="Inner width, without a file.")] = None,
    depth: Annotated[str | None, typer.Option(help="Inner depth.")] = None,
    height: Annotated[str | None, typer.Option(help="Inner height.")] = None,
    wall: Annotated[str | None, typer.Option(help=f"One of: {', '.join(WALLS)}.")] = None,
    wall_thickness: Annotated[str | None, typer.Option(help="How thick the walls are.")] = None,
    zones: Annotated[
        str | None, typer.Option(help="From warm to cool: 'warm side 50cm, cool side 40cm'.")
    ] = None,
    on: Annotated[str | None, typer.Option(help="Set up so since that day; today.")] = None,
    confirm: Annotated[bool, typer.Option("--confirm", help="It is so, though odd.")] = False,
) -> Answer:
    """Take the set-up of an enclosure from a file or, without one, ask for box and zones."""
    typed = {"width": width, "depth": depth, "height": height, "wall": wall}
    given = {**typed, "wall_thickness": wall_thickness, "zones": zones}
    if file is not None and any(given.values()):
        raise BadInput("a file says all of it; give the file, or the options, not both")
    text = None if file is None else _text_of(file)
    found = read_description(text, file.name) if text is not None and file else None
    session = session_of(context)
    with session.step(f"described {enclosure}", confirmed=confirm) as writer:
        where = writer.book.enclosure(enclosure)
        since = session.day(on, writer.book)
        if text is None:
            text = box_text(where, given, writer.book.home.display)
        found = found or read_description(text, "")
        if not confirm:
            ask_about_targets(session.asking(writer.book), where, since, found)
        store(writer, where, since, text, confirm)
        writer.say(f"{where.code}: set-up described, from {since} on")
    many = f"{counted(len(found.zones), 'zone')}, {counted(len(found.fittings), 'fitting')}"
    hints = [f"warmside habitat show {where.code} (plan and reasons; --save sheet.pdf)"]
    if not found.fittings:
        hints = [f"warmside habitat add hide {where.code}", *hints]
    return said(f"{where.code} is described from {since} on: {many}", hints=hints)


def box_text(where: Enclosure, given: Mapping[str, str | None], display: Display) -> str:
    """The description of a bare box from what was typed and is on record; the rest is asked."""
    on_record = {"width": where.width_mm, "depth": where.depth_mm, "height": where.height_mm}
    sizes = {k: format_quantity(mm, Unit.LENGTH, display) for k, mm in on_record.items() if mm}
    known = {**sizes, **{k: text for k, text in given.items() if text is not None}}
    found = {q.key: q.answered(known.get(q.key)) for q in asked_of_box()}
    return new_text(found, zones_typed(found.pop("zones")))


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
        raise nothing(where)
    _write_new(file, text)
    return said(f"{file} describes {where.code}")


def show(context: typer.Context, enclosure: Which, on: On = None) -> Answer:
    """The set-up sheet: plan to scale, targets, each fitting with its reason; --save sheet.pdf."""
    session = session_of(context)
    with session.ask() as ask:
        where, display = ask.book.enclosure(enclosure), ask.book.home.display
        day = session.day(on, ask.book)
        found = described_there(ask.book, where, day)
        spans, seen = wanted(ask, where.id, day), seen_here(ask, where.id, day)
        on_hour, _ = lights(ask, where.id)
    sizes = (found.width, found.depth, found.height)
    size = " × ".join(format_quantity(mm, Unit.LENGTH, display) for mm in sizes)
    thick = format_quantity(found.wall_mm, Unit.LENGTH, display)
    parts = sheet_parts(found, f"{size}, {found.wall} of {thick}", spans, seen, on_hour, display)
    title = f"{where.code} {where.name}".strip()
    return Answer(f"{title}: how it is set up, and why", parts, page="one")


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
