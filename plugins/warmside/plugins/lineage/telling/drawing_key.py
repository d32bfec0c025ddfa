"""The symbols of a drawn pedigree, and the key that explains those that occur in it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from warmside.api import shapes
from warmside.plugins.lineage.pedigree.people import Drawn, Family, Shows
from warmside.plugins.lineage.pedigree.words import MM, WIDE

FILLS = {
    Shows.NOTHING: shapes.Fill.NONE,
    Shows.CARRIES: shapes.Fill.HALF,
    Shows.VISUAL: shapes.Fill.FULL,
}
LETTERS = 7.0
RADIUS = 1.8
ROW = 5.5
Entry = tuple[tuple[shapes.Shape, ...], str]
"""What is explained, drawn about (0, 0), and its words."""


def symbol(animal: Drawn, x: float, y: float, radius: float) -> shapes.Shape:
    fill = FILLS[animal.shows]
    if animal.sex == "male":
        return shapes.Box((x - radius, y - radius), 2 * radius, 2 * radius, fill)
    if animal.sex == "female":
        return shapes.Disc((x, y), radius, fill)
    return shapes.Diamond((x, y), 1.2 * radius, fill)


def key(
    top: float, animals: Sequence[Drawn], families: Sequence[Family], trait: str
) -> tuple[list[shapes.Shape], float]:
    """The key below a drawing that ends at `top`, and where the key ends."""
    drawn: list[shapes.Shape] = []
    rows = [list(_sexes(animals)), list(_marks(animals, families)), list(_shown(animals, trait))]
    y = top + 4.0
    for entries in filter(None, rows):
        drawn += _row(entries, y)
        y += ROW
    return drawn, y - 1.0


def _row(entries: Sequence[Entry], y: float) -> Iterator[shapes.Shape]:
    x = 3.0
    for sample, words in entries:
        yield from (_moved(shape, x, y) for shape in sample)
        yield shapes.Label((x + 3.4, y + 0.9), words, LETTERS)
        x += 9.0 + len(words) * LETTERS * MM * WIDE


def _sexes(animals: Sequence[Drawn]) -> Iterator[Entry]:
    present = {a.sex for a in animals}
    for sex in ("male", "female", "unknown"):
        if sex in present:
            words = sex if sex != "unknown" else "sex unknown"
            yield (symbol(Drawn(sex, sex, ()), 0, 0, RADIUS),), words
    if any(a.dead for a in animals):
        square = symbol(Drawn("dead", "male", ()), 0, 0, RADIUS)
        yield (square, shapes.Path(((-2.4, 2.4), (2.4, -2.4)))), "dead"
    if any(a.index for a in animals):
        tip = shapes.Path(((0.4, 0.1), (1.8, -1.0), (1.3, 0.6)))
        yield (shapes.Path(((-1.8, 1.4), (1.8, -1.0))), tip), "asked for"


def _marks(animals: Sequence[Drawn], families: Sequence[Family]) -> Iterator[Entry]:
    if any(f.related for f in families):
        ends = ((-2.0, -0.4), (2.0, -0.4)), ((-2.0, 0.4), (2.0, 0.4))
        yield tuple(map(shapes.Path, ends)), "parents who are related"
    if any(f.unsure for f in families):
        yield (shapes.Path(((-2.0, 0), (2.0, 0)), dash=(1.5, 1.2)),), "parent who is not certain"


def _shown(animals: Sequence[Drawn], trait: str) -> Iterator[Entry]:
    if not trait:
        return
    sexes = {a.sex for a in animals}
    sex = "male" if "male" in sexes else sorted(sexes)[0]
    for shows in (Shows.VISUAL, Shows.CARRIES, Shows.NOTHING):
        sample = symbol(Drawn("key", sex, (), shows), 0, 0, RADIUS)
        yield (sample,), f"{trait}: {shows}" if shows is Shows.VISUAL else shows.value


def _moved(shape: shapes.Shape, x: float, y: float) -> shapes.Shape:
    """A shape that was drawn about (0, 0), at its place."""
    match shape:
        case shapes.Box():
            return replace(shape, corner=(shape.corner[0] + x, shape.corner[1] + y))
        case shapes.Disc() | shapes.Diamond():
            return replace(shape, centre=(shape.centre[0] + x, shape.centre[1] + y))
        case shapes.Path():
            return replace(shape, points=tuple((a + x, b + y) for a, b in shape.points))
        case _:
            return shape
