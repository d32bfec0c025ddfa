"""`warmside genes known` and `show`: recording what an animal carries, and what follows."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Annotated

import typer

from warmside.api import Animal, Answer, BadInput, NewEvent, recorded, session_of
from warmside.plugins.genes.inheritance.settled import settled
from warmside.plugins.genes.kinds import KNOWN
from warmside.plugins.genes.reading.family import kin_of
from warmside.plugins.genes.reading.said import Said, said_of_all
from warmside.plugins.genes.reading.traits import catalogue
from warmside.plugins.genes.telling.animal import shown
from warmside.plugins.genes.traits.catalogue import Catalogue
from warmside.plugins.genes.traits.clashing import contradicts
from warmside.plugins.genes.traits.meaning import Word
from warmside.plugins.genes.traits.words import Carries, Known, read_known

AnimalName = Annotated[str, typer.Argument(help="Code or name of the animal.")]
SEEN = (Carries.VISUAL, Carries.TWO, Carries.NORMAL)


def known(
    context: typer.Context,
    animal: AnimalName,
    says: Annotated[str, typer.Argument(help='Such as "visual albino, 66 % het piebald".')],
    evidence: Annotated[
        str | None, typer.Option(help="seen, stated, tested or proven; looks are seen.")
    ] = None,
    at: Annotated[str | None, typer.Option(help="When: 2026-03-05, yesterday …")] = None,
    note: Annotated[str, typer.Option(help="Who says so, or which laboratory.")] = "",
) -> Answer:
    """Record what an animal carries.

    Without --evidence looks are seen, a "proven het" is proven, the rest is stated.
    """
    session = session_of(context)
    with session.step(f"genes of {animal}") as writer:
        found = writer.book.animal(animal)
        when = session.when(at, writer.book)
        traits = catalogue(writer.book, found.species)
        before = said_of_all(writer.book).get(found.id, ())
        for one in named(says, traits):
            how = evidence or _how_known(one)
            check_beside(found, Word(one, how), before, traits)
            data = {"says": one.words, "evidence": how}
            writer.record(NewEvent(KNOWN, when.day, data, found.id, at=when.at, note=note))
        writer.say(f"genes of {found.label}: {says}")
    with session.ask() as ask:
        return recorded(ask, writer.recorded)


def _how_known(one: Known) -> str:
    """Looks are seen; what is called proven is, by young; the rest is somebody's word."""
    if one.proven:
        return "proven"
    return "seen" if one.carries in SEEN else "stated"


def check_beside(animal: Animal, new: Word, before: Iterable[Said], traits: Catalogue) -> None:
    """Raise BadInput where the animal is known to be otherwise."""
    known = {Word(s.known, s.evidence): s.event for s in before if s.known}
    near = [w for w in known if w.known.trait.locus == new.known.trait.locus]
    against = contradicts(new, near, traits.loci[new.known.trait.locus])
    if against is not None:
        event = known[against]
        raise BadInput(
            f"{animal.label} is {against.known.words} ({against.source}, event {event.id}), so it "
            f"cannot be {new.known.words}; if that was wrong: warmside correct {event.id}"
        )


def named(says: str, traits: Catalogue) -> tuple[Known, ...]:
    """What is to be recorded; BadInput where it names no trait."""
    found = read_known(says, traits)
    if not found:
        raise BadInput('name the traits that do not show: "normal albino, normal piebald"')
    for n, one in enumerate(found):
        others = [Word(k, "seen") for k in found[:n] if k.trait.locus == one.trait.locus]
        against = contradicts(Word(one, "seen"), others, traits.loci[one.trait.locus])
        if against is not None:
            raise BadInput(f"{against.known.words} and {one.words}: both cannot be true")
    return found


def show(
    context: typer.Context,
    animal: AnimalName,
    on: Annotated[str | None, typer.Option(help="As of that day.")] = None,
) -> Answer:
    """What is recorded of an animal's genes, and the chances that follow from its family."""
    session = session_of(context)
    with session.ask() as ask:
        found = ask.book.animal(animal)
        kin = kin_of(ask, [found], session.day(on, ask.book))
        labels = {id: ask.book.animals[id].label for id in kin.said}
        return shown(found, kin, settled(kin.family), labels)
