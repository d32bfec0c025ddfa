"""Set-ups of our own to begin with: invented, each to be changed to what stands there."""

from __future__ import annotations

from importlib.resources import files

from warmside.api import NotFound, near_miss

PRESETS = {
    "snake": "a four-foot snake enclosure with an overhead panel",
    "tall": "a tall enclosure for one that climbs",
    "basking": "a dry lizard enclosure with a basking lamp",
    "humid": "a humid gecko enclosure",
    "tub": "a tub on a rack with a mat",
}


def preset_text(name: str) -> str:
    """The description of a preset as TOML; raises NotFound."""
    if name not in PRESETS:
        near = near_miss(name, list(PRESETS))
        raise NotFound(f"there is no preset {name!r}{near}; there are: {', '.join(PRESETS)}")
    place = files("warmside.plugins.habitat") / "data" / "presets" / f"{name}.toml"
    return place.read_text("utf-8")
