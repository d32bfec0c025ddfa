"""What declares a field: `mass_g: float = measure(Unit.MASS, "body mass", least=0.05)`."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import Any

from warmside.core.kinds.fields import Form, Target
from warmside.core.values.units import Unit

__all__ = (
    "animal_ref",
    "choice",
    "choices",
    "clock",
    "clutch_ref",
    "day",
    "measure",
    "whole",
    "words",
    "yesno",
)


def measure(
    unit: Unit,
    help: str,
    *,
    least: float | None = None,
    most: float | None = None,
    optional: bool = False,
    before: str = "",
) -> Any:
    """A field: a quantity in the stored unit, between `least` and `most` (both allowed).

    History says it after `before`, else after the field's name, where a kind has several.
    """
    about = {"unit": unit, "help": help, "least": least, "most": most, "before": before}
    return _field(Form.QUANTITY, about, _optional(optional))


def whole(
    help: str,
    *,
    least: int = 0,
    most: int = 10_000,
    default: int | None = None,
    required: bool = False,
    before: str = "",
    after: str = "",
    times: bool = False,
    told: bool = True,
) -> Any:
    """A field: a whole number; `default`, or None, where none is typed, unless it is required.

    History says it before `after` or after `before`, else after the field's name; with `times` as
    `6 ×` in front of the field that is declared before it; not at all where it is not `told`.
    """
    said = {"before": before, "after": after, "times": times, "told": told}
    about = {"help": help, "least": least, "most": most, **said}
    return _field(Form.WHOLE, about, dataclasses.MISSING if required else default)


def choice(
    choices: tuple[str, ...],
    help: str,
    *,
    default: Any = dataclasses.MISSING,
    also: Mapping[str, str] | None = None,
    before: str = "",
) -> Any:
    """A field: one of a few words; `default` None makes it optional.

    `also` are other words that may be typed, each with the choice that it stands for; history
    says it after `before`.
    """
    words = tuple((also or {}).items())
    return _field(
        Form.CHOICE, {"help": help, "choices": choices, "also": words, "before": before}, default
    )


def choices(choices: tuple[str, ...], help: str, *, before: str = "") -> Any:
    """A field: any number of a few words, none by default; `before` as for a day."""
    return _field(Form.CHOICES, {"help": help, "choices": choices, "before": before}, ())


def words(help: str, *, optional: bool = True, before: str = "") -> Any:
    """A field: free text, empty by default unless required; history says it after `before`."""
    default = "" if optional else dataclasses.MISSING
    return _field(Form.WORDS, {"help": help, "before": before}, default)


def yesno(help: str) -> Any:
    """A field: yes or no, no by default."""
    return _field(Form.YESNO, {"help": help}, False)


def day(help: str, *, optional: bool = False, before: str = "") -> Any:
    """A field: a day; history says it after `before`, else after the field's name."""
    return _field(Form.DAY, {"help": help, "before": before}, _optional(optional))


def clock(help: str, *, optional: bool = False, before: str = "") -> Any:
    """A field: a time of day on the local clock, to the minute; `before` as for a day."""
    return _field(Form.CLOCK, {"help": help, "before": before}, _optional(optional))


def animal_ref(help: str, *, optional: bool = False, before: str = "") -> Any:
    """A field: another animal of the record; the field's name ends in `animal_id`."""
    about = {"help": help, "target": Target.ANIMAL, "before": before}
    return _field(Form.REFERENCE, about, _optional(optional))


def clutch_ref(help: str, *, optional: bool = False, before: str = "") -> Any:
    """A field: a clutch of the record; the field's name ends in `clutch_id`."""
    about = {"help": help, "target": Target.CLUTCH, "before": before}
    return _field(Form.REFERENCE, about, _optional(optional))


def _optional(optional: bool) -> Any:
    return None if optional else dataclasses.MISSING


def _field(form: Form, about: dict[str, Any], default: Any) -> Any:
    about = {"form": form, **about}
    if default is dataclasses.MISSING:
        return dataclasses.field(metadata=about)
    return dataclasses.field(default=default, metadata=about)
