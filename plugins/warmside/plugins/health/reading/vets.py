"""The keeper's vets as they are stored."""

from __future__ import annotations

from warmside.api import BadInput, Book, NotFound, near_miss, quoted
from warmside.plugins.health.vets.vet import Vet

VETS = (
    "SELECT id, name, telephone, emergency, hours, reptiles, address, note FROM health_vet "
    "ORDER BY id"
)


def vets(book: Book) -> list[Vet]:
    """All vets, in the order in which they were entered."""
    return book.once(("health", "vets"), lambda: [Vet(*row) for row in book.rows(VETS)])


def vet_named(book: Book, text: str) -> Vet:
    """The vet of that name, or of the one name that contains the text; else NotFound."""
    word = " ".join(text.casefold().split())
    known = vets(book)
    found = [v for v in known if v.name.casefold() == word]
    found = found or [v for v in known if word and word in v.name.casefold()]
    if len(found) > 1:
        raise BadInput(
            f"{quoted(text)} may be {' or '.join(v.name for v in found)}; type more of the name"
        )
    if not found:
        close = near_miss(text, [v.name for v in known])
        raise NotFound(f"there is no vet {quoted(text)}{close}; see: warmside health vets")
    return found[0]
