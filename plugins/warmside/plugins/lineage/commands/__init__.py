"""`warmside lineage`: families, kinship, pedigrees, loans, breeding seasons."""

from __future__ import annotations

import typer

from warmside.plugins.lineage.commands import (
    collection,
    eggs,
    family,
    files,
    hatching,
    importing,
    kinship,
    laying,
    loans,
    season,
)

app = typer.Typer(
    help="Lineage: families, kinship, pedigrees, loans, breeding.", no_args_is_help=True
)
app.command("show")(family.show)
app.command("draw")(family.draw)
app.command("pair")(family.pair)
app.command("collection")(collection.collection)
app.command("kinship")(kinship.kinship)
app.command("export")(files.export)
app.add_typer(loans.app, name="loan")
app.command("import")(importing.import_)
app.add_typer(season.app, name="season")
app.command("laid")(laying.laid)
app.add_typer(eggs.app, name="eggs")
app.command("hatch")(hatching.hatch)
app.command("born")(hatching.born)
