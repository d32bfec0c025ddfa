"""Words that a keeper types when entering things, checked in one way for all of them."""

from __future__ import annotations

from warmside.core.values import codes
from warmside.core.values.errors import BadInput, Refused
from warmside.core.values.hints import near_miss, plain_text

LONGEST_NAME = 400


def one_of(what: str, value: str, allowed: tuple[str, ...]) -> str:
    """The allowed word that was typed; raises BadInput listing them."""
    for word in allowed:
        if word.casefold() == value.strip().casefold():
            return word
    raise BadInput(
        f"{what} cannot be {value!r}{near_miss(value, allowed)}; it is one of: {', '.join(allowed)}"
    )


def named(what: str, name: str) -> str:
    """The name without outer blanks; raises BadInput for an empty or endless one."""
    name = name.strip()
    if not name:
        raise BadInput(f"{what} needs a name")
    if len(name) > LONGEST_NAME:
        raise BadInput(f"the name of {what} has {len(name)} characters; {LONGEST_NAME} is the most")
    return plain_text(f"the name of {what}", name)


def free_code(what: str, code: str | None, name: str, taken: dict[str, str]) -> str:
    """The code that was asked for, or one suggested from the name; Refused where it is taken."""
    if not code:
        return codes.suggested(name, taken, what[0].upper())
    code = codes.checked(code)
    if code in taken:
        free = codes.suggested(code, taken)
        raise Refused(f"code {code} is taken by {taken[code]}; {free} is free")
    return code
