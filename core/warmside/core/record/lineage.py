"""Who may be whose parent."""

from __future__ import annotations

from collections.abc import Mapping

from warmside.core.record.entities import Animal, Parent
from warmside.core.values.errors import BadInput

ROLE_SEX = {"dam": "female", "sire": "male"}


def check_parent(
    child: Animal, role: str, parent: Animal, parents: Mapping[int, tuple[Parent, ...]]
) -> None:
    """Raise BadInput with the reason where `parent` cannot be the dam or sire of `child`."""
    if parent.id == child.id:
        raise BadInput(f"{child.label} cannot be its own {role}")
    if parent.sex not in (ROLE_SEX[role], "unknown"):
        raise BadInput(f"{parent.label} is {parent.sex} and cannot be a {role}")
    if child.id in ancestors(parent.id, parents):
        raise BadInput(f"{parent.label} descends from {child.label} and cannot be its {role}")
    if child.hatched and parent.hatched and not parent.hatched.earliest < child.hatched.latest:
        raise BadInput(
            f"{parent.label} hatched {parent.hatched.text}, not before {child.label} "
            f"({child.hatched.text}), and cannot be its {role}"
        )


def ancestors(animal_id: int, parents: Mapping[int, tuple[Parent, ...]]) -> set[int]:
    """The ids of all known ancestors of an animal."""
    found: set[int] = set()
    waiting = [animal_id]
    while waiting:
        for parent in parents.get(waiting.pop(), ()):
            if parent.parent_id not in found:
                found.add(parent.parent_id)
                waiting.append(parent.parent_id)
    return found
