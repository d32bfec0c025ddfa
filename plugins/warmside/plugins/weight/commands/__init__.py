"""`warmside weight`: weights, charts, growth, condition, doubts and references."""

from __future__ import annotations

import typer

from warmside.plugins.weight.commands import looking, references, scoring, settling

app = typer.Typer(help="Weights: percentiles, growth, loss, references.", no_args_is_help=True)
app.command("show")(looking.show)
app.command("chart")(looking.chart)
app.command("growth")(looking.growth)
app.command("condition")(looking.condition)
app.command("doubts")(settling.doubts)
app.command("score")(scoring.score_)
app.add_typer(references.app, name="reference")
