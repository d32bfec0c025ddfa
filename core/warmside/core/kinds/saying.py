"""Fields in the keeper's words."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, assert_never

from warmside.core.kinds.fields import NOT_SAID, FieldSpec, Form, Target
from warmside.core.values.display import Display
from warmside.core.values.quantities import format_quantity

Names = Callable[[Target, int], str]


def numbered(target: Target, id: int) -> str:
    """What a reference is called where the record is not at hand."""
    return f"{target.value} number {id}"


def say_field(
    spec: FieldSpec, value: Any, display: Display, names: Names, *, named: bool = True
) -> str:
    """The field in a history line; nothing for an empty one, one not said, or a single piece."""
    if not spec.told or value is None or value is False or value in ("", (), []):
        return ""
    match spec.form:
        case Form.QUANTITY:
            name = f"{spec.before or _name(spec)} " if named or spec.before else ""
            return name + say_value(spec, value, display)
        case Form.WHOLE if value == spec.default:
            return ""
        case Form.CHOICE if value == NOT_SAID:
            return ""
        case Form.WHOLE:
            after = "×" if spec.times else spec.after
            return f"{value} {after}" if after else f"{spec.before or _name(spec)} {value}"
        case Form.CHOICE | Form.WORDS:
            return f"{spec.before} {value}".strip()
        case Form.CHOICES:
            return f"{spec.before or _name(spec)} {' and '.join(value)}"
        case Form.YESNO:
            return _name(spec)
        case Form.DAY | Form.CLOCK:
            return f"{spec.before or _name(spec)} {value}"
        case Form.REFERENCE:
            assert spec.target is not None
            return f"{spec.before or _name(spec)} {names(spec.target, value)}"
        case _:
            assert_never(spec.form)


def _name(spec: FieldSpec) -> str:
    return spec.option.replace("-", " ")


def say_value(spec: FieldSpec, value: float, display: Display) -> str:
    """A number with its unit in the collection's units."""
    if spec.unit is None:
        return f"{value:g}"
    return format_quantity(value, spec.unit, display)
