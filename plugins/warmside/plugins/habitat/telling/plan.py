"""The plan of an enclosure to scale: from above and from the front, numbered, black on white."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.api import shapes
from warmside.plugins.habitat.described.enclosure import Enclosure, Fitting, Heat, Place, Zone

WIDTH_MM, MOST_MM, HEAD_MM, GAP_MM = 170.0, 72.0, 9.0, 6.0
SMALL, PLAIN = 7.0, 8.0
ROUND = ("water bowl",)


class View:
    """One of the two views: where it stands on the sheet, and at which scale."""

    def __init__(
        self, found: Enclosure, scale: float, top: float, middle: float, *, above: bool
    ) -> None:
        self.scale, self.top, self.above = scale, top, above
        self.room = found.depth if above else found.height
        self.left = middle - found.width * scale / 2
        self.width, self.height = found.width * scale, self.room * scale

    def box(self, place: Place) -> tuple[float, float, float, float]:
        """Left, upper edge, width and height on the sheet; the front is at the bottom."""
        low, size = (place.front, place.depth) if self.above else (place.bottom, place.height)
        upper = self.top + (self.room - low - size) * self.scale
        left = self.left + place.left * self.scale
        return left, upper, place.width * self.scale, max(size * self.scale, 0.8)


def plan(found: Enclosure, title: str) -> shapes.Drawing:
    """Both views with zones, fittings by number, and heat hatched."""
    stacked = min(WIDTH_MM / found.width, MOST_MM / (found.depth + found.height))
    half = (WIDTH_MM - GAP_MM) / 2
    beside = min(half / found.width, MOST_MM / max(found.depth, found.height))
    scale = max(stacked, beside)
    if stacked >= beside:
        above = View(found, scale, HEAD_MM, WIDTH_MM / 2, above=True)
        below = above.top + above.height + GAP_MM + HEAD_MM
        front = View(found, scale, below, WIDTH_MM / 2, above=False)
    else:
        above = View(found, scale, HEAD_MM, half / 2, above=True)
        front = View(found, scale, HEAD_MM, WIDTH_MM - half / 2, above=False)
    drawn = [*_view(found, above, "from above"), *_view(found, front, "from the front")]
    bottom = max(view.top + view.height for view in (above, front)) + 7
    drawn += _ruler(front.left, bottom - 2, scale)
    return shapes.Drawing(
        "plan", title, WIDTH_MM, bottom + 3, "mm", tuple(drawn), _text(found), {"scale": scale}
    )


def numbered(found: Enclosure) -> list[tuple[str, Fitting | Heat]]:
    """Fittings by number, heat sources as H1, H2 ...; a heated room is not in the plan."""
    heats = [h for h in found.heats if h.kind != "room"]
    fittings = [(str(n), f) for n, f in enumerate(found.fittings, 1)]
    return [*fittings, *((f"H{n}", h) for n, h in enumerate(heats, 1))]


def _view(found: Enclosure, view: View, words: str) -> Iterator[shapes.Shape]:
    yield shapes.Label((view.left, view.top - 5), words, SMALL)
    yield shapes.Box((view.left, view.top), view.width, view.height, thick=1.6)
    for zone in found.zones:
        yield from _zone(zone, view)
    things = numbered(found)
    for _, thing in sorted(things, key=lambda one: _nearness(one[1])):
        yield from _outline(thing, view)
    for mark, thing in things:
        yield from _mark(mark, thing, view)


def _nearness(thing: Fitting | Heat) -> tuple[bool, float]:
    """What is drawn first lies behind: heat, then what is farthest from the front."""
    return isinstance(thing, Fitting), -thing.place.front


def _zone(zone: Zone, view: View) -> Iterator[shapes.Shape]:
    left = view.left + zone.left * view.scale
    middle = left + zone.width * view.scale / 2
    yield shapes.Label((middle, view.top - 1.2), zone.name, PLAIN, "middle", bold=True)
    if zone.left > 0:
        foot = (left, view.top + view.height)
        yield shapes.Stroke((left, view.top), foot, 0.5, dash=(3, 3))


def _outline(thing: Fitting | Heat, view: View) -> Iterator[shapes.Shape]:
    left, upper, width, height = view.box(thing.place)
    if width <= 0:
        return
    if view.above and thing.kind in ROUND:
        centre = (left + width / 2, upper + height / 2)
        yield shapes.Disc(centre, min(width, height) / 2, thick=1.0)
    elif isinstance(thing, Heat):
        yield shapes.Box((left, upper), width, height, shapes.Fill.HATCH, 0.6)
    else:
        yield shapes.Box((left, upper), width, height, thick=1.0)


def _mark(mark: str, thing: Fitting | Heat, view: View) -> Iterator[shapes.Shape]:
    left, upper, width, height = view.box(thing.place)
    if isinstance(thing, Heat):
        corner = (left + width - 7, upper)
        yield shapes.Box(corner, 7, 4.4, thick=0.6)
        yield shapes.Label((corner[0] + 3.5, upper + 3.3), mark, PLAIN, "middle", bold=True)
    else:
        place = (left + width / 2, upper + height / 2 + 1)
        yield shapes.Label(place, mark, PLAIN, "middle", bold=True)


def _ruler(left: float, base: float, scale: float) -> list[shapes.Shape]:
    """A bar of 20 cm, so that a copy at any size tells its scale."""
    end = left + 200 * scale
    bar = shapes.Stroke((left, base), (end, base), 1.2)
    return [bar, shapes.Label((end + 2, base + 1), "20 cm", SMALL)]


def _text(found: Enclosure) -> tuple[str, ...]:
    """The zones side by side for a terminal, as wide as they are, with the numbers in each."""
    lines = ["warm " + "-" * 50 + " cool"]
    for zone in found.zones:
        marks = [mark for mark, thing in numbered(found) if thing.zone == zone.name]
        lines.append(f"{zone.name[:24]:24} {' '.join(marks) or 'nothing described'}")
    return tuple(lines)
