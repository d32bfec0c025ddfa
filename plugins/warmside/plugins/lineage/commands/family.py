"""`warmside lineage show`, `draw` and `pair`: one animal's family, and two that may be paired."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import Answer, BadInput, Part, Words, paragraphs, session_of
from warmside.plugins.lineage.pedigree.people import Shows
from warmside.plugins.lineage.reading.drawn import drawn, families
from warmside.plugins.lineage.reading.kin import around, young_of_all
from warmside.plugins.lineage.reading.kinship import own_inbreeding, related
from warmside.plugins.lineage.telling.drawing import pedigree_drawing
from warmside.plugins.lineage.telling.kinship import caution, coefficient, meaning, paths_table
from warmside.plugins.lineage.telling.tree import ancestor_lines, descendant_lines

AnimalName = Annotated[str, typer.Argument(help="Code or name of the animal.")]
MOST_DRAWN = 60
DEEP = 6


def show(
    context: typer.Context,
    animal: AnimalName,
    generations: Annotated[int, typer.Option(help="Generations up and down.", min=1)] = DEEP,
) -> Answer:
    """Ancestors and young as trees, and how inbred the animal is."""
    session = session_of(context)
    with session.ask() as ask:
        book = ask.book
        found = book.animal(animal)
        up = ancestor_lines(book, found, generations)
        down = descendant_lines(book, found, young_of_all(book), generations)
        own = own_inbreeding(book, found)
    parts: list[Part] = [coefficient("inbreeding", "inbreeding", own.kinship, own.strangers)]
    parts += paragraphs(*meaning(own.kinship.expected))
    for title, lines in (("Ancestors:", up), ("Young:", down)):
        if len(lines) > 1:
            parts += [Words(title), Words("\n".join(lines), pre=True)]
    return Answer(f"Family of {found.label}", tuple(parts))


def draw(
    context: typer.Context,
    animal: AnimalName,
    trait: Annotated[str, typer.Option(help="A trait to fill the symbols by.")] = "",
    up: Annotated[int | None, typer.Option(help="Generations of ancestors; else all.")] = None,
    down: Annotated[int | None, typer.Option(help="Generations of young; else all.")] = None,
) -> Answer:
    """The pedigree as a drawing: save it with --save pedigree.pdf or .svg."""
    session = session_of(context)
    with session.ask() as ask:
        book = ask.book
        found = book.animal(animal)
        ids = around(book, found, up, down)
        if len(ids) > MOST_DRAWN:
            raise BadInput(
                f"{len(ids)} animals do not fit on a page, {MOST_DRAWN} do; "
                "draw fewer generations: --up 3 --down 1"
            )
        people = drawn(ask, sorted(ids), found, trait)
        joined = families(book, [int(str(p.id)) for p in people])
        below = descendant_lines(book, found, young_of_all(book), down or DEEP)
        above = ancestor_lines(book, found, up or DEEP)
        text = [*above, *(["", "Young:", *below] if len(below) > 1 else [])]
        picture = pedigree_drawing(people, joined, trait, text)
    none = trait and all(p.shows is Shows.NOTHING for p in people)
    said = [f"No animal here is known to show or carry {trait}."] if none else []
    return Answer(f"Pedigree of {found.label}", (*paragraphs(*said), picture), page="one")


def pair(
    context: typer.Context,
    one: AnimalName,
    other: Annotated[str, typer.Argument(help="Code or name of the other.")],
) -> Answer:
    """How two animals are related, and how inbred their young would be."""
    session = session_of(context)
    with session.ask() as ask:
        book = ask.book
        first, second = book.animal(one), book.animal(other)
        if first.id == second.id:
            raise BadInput(f"{first.label} is named twice; name two animals")
        found = related(book, first, second)
        codes = {a.id: a.code for a in book.animals.values()}
        table = paths_table(found.known, found.paths, codes, found.kinship.expected)
    fact = coefficient("kinship", "inbreeding of their young", found.kinship, found.strangers)
    words = paragraphs(*meaning(found.kinship.expected))
    parts = (fact, *words, *((table,) if found.paths else ()), *caution())
    return Answer(f"{first.label} and {second.label}", parts)
