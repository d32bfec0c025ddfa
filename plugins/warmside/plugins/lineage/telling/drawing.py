"""A pedigree as a drawing, with the symbols that are standard in genetics.

Male square, female circle, unknown diamond; filled where the trait shows, half filled where it is
carried; a slash for a dead animal; parents joined by a line, a double one where they are related;
sibs hang from one line (Bennett et al. 2008, J Genet Couns 17:424-433; Bennett et al. 2022, same
journal, e1621: a carrier by a part of the symbol that the key explains).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from warmside.api import shapes
from warmside.plugins.lineage.pedigree.layout import Place, layout
from warmside.plugins.lineage.pedigree.lines import Joined, Measures, centre, lines
from warmside.plugins.lineage.pedigree.people import Drawn, Family, Id, Shows

PAGE_MM = (267.0, 180.0)
KEY_MM = 14.0
WIDEST = Measures(28.0, 4.0, 22.0, 1.0)
FILLS = {
    Shows.NOTHING: shapes.Fill.NONE,
    Shows.CARRIES: shapes.Fill.HALF,
    Shows.VISUAL: shapes.Fill.FULL,
}


def pedigree_drawing(
    animals: Sequence[Drawn], families: Sequence[Family], trait: str, text: Sequence[str]
) -> shapes.Drawing:
    """The drawing, fitted to a page of A4 across; `text` is what a terminal shows instead."""
    places = layout(animals, families)
    m = _measures(places)
    drawn = [s for line in lines(families, places, m) for s in _line(line)]
    for animal in animals:
        drawn += _animal(animal, places[animal.id], m)
    width = max(m.cell * (1 + max(x for x, _ in places.values())), 120.0)
    height = m.row * (1 + max(row for _, row in places.values()))
    drawn += _key(height, trait)
    return shapes.Drawing(
        "pedigree",
        "Pedigree",
        width,
        height + KEY_MM,
        "mm",
        tuple(drawn),
        tuple(text),
        _data(animals, families, places),
    )


def _measures(places: Mapping[Id, Place]) -> Measures:
    """Sizes with which the whole fits on the page, no larger than usual."""
    columns = 1 + max(x for x, _ in places.values())
    rows = 1 + max(row for _, row in places.values())
    cell = min(WIDEST.cell, PAGE_MM[0] / columns)
    row = min(WIDEST.row, max(14.0, (PAGE_MM[1] - KEY_MM) / rows))
    return Measures(cell, min(WIDEST.radius, cell / 3.2), row, WIDEST.words)


def _line(line: Joined) -> Iterator[shapes.Shape]:
    dash = (1.5, 1.2) if line.dashed else ()
    yield shapes.Path(line.points, dash=dash)
    if line.double:
        (x1, y1), (x2, y2) = line.points
        yield shapes.Path(((x1, y1 + 0.9), (x2, y2 + 0.9)), dash=dash)


def _animal(animal: Drawn, place: Place, m: Measures) -> Iterator[shapes.Shape]:
    x, y = centre(place, m)
    yield _symbol(animal, x, y, m.radius)
    reach = 1.5 * m.radius
    if animal.dead:
        yield shapes.Path(((x - reach, y + reach), (x + reach, y - reach)))
    if animal.index:
        tip, tail = x - 1.2 * m.radius, x - 2.4 * m.radius
        low = y + 1.2 * m.radius
        yield shapes.Path(((tail, low + 1.2 * m.radius), (tip, low)))
        yield shapes.Path(((tip - 1.4, low + 0.2), (tip, low), (tip - 0.2, low + 1.4)))
    room = max(4, int((m.cell - 2 * m.radius - 1.5) / 1.35))
    for n, words in enumerate(animal.words):
        # the first above the line to a mate at the right, the others below it, also a double one
        at = (x + m.radius + 0.9, y - 1.0 + 4.8 * n)
        yield shapes.Label(at, words[:room], 6.5, bold=n == 0)


def _symbol(animal: Drawn, x: float, y: float, radius: float) -> shapes.Shape:
    fill = FILLS[animal.shows]
    if animal.sex == "male":
        return shapes.Box((x - radius, y - radius), 2 * radius, 2 * radius, fill)
    if animal.sex == "female":
        return shapes.Disc((x, y), radius, fill)
    return shapes.Diamond((x, y), 1.2 * radius, fill)


def _key(top: float, trait: str) -> Iterator[shapes.Shape]:
    """What symbols and fills mean."""
    base, x = top + 4.0, 3.0
    for sex in ("male", "female", "unknown"):
        yield _symbol(Drawn(sex, sex, ()), x, base, 1.8)
        yield shapes.Label((x + 3.2, base + 1.2), sex if sex != "unknown" else "sex unknown", 7.0)
        x += 24.0
    yield shapes.Label((3.0, base + 7.5), f"{trait}:" if trait else "no trait asked for", 7.0)
    if trait:
        x = 40.0
        for shows in (Shows.VISUAL, Shows.CARRIES, Shows.NOTHING):
            yield _symbol(Drawn("key", "male", (), shows), x, base + 6.4, 1.8)
            yield shapes.Label((x + 3.2, base + 7.5), shows.value, 7.0)
            x += 46.0


def _data(
    animals: Sequence[Drawn], families: Sequence[Family], places: Mapping[Id, Place]
) -> Mapping[str, object]:
    """Who stands in which generation, and the families, for a program."""
    return {
        "animals": [
            {
                "id": str(a.id),
                "words": list(a.words),
                "sex": a.sex,
                "shows": a.shows.name.casefold(),
                "generation": places[a.id][1] + 1,
            }
            for a in animals
        ],
        "families": [
            {"dam": _name(f.dam), "sire": _name(f.sire), "young": [str(y) for y in f.young]}
            for f in families
        ],
    }


def _name(id: Id | None) -> str | None:
    return None if id is None else str(id)
