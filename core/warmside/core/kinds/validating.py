"""Whether a field's stored value is one that its declaration allows."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from datetime import date, time
from typing import Any, NoReturn, assert_never

from warmside.core.kinds.fields import FieldSpec, Form
from warmside.core.kinds.saying import say_value
from warmside.core.values.calendar_checks import calendar_day
from warmside.core.values.display import Display
from warmside.core.values.errors import BadInput
from warmside.core.values.hints import near_miss, plain_text

Data = Mapping[str, Any]
_DAY = re.compile("([0-9]{4})-([0-9]{2})-([0-9]{2})")
_CLOCK = re.compile("([01][0-9]|2[0-3]):[0-5][0-9]")
_MANY = 12  # of so many choices all are listed only where none is near what was typed


def check_field(kind: str, spec: FieldSpec, data: Data) -> Any:
    """The field's valid value in `data`, or its default; BadInput names what is wrong."""
    value = data.get(spec.name, spec.default)
    if value is None:
        if spec.required:
            raise BadInput(f"{kind} needs --{spec.option}: {spec.help} ({spec.typing_help})")
        return None
    match spec.form:
        case Form.QUANTITY | Form.WHOLE:
            return _within(kind, spec, value)
        case Form.CHOICE:
            return _one_of(kind, spec, value)
        case Form.CHOICES:
            return [_one_of(kind, spec, v) for v in value]
        case Form.WORDS:
            return _text(kind, spec, value)
        case Form.YESNO:
            return value if isinstance(value, bool) else _refuse(kind, spec, value)
        case Form.DAY:
            return _day(kind, spec, value)
        case Form.CLOCK:
            return _clock(kind, spec, value)
        case Form.REFERENCE:
            whole = isinstance(value, int) and not isinstance(value, bool) and value > 0
            return value if whole else _refuse(kind, spec, value)
        case _:
            assert_never(spec.form)


def _refuse(kind: str, spec: FieldSpec, value: Any) -> NoReturn:
    raise BadInput(f"{kind}: {spec.option} is {spec.typing_help}, not {value!r}")


def _text(kind: str, spec: FieldSpec, value: Any) -> str:
    if not isinstance(value, str):
        _refuse(kind, spec, value)
    if spec.required and value == "":
        raise BadInput(f"{kind} needs --{spec.option}: {spec.help}")
    return plain_text(spec.option, value)


def _day(kind: str, spec: FieldSpec, value: Any) -> str:
    text = value.isoformat() if type(value) is date else value
    found = _DAY.fullmatch(text) if isinstance(text, str) else None
    if found is None:
        _refuse(kind, spec, value)
    year, month, day = (int(part) for part in found.groups())
    return calendar_day(year, month, day, found[0]).isoformat()


def _clock(kind: str, spec: FieldSpec, value: Any) -> str:
    text = value.isoformat("minutes") if isinstance(value, time) else value
    if not isinstance(text, str) or not _CLOCK.fullmatch(text):
        _refuse(kind, spec, value)
    return str(text)


def _one_of(kind: str, spec: FieldSpec, value: Any) -> str:
    if value not in spec.choices:
        meant = near_miss(str(value), (*spec.choices, *(word for word, _ in spec.also)))
        told = f"; it is one of: {', '.join(spec.choices)}"
        said = meant if meant and len(spec.choices) > _MANY else meant + told
        raise BadInput(f"{kind}: {spec.option} cannot be {value!r}{said}")
    return str(value)


def _within(kind: str, spec: FieldSpec, value: Any) -> float | int:
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise BadInput(f"{kind}: {spec.option} is a number, not {value!r}")
    if spec.form is Form.WHOLE and value != int(value):
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
    return int(value) if spec.form is Form.WHOLE else float(value)
