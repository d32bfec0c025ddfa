"""What was found wrong in a collection and is not mended yet, kept beside its backups.

It is said at every opening; daily copies are then made under another name, and none is removed.
"""

from __future__ import annotations

import contextlib
import json
from datetime import date
from pathlib import Path

NAME = "attention.json"
NAMED = 2


def _place(path: Path) -> Path:
    return path.with_name(f"{path.name}-backups") / NAME


def standing(path: Path) -> list[str]:
    """What was found wrong last, and is not mended; nothing is the usual case."""
    try:
        told = json.loads(_place(path).read_text(encoding="utf-8"))
    except (FileNotFoundError, NotADirectoryError):
        return []
    except (OSError, ValueError):
        return ["what was found wrong cannot be read any more"]
    found = told.get("found") if isinstance(told, dict) else None
    return [str(text) for text in found] if isinstance(found, list) else []


def keep(path: Path, found: list[str], on: date) -> None:
    """Keep what was found; nothing found takes the note away."""
    place = _place(path)
    with contextlib.suppress(OSError):  # a place that cannot be written is told of by others
        if not found:
            place.unlink(missing_ok=True)
            return
        place.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        text = json.dumps({"on": on.isoformat(), "found": found}, ensure_ascii=False, indent=1)
        place.write_text(text, encoding="utf-8")


def told(path: Path, found: list[str]) -> str:
    """What was found, in the line that each command says until it is mended; copies, if any."""
    more = f" and {len(found) - NAMED} more" if len(found) > NAMED else ""
    copies = any(_place(path).parent.glob(f"*-*{path.suffix}"))
    kept = "; good copies are kept: warmside file restore --list" if copies else ""
    return (
        f"{path} needs attention: {'; '.join(found[:NAMED])}{more}; "
        f"look with: warmside file check{kept}"
    )
