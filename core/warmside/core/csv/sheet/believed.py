"""What a sheet is believed to hold, in the keeper's words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from warmside.core.csv.events import split_field
from warmside.core.csv.mapping import CsvMapping
from warmside.core.csv.sheet import asked
from warmside.core.csv.sheet.around import spec_of
from warmside.core.csv.sheet.days import needs_order
from warmside.core.csv.sheet.grid import Flat
from warmside.core.csv.sheet.headings import ANIMAL, DATE, KIND, NOTE, PLACE, TIME, VALUE
from warmside.core.csv.sheet.layouts import CELL
from warmside.core.csv.sheet.roles import Role, values_of
from warmside.core.kinds.known import Kinds

ENDS = {"day first": "the day comes first", "month first": "the month comes first"}


def believed(
    table: Flat,
    roles: Mapping[str, Role],
    mapping: CsvMapping,
    mark: str,
    unknown: Sequence[str],
    kinds: Kinds,
) -> Iterator[str]:
    """The beliefs about columns, in the keeper's words."""
    for column, role in roles.items():
        unit = f" in {role.unit}" if role.unit else ""
        order = _order_told(table, column, mapping) if role.name == DATE else ""
        if column not in (ANIMAL, CELL) or role.name != column:
            which = "each cell" if column == CELL else repr(column)
            yield f"{which} holds {_role_words(role.name, kinds)}{unit}{order}"
    if mapping.subject:
        yield f"all rows are about {mapping.subject}"
    if mark == ",":
        yield "a comma stands before decimals"
    if unknown:
        yield f"not read: {', '.join(repr(c) for c in unknown)}"


def _order_told(table: Flat, column: str, mapping: CsvMapping) -> str:
    days = values_of(table, table.columns.index(column))
    return f", {ENDS[asked.order_stated(mapping.date_format)]}" if needs_order(days) else ""


def _role_words(role: str, kinds: Kinds) -> str:
    """`the date`; of a field its kind and what it is: `fed (what came of it)`."""
    spec, kind = spec_of(role, kinds), split_field(role)[0]
    if spec is None:
        return _SAID.get(role) or (kinds[kind].title if kind in kinds else role)
    return f"{kinds[kind].title} ({spec.help})"


_SAID = {
    DATE: "the date",
    TIME: "the time",
    ANIMAL: "the animal",
    PLACE: "the enclosure",
    KIND: "the kind of event",
    VALUE: "what the kind of event calls for",
    NOTE: "notes",
    "fed.size": "fed (how large)",
    "skip": "nothing to read",
}
