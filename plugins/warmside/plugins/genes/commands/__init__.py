"""`warmside genes`: what animals carry, and what pairs can produce."""

from __future__ import annotations

import typer

from warmside.plugins.genes.commands import chances, clutch, known, pairing, proving, ratio, traits

app = typer.Typer(
    help="Genes: what an animal carries, what a pair can produce.", no_args_is_help=True
)
app.command("known")(known.known)
app.command("show")(known.show)
app.command("pair")(pairing.pair)
app.command("plan")(pairing.plan)
app.command("chances")(chances.chances)
app.command("traits")(traits.traits)
app.command("add")(traits.add)
app.command("drop")(traits.drop)
app.command("clutch")(clutch.clutch)
app.command("ratio")(ratio.ratio)
app.command("prove")(proving.prove)
