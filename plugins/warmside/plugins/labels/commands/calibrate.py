"""`warmside labels calibrate`: a printer measured once, and corrected ever after."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Annotated

import typer

from warmside.api import Answer, BadInput, Unit, parse_quantity, quoted, said, session_of
from warmside.plugins.labels.commands.keeping import drop_profile, store_profile
from warmside.plugins.labels.commands.pdf_file import check_target, write_pdf
from warmside.plugins.labels.drawing.calibration import SMALLEST_PAGE_MM, calibration_page
from warmside.plugins.labels.paper.profile import Measured, profile_from_measurements
from warmside.plugins.labels.paper.stockrow import PAGES_MM
from warmside.plugins.labels.reading.memory import NO_PROFILE, profile_named, profiles
from warmside.plugins.labels.reading.papers import page_size, profile_in_use
from warmside.plugins.labels.telling.printers import told_page, told_profile, told_profiles

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
    with session_of(context).ask() as ask:
        width, height = page_size(ask, page, SMALLEST_PAGE_MM)
        correction = profile_named(ask.book, profile)
    write_pdf(target, calibration_page(width, height, correction))
    return told_page(target, bool(profile))


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
        width, _ = page_size(session.asking(writer.book), page, SMALLEST_PAGE_MM)
        found = profile_from_measurements(Measured(*lengths), width)
        store_profile(writer, name, found)
    return told_profile(name, found)


@app.command("list")
def list_profiles(context: typer.Context) -> Answer:
    """List the printers measured."""
    with session_of(context).ask() as ask:
        return told_profiles(profiles(ask.book), profile_in_use(ask, None))


@app.command()
def drop(context: typer.Context, name: Name) -> Answer:
    """Forget a printer's correction."""
    with session_of(context).step(f"dropped printer {name}") as writer:
        drop_profile(writer, name)
    return said(f"dropped printer {name}", hints=["warmside undo (take it back)"])
