"""`warmside feeding word`: the keeper's own words for food, each mapped once."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, Column, Kind, NotFound, Table, Unit, quoted, said, session_of
from warmside.plugins.feeding.prey.classes import prey_named
from warmside.plugins.feeding.prey.words import plain
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.reading.noted import own_words
from warmside.plugins.feeding.reading.unknowns import unknown_words
from warmside.plugins.feeding.tables import word as table

app = typer.Typer(help="Own words for food.", no_args_is_help=True)
Word = Annotated[str, typer.Argument(help="The word as it is recorded.")]
NONE = "none"
UNDO = "warmside undo (take it back)"
COLUMNS = (Column("word", "word"), Column("prey", "stands for", Kind.CODE))
UNKNOWN_COLUMNS = (Column("word", "word"), Column("meals", "recent meals", Unit.COUNT))


@app.command("list")
def list_words(context: typer.Context) -> Answer:
    """List the words that are mapped, and those of recent meals that are not."""
    with session_of(context).ask() as ask:
        rows = tuple((w, prey or NONE) for w, prey in own_words(ask.book).items())
        reading = Reading(ask, ask.book.today)
        missing = tuple(unknown_words(reading, reading.here()).most_common())
    hint = "no word is mapped; map one: warmside feeding word set 'jumbo pinky' rat-pinky"
    title = "Words of meals that are no known food"
    return Answer(
        "Words for food",
        (
            Table("words", COLUMNS, rows, empty=hint),
            Table("unknown", UNKNOWN_COLUMNS, missing, title, empty="every recent meal is known"),
        ),
    )


@app.command("set")
def set_word(
    context: typer.Context,
    word: Word,
    prey: Annotated[str, typer.Argument(help="Class of food: mouse-adult; none if it is none.")],
) -> Answer:
    """Say once what a word stands for; meals recorded with it count so from the first on."""
    said_word = plain(word)
    code = "" if prey.strip().lower() == NONE else prey_named(prey).code
    session = session_of(context)
    with session.step(f"word {said_word} mapped") as writer:
        if said_word in own_words(writer.book):
            writer.change(table, {"word": said_word}, prey=code)
        else:
            writer.insert(table, word=said_word, prey=code)
    stands = prey_named(code).name if code else "no class of food"
    return said(f"{quoted(said_word)!r} stands for {stands}", hints=[UNDO])


@app.command()
def drop(context: typer.Context, word: Word) -> Answer:
    """Forget what a word stands for."""
    said_word = plain(word)
    session = session_of(context)
    with session.step(f"word {said_word} dropped") as writer:
        if said_word not in own_words(writer.book):
            raise NotFound(f"no word {quoted(word)!r} is mapped; see: warmside feeding word list")
        writer.remove(table, {"word": said_word})
    return said(f"{quoted(said_word)!r} stands for nothing any more", hints=[UNDO])
