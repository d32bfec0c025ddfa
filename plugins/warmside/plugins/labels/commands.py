"""`warmside labels`: print, and what printing can choose from."""

from __future__ import annotations

import typer

from warmside.plugins.labels import calibrating, listing, noting
from warmside.plugins.labels.printing import print_labels

app = typer.Typer(help="Labels, cards and signs to print.", no_args_is_help=True)
app.command("print")(print_labels)
app.command("stocks")(listing.list_stocks)
app.command("lines")(listing.list_lines)
app.command("hazards")(listing.list_hazards)
app.command("note")(noting.set_note)
app.command("notes")(noting.list_notes)
app.add_typer(calibrating.app, name="calibrate")
