"""The folder for second copies, kept on this machine: no file names a place to write."""

from __future__ import annotations

import json
from pathlib import Path


def _place() -> Path:
    from platformdirs import user_config_path

    return user_config_path("warmside", appauthor=False) / "second-copies.json"


def _folders() -> dict[str, str]:
    try:
        told = json.loads(_place().read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return told if isinstance(told, dict) else {}


def second_folder(identity: str) -> Path | None:
    """Where second copies of the collection of that identity go; None where nowhere."""
    folder = _folders().get(identity)
    return Path(folder) if folder else None


def keep_second_folder(identity: str, folder: Path | None) -> None:
    """Keep the folder for second copies; None: make none from now on."""
    folders = {i: f for i, f in _folders().items() if i != identity}
    if folder is not None:
        folders[identity] = str(folder)
    place = _place()
    place.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    place.write_text(json.dumps(folders, indent=1), encoding="utf-8")
