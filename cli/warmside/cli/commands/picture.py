"""`warmside picture`: pictures and papers taken in, listed, changed, saved, taken out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Annotated

import typer

from warmside.cli.asking_back import with_questions
from warmside.cli.second_copies import second_folder
from warmside.core.answers.parts import Answer
from warmside.core.asking.pictures.lists import Which, picture_list, picture_strip
from warmside.core.doing.pictures import keeping as keeping_pictures
from warmside.core.doing.pictures.forgetting import ForgettingPicture, forget_picture
from warmside.core.doing.pictures.taking import TakingIn, take_in, take_in_folder
from warmside.core.file.pictures.reading import Given
from warmside.core.session.session import session_of
from warmside.faces.progress import progress

app = typer.Typer(help="Pictures and papers of animals and enclosures.", no_args_is_help=True)

Subject = Annotated[str, typer.Argument(help="Code or name of an animal or an enclosure.")]
Number = Annotated[int, typer.Argument(help="The number of the picture, as listed.")]


@app.command()
def add(
    context: typer.Context,
    subject: Subject,
    files: Annotated[
        list[Path], typer.Argument(help="JPEG, PNG, WebP, HEIC or PDF files, or a folder of them.")
    ],
    view: Annotated[
        str, typer.Option(help="What it shows, the same words each time: left side, wound.")
    ] = "",
    note: Annotated[str, typer.Option(help="A note.")] = "",
    on: Annotated[
        str | None, typer.Option(help="The day it was taken; else the camera's, else today.")
    ] = None,
    event: Annotated[
        int | None, typer.Option(help="The event that it shows, by its number in the history.")
    ] = None,
    thing: Annotated[
        str | None, typer.Option(help="What else it is of, such as health.paper:3.")
    ] = None,
    confirm: Annotated[
        bool, typer.Option("--confirm", help="Leave out files that cannot be taken in.")
    ] = False,
) -> Answer:
    """Take in pictures or papers: made upright, without place and camera numbers, kept once."""
    wanted = TakingIn(subject, tuple(files), view, note, on, event, thing, confirm)
    return take_in(session_of(context), wanted, _counted)


@app.command()
def folder(
    context: typer.Context,
    folder: Annotated[
        Path,
        typer.Argument(help="Files named EMB-1.jpg, or within folders that are named by a code."),
    ],
    view: Annotated[str, typer.Option(help="What they show, if all the same.")] = "",
    note: Annotated[str, typer.Option(help="A note, for all of them.")] = "",
    on: Annotated[
        str | None, typer.Option(help="The day they were taken; else the camera's, else today.")
    ] = None,
    confirm: Annotated[
        bool, typer.Option("--confirm", help="Leave out files that cannot be taken in.")
    ] = False,
) -> Answer:
    """Take in a folder of pictures and papers whose names say whose they are."""
    wanted = TakingIn("", (folder,), view, note, on, confirmed=confirm)
    return take_in_folder(session_of(context), wanted, _counted)


def _counted(files: Iterable[Given], total: int) -> Iterator[Given]:
    """The files, while a progress line counts them."""
    with progress("looking at pictures", total) as step:
        for file in files:
            yield file
            step()


@app.command("list")
def list_pictures(
    context: typer.Context,
    subject: Annotated[
        str | None, typer.Argument(help="Code or name of an animal or an enclosure; else all.")
    ] = None,
    view: Annotated[str | None, typer.Option(help="Of this view alone.")] = None,
    last: Annotated[int, typer.Option(min=1, help="At most so many, the newest.")] = 50,
) -> Answer:
    """List pictures and papers, the newest last."""
    with session_of(context).read() as book:
        return picture_list(book, Which(subject, view, last))


@app.command()
def strip(
    context: typer.Context,
    subject: Subject,
    view: Annotated[
        str | None, typer.Option(help="Of this view alone: how it grew, how a wound heals.")
    ] = None,
    last: Annotated[int, typer.Option(min=1, help="At most so many, the newest.")] = 12,
) -> Answer:
    """Show pictures side by side, the oldest first; --save FILE.pdf shows them themselves."""
    with session_of(context).read() as book:
        return picture_strip(book, Which(subject, view, last))


@app.command()
def change(
    context: typer.Context,
    picture: Number,
    view: Annotated[str | None, typer.Option(help="What it shows.")] = None,
    note: Annotated[str | None, typer.Option(help="A note.")] = None,
    on: Annotated[str | None, typer.Option(help="The day it was taken.")] = None,
) -> Answer:
    """Change what is said of a picture."""
    wanted = keeping_pictures.ChangingPicture(picture, view, note, on)
    return keeping_pictures.change(session_of(context), wanted)


@app.command()
def remove(context: typer.Context, picture: Number) -> Answer:
    """Take a picture out of the record; undo brings it back."""
    return keeping_pictures.take_out(session_of(context), picture)


@app.command()
def save(
    context: typer.Context,
    picture: Number,
    target: Annotated[Path, typer.Argument(help="A new file, or a folder for it.")],
) -> Answer:
    """Write a picture to a file elsewhere."""
    return keeping_pictures.save_picture(session_of(context), picture, target)


@app.command()
def forget(
    context: typer.Context,
    picture: Number,
    number: Annotated[
        str | None, typer.Option(help="Its number again, to remove it for good.")
    ] = None,
) -> Answer:
    """Remove a picture for good, from the copies, too; there is no undo."""
    session = session_of(context)
    wanted = ForgettingPicture(picture, number)
    return with_questions(session, lambda s, w: forget_picture(s, w, second_folder), wanted)


@app.command()
def mend(context: typer.Context) -> Answer:
    """Bring missing or changed pictures back from the copies."""
    return keeping_pictures.mend(session_of(context), second_folder)
