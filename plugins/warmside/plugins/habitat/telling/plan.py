"""The plan of an enclosure to scale: from above and from the front, numbered, black on white."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from warmside.api import shapes
from warmside.plugins.habitat.described.enclosure import Enclosure, Fitting, Heat, Place, Zone
from warmside.plugins.habitat.telling.marks_placed import placed

WIDTH_MM, MOST_MM, HEAD_MM, GAP_MM = 170.0, 72.0, 9.0, 6.0
LEAST_MM, LINE_MM, FEW_LINES = 45.0, 5.5, 9
"""Of a sheet on one page: a plan is never smaller, and a line of a table takes so much."""
MARK_MM = 2.3
READ_MM = 3.4
"""The line of readings between a zone's name and its box."""
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


def plan(found: Enclosure, title: str, read: Mapping[str, str] | None = None) -> shapes.Drawing:
    """Both views with zones, fittings by number, and heat hatched.

    `read` are words on the newest readings, by the zone's name in small letters.
    """
    notes = read or {}
    head = HEAD_MM + (READ_MM if notes else 0.0)
    most = _most_mm(found)
    stacked = min(WIDTH_MM / found.width, most / (found.depth + found.height))
    half = (WIDTH_MM - GAP_MM) / 2
    beside = min(half / found.width, most / max(found.depth, found.height))
    scale = max(stacked, beside)
    if stacked >= beside:
        above = View(found, scale, head, WIDTH_MM / 2, above=True)
        below = above.top + above.height + GAP_MM + HEAD_MM
        front = View(found, scale, below, WIDTH_MM / 2, above=False)
    else:
        above = View(found, scale, head, half / 2, above=True)
        front = View(found, scale, head, WIDTH_MM - half / 2, above=False)
    drawn = [*_view(found, above, "from above", notes), *_view(found, front, "from the front", {})]
    bottom = max(view.top + view.height for view in (above, front)) + 7
    drawn += _ruler(front.left, bottom - 2, scale)
    return shapes.Drawing(
        "plan",
        title,
        WIDTH_MM,
        bottom + 3,
        "mm",
        tuple(drawn),
        _text(found, notes),
        {"scale": scale},
    )


def _most_mm(found: Enclosure) -> float:
    """How high both views may be: the more there is to be listed below, the less."""
    lines = len(found.zones) + len(found.lights) + len(found.vents) + len(numbered(found))
    return max(LEAST_MM, MOST_MM - LINE_MM * max(0, lines - FEW_LINES))


def numbered(found: Enclosure) -> list[tuple[str, Fitting | Heat]]:
    """Fittings by number, heat sources as H1, H2 ...; a heated room among them."""
    fittings = [(str(n), f) for n, f in enumerate(found.fittings, 1)]
    return [*fittings, *((f"H{n}", h) for n, h in enumerate(found.heats, 1))]


def _drawn(found: Enclosure) -> list[tuple[str, Fitting | Heat]]:
    """What has a place in the plan; a heated room has none."""
    return [(mark, thing) for mark, thing in numbered(found) if thing.place.width > 0]


def _view(
    found: Enclosure, view: View, words: str, notes: Mapping[str, str]
) -> Iterator[shapes.Shape]:
    head = view.top - 5 - (READ_MM if notes else 0.0)
    yield shapes.Label((view.left, head), words, SMALL)
    yield shapes.Box((view.left, view.top), view.width, view.height, thick=1.6)
    things = _drawn(found)
    behind = sorted((t for _, t in things), key=lambda thing: _nearness(thing, view.above))
    ground = [thing for thing in behind if thing.kind == "substrate"]
    for thing in ground:
        yield from _outline(thing, view)
    for zone in found.zones:
        yield from _zone(zone, view, notes)
    for thing in behind[len(ground) :]:
        yield from _outline(thing, view)
    places = placed({mark: view.box(thing.place) for mark, thing in things})
    for mark, thing in things:
        yield from _mark(mark, thing, _within(view, places[mark]))


def _nearness(thing: Fitting | Heat, above: bool) -> tuple[bool, bool, float]:
    """What is drawn first lies behind: substrate, heat, then what is lowest or farthest back."""
    place = thing.place
    near = place.bottom + place.height if above else -place.front
    return thing.kind != "substrate", isinstance(thing, Fitting), near


def _within(view: View, place: tuple[float, float]) -> tuple[float, float]:
    """The place of a mark, moved so that the mark does not cross the wall."""
    across, down = place
    right, foot = view.left + view.width, view.top + view.height
    return (
        min(max(across, view.left + MARK_MM), right - MARK_MM),
        min(max(down, view.top + MARK_MM), foot - MARK_MM),
    )


def _zone(zone: Zone, view: View, notes: Mapping[str, str]) -> Iterator[shapes.Shape]:
    left = view.left + zone.left * view.scale
    middle = left + zone.width * view.scale / 2
    above = view.top - 1.2 - (READ_MM if notes else 0.0)
    yield shapes.Label((middle, above), zone.name, PLAIN, "middle", bold=True)
    if read := notes.get(zone.name.casefold()):
        yield shapes.Label((middle, view.top - 1.2), read, SMALL, "middle")
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


def _mark(mark: str, thing: Fitting | Heat, place: tuple[float, float]) -> Iterator[shapes.Shape]:
    """The mark in a ring, that of heat in a frame: lines behind it do not cross it."""
    across, down = place
    if isinstance(thing, Heat):
        yield shapes.Box((across - 3.5, down - MARK_MM), 7, 2 * MARK_MM, thick=0.6)
    else:
        yield shapes.Disc(place, MARK_MM, thick=0.5)
    yield shapes.Label((across, down + 1), mark, PLAIN, "middle", bold=True)


def _ruler(left: float, base: float, scale: float) -> list[shapes.Shape]:
    """A bar of 20 cm, so that a copy at any size tells its scale."""
    end = left + 200 * scale
    bar = shapes.Stroke((left, base), (end, base), 1.2)
    return [bar, shapes.Label((end + 2, base + 1), "20 cm", SMALL)]


def _text(found: Enclosure, notes: Mapping[str, str]) -> tuple[str, ...]:
    """The zones side by side for a terminal, as wide as they are, with the numbers in each."""
    lines = ["warm " + "-" * 50 + " cool"]
    for zone in found.zones:
        marks = [mark for mark, thing in numbered(found) if thing.zone == zone.name]
        read = notes.get(zone.name.casefold(), "")
        lines.append(
            f"{zone.name[:24]:24} {' '.join(marks) or 'nothing described':22} {read}".rstrip()
        )
    return tuple(lines)
