"""Labels that are ready, and the lines that the keeper picks for them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec import Struct
from msgspec.structs import replace

from warmside.api import BadInput, near_miss, quoted
from warmside.plugins.labels.content.label import LINE_KEYS, Label

ALL_KEYS = tuple(dict.fromkeys(key for keys in LINE_KEYS.values() for key in keys))


class Ready(Struct, frozen=True):
    """A label, and the names of those it is about."""

    label: Label
    who: str


def picked(made: Sequence[Ready], text: str) -> tuple[list[Ready], list[str]]:
    """The labels with the lines typed with commas, and warnings about lines that nobody gives.

    Without any, those of their kind; plugins' lines are printed when picked.
    """
    keys = list(dict.fromkeys(key for part in text.split(",") if (key := part.strip().lower())))
    if not keys:
        return [replace(r, label=_without_extra(r.label)) for r in made], []
    found = [replace(r, label=pick_lines(r.label, keys, ALL_KEYS)) for r in made]
    return found, _missing(keys, made)


def _missing(keys: Sequence[str], made: Sequence[Ready]) -> list[str]:
    """What is said of plugins' lines that no label of this print has."""
    there = {line.key for ready in made for line in ready.label.lines}
    return [
        f"no plugin gives a line {key!r}{near_miss(key, there)} for these labels; "
        "see: warmside labels lines"
        for key in keys
        if "." in key and key not in there
    ]


def _without_extra(label: Label) -> Label:
    return replace(label, lines=tuple(x for x in label.lines if x.key in LINE_KEYS[label.kind]))


def pick_lines(label: Label, keys: Sequence[str], known: Iterable[str] = ()) -> Label:
    """The label with only these lines, in this order.

    A key of another label (`known`, or a plugin's `name.word`) is skipped; BadInput for others.
    """
    here = {line.key for line in label.lines}
    allowed = here | set(known)
    for key in keys:
        if key not in allowed and "." not in key:
            near = near_miss(key, allowed)
            raise BadInput(f"no label line {quoted(key)!r}{near}; see: warmside labels lines")
    picked = tuple(line for key in keys for line in label.lines if line.key == key)
    return replace(label, lines=picked)
