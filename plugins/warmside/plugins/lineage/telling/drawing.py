"""A pedigree as a drawing, with the symbols that are standard in genetics.

Male square, female circle, unknown diamond; filled where the trait shows, half filled where it is
carried; a slash for a dead animal; parents joined by a line, a double one where they are related;
sibs hang from one line (Bennett et al. 2008, J Genet Couns 17:424-433; Bennett et al. 2022, same
journal, e1621: a carrier by a part of the symbol that the key explains).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from warmside.api import shapes
from warmside.plugins.lineage.pedigree.gathering import gathered
from warmside.plugins.lineage.pedigree.layout import Place, layout
from warmside.plugins.lineage.pedigree.lines import Joined, Measures, centre, levels_of, lines
from warmside.plugins.lineage.pedigree.people import Drawn, Family, Id, Shows
from warmside.plugins.lineage.pedigree.words import MM, below
from warmside.plugins.lineage.telling.drawing_key import key, symbol

UPRIGHT_MM, ACROSS_MM = 169.0, 256.0
"""How wide a drawing may be on a page of A4 that stands, and on one that lies on its side."""
FEWEST_CELLS, MOST_CELLS = 10, 15
"""So many columns at least, and at most with many rows, are put on a page that stands."""
NARROWEST, WIDEST = 12.5, 26.0
LARGE_CELL = 17.0
LETTERS, SMALL_LETTERS = 6.5, 6.0
STEP = 1.3  # millimetres between two lines in one gap
LEAST = 160.0  # the key's own width


def pedigree_drawing(
    animals: Sequence[Drawn], families: Sequence[Family], trait: str, text: Sequence[str]
) -> shapes.Drawing:
    """The drawing, for a page of A4 or less of it; `text` is what a terminal shows instead."""
    every, joined = animals, families
    animals, families, drawn_by = gathered(every, joined)
    places = layout(animals, families)
    cell = _cell(places)
    letters = LETTERS if cell >= LARGE_CELL else SMALL_LETTERS
    words = {a.id: below(a.words, cell - 1.6, letters) for a in animals}
    m = _measures(cell, letters, max(map(len, words.values())), families, places)
    drawn = [s for line in lines(families, places, m) for s in _line(line)]
    for animal in animals:
        at = centre(places[animal.id], m)
        drawn += [*_animal(animal, at, m), *_words(words[animal.id], at, m, letters)]
    height = m.row * (1 + max(row for _, row in places.values()))
    drawn_key, foot = key(height, animals, families, trait)
    return shapes.Drawing(
        "pedigree",
        "Pedigree",
        max(cell * (1 + max(x for x, _ in places.values())), LEAST),
        foot,
        "mm",
        (*drawn, *drawn_key),
        tuple(text),
        _data(every, joined, {a.id: places[drawn_by[a.id]] for a in every}),
        whole=True,
    )


def _cell(places: Mapping[Id, Place]) -> float:
    """The width for a symbol and its words; few columns fit on a page that stands."""
    columns, rows = (1 + max(place[n] for place in places.values()) for n in (0, 1))
    most = max(FEWEST_CELLS, min(MOST_CELLS, 2 * rows + 1))
    room = UPRIGHT_MM if columns <= most else ACROSS_MM
    return max(NARROWEST, min(WIDEST, room / columns))


def _measures(
    cell: float,
    letters: float,
    lines_below: int,
    families: Sequence[Family],
    places: Mapping[Id, Place],
) -> Measures:
    """Sizes with room for the words, and for all lines of a gap."""
    levels = [level for found in levels_of(families, places).values() for level in found]
    radius = min(4.0, cell / 4.4)
    words = lines_below * letters * MM * 1.15 + 1.0
    gap = 3.5 + STEP * (1 + max(levels, default=0))
    return Measures(cell, radius, 2 * radius + 1 + words + gap, words)


def _line(line: Joined) -> Iterator[shapes.Shape]:
    dash = (1.5, 1.2) if line.dashed else ()
    yield shapes.Path(line.points, dash=dash)
    if line.double:
        (x1, y1), (x2, y2) = line.points
        yield shapes.Path(((x1, y1 + 0.8), (x2, y2 + 0.8)), dash=dash)
    if line.share is not None:
        beside = len(line.points) == 2
        (x1, _), (x2, y) = line.points[0], line.points[-1]
        at = ((x1 + x2) / 2, y - 0.7) if beside else (x2 + 3.2, y - 0.5)
        yield shapes.Label(at, f"{100 * line.share:.0f} %", 5.5, anchor="middle")


def _animal(animal: Drawn, at: tuple[float, float], m: Measures) -> Iterator[shapes.Shape]:
    """The symbol, the slash of a dead animal, the arrow to the one that was asked for."""
    (x, y), r = at, m.radius
    yield symbol(animal, x, y, r)
    if animal.number > 1 and animal.shows is not Shows.VISUAL:
        yield shapes.Label((x, y + 0.35 * r), str(animal.number), LETTERS, anchor="middle")
    if animal.dead:
        yield shapes.Path(((x - 1.5 * r, y + 1.5 * r), (x + 1.5 * r, y - 1.5 * r)))
    if animal.index:
        tip = (x - 1.2 * r, y + 0.55 * r)
        yield shapes.Path(((x - 2.1 * r, y + 1.2 * r), tip))
        yield shapes.Path(((tip[0] - 1.4, tip[1] + 0.1), tip, (tip[0] - 0.5, tip[1] + 1.4)))


def _words(
    words: Sequence[tuple[str, bool]], at: tuple[float, float], m: Measures, letters: float
) -> Iterator[shapes.Shape]:
    x, y = at
    step = letters * MM * 1.15
    for n, (line, bold) in enumerate(words, 1):
        place = (x, y + m.radius + 0.4 + step * n)
        yield shapes.Label(place, line, letters, anchor="middle", bold=bold)


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
            {
                "dam": _name(f.dam),
                "sire": _name(f.sire),
                "young": [str(y) for y in f.young],
                "unsure": {str(parent): share for parent, share in f.unsure.items()},
            }
            for f in families
        ],
    }


def _name(id: Id | None) -> str | None:
    return None if id is None else str(id)
