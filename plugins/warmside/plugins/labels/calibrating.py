"""`warmside labels calibrate`: a printer measured once, and corrected ever after."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Annotated

import typer

from warmside.api import (
    Answer,
    BadInput,
    Book,
    Column,
    Fact,
    Kind,
    Table,
    Unit,
    Words,
    near_miss,
    parse_quantity,
    quoted,
    said,
    session_of,
)
from warmside.plugins.labels.calibration import SMALLEST_PAGE_MM, calibration_page
from warmside.plugins.labels.memory import (
    NO_PROFILE,
    drop_profile,
    profile_named,
    profiles,
    store_profile,
)
from warmside.plugins.labels.pdf_file import check_target, write_pdf
from warmside.plugins.labels.printing import paper_of
from warmside.plugins.labels.profile import LINE_MM, PRINT_NOTE, Measured, profile_from_measurements
from warmside.plugins.labels.stockfile import PAGES_MM

app = typer.Typer(help="Measure and correct a printer.", no_args_is_help=True)

_NAME = re.compile(r"[a-z0-9][a-z0-9-]{0,39}")
Name = Annotated[str, typer.Argument(help="The printer's name, such as desk or desk-tray2.")]
Page = Annotated[str, typer.Option(help=f"{', '.join(PAGES_MM)}; else that of the stock in use.")]
Millimetres = Annotated[str, typer.Option(help="As measured, in mm.")]


@app.command()
def page(
    context: typer.Context,
    target: Annotated[Path, typer.Argument(metavar="FILE.pdf", help="The file to write.")],
    page: Page = "",
    profile: Annotated[str, typer.Option(help="Correct by this profile, to check it.")] = "",
    replace: Annotated[bool, typer.Option("--replace", help="Write over any file.")] = False,
) -> Answer:
    """Write the page to print and measure."""
    check_target(target, replace)
    with session_of(context).read() as book:
        width, height = page_size(book, page)
        correction = profile_named(book, profile)
    write_pdf(target, calibration_page(width, height, correction))
    then = (
        "the lines should now measure 100 mm, the crosses 20 mm"
        if profile
        else "warmside labels calibrate set NAME --across MM --down MM --left MM --top MM "
        "--top-right MM"
    )
    return said(
        f"wrote the calibration page to {target}",
        Fact("file", "file", str(target)),
        hints=[PRINT_NOTE, then],
    )


def page_size(book: Book, page: str) -> tuple[float, float]:
    """Width and height of the named page, else of the stock in use, else of A4."""
    if page:
        name = page.strip().lower()
        if name not in PAGES_MM:
            near = near_miss(name, PAGES_MM)
            raise BadInput(f"no page {quoted(page)!r}{near}; it is one of {', '.join(PAGES_MM)}")
        return PAGES_MM[name]
    stock = paper_of(book, "", None)
    size = (stock.page_width_mm, stock.page_height_mm)
    fits = all(side >= least for side, least in zip(size, SMALLEST_PAGE_MM, strict=True))
    return size if fits else PAGES_MM["a4"]


@app.command("set")
def set_profile(
    context: typer.Context,
    name: Name,
    across: Millimetres,
    down: Millimetres,
    left: Millimetres,
    top: Millimetres,
    top_right: Millimetres,
    page: Page = "",
) -> Answer:
    """Keep what was measured on a printer's page."""
    session = session_of(context)
    if not _NAME.fullmatch(name) or name == NO_PROFILE:
        raise BadInput(
            f"{quoted(name)!r} cannot name a printer; use small letters, digits and dashes"
        )
    typed = {"across": across, "down": down, "left": left, "top": top, "top right": top_right}
    lengths = [parse_quantity(t, Unit.LENGTH, bare=True, what=w) for w, t in typed.items()]
    with session.step(f"calibrated printer {name}") as writer:
        width, _ = page_size(writer.book, page)
        found = profile_from_measurements(Measured(*lengths), width)
        store_profile(writer, name, found)
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


def stretch(scale: float) -> float:
    """How much longer a line of 100 mm is drawn, in millimetres."""
    return round((scale - 1) * LINE_MM, 3)


COLUMNS = (
    Column("name", "printer", Kind.CODE),
    Column("offset_x", "shift right", Unit.LENGTH),
    Column("offset_y", "shift down", Unit.LENGTH),
    Column("stretch_across", "100 mm across", Unit.LENGTH),
    Column("stretch_down", "100 mm down", Unit.LENGTH),
    Column("rotation_deg", "turn, degrees", Unit.RATIO),
    Column("measured", "measured on"),
)


@app.command("list")
def list_profiles(context: typer.Context) -> Answer:
    """List the printers measured."""
    with session_of(context).read() as book:
        in_use = book.setting("labels", "profile") or NO_PROFILE
        rows = tuple(
            (
                name,
                p.offset_x_mm,
                p.offset_y_mm,
                stretch(p.scale_x),
                stretch(p.scale_y),
                round(p.rotation_deg, 3),
                day,
            )
            for name, (p, day) in profiles(book).items()
        )
    empty = "no printer yet; begin with: warmside labels calibrate page FILE.pdf"
    table = Table("profiles", COLUMNS, rows, empty=empty)
    return Answer("Printers", (table, Words(f"in use unless another is named: {in_use}")))


@app.command()
def drop(context: typer.Context, name: Name) -> Answer:
    """Forget a printer's correction."""
    with session_of(context).step(f"dropped printer {name}") as writer:
        drop_profile(writer, name)
    return said(f"dropped printer {name}", hints=["warmside undo (take it back)"])
