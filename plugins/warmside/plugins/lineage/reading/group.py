"""The animals of a species that are here, as a group."""

from __future__ import annotations

from datetime import date

from warmside.api import Book, Species
from warmside.plugins.lineage.kinship.founders import Group, group
from warmside.plugins.lineage.kinship.inbreeding import inbreeding
from warmside.plugins.lineage.kinship.uncertain import ways
from warmside.plugins.lineage.reading.kin import children


def group_here(book: Book, species: Species, on: date) -> Group | None:
    """Founders and kinship of those here, by the likeliest parents; None where nobody is."""
    here = [id for id in book.animals_here(on) if book.animals[id].species.id == species.id]
    if not here:
        return None
    known = max(ways(children(book, here)), key=lambda w: w.chance).known
    return group(known, inbreeding(known), [known.place[id] for id in here])
