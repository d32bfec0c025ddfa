"""Arguments and options that several commands of sheds take."""

from __future__ import annotations

from typing import Annotated

import typer

OnDay = Annotated[str | None, typer.Option(help="As of that day.")]
