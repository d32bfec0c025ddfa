"""Files that are being made beside the place where they belong, until they are whole."""

from __future__ import annotations

import os
from pathlib import Path


def part_beside(target: Path, ending: str = "part") -> Path:
    """A name for the half-made file, which no other thread or program takes."""
    return target.with_name(f"{target.name}.{os.urandom(6).hex()}.{ending}")
