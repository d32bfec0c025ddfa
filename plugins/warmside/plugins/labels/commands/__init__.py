"""`warmside labels`: print, and what printing can choose from."""

from __future__ import annotations

import typer

from warmside.plugins.labels.commands import calibrate, lists, notes
from warmside.plugins.labels.commands.print import print_labels

app = typer.Typer(help="Labels, cards and signs to print.", no_args_is_help=True)
app.command("print")(print_labels)
app.command("stocks")(lists.list_stocks)
app.command("lines")(lists.list_lines)
app.command("hazards")(lists.list_hazards)
app.command("note")(notes.set_note)
app.command("notes")(notes.list_notes)
app.add_typer(calibrate.app, name="calibrate")
