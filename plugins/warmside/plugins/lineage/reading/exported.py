"""All animals as rows of a pedigree file."""

from __future__ import annotations

from warmside.api import Book

COLUMNS = ("id", "name", "species", "dam", "sire", "sex", "hatched")


def exported(book: Book) -> list[tuple[str, ...]]:
    """A row an animal; a parent who is not certain is left out, as a file cannot say how sure."""
    rows: list[tuple[str, ...]] = []
    for animal in book.animals.values():
        parents = {
            p.role: book.animals[p.parent_id].code
            for p in book.parents.get(animal.id, ())
            if p.certainty == "certain"
        }
        rows.append(
            (
                animal.code,
                animal.name,
                animal.species.scientific,
                parents.get("dam", ""),
                parents.get("sire", ""),
                animal.sex,
                animal.hatched.text if animal.hatched else "",
            )
        )
    return rows
