"""`warmside labels stocks`, `lines` and `hazards`: what printing can choose from."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from warmside.api import Answer, session_of
from warmside.plugins.labels.content.hazards import hazards
from warmside.plugins.labels.reading.papers import stocks_known
from warmside.plugins.labels.reading.residents import lines_given
from warmside.plugins.labels.telling.lists import told_hazards, told_lines, told_stocks


def list_stocks(
    context: typer.Context,
    stocks: Annotated[
        Path | None, typer.Option(metavar="FILE.toml", help="A file with stocks of your own.")
    ] = None,
) -> Answer:
    """List the label stocks."""
    with session_of(context).ask() as ask:
        return told_stocks(stocks_known(ask, stocks), ask.setting("labels", "stock"))


def list_lines(context: typer.Context) -> Answer:
    """List the lines that labels can have."""
    with session_of(context).ask() as ask:
        return told_lines(lines_given(ask, ask.book.today))


def list_hazards(context: typer.Context) -> Answer:
    """List the dangers that hazard signs have words for."""
    return told_hazards(hazards())
