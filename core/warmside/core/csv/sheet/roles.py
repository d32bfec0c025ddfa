"""Which column holds what: by the mapping, by its heading, and by its values."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from msgspec import Struct, field

from warmside.core.csv.events import split_field
from warmside.core.csv.mapping import SKIP, CsvMapping, FieldColumn
from warmside.core.csv.sheet.days import looks_like_day
from warmside.core.csv.sheet.grid import Flat
from warmside.core.csv.sheet.headings import (
    ANIMAL,
    DATE,
    KIND,
    NOTE,
    PLACE,
    TIME,
    VALUE,
    heading_of,
    unit_named,
)
from warmside.core.csv.sheet.layouts import CELL
from warmside.core.csv.sheet.usual_words import NO, OUTCOMES, PREY, YES, folded, is_nothing
from warmside.core.values.errors import BadInput
from warmside.core.values.hints import near_miss

ONCE = (DATE, TIME, ANIMAL, KIND, PLACE)
MOST = 0.6
"""So large a share of a column's cells must be days, or animals, for the column to hold them."""


class Role(Struct, frozen=True):
    """What a column holds, the unit of its bare numbers, and what its words mean."""

    name: str
    unit: str = ""
    values: Mapping[str, str] = field(default_factory=dict)


def roles_of(
    flat: Flat, mapping: CsvMapping, animal: Callable[[str], bool]
) -> tuple[dict[str, Role], tuple[str, ...]]:
    """The roles of the columns, and the filled columns of which nothing is known."""
    check_named(flat.columns, mapping)
    cells = {c: values_of(flat, n) for n, c in enumerate(flat.columns)}
    said = _said_by(mapping)
    found = dict[str, Role]()
    for column in flat.columns:
        role = said.get(column) or _by_heading(column, cells[column])
        if role.name:
            found[column] = role
    _by_values(cells, found, DATE, looks_like_day)
    if not mapping.subject:
        _by_values(cells, found, ANIMAL, animal)
    for name in ONCE:
        same = [c for c, role in found.items() if role.name == name]
        if len(same) > 1:
            raise BadInput(
                f"the file has two columns called {same[0]!r}, or two that hold the {name}; "
                f"rename one, or leave one out: --skip {same[-1]!r}"
            )
    unknown = tuple(c for c in flat.columns if c not in found and cells[c])
    return found, unknown


def values_of(flat: Flat, place: int) -> list[str]:
    """The cells of a column that say something."""
    return [c for row in flat.rows if not is_nothing(c := row.cell(place))]


def check_named(columns: tuple[str, ...], mapping: CsvMapping) -> None:
    """Raise BadInput where the mapping names a column that is not there."""
    plain = CsvMapping()
    names = [f.column for f in mapping.fields.values()]
    for name in ("date", "animal", "enclosure", "note", "kind_column"):
        if getattr(mapping, name) != getattr(plain, name):
            names.append(getattr(mapping, name))
    for column in names:
        if column not in columns:
            raise BadInput(
                f"the file has no column {column!r}{near_miss(column, columns)}; "
                f"its columns are: {', '.join(columns)}"
            )


def _said_by(mapping: CsvMapping) -> dict[str, Role]:
    named = {
        mapping.date: Role(DATE),
        mapping.animal: Role(ANIMAL),
        mapping.enclosure: Role(PLACE),
        mapping.note: Role(NOTE),
        mapping.kind_column: Role(KIND),
    }
    for name, column in mapping.fields.items():
        owner, _ = split_field(name)
        full = name if owner else f"{mapping.kind}.{name}"
        named[column.column] = Role(full.replace("-", "_"), column.unit, column.values)
    if mapping.cells:
        head, _, unit = mapping.cells.partition(":")
        named[CELL] = Role(head, unit)
    return {**named, **{column: Role(SKIP) for column in mapping.skipped}}


def _by_heading(column: str, values: list[str]) -> Role:
    heading = heading_of(column)
    if heading.role in ("fed.", "fed.item") and values and all(is_outcome(v) for v in values):
        return Role("fed.outcome")
    if heading.role == "fed.":
        return Role("fed.item")
    return Role(heading.role, heading.unit)


def _by_values(
    cells: dict[str, list[str]], found: dict[str, Role], name: str, fits: Callable[[str], bool]
) -> None:
    """Give the role to the first column without one, most of whose cells fit."""
    if any(role.name == name for role in found.values()):
        return
    for column, values in cells.items():
        fitting = sum(map(fits, values))
        if column not in found and column != CELL and values and fitting >= MOST * len(values):
            found[column] = Role(name)
            return


def is_outcome(text: str) -> bool:
    """Whether a cell is a Y, N, R or such a word."""
    return folded(text) in OUTCOMES or folded(text) in YES or folded(text) in NO


def cells_believed(titles: list[str], values: list[str]) -> str:
    """The field that the cells of a grid hold, by its title and its values; empty if open."""
    words = {w for t in titles for w in folded(t).replace("-", " ").replace("_", " ").split()}
    if words & {"weight", "weights", "weighing", "weighings", "mass"}:
        unit = next((f":{u}" for u in ("g", "kg", "oz", "lb") if words & {u, f"({u})"}), "")
        return f"weighed.mass{unit}"
    letters = [v for v in values if not v.replace(".", "").replace(",", "").isdigit()]
    if letters and sum(folded(w) in PREY for v in letters for w in v.split()) >= len(letters) / 2:
        return "fed.item"
    if words & {"feeding", "feedings", "fed", "food", "feed", "meals"}:
        return "fed.outcome" if values and all(map(is_outcome, values)) else "fed.item"
    if words & {"shed", "sheds", "shedding", "sheddings"}:
        return "shed.outcome"
    heavy = [v for v in values if unit_named("".join(c for c in v if c.isalpha()))]
    return "weighed.mass" if len(heavy) > len(values) / 2 else ""


def field_columns(found: Mapping[str, Role]) -> dict[str, FieldColumn]:
    """The roles that are fields, as a mapping names them."""
    others = (*ONCE, NOTE, VALUE, SKIP)
    return {
        role.name: FieldColumn(column, role.unit, role.values)
        for column, role in found.items()
        if role.name not in others and column != CELL
    }


def numbers_in(table: Flat, roles: Mapping[str, Role]) -> list[str]:
    """The cells of all columns that may hold numbers."""
    others = (DATE, TIME, NOTE, ANIMAL, PLACE)
    places = [n for n, c in enumerate(table.columns) if c in roles and roles[c].name not in others]
    return [v for n in places for v in values_of(table, n)]
