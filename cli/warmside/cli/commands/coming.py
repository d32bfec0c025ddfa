"""`warmside arrive` and `warmside return`: animals that come."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.core.answers.parts import Answer
from warmside.core.doing.coming_and_going import Arrival, come_or_go
from warmside.core.doing.coming_and_going import arrive as come
from warmside.core.doing.entering import NewAnimal
from warmside.core.doing.recording import Recording
from warmside.core.record.entities import SEX_KNOWN_BY
from warmside.core.session.session import session_of

arrive_app = typer.Typer()
return_app = typer.Typer()

Enclosure = Annotated[
    str | None,
    typer.Option("--enclosure", help="Where it goes."),
]
At = Annotated[str | None, typer.Option(help="When: 2026-03-05, yesterday, 08:30 …")]
Confirm = Annotated[bool, typer.Option(help="It is right, though it looks odd.")]


@arrive_app.command("")
def arrive(
    context: typer.Context,
    animal: Annotated[str, typer.Argument(help="Name of the newcomer, or code of a known animal.")],
    species: Annotated[str | None, typer.Option(help="Scientific or common name.")] = None,
    how: Annotated[
        str, typer.Option(help="bought, gift, bred here, rescued or on loan here.")
    ] = "bought",
    source: Annotated[str, typer.Option("--from", help="From whom.")] = "",
    terms: Annotated[str, typer.Option(help="Terms of the purchase or loan.")] = "",
    enclosure: Enclosure = None,
    code: Annotated[str | None, typer.Option(help="Short code; else one is suggested.")] = None,
    sex: Annotated[str, typer.Option(help="female, male or unknown.")] = "unknown",
    sex_known_by: Annotated[str, typer.Option(help=", ".join(SEX_KNOWN_BY))] = "not known",
    hatched: Annotated[str, typer.Option(help="2023, 2023-07 or 2023-07-14.")] = "",
    at: At = None,
    note: Annotated[str, typer.Option(help="A note.")] = "",
    confirm: Confirm = False,
) -> Answer:
    """Take in a new animal: enter it and record its arrival. One that came back: `return`."""
    entered = NewAnimal(
        animal, species or "", code, sex, sex_known_by, hatched, source, enclosure=enclosure
    )
    fields = {"how": how, "source": source, "terms": terms}
    return come(session_of(context), Arrival(entered, fields, at, note, confirm))


@return_app.command("")
def come_back(
    context: typer.Context,
    animals: Annotated[list[str], typer.Argument(help="Codes or names.")],
    after: Annotated[str, typer.Option(help="loan, show, boarding or vet stay.")] = "loan",
    source: Annotated[str, typer.Option("--from", help="From whom.")] = "",
    enclosure: Enclosure = None,
    at: At = None,
    note: Annotated[str, typer.Option(help="A note.")] = "",
    confirm: Confirm = False,
) -> Answer:
    """Record that animals came back from a loan, a show, a boarding or the vet."""
    fields = {"after": after, "source": source}
    wanted = Recording(
        "returned",
        tuple(animals),
        fields,
        enclosure=enclosure,
        at=at,
        note=note,
        confirmed=confirm,
    )
    return come_or_go(session_of(context), wanted)
