"""What a keeper says of the genes of an animal, as data of events that agree with the record."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from warmside.api import Animal, BadInput, Book, Event, NewEvent
from warmside.plugins.genes.kinds import KNOWN
from warmside.plugins.genes.reading.said import Said, said_of_all
from warmside.plugins.genes.reading.traits import catalogue
from warmside.plugins.genes.traits.catalogue import Catalogue
from warmside.plugins.genes.traits.clashing import contradicts
from warmside.plugins.genes.traits.meaning import Word
from warmside.plugins.genes.traits.words import Carries, Known, read_known

SEEN = (Carries.VISUAL, Carries.TWO, Carries.NORMAL)
LOOKS = "looks"
NORMAL = ("normal", "looks normal", "wild type")


def from_looks(book: Book, events: Iterable[Event]) -> Iterator[NewEvent]:
    """What follows for the genes from looks that were recorded in the same step."""
    for event in events:
        if event.kind == LOOKS and event.animal_id is not None:
            animal = book.animals[event.animal_id]
            says = in_full(book, animal, event.data["says"])
            for data in worded(book, animal, says, None) if says else ():
                yield NewEvent(KNOWN, event.day, data, animal.id, at=event.at, note=event.note)


def in_full(book: Book, animal: Animal, says: str) -> str:
    """The looks with their traits named: a hatchling that is `normal` shows none of its parents'.

    Empty where nothing is said of its parents that it could show.
    """
    if says.strip().casefold() not in NORMAL:
        return says
    said = said_of_all(book)
    parents = book.parents.get(animal.id, ())
    known = [s.known for p in parents for s in said.get(p.parent_id, ()) if s.known]
    names = dict.fromkeys(k.trait.name for k in known if k.carries is not Carries.NORMAL)
    return ", ".join(f"normal {name}" for name in names)


def worded(book: Book, animal: Animal, says: str, evidence: str | None) -> Iterator[dict[str, str]]:
    """The data of an event for each trait that is named; BadInput where they cannot be true."""
    traits = catalogue(book, animal.species)
    before = said_of_all(book).get(animal.id, ())
    for one in named(says, traits):
        how = evidence or _how_known(one)
        check_beside(animal, Word(one, how), before, traits)
        yield {"says": one.words, "evidence": how}


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
