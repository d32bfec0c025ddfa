"""A club's or keeper's pooled weighings as CSV: columns animal, sex, age_days, mass_g."""

from __future__ import annotations

import csv

from msgspec import Struct

from warmside.api import BadInput

_COLUMNS = ("animal", "sex", "age_days", "mass_g")
_SEXES = ("male", "female", "unknown")


class PooledWeighing(Struct, frozen=True):
    """One weighing of one animal at an age in days."""

    animal: str
    sex: str
    age_days: float
    mass_g: float


def parse_pooled(text: str) -> tuple[PooledWeighing, ...]:
    """The weighings in a CSV text with a header; BadInput with the line number."""
    reader = csv.reader(text.removeprefix("\ufeff").splitlines())
    header = [name.strip().lower() for name in next(reader, [])]
    if sorted(header) != sorted(_COLUMNS):
        raise BadInput(
            f"line 1: columns are {', '.join(header) or 'missing'}; "
            f"give {', '.join(_COLUMNS)}, with commas between"
        )
    rows = []
    for cells in reader:
        if cells and not cells[0].lstrip().startswith("#"):
            try:
                rows.append(_row(header, cells))
            except BadInput as problem:
                raise BadInput(f"line {reader.line_num}: {problem}") from None
    return tuple(rows)


def _row(header: list[str], cells: list[str]) -> PooledWeighing:
    if len(cells) != len(header):
        raise BadInput(f"{len(cells)} cells under {len(header)} columns; complete the line")
    row = dict(zip(header, (c.strip() for c in cells), strict=True))
    if not row["animal"]:
        raise BadInput("no animal; give each its code, for one animal's weighings go together")
    if row["sex"].lower() not in _SEXES:
        raise BadInput(f"sex {row['sex']!r} is not known; write male, female or unknown")
    age, mass = _number("age_days", row["age_days"]), _number("mass_g", row["mass_g"])
    if age < 0:
        raise BadInput(f"age of {age:g} days is before hatching; correct it")
    if mass <= 0:
        raise BadInput(f"mass of {mass:g} g cannot be; give one above zero")
    return PooledWeighing(row["animal"], row["sex"].lower(), age, mass)


def _number(name: str, text: str) -> float:
    try:
        value = float(text)
    except ValueError:
        value = float("nan")
    if not abs(value) < 1e12:
        raise BadInput(f"{name} {text!r} is not a number; write it like 0.5")
    return value
