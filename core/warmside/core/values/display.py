"""In which scales a collection shows its values: a preset, and what the keeper chose apart.

The presets are common practice, no source: `us trade` is what keepers in the United States are seen
to use, grams and millilitres (scale and syringe) beside inches and degrees Fahrenheit.
"""

from __future__ import annotations

from functools import cache
from typing import ClassVar

from msgspec import Struct

from warmside.core.values.errors import BadInput
from warmside.core.values.hints import near_miss, quoted
from warmside.core.values.measures.measure import Style, System, measure_of
from warmside.core.values.scales import Scale
from warmside.core.values.units import Unit, unit_named, units

PRESETS: dict[str, tuple[System, frozenset[str]]] = {
    "metric": (System.METRIC, frozenset()),
    "us trade": (System.METRIC, frozenset({Unit.LENGTH.name, Unit.TEMPERATURE.name})),
    "imperial": (System.IMPERIAL, frozenset()),
}
"""The system of each preset, and the units that are imperial in it all the same."""


class Display(Struct, frozen=True):
    """How values are shown; `chosen` holds names of units, each with the first name of a scale.

    A choice whose plugin is not at work is kept, and counts for nothing.
    """

    preset: str = "metric"
    chosen: tuple[tuple[str, str], ...] = ()

    METRIC: ClassVar[Display]
    US_TRADE: ClassVar[Display]
    IMPERIAL: ClassVar[Display]

    @property
    def text(self) -> str:
        """The display as it is stored and may be typed: `us trade, mass=oz`."""
        return ", ".join([self.preset, *(f"{unit}={scale}" for unit, scale in self.chosen)])

    def style(self, unit: Unit) -> Style:
        """How values of the unit are shown."""
        return _style(self, unit)


Display.METRIC, Display.US_TRADE, Display.IMPERIAL = (Display(name) for name in PRESETS)


@cache
def _style(display: Display, unit: Unit) -> Style:
    measure = measure_of(unit)
    scale = _chosen(display, unit)
    return measure.style_with(scale) if scale else measure.style(_system(display, unit))


def _chosen(display: Display, unit: Unit) -> Scale | None:
    name = dict(display.chosen).get(unit.name)
    return None if name is None else measure_of(unit).by_name.get(name.casefold())


def _system(display: Display, unit: Unit) -> System:
    """The system in which a unit is shown: as chosen, as the unit it follows, as the preset has."""
    measure = measure_of(unit)
    scale = _chosen(display, unit)
    if scale is not None:
        mine = measure.imperial is not None and measure.imperial.table == scale
        return System.IMPERIAL if mine else System.METRIC
    if measure.follows is not None:
        return _system(display, measure.follows)
    system, imperial = PRESETS[display.preset]
    return System.IMPERIAL if unit.name in imperial else system


def stored_display(text: str) -> Display:
    """The display that a file holds; a preset that is not known shows as metric."""
    preset, *pairs = [part.strip() for part in text.split(",")]
    chosen = (tuple(part.split("=", 1)) for part in pairs if "=" in part)
    known = preset if preset in PRESETS else "metric"
    return Display(known, tuple((unit, scale) for unit, scale in chosen))


def parse_display(text: str, now: Display | None = None) -> Display:
    """A display as typed: a preset, and units chosen apart, such as `us trade, mass=oz`.

    Without a preset the choices are added to `now`.
    """
    first, *more = [part.strip() for part in text.split(",")]
    display = now or Display.METRIC
    if "=" not in first:
        display = Display(_preset(first))
    else:
        more.insert(0, first)
    chosen = dict(display.chosen) | dict(_choice(part) for part in more)
    return Display(display.preset, tuple(sorted(chosen.items())))


def _preset(typed: str) -> str:
    name = " ".join(typed.replace("-", " ").replace("_", " ").casefold().split())
    if name not in PRESETS:
        raise BadInput(
            f"units are {', '.join(PRESETS)} or chosen one by one, such as "
            f"mass=g,length=in,temperature=F, not {quoted(typed)!r}{near_miss(name, PRESETS)}"
        )
    return name


def _choice(typed: str) -> tuple[str, str]:
    name, equals, scale_name = (part.strip() for part in typed.partition("="))
    if not equals:
        raise BadInput(f"write what is shown how, such as mass=g, not {quoted(typed)!r}")
    key = name.casefold().replace("-", "_").replace(" ", "_")
    unit = unit_named(key)
    if unit is None:
        names = [u.name for u in units()]
        raise BadInput(
            f"nothing is called {quoted(name)!r}{near_miss(key, names)}; known are: "
            f"{', '.join(names)}"
        )
    scales = [s for s in measure_of(unit).scales if s.names[0]]
    found = measure_of(unit).by_name.get(scale_name.casefold())
    if found is None or found not in scales:
        known = [s.names[0] for s in scales]
        raise BadInput(
            f"{unit.words} cannot be shown in {quoted(scale_name)!r}"
            f"{near_miss(scale_name, known)}; it can be in: {', '.join(known) or 'plain numbers'}"
        )
    return unit.name, found.names[0]
