"""The commands that enter and remove the marks of animals."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, said, session_of
from warmside.plugins.papers.commands.keeping import NewMark, drop_mark, keep_mark
from warmside.plugins.papers.documents.held import MARKS
from warmside.plugins.papers.reading.stored import mark_numbered

TAKE_BACK = "warmside undo (take it back)"


def mark(
    context: typer.Context,
    animal: Annotated[str, typer.Argument(help="The animal, by code or name.")],
    number: Annotated[str, typer.Argument(help="The number as it is read or written.")],
    kind: Annotated[str, typer.Option(help=", ".join(MARKS))] = MARKS[0],
    place: Annotated[str, typer.Option(help="Where on its body.")] = "",
    since: Annotated[str | None, typer.Option(help="The day it was set or taken.")] = None,
    note: Annotated[str, typer.Option(help="A note.")] = "",
    confirm: Annotated[bool, typer.Option("--confirm", help="It is right, though odd.")] = False,
) -> Answer:
    """Enter by what an animal is known: a transponder of 15 digits, a ring, a scale photo."""
    session = session_of(context)
    with session.step(f"papers mark {animal}", confirmed=confirm) as writer:
        day = session.day(since, writer.book) if since else None
        whom = writer.book.animal(animal)
        kept = keep_mark(writer, whom, NewMark(number, kind, place, day, note), confirmed=confirm)
        writer.say(f"papers: {whom.code} {kept.words}")
    return said(f"{whom.label}: {kept.words}", *kept.told, hints=[TAKE_BACK])


def unmark(
    context: typer.Context,
    number: Annotated[int, typer.Argument(help="The number of the mark, as listed.")],
) -> Answer:
    """Remove a mark that was entered in error; one that was lost is better noted."""
    with session_of(context).step(f"papers unmark {number}") as writer:
        found = mark_numbered(writer.book, number)
        code = writer.book.animals[found.animal].code
        drop_mark(writer, found)
        writer.say(f"papers: removed {found.words} of {code}")
    return said(f"removed {found.words} of {code}", hints=[TAKE_BACK])
