"""A growth reference as a CSV file: LMS rows, or centile columns that are turned into LMS.

Columns: sex (male, female, any), age_days, then l, m, s (m in g), or three or more centile columns
(p3, p50, p97.5, in g); line and species may be added. Lines before the header that begin with #
may say `# species:`, `# source:`, `# licence:` and `# mark:`. Commas between, points in numbers.
"""

from __future__ import annotations

import csv
import math
from collections.abc import Mapping, Sequence

from msgspec import Struct

from warmside.api import BadInput, Mark, Source
from warmside.plugins.weight.lms.centile_columns import lms_of_centiles
from warmside.plugins.weight.lms.lms import Lms, LmsCurve, check_lms

SEXES = ("male", "female", "any")
_LMS = ("l", "m", "s")
_PLAIN = {"sex", "age_days", "line", "species", *_LMS}
_HEAD = ("species", "source", "licence", "mark")


class Reference(Struct, frozen=True):
    """Growth curves of one species by sex and line; the line is empty where none is named."""

    species: str
    source: Source
    licence: str
    curves: Mapping[tuple[str, str], LmsCurve]

    def curve(self, sex: str, line: str = "", species: str = "") -> LmsCurve:
        """The nearest curve: own sex before any, own line before none.

        BadInput where the reference is for another species or has no curve for the sex.
        """
        if sex not in (*SEXES, "unknown"):
            raise BadInput(f"sex {sex!r} is not known; give male, female or any")
        self.check_species(species)
        for key in ((sex, line), ("any", line), (sex, ""), ("any", "")):
            if key in self.curves:
                return self.curves[key]
        have = ", ".join(sorted({s for s, _ in self.curves}))
        raise BadInput(f"the reference has no curve for sex {sex!r}, only {have}; choose another")

    def check_species(self, species: str) -> None:
        """BadInput where both the reference and the asker name a species, and not the same."""
        if species and self.species and species.casefold() != self.species.casefold():
            raise BadInput(f"the reference is for {self.species}, not {species}; use one for it")

    def check_origin(self) -> None:
        """BadInput where the source or the licence is not said; a kept reference needs both."""
        for name, value in (("source", self.source.text), ("licence", self.licence)):
            if not value:
                raise BadInput(f"the reference names no {name}; add '# {name}: ...' or give it")


def parse_reference(
    text: str, *, species: str = "", source: str = "", licence: str = ""
) -> Reference:
    """The reference in a CSV text; what is given here stands in for lines missing from its head.

    BadInput with the line number for anything that cannot be used.
    """
    lines = list(enumerate(text.removeprefix("\ufeff").splitlines(), 1))
    head = _head(lines)
    rows = [(n, _cells(n, line)) for n, line in lines if line.strip() and line.strip()[0] != "#"]
    if len(rows) < 2:
        raise BadInput("the reference has no rows; it needs a header and a row an age")
    columns = _columns(*rows[0])
    gathered: dict[tuple[str, str], list[tuple[float, Lms]]] = {}
    expected = species or head["species"]
    for number, cells in rows[1:]:
        try:
            key, age, lms, of = _row(columns, cells)
            expected = _one_species(expected, of)
            _add(gathered.setdefault(key, []), age, lms)
        except BadInput as problem:
            raise BadInput(f"line {number}: {problem}") from None
    found = Reference(
        expected,
        Source(source or head["source"], _mark(head["mark"])),
        licence or head["licence"],
        {key: _curve(points) for key, points in gathered.items()},
    )
    Reference(head["species"], found.source, "", {}).check_species(species)
    return found


def _head(lines: Sequence[tuple[int, str]]) -> dict[str, str]:
    told = dict.fromkeys(_HEAD, "")
    for _, line in lines:
        name, colon, value = line.strip().removeprefix("#").partition(":")
        if line.strip().startswith("#") and colon and name.strip().lower() in told:
            told[name.strip().lower()] = value.strip()
    return told


def _mark(text: str) -> Mark:
    try:
        return Mark(text) if text else Mark.KEEPERS_OWN
    except ValueError:
        known = ", ".join(Mark)
        raise BadInput(f"mark {text!r} is not known; use one of: {known}") from None


def _cells(number: int, line: str) -> list[str]:
    try:
        return [c.strip() for c in next(csv.reader([line], strict=True))]
    except csv.Error as problem:
        raise BadInput(f"line {number}: {problem}; quote a cell whole or not at all") from None


def _columns(number: int, header: list[str]) -> list[str]:
    names = [name.lower() for name in header]
    centiles = [name for name in names if _centile(name) is not None]
    unknown = [n for n in names if n not in _PLAIN and n not in centiles]
    has_lms = [name for name in _LMS if name in names]
    problem = ""
    if len(names) == 1:
        problem = "only one column found; put commas between the columns"
    elif unknown:
        problem = f"column {unknown[0]!r} is not known; use sex, age_days and l, m, s or p3, p50 …"
    elif len(set(names)) < len(names):
        problem = "a column stands there twice; keep one"
    elif not {"sex", "age_days"} <= set(names):
        problem = "the columns sex and age_days are needed; add them"
    elif has_lms and centiles:
        problem = "both l, m, s and centile columns; keep one kind"
    elif len(has_lms) < 3 and len(centiles) < 3:
        problem = "l, m and s, or at least three centile columns are needed; add them"
    if problem:
        raise BadInput(f"line {number}: {problem}")
    return names


def _centile(name: str) -> float | None:
    try:
        value = float(name[1:])
    except ValueError:
        return None
    return value if name[0] == "p" and 0 < value < 100 else None


def _row(names: list[str], cells: list[str]) -> tuple[tuple[str, str], float, Lms, str]:
    if len(cells) != len(names):
        raise BadInput(f"{len(cells)} cells under {len(names)} columns; complete the line")
    row = dict(zip(names, cells, strict=True))
    if row["sex"].lower() not in SEXES:
        raise BadInput(f"sex {row['sex']!r} is not known; write male, female or any")
    age = _number("age_days", row["age_days"])
    if age < 0:
        raise BadInput(f"age of {age:g} days is before hatching; correct it")
    if "l" in row:
        lms = Lms(*(_number(name, row[name]) for name in _LMS))
        check_lms(lms)
    else:
        given = {c: _number(n, row[n]) for n in names if (c := _centile(n)) is not None}
        lms = lms_of_centiles(given)
    return (row["sex"].lower(), row.get("line", "")), age, lms, row.get("species", "")


def _number(name: str, text: str) -> float:
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if not math.isfinite(value):
        raise BadInput(f"{name} {text!r} is not a number; write it like 0.5")
    return value


def _one_species(expected: str, species: str) -> str:
    if species and expected and species.casefold() != expected.casefold():
        raise BadInput(f"a row for {species} in a reference for {expected}; keep one species")
    return expected or species


def _add(points: list[tuple[float, Lms]], age: float, lms: Lms) -> None:
    if points and age == points[-1][0]:
        raise BadInput(f"age {age:g} days stands there twice for one sex; keep one row")
    if points and age < points[-1][0]:
        raise BadInput(f"age {age:g} days comes after {points[-1][0]:g}; sort the rows by age")
    points.append((age, lms))


def _curve(points: Sequence[tuple[float, Lms]]) -> LmsCurve:
    return LmsCurve(
        tuple(age for age, _ in points),
        tuple(p.l for _, p in points),
        tuple(p.m_g for _, p in points),
        tuple(p.s for _, p in points),
    )
