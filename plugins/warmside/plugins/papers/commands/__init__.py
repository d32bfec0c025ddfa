"""`warmside papers`: marks, documents, and lists of them."""

from __future__ import annotations

import typer

from warmside.plugins.papers.commands import documents, listing, marks

app = typer.Typer(help="Marks, documents, and lists of them.", no_args_is_help=True)
app.command("mark")(marks.mark)
app.command("unmark")(marks.unmark)
app.command("add")(documents.add)
app.command("change")(documents.change)
app.command("end")(documents.end)
app.command("list")(listing.list_papers)
app.command("inventory")(listing.list_all)
