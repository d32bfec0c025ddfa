"""The report's section about an animal's family."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.api import Animal, Book, Section, Words
from warmside.plugins.lineage.reading.kinship import own_inbreeding
from warmside.plugins.lineage.telling.kinship import coefficient
from warmside.plugins.lineage.telling.tree import ancestor_lines

GENERATIONS = 4


def section(book: Book, animal: Animal) -> Iterator[Section]:
    """The ancestors as a tree and the inbreeding; nothing where no parent is on record."""
    if book.parents.get(animal.id):
        own = own_inbreeding(book, animal)
        tree = "\n".join(ancestor_lines(book, animal, GENERATIONS))
        fact = coefficient("inbreeding", "inbreeding", own.kinship, own.strangers)
        yield Section("Family", (fact, Words(tree, pre=True)), 410)
