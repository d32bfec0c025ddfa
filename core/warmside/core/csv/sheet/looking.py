"""Looking at a sheet: what it is believed to hold, its tidy rows, and what must be asked."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from warmside.core.csv.mapping import OWN_DATE, CsvMapping, FieldColumn
from warmside.core.csv.rows import CsvRow
from warmside.core.csv.sheet import asked
from warmside.core.csv.sheet.around import Around
from warmside.core.csv.sheet.believed import believed
from warmside.core.csv.sheet.days import DayReader, order_of
from warmside.core.csv.sheet.done_rows import done_rows
from warmside.core.csv.sheet.grid import Flat, Grid
from warmside.core.csv.sheet.headings import ANIMAL, DATE, KIND, NOTE, PLACE
from warmside.core.csv.sheet.layouts import CELL, Known, flat, title_words
from warmside.core.csv.sheet.numbers import decimal_mark
from warmside.core.csv.sheet.open_points import (
    about_animals,
    about_columns,
    about_words,
    animal_words,
)
from warmside.core.csv.sheet.roles import (
    Role,
    cells_believed,
    field_columns,
    numbers_in,
    roles_of,
    values_of,
)
from warmside.core.csv.sheet.tidying import Tidier
from warmside.core.csv.sheet.usual_words import folded
from warmside.core.csv.sheet.years import without_year, words_in, year_in
from warmside.core.values.errors import BadInput
from warmside.core.values.numbered_days import DAY_FIRST
from warmside.core.values.questions import Question


class Looked(Struct, frozen=True):
    """A sheet as the record reads it, and the mapping that reads it so again next time."""

    columns: tuple[str, ...]
    rows: tuple[CsvRow, ...]
    mapping: CsvMapping
    saved: CsvMapping
    believed: tuple[str, ...]
    left_out: tuple[int, ...] = ()


def look(grid: Grid, mapping: CsvMapping, around: Around) -> Looked:
    """The sheet with all that it says itself; raises Open with what the keeper must say."""
    asked.check_answers(mapping)
    known = Known(lambda c: _meant_animal(c, mapping, around), _columns_named(mapping))
    titles = title_words(grid, known)
    year = int(mapping.year) if mapping.year else year_in([*titles, around.name])
    table, undone = done_rows(flat(grid, known, year), mapping)
    if CELL in table.columns and not mapping.cells:
        mapping = replace(mapping, cells=_cells_of(table, [*titles, around.name]))
    roles, unknown = roles_of(table, mapping, known.animal)
    mapping, questions = _settled(table, roles, unknown, mapping, around, titles, year)
    mark = "." if grid.exact else mapping.decimal or decimal_mark(numbers_in(table, roles))
    at_first = year or (around.today.year if questions else None)
    days = DayReader(asked.order_stated(mapping.date_format), around.today, at_first)
    tidier = Tidier(around.kinds, roles, mapping, days, "." if mark == "?" else mark)
    rows = tuple(tidier.rows(table))
    questions += about_words(tidier, rows, mapping, around)
    questions += about_animals(animal_words(table, roles), mapping, around)
    if questions:
        raise asked.Open(tuple(questions), (*grid.said, *table.said))
    said = (*grid.said, *table.said, *believed(table, roles, mapping, mark, unknown, around.kinds))
    return _looked(rows, tuple(tidier.fields), mapping, roles, said, (*undone, *tidier.left_out))


def _looked(
    rows: tuple[CsvRow, ...],
    fields: tuple[str, ...],
    mapping: CsvMapping,
    roles: Mapping[str, Role],
    said: tuple[str, ...],
    left_out: tuple[int, ...],
) -> Looked:
    columns = (DATE, ANIMAL, PLACE, NOTE, *fields)
    blank = dict.fromkeys(columns, "")
    whole = tuple(
        row if row.problem else replace(row, cells={**blank, **row.cells}) for row in rows
    )
    plain = CsvMapping(
        subject=mapping.subject,
        date_format=OWN_DATE,
        unsaid=mapping.unsaid,
        fields={f: FieldColumn(f) for f in fields},
    )
    return Looked(columns, whole, plain, _saved(mapping, roles), said, left_out)


def _saved(mapping: CsvMapping, roles: Mapping[str, Role]) -> CsvMapping:
    """The mapping to be saved: what was said, asked and believed, by the sheet's own columns."""
    names = {role.name: column for column, role in roles.items()}
    keys = {DATE: "date", ANIMAL: "animal", PLACE: "enclosure", NOTE: "note", KIND: "kind_column"}
    own = {keys[r]: c for r, c in names.items() if r in keys and c not in (DATE, ANIMAL)}
    return replace(mapping, **own, kind="", fields=field_columns(roles))


def _settled(
    table: Flat,
    roles: dict[str, Role],
    unknown: Sequence[str],
    mapping: CsvMapping,
    around: Around,
    titles: list[str],
    year: int | None,
) -> tuple[CsvMapping, list[Question]]:
    """The mapping with what the values prove, and what they do not."""
    names = {role.name: column for column, role in roles.items()}
    if DATE not in names:
        raise BadInput(
            f"the file has no column {mapping.date!r} and none that holds dates; its columns are: "
            f"{', '.join(table.columns)}; name one with --date-column"
        )
    questions = list(about_columns(table, roles, unknown, mapping, around))
    told = mapping.kind or any(name == KIND or "." in name for name in names)
    if unknown and not questions and not told:
        raise BadInput(
            f"nothing is known of what the file's columns hold: {', '.join(map(repr, unknown))}; "
            f"say it of one, as in --field mass={unknown[0]}:g, or of all rows with --kind"
        )
    texts = values_of(table, table.columns.index(names[DATE]))
    if mapping.date_format == OWN_DATE:
        order = order_of(texts, around.today)
        mapping = replace(mapping, date_format=order or DAY_FIRST)
        if not order:
            questions.append(asked.order_question(names[DATE], texts[0], around.dates))
    if year is None and (bare := without_year(texts, around.today, mapping.date_format)):
        questions.append(asked.year_question(bare))
    if not mapping.subject and not _has_owner(table, names):
        owners = {
            around.animals[folded(w)]
            for t in [*titles, around.name]
            for w in words_in(t)
            if folded(w) in around.animals
        }
        if len(owners) == 1:
            mapping = replace(mapping, subject=owners.pop())
        else:
            questions.append(asked.subject_question(sorted(set(around.animals.values()))))
    return mapping, questions


def _has_owner(table: Flat, names: Mapping[str, str]) -> bool:
    if ANIMAL in names:
        return bool(values_of(table, table.columns.index(names[ANIMAL])))
    return PLACE in names


def _cells_of(table: Flat, titles: list[str]) -> str:
    """What the cells of a grid are believed to hold."""
    return cells_believed(titles, values_of(table, table.columns.index(CELL)))


def _meant_animal(word: str, mapping: CsvMapping, around: Around) -> bool:
    return around.animal(word) or word in mapping.animals or word in mapping.words


def _columns_named(mapping: CsvMapping) -> frozenset[str]:
    plain = CsvMapping()
    names = ("date", "animal", "enclosure", "note", "kind_column")
    own = [getattr(mapping, n) for n in names if getattr(mapping, n) != getattr(plain, n)]
    return frozenset((*own, *(f.column for f in mapping.fields.values()), *mapping.skipped))
