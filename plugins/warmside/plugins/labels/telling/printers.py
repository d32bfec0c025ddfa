"""What calibrating answers: the page written, the correction found, the printers measured."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from warmside.api import Answer, Column, Fact, Kind, Table, Unit, Words, said
from warmside.plugins.labels.paper.profile import LINE_MM, PRINT_NOTE, PrinterProfile
from warmside.plugins.labels.reading.memory import NO_PROFILE, Measured

COLUMNS = (
    Column("name", "printer", Kind.CODE),
    Column("offset_x", "shift right", Unit.LENGTH),
    Column("offset_y", "shift down", Unit.LENGTH),
    Column("stretch_across", "100 mm across", Unit.LENGTH),
    Column("stretch_down", "100 mm down", Unit.LENGTH),
    Column("rotation_deg", "turn, degrees", Unit.RATIO),
    Column("measured", "measured on"),
)


def told_page(target: Path, corrected: bool) -> Answer:
    """The calibration page was written; what to do with it."""
    then = (
        "the lines should now measure 100 mm, the crosses 20 mm"
        if corrected
        else "warmside labels calibrate set NAME --across MM --down MM --left MM --top MM "
        "--top-right MM"
    )
    written = Fact("file", "file", str(target))
    return said(f"wrote the calibration page to {target}", written, hints=[PRINT_NOTE, then])


def told_profile(name: str, found: PrinterProfile) -> Answer:
    """The correction of a printer, and how to check and use it."""
    return said(
        f"printer {name} is corrected from now on where you name it",
        Fact("offset_x", "shifted right", found.offset_x_mm, Unit.LENGTH),
        Fact("offset_y", "shifted down", found.offset_y_mm, Unit.LENGTH),
        Fact("stretch_across", "stretched, on 100 mm across", stretch(found.scale_x), Unit.LENGTH),
        Fact("stretch_down", "stretched, on 100 mm down", stretch(found.scale_y), Unit.LENGTH),
        Fact("rotation_deg", "turned, in degrees", round(found.rotation_deg, 3), Unit.RATIO),
        hints=[
            f"check it: warmside labels calibrate page FILE.pdf --profile {name}",
            f"use it always: warmside plugin set labels profile {name}",
            "warmside undo (take it back)",
        ],
    )


def told_profiles(known: Mapping[str, Measured], in_use: str) -> Answer:
    """The printers measured."""
    rows = tuple(_row(name, *measured) for name, measured in known.items())
    empty = "no printer yet; begin with: warmside labels calibrate page FILE.pdf"
    table = Table("profiles", COLUMNS, rows, empty=empty)
    words = Words(f"in use unless another is named: {in_use or NO_PROFILE}")
    return Answer("Printers", (table, words))


def _row(name: str, p: PrinterProfile, day: str) -> tuple[str | float, ...]:
    turn = round(p.rotation_deg, 3)
    return (name, p.offset_x_mm, p.offset_y_mm, stretch(p.scale_x), stretch(p.scale_y), turn, day)


def stretch(scale: float) -> float:
    """How much longer a line of 100 mm is drawn, in millimetres."""
    return round((scale - 1) * LINE_MM, 3)
