"""The values of a protocol by dotted key: which keys there are, and what each may be."""

from __future__ import annotations

import re
from collections.abc import Callable

from warmside.api import BadInput, near_miss, quoted
from warmside.plugins.quarantine.protocol.terms import SWITCHED

Value = str | int | bool | tuple[str, ...]
NAME = r"[a-z][a-z0-9_-]{0,39}"


def checked(key: str, value: object, known: list[str]) -> Value:
    """The value in the key's own type; raises BadInput for an unknown key or an absurd value.

    Text is read as a keeper types it: `120`, `no`, `flotation, smear`.
    """
    for pattern, check in _RULES:
        if pattern.fullmatch(key):
            return check(key, value)
    raise unknown_key(key, known)


def unknown_key(key: str, known: list[str]) -> BadInput:
    """The error for a key that is not among the known ones, with a near miss or the whole list."""
    hint = near_miss(key, known) or f"; its keys: {', '.join(known)}"
    return BadInput(f"a protocol has no {quoted(key)}{hint}")


def _said(value: object) -> str:
    return quoted(str(value))


def _text(most: int) -> Callable[[str, object], Value]:
    def check(key: str, value: object) -> Value:
        if not isinstance(value, str):
            raise BadInput(f"{key} is text, not {_said(value)}")
        if len(value) > most:
            raise BadInput(f"{key} has {len(value)} characters; at most {most}")
        return value.strip()

    return check


def _whole(least: int, most: int) -> Callable[[str, object], Value]:
    def check(key: str, value: object) -> Value:
        if isinstance(value, str) and re.fullmatch(r"\s*[+-]?[0-9]{1,9}\s*", value):
            value = int(value)
        if isinstance(value, bool) or not isinstance(value, int):
            raise BadInput(f"{key} is a whole number from {least} to {most}, not {_said(value)}")
        if not least <= value <= most:
            raise BadInput(f"{key} is from {least} to {most}, not {value}")
        return value

    return check


def _yesno(key: str, value: object) -> Value:
    words = {"yes": True, "true": True, "no": False, "false": False}
    if isinstance(value, str):
        value = words.get(value.strip().lower(), value)
    if not isinstance(value, bool):
        raise BadInput(f"{key} is yes or no, not {_said(value)}")
    return value


def _names(key: str, value: object) -> Value:
    parts = value.split(",") if isinstance(value, str) else value
    if not isinstance(parts, list | tuple) or not all(isinstance(p, str) for p in parts):
        raise BadInput(f"{key} is a list of names, not {_said(value)}")
    names = tuple(p.strip() for p in parts if p.strip())
    wrong = next((n for n in names if not re.fullmatch(NAME, n)), None)
    if wrong is not None:
        raise BadInput(
            f"{key} cannot have {_said(wrong)}; a name is lower-case letters, digits and -"
        )
    return names


_RULES = [
    (re.compile(pattern), check)
    for pattern, check in (
        ("title|group", _text(80)),
        ("tools|warning", _text(300)),
        ("days", _whole(1, 1095)),
        ("result_wait_days", _whole(1, 180)),
        (rf"tests\.{NAME}\.title", _text(80)),
        (rf"tests\.{NAME}\.methods", _names),
        (rf"tests\.{NAME}\.negatives", _whole(0, 20)),
        (rf"tests\.{NAME}\.spacing_days", _whole(1, 365)),
        (rf"checks\.{NAME}\.title", _text(80)),
        (rf"checks\.{NAME}\.every_days", _whole(1, 90)),
        (rf"restarts\.({'|'.join(SWITCHED)})", _yesno),
        (r"ends\.checks_up_to_date", _yesno),
        (r"rechecks\.(from_day|to_day)", _whole(1, 120)),
        (r"rechecks\.every_days", _whole(1, 30)),
    )
]
