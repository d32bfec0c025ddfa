"""Event kinds, each declared once as a typed record.

Command-line options, validation, CSV columns, JSON keys, history lines and help all derive from the
declaration. A field that is a quantity ends in its unit (`mass_g`); its option is the name without
that ending (`--mass`).
"""

from __future__ import annotations

import dataclasses
import functools
import math
import typing
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from warmside.core.values.errors import BadInput
from warmside.core.values.hints import near_miss, plain_text
from warmside.core.values.quantities import Display, format_quantity, parse_quantity, typing_help
from warmside.core.values.units import Unit

Data = Mapping[str, Any]


_EXAMPLES = {
    Unit.MASS: "412g",
    Unit.LENGTH: "48cm",
    Unit.TEMPERATURE: "28C",
    Unit.VOLUME: "250ml",
    Unit.PERCENT: "60",
    Unit.COUNT: "3",
}


class Subject(StrEnum):
    """What an event of a kind is about."""

    ANIMAL = "animal"
    ENCLOSURE = "enclosure"
    PLACING = "animal put into an enclosure"


@dataclass(frozen=True, slots=True)
class FieldSpec:
    """One field of a kind's record, as every face needs it."""

    name: str
    help: str
    type: type
    required: bool
    default: Any = None
    unit: Unit | None = None
    choices: tuple[str, ...] = ()
    several: bool = False
    least: float | None = None
    most: float | None = None
    before: str = ""

    @property
    def option(self) -> str:
        """The field's name without its unit, as typed after `--`."""
        ending = self.unit.suffix if self.unit else ""
        return self.name.removesuffix(ending).replace("_", "-")

    @property
    def example(self) -> str:
        """A value as it may be typed after `=`, without blanks."""
        if self.choices:
            return self.choices[0].replace(" ", "-")
        return _EXAMPLES.get(self.unit, "…") if self.unit else "…"

    @property
    def typing_help(self) -> str:
        """How the field may be typed."""
        if self.choices:
            return ", ".join(self.choices)
        if self.unit is not None and self.unit is not Unit.COUNT:
            return typing_help(self.unit)
        return {int: "a whole number", bool: "yes or no"}.get(self.type, "text")


def measure(
    unit: Unit,
    help: str,
    *,
    least: float | None = None,
    most: float | None = None,
    optional: bool = False,
) -> Any:
    """A quantity in the stored unit, between `least` and `most` (both allowed)."""
    about = {"unit": unit, "help": help, "least": least, "most": most}
    return _field(about, None if optional else dataclasses.MISSING)


def whole(
    help: str,
    *,
    least: int = 0,
    most: int = 10_000,
    default: int | None = None,
    required: bool = False,
) -> Any:
    """A whole number; `default`, or None, where nothing is typed, unless it is required."""
    about = {"unit": Unit.COUNT, "help": help, "least": least, "most": most}
    return _field(about, dataclasses.MISSING if required else default)


def choice(choices: tuple[str, ...], help: str, *, default: Any = dataclasses.MISSING) -> Any:
    """One of a few words; `default` None makes it optional."""
    return _field({"help": help, "choices": choices}, default)


def choices(choices: tuple[str, ...], help: str) -> Any:
    """Any number of a few words, none by default."""
    return _field({"help": help, "choices": choices, "several": True}, ())


def words(help: str, *, optional: bool = True, before: str = "") -> Any:
    """Free text, empty by default unless it is required; history says it after `before`."""
    return _field({"help": help, "before": before}, "" if optional else dataclasses.MISSING)


def yesno(help: str) -> Any:
    """Yes or no, no by default."""
    return _field({"help": help}, False)


def _field(about: dict[str, Any], default: Any) -> Any:
    if default is dataclasses.MISSING:
        return dataclasses.field(metadata=about)
    return dataclasses.field(default=default, metadata=about)


@dataclass(frozen=True, slots=True)
class EventKind:
    """A kind of event: its name, its record type (a frozen dataclass), and whom it is about.

    A plugin's kinds are named `<plugin>.<word>`; shared kinds, declared by the core, have no dot.
    `todo` is what a task asks for ("weigh"), where the title will not do.
    """

    name: str
    title: str
    record: type
    subject: Subject = Subject.ANIMAL
    help: str = ""
    todo: str = ""

    @property
    def fields(self) -> tuple[FieldSpec, ...]:
        """The fields in the order of the declaration."""
        return fields_of(self.record)

    def field(self, name: str) -> FieldSpec:
        """The field of that name or option; near misses are suggested."""
        wanted = name.replace("-", "_")
        for spec in self.fields:
            if wanted in (spec.name, spec.option.replace("-", "_")):
                return spec
        known = [s.option for s in self.fields]
        raise BadInput(
            f"{self.name} has no field {name!r}{near_miss(name, known)}; "
            f"its fields are: {', '.join(known) or 'none'}"
        )

    def parse(
        self, typed: Mapping[str, str], bare: bool = False, display: Display | None = None
    ) -> dict[str, Any]:
        """Valid data from what a keeper typed, by field name or option.

        A number without unit is in the stored unit with `bare` (for columns that say their unit),
        else as `display` shows it, the collection's.
        """
        data = {}
        for name, text in typed.items():
            spec = self.field(name)
            data[spec.name] = parse_field(spec, text, bare, display)
        return self.validate(data)

    def validate(self, data: Data) -> dict[str, Any]:
        """The data with defaults filled in; BadInput names the first field that is wrong."""
        for name in data:
            self.field(name)
        whole_record = {s.name: check_field(self.name, s, data) for s in self.fields}
        if self.fields and all(not s.required for s in self.fields):
            measures = [s.name for s in self.fields if s.unit and s.unit is not Unit.COUNT]
            if len(measures) == len(self.fields) and all(whole_record[m] is None for m in measures):
                raise BadInput(f"{self.name} needs one of: {', '.join(self.options)}")
        return whole_record

    @property
    def options(self) -> tuple[str, ...]:
        """The options that a command offers for this kind."""
        return tuple(f"--{s.option}" for s in self.fields)

    def line(self, data: Data, display: Display) -> str:
        """The event in the keeper's words, without day and subject: `fed: mouse, 24 g, taken`."""
        measures = [s for s in self.fields if s.unit and s.unit is not Unit.COUNT]
        said = [
            say_field(s, data.get(s.name), display, named=len(measures) > 1) for s in self.fields
        ]
        told = ", ".join(w for w in said if w)
        return f"{self.title}: {told}" if told else self.title


@functools.cache
def fields_of(record: type) -> tuple[FieldSpec, ...]:
    """The field specs of a declared record type."""
    hints = typing.get_type_hints(record)
    specs = []
    for f in dataclasses.fields(record):
        about = f.metadata
        required = f.default is dataclasses.MISSING
        specs.append(
            FieldSpec(
                name=f.name,
                help=about.get("help", ""),
                type=_plain_type(hints[f.name]),
                required=required,
                default=None if required else f.default,
                unit=about.get("unit"),
                choices=about.get("choices", ()),
                several=about.get("several", False),
                least=about.get("least"),
                most=about.get("most"),
                before=about.get("before", ""),
            )
        )
    return tuple(specs)


def _plain_type(hint: Any) -> type:
    options = [t for t in typing.get_args(hint) if t is not type(None)]
    if typing.get_origin(hint) is tuple:
        return tuple
    return options[0] if options else hint  # type: ignore[no-any-return]


def parse_field(
    spec: FieldSpec, text: str, bare: bool = False, display: Display | None = None
) -> Any:
    """One field from typed text; an empty text means the default. Numbers as in `parse`."""
    text = text.strip()
    if not text and not spec.required:
        return spec.default
    if spec.several:
        return tuple(_chosen(spec, part) for part in text.split(",") if part.strip())
    if spec.choices:
        return _chosen(spec, text)
    if spec.type is bool:
        return _parse_yesno(spec, text)
    if spec.type is int:
        return _parse_whole(spec, text)
    if spec.unit is not None:
        return parse_quantity(text, spec.unit, bare=bare, display=display, what=spec.option)
    return text


def _chosen(spec: FieldSpec, text: str) -> str:
    """The choice as it is declared, though it was typed `One-Piece`."""
    folded = text.strip().casefold().replace("-", " ")
    return next((c for c in spec.choices if c.casefold() == folded), text.strip())


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


def check_field(kind: str, spec: FieldSpec, data: Data) -> Any:
    """The field's valid value in `data`, or its default."""
    value = data.get(spec.name, spec.default)
    if value is None:
        if spec.required:
            raise BadInput(f"{kind} needs --{spec.option}: {spec.help} ({spec.typing_help})")
        return None
    if spec.several:
        return [_one_of(kind, spec, v) for v in value]
    if spec.choices:
        return _one_of(kind, spec, value)
    if spec.type in (int, float):
        return _within(kind, spec, value)
    if not isinstance(value, spec.type):
        raise BadInput(f"{kind}: {spec.option} is {spec.typing_help}, not {value!r}")
    if spec.required and value == "":
        raise BadInput(f"{kind} needs --{spec.option}: {spec.help}")
    return plain_text(spec.option, value) if isinstance(value, str) else value


def _one_of(kind: str, spec: FieldSpec, value: Any) -> str:
    if value not in spec.choices:
        raise BadInput(
            f"{kind}: {spec.option} cannot be {value!r}{near_miss(str(value), spec.choices)}; "
            f"it is one of: {', '.join(spec.choices)}"
        )
    return str(value)


def _within(kind: str, spec: FieldSpec, value: Any) -> float | int:
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise BadInput(f"{kind}: {spec.option} is a number, not {value!r}")
    if spec.type is int and value != int(value):
        raise BadInput(f"{kind}: {spec.option} is a whole number, not {value:g}")
    for limit, wrong, word in (
        (spec.least, spec.least is not None and value < spec.least, "at least"),
        (spec.most, spec.most is not None and value > spec.most, "at most"),
    ):
        if wrong and limit is not None:
            raise BadInput(
                f"{kind}: {spec.option} is {word} {say_value(spec, limit, Display.METRIC)}, "
                f"not {say_value(spec, value, Display.METRIC)}"
            )
    return int(value) if spec.type is int else float(value)


def say_field(spec: FieldSpec, value: Any, display: Display, *, named: bool = True) -> str:
    """The field in a history line; nothing for an empty one or a plain single piece."""
    if value in (None, "", (), [], False) or (spec.unit is Unit.COUNT and value == spec.default):
        return ""
    if spec.type is bool:
        return spec.option.replace("-", " ")
    if spec.several:
        return f"{spec.option.replace('-', ' ')} {' and '.join(value)}"
    if spec.unit is Unit.COUNT:
        return f"{spec.option.replace('-', ' ')} {value}"
    if spec.unit is not None:
        name = f"{spec.option.replace('-', ' ')} " if named else ""
        return f"{name}{say_value(spec, value, display)}"
    return f"{spec.before} {value}".strip()


def say_value(spec: FieldSpec, value: float, display: Display) -> str:
    """A number with its unit in the collection's units."""
    if spec.unit is None or spec.unit is Unit.COUNT:
        return f"{value:g}"
    return format_quantity(value, spec.unit, display)
