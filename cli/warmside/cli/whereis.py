"""Which collection file a command works on, and why."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from warmside.core.file.places import check_place

VARIABLE = "WARMSIDE_COLLECTION"
FILE_NAME = "collection.warmside"


class Place(NamedTuple):
    """A collection file and the reason why it is the one."""

    path: Path
    why: str


def collection_place(option: str | None, environment: Mapping[str, str] = os.environ) -> Place:
    """The file named by the option, else by the variable, else in the user's data folder."""
    if option:
        return Place(_resolved(option), "named by --collection")
    if environment.get(VARIABLE):
        return Place(_resolved(environment[VARIABLE]), f"named by {VARIABLE}")
    from platformdirs import user_data_path

    return Place(user_data_path("warmside", appauthor=False) / FILE_NAME, "the user's data folder")


def _resolved(text: str) -> Path:
    """The file itself where a link is named, so that its copies lie beside it and links stay."""
    path = check_place(Path(text).expanduser())
    return path.resolve() if path.is_symlink() else path
