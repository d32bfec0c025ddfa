"""Options that several commands of lineage take."""

from __future__ import annotations

from typing import Annotated

import typer

Sires = Annotated[
    list[str] | None,
    typer.Option("--sire", help="The father; one of several with its weight: PEP=0.7."),
]
At = Annotated[str | None, typer.Option(help="When: 2026-03-05, yesterday …")]
Code = Annotated[str | None, typer.Option(help="Short code of the clutch; else C1, C2 …")]
Confirm = Annotated[bool, typer.Option(help="It is right, though it looks odd.")]
Note = Annotated[str, typer.Option(help="A note.")]
