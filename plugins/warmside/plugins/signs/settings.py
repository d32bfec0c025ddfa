"""The keeper's own limits of an animal, an enclosure or a species, before the shipped ones."""

from __future__ import annotations

from warmside.api import Setting, Unit

_OWN = "0 takes the figure of the species [keeper's own]"


def _own(name: str, help: str, unit: Unit, most: float) -> Setting:
    scopes = ("species", "enclosure", "animal")
    return Setting(name, help, 0.0, _OWN, unit, 0.0, most, per=scopes)


SETTINGS = (
    _own("too_hot", "the coolest place must not be warmer", Unit.TEMPERATURE, 60.0),
    _own("too_cold", "the warmest place must not be colder", Unit.TEMPERATURE, 40.0),
    _own("warm_most", "the warm side is usually not warmer", Unit.TEMPERATURE, 80.0),
    _own("warm_least", "the warm side is usually not colder by day", Unit.TEMPERATURE, 60.0),
    _own("humidity_least", "the air is usually not drier", Unit.PERCENT, 100.0),
    _own("humidity_most", "the air is usually not damper", Unit.PERCENT, 100.0),
    Setting(
        "written_days",
        "so long words of a sign in a note are asked about",
        60.0,
        "our rule (common practice, no source)",
        Unit.DAYS,
        1.0,
        365.0,
    ),
)
