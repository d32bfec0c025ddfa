"""What the keeper may set; a part of the manifest, so it imports next to nothing."""

from __future__ import annotations

from warmside.api import Setting, Unit

_OWN = "0 takes the figure of the species [keeper's own]"
_CUSTOM = "rule of thumb [common practice, no source]"


def _own(name: str, help: str, unit: Unit, most: float) -> Setting:
    return Setting(name, help, 0.0, _OWN, unit, 0.0, most, per=("species", "enclosure", "animal"))


def _every(name: str, help: str, days: float, most: float) -> Setting:
    told = f"{help}; 0 asks for none"
    return Setting(name, told, days, _CUSTOM, Unit.DAYS, 0.0, most, per=("species", "enclosure"))


def _hour(name: str, help: str, hour: float) -> Setting:
    return Setting(name, help, hour, _CUSTOM, Unit.HOURS, 0.0, 24.0, per=("enclosure",))


SETTINGS = (
    _own("warm_least", "least of the warm side by day", Unit.TEMPERATURE, 60.0),
    _own("warm_most", "most of the warm side by day", Unit.TEMPERATURE, 80.0),
    _own("cool_least", "least of the cool side by day", Unit.TEMPERATURE, 60.0),
    _own("cool_most", "most of the cool side by day", Unit.TEMPERATURE, 60.0),
    _own("night_least", "least of any place at night", Unit.TEMPERATURE, 60.0),
    _own("humidity_least", "least humidity", Unit.PERCENT, 100.0),
    _own("humidity_most", "most humidity", Unit.PERCENT, 100.0),
    _own("uv_least", "least UV index where it basks", Unit.UV_INDEX, 20.0),
    _own("uv_most", "most UV index where it basks", Unit.UV_INDEX, 20.0),
    _hour("lights_on", "hour of the clock at which the lights go on", 8.0),
    _hour("lights_off", "hour of the clock at which they go off", 20.0),
    _every("water_days", "fresh water in a described bowl after so many days", 2.0, 30.0),
    _every(
        "substrate_days", "new substrate, where any is described, after so many days", 90.0, 3650.0
    ),
    _every("lamp_days", "a new lamp so many days after it was put in", 365.0, 3650.0),
    _every("mist_days", "while an animal is opaque, mist after so many days", 1.0, 14.0),
    Setting(
        "cut_room",
        "how cold the room is when the power is cut, for how long the heat may be off",
        15.0,
        "an unheated room in winter [common practice, no source]",
        Unit.TEMPERATURE,
        -20.0,
        40.0,
        per=("enclosure",),
    ),
    Setting(
        "probe_days",
        "days after which a probe is held beside a thermometer again; 0 asks for none",
        180.0,
        _CUSTOM,
        Unit.DAYS,
        0.0,
        3650.0,
    ),
    Setting(
        "silent_hours",
        "hours between a logger's last reading and its read-out after which it has stopped",
        24.0,
        _CUSTOM,
        Unit.HOURS,
        1.0,
        8760.0,
    ),
)
