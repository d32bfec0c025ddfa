"""`warmside lineage`: families, kinship, pedigrees, loans."""

from __future__ import annotations

import typer

from warmside.plugins.lineage.commands import (
    collection,
    family,
    files,
    importing,
    kinship,
    loans,
)

app = typer.Typer(help="Lineage: families, kinship, pedigrees, loans.", no_args_is_help=True)
app.command("show")(family.show)
app.command("draw")(family.draw)
app.command("pair")(family.pair)
app.command("collection")(collection.collection)
app.command("kinship")(kinship.kinship)
app.command("export")(files.export)
app.add_typer(loans.app, name="loan")
app.command("import")(importing.import_)
