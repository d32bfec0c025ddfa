"""The typefaces that pages and labels are set in: DejaVu Sans 2.37, whole, with its licence."""

from __future__ import annotations

from pathlib import Path

from warmside.core.values.errors import BadInput

FACES = {
    "regular": "DejaVuSans.ttf",
    "bold": "DejaVuSans-Bold.ttf",
    "oblique": "DejaVuSans-Oblique.ttf",
    "mono": "DejaVuSansMono.ttf",
}


def font_path(name: str) -> Path:
    """The TrueType file of a face of `FACES`; BadInput for another name."""
    if name not in FACES:
        raise BadInput(f"no typeface called {name!r}; take one of {', '.join(FACES)}")
    return Path(__file__).with_name(FACES[name])
