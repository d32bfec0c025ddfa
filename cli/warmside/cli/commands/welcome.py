"""`warmside` alone: what it is and the next thing to type."""

from __future__ import annotations

from warmside.cli.whereis import Place
from warmside.core import __version__
from warmside.core.answers.parts import Answer, said
from warmside.core.file.copies import backup


def welcome(place: Place, version: bool) -> Answer:
    """What warmside is, the collection it would use, and the next command."""
    if version:
        return said(f"warmside {__version__}")
    text = (
        "warmside keeps the record of a few reptiles: who they are, where they live, what "
        "happened to them, and what is due today."
    )
    if place.path.exists():
        return said(
            text,
            hints=["warmside today (the round)", "warmside --help (all commands)"],
        )
    if copies := backup.all_of(place.path):
        return said(
            f"{text} {place.path} is gone, but {len(copies)} copies of it are there.",
            hints=["warmside file restore (put the newest back)"],
        )
    return said(
        f"{text} There is no collection at {place.path} yet.",
        hints=["warmside new (make a collection)", "warmside demo (look around an invented one)"],
    )
