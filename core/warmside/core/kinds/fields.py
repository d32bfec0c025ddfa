"""The fields of a kind's record, as they are declared.

The name of a stored field tells what it holds: a quantity ends in its unit (`mass_g`), a reference
in the table that it refers to (`partner_animal_id`). Its option is the name without that ending
(`--mass`, `--partner`). Days and clock times are stored as ISO text (`2026-03-05`, `08:30`).
"""

from __future__ import annotations

import dataclasses
import functools
import inspect
from enum import StrEnum
from typing import Any, NamedTuple

from msgspec import Struct

from warmside.core.values.quantities import typing_help
from warmside.core.values.units import Unit

NOT_SAID = "not said"
"""A word of a choice: nobody told. It holds where nothing is typed, and history leaves it out."""
_EXAMPLES = {
    Unit.MASS: "412g",
    Unit.LENGTH: "48cm",
    Unit.TEMPERATURE: "28C",
    Unit.VOLUME: "250ml",
    Unit.PERCENT: "60",
}


class Form(StrEnum):
    """What a field can hold."""

    QUANTITY = "a quantity"
    WHOLE = "a whole number"
    CHOICE = "one of a few words"
    CHOICES = "some of a few words"
    WORDS = "text"
    YESNO = "yes or no"
    DAY = "a day"
    CLOCK = "a time of day"
    REFERENCE = "a reference"


class Target(StrEnum):
    """A table that fields of events may refer to."""

    ANIMAL = "animal"
    CLUTCH = "clutch"

    @property
    def ending(self) -> str:
        """How the name of a stored reference to this table ends."""
        return f"{self.value}_id"


_TYPING = {
    Form.DAY: "2026-03-05, today, in 3 weeks",
    Form.CLOCK: "a time of day such as 08:30",
}
_TYPED = {Form.YESNO: "yes", Form.DAY: "2026-03-05", Form.CLOCK: "08:30"}
_TYPED_REFERENCE = {Target.ANIMAL: "EMB", Target.CLUTCH: "C1"}
_TYPING_REFERENCE = {
    Target.ANIMAL: "code or name of an animal",
    Target.CLUTCH: "code of a clutch",
}


class FieldSpec(Struct, frozen=True):
    """One field of a kind's record, as every face needs it."""

    name: str
    form: Form
    help: str
    required: bool
    default: Any = None
    unit: Unit | None = None
    choices: tuple[str, ...] = ()
    also: tuple[tuple[str, str], ...] = ()
    target: Target | None = None
    least: float | None = None
    most: float | None = None
    before: str = ""
    after: str = ""
    times: bool = False
    told: bool = True

    @property
    def option(self) -> str:
        """The field's name without its unit or table, as typed after `--`."""
        return self.key.replace("_", "-")

    @property
    def key(self) -> str:
        """The field's name without its unit or table."""
        found = reference_named(self.name)
        return found.key if found else self.name.removesuffix(self.unit.suffix if self.unit else "")

    @property
    def example(self) -> str:
        """A value as it may be typed after `=`, without blanks."""
        if self.choices:
            return self.choices[0].replace(" ", "-")
        if self.unit is not None:
            return _EXAMPLES.get(self.unit, "…")
        if self.target is not None:
            return _TYPED_REFERENCE[self.target]
        return "3" if self.form is Form.WHOLE else _TYPED.get(self.form, "…")

    @property
    def typing_help(self) -> str:
        """How the field may be typed."""
        if self.choices:
            return ", ".join(self.choices)
        if self.unit is not None:
            return typing_help(self.unit)
        if self.target is not None:
            return _TYPING_REFERENCE[self.target]
        return _TYPING.get(self.form, self.form.value)


@functools.cache
def fields_of(record: type) -> tuple[FieldSpec, ...]:
    """The field specs of a declared record: a plain class, or a dataclass.

    No record is ever made, so a plain class does, and costs a twentieth of a dataclass at start.
    """
    if dataclasses.is_dataclass(record):
        return tuple(_spec(record, f.name, f) for f in dataclasses.fields(record))
    declared: dict[str, Any] = {}
    for owner in reversed(record.__mro__):
        own = vars(owner)
        made = [n for n, v in own.items() if isinstance(v, dataclasses.Field)]
        for name in (*inspect.get_annotations(owner), *made):
            declared[name] = own.get(name)
    return tuple(_spec(record, name, field) for name, field in declared.items())


def _spec(record: type, name: str, field: dataclasses.Field[Any] | None) -> FieldSpec:
    if field is None or "form" not in getattr(field, "metadata", ()):
        raise TypeError(f"{record.__name__}.{name} is declared by none of measure, words …")
    required = field.default is dataclasses.MISSING
    default = None if required else field.default
    spec = FieldSpec(name=name, required=required, default=default, **field.metadata)
    found = reference_named(name)
    if (found.target if found else None) is not spec.target:
        ending = spec.target.ending if spec.target else "another word, for it is no reference"
        raise TypeError(f"{record.__name__}.{name} must end in {ending}")
    return spec


class ReferenceName(NamedTuple):
    """The name of a stored reference, taken apart: `partner_animal_id` is `partner`, an animal."""

    key: str
    target: Target


@functools.cache
def reference_named(name: str) -> ReferenceName | None:
    """What a stored field of that name refers to; None where to nothing.

    The name alone tells, so that undo and the file's check need no plugin to know.
    """
    for target in Target:
        if name == target.ending or name.endswith(f"_{target.ending}"):
            key = name.removesuffix(target.ending).removesuffix("_")
            return ReferenceName(key or target.value, target)
    return None
