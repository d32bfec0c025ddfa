"""The commands that list signs and steps of condition."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, Column, Kind, Table, Tone, Words
from warmside.plugins.signs.seen.condition_steps import condition_rows
from warmside.plugins.signs.seen.known_signs import KnownSign, known_signs

app = typer.Typer(help="Signs of illness, condition steps.", no_args_is_help=True)
NO_DIAGNOSIS = "Words for what is seen, no diagnosis: what a sign means a vet says."
SIGN_COLUMNS = (
    Column("sign", "sign"),
    Column("level", "how soon"),
    Column("care", "meanwhile"),
    Column("also", "also written", Kind.LIST, below=True),
    Column("source", "source", text=False),
    Column("mark", "mark", text=False),
)


@app.command("list")
def list_signs() -> Answer:
    """List the signs: how soon a vet is to see it, and what not to do meanwhile."""
    rows = tuple(
        (s.word, s.level.value, s.care, _also(s), s.source.text, s.source.mark.value)
        for s in known_signs().values()
    )
    parts = (Words(NO_DIAGNOSIS, Tone.CAUTION), Table("signs", SIGN_COLUMNS, rows))
    return Answer("Signs of illness", parts)


def _also(sign: KnownSign) -> tuple[str, ...]:
    return tuple(word for word in sign.also if word != sign.word)


@app.command()
def steps(
    form: Annotated[str, typer.Argument(help="snake, lizard, tortoise or turtle; none: all.")] = "",
) -> Answer:
    """Say what each step of body condition, 1 to 5, looks like."""
    columns = (
        Column("form", "build"),
        Column("score", "score"),
        Column("looks", "looks like"),
        Column("source", "source", text=False),
        Column("mark", "mark", text=False),
    )
    rows = tuple(
        (name, n, text, row.source.text, row.source.mark.value)
        for name, row in condition_rows().items()
        if form in ("", name)
        for n, text in enumerate(row["steps"], 1)
    )
    empty = "no such build; it is one of: " + ", ".join(condition_rows())
    return Answer("Body condition by eye", (Table("steps", columns, rows, empty=empty),))
