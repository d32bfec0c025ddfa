"""Fields from what a keeper typed."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any, assert_never

from msgspec import Struct

from warmside.core.kinds.fields import FieldSpec, Form, Target
from warmside.core.values.display import Display
from warmside.core.values.errors import BadInput
from warmside.core.values.moments import parse_clock
from warmside.core.values.quantities import parse_quantity


class Readers(Struct, frozen=True):
    """What reads typed words that mean nothing without the moment or the record.

    `day` gives the day of a text, `reference` the id of what has that code or name in a table. A
    number without unit is taken as `display` shows it, the collection's.
    """

    day: Callable[[str], date]
    reference: Callable[[Target, str], int]
    display: Display | None = None


def parse_field(spec: FieldSpec, text: str, readers: Readers, bare: bool = False) -> Any:
    """One field from typed text; an empty text means the default.

    With `bare`, a number without unit is in the stored unit, whatever `readers` say.
    """
    text = text.strip()
    if not text and not spec.required:
        return spec.default
    match spec.form:
        case Form.QUANTITY:
            return _parse_quantity(spec, text, readers, bare)
        case Form.WHOLE:
            return _parse_whole(spec, text)
        case Form.CHOICE:
            return _chosen(spec, text)
        case Form.CHOICES:
            return tuple(_chosen(spec, part) for part in text.split(",") if part.strip())
        case Form.WORDS:
            return text
        case Form.YESNO:
            return _parse_yesno(spec, text)
        case Form.DAY | Form.CLOCK | Form.REFERENCE:
            return _parse_looked_up(spec, text, readers) if text else None
        case _:
            assert_never(spec.form)


def _parse_quantity(spec: FieldSpec, text: str, readers: Readers, bare: bool) -> float:
    assert spec.unit is not None
    return parse_quantity(text, spec.unit, bare=bare, display=readers.display, what=spec.option)


def _parse_looked_up(spec: FieldSpec, text: str, readers: Readers) -> str | int:
    if spec.form is Form.DAY:
        return readers.day(text).isoformat()
    if spec.form is Form.CLOCK:
        return parse_clock(text).isoformat("minutes")
    assert spec.target is not None
    return readers.reference(spec.target, text)


def _chosen(spec: FieldSpec, text: str) -> str:
    """The choice as it is declared, though it was typed `One-Piece`, or by another word for it."""
    folded = text.strip().casefold().replace("-", " ")
    found = next((c for c in spec.choices if c.casefold() == folded), text.strip())
    return dict(spec.also).get(folded, found)


def _parse_yesno(spec: FieldSpec, text: str) -> bool:
    if text.lower() in ("yes", "y", "true", "1", "x"):
        return True
    if text.lower() in ("no", "n", "false", "0"):
        return False
    raise BadInput(f"{spec.option} is yes or no, not {text!r}")


def _parse_whole(spec: FieldSpec, text: str) -> int:
    try:
        return int(text)
    except ValueError:
        raise BadInput(f"{spec.option} is a whole number, not {text!r}") from None
