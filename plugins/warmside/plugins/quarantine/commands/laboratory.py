"""`warmside quarantine laboratory`: how good a method is at the keeper's own laboratory."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, NotFound, Tone, Words, said, session_of
from warmside.plugins.quarantine.odds.methods import laboratory, method
from warmside.plugins.quarantine.reading.stored import laboratory_figures
from warmside.plugins.quarantine.tables import laboratory as laboratory_table
from warmside.plugins.quarantine.telling.wording import DEFER


def set_laboratory(
    context: typer.Context,
    key: Annotated[str, typer.Argument(metavar="METHOD", help="flotation, blood-pcr …")],
    sensitivity: Annotated[
        float | None, typer.Option(help="Share of the infected that test positive.")
    ] = None,
    up_to: Annotated[
        float | None, typer.Option(help="Upper end, where the laboratory gives a range.")
    ] = None,
    specificity: Annotated[float, typer.Option(help="Share of the free that test negative.")] = 1.0,
    drop: Annotated[bool, typer.Option("--drop", help="Back to the published figures.")] = False,
) -> Answer:
    """Put in your laboratory's own figures for a method."""
    session = session_of(context)
    chosen = method(key)
    if not drop and sensitivity is None:
        raise BadInput("give the laboratory's sensitivity: --sensitivity 0.8")
    with session.step(f"laboratory figures of {key}") as writer:
        known = key in laboratory_figures(writer.book)
        if drop and not known:
            raise NotFound(f"there are no own figures of {key}")
        if known:
            writer.remove(laboratory_table, {"method": key})
        if not drop:
            assert sensitivity is not None
            own = laboratory(sensitivity, sensitivity if up_to is None else up_to, specificity)
            writer.insert(
                laboratory_table,
                method=key,
                sensitivity_low=own.sensitivity_low,
                sensitivity_high=own.sensitivity_high,
                specificity=own.specificity,
            )
    what = "published figures hold again" if drop else "your laboratory's figures hold now"
    deferring = Words(DEFER, Tone.CAUTION)
    return said(f"{chosen.title}: {what}", deferring, hints=["warmside undo (take it back)"])
