"""Looking at a sheet: what it is believed to hold, its tidy rows, and what must be asked."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date

from msgspec import Struct
from msgspec.structs import replace

from warmside.core.csv.causes import lines_said
from warmside.core.csv.events import split_field
from warmside.core.csv.mapping import OWN_DATE, CsvMapping, FieldColumn
from warmside.core.csv.rows import CsvRow
from warmside.core.csv.sheet import asked
from warmside.core.csv.sheet.days import DayReader, needs_order, order_of
from warmside.core.csv.sheet.done_rows import done_rows
from warmside.core.csv.sheet.grid import Flat, Grid
from warmside.core.csv.sheet.headings import ANIMAL, DATE, KIND, NOTE, PLACE, TIME, VALUE
from warmside.core.csv.sheet.layouts import CELL, Known, flat, title_words
from warmside.core.csv.sheet.numbers import decimal_mark
from warmside.core.csv.sheet.roles import (
    Role,
    cells_believed,
    field_columns,
    is_outcome,
    roles_of,
    values_of,
)
from warmside.core.csv.sheet.tidying import Tidier
from warmside.core.csv.sheet.usual_words import folded, is_ditto
from warmside.core.kinds.fields import FieldSpec, Form
from warmside.core.kinds.known import Kinds
from warmside.core.values.errors import BadInput, UnknownWord
from warmside.core.values.numbered_days import DAY_FIRST
from warmside.core.values.questions import Question
from warmside.core.values.units import Unit

MOST_CELSIUS = 50.0
"""What is more is written in Fahrenheit; common practice, no source."""
ENDS = {"day first": "the day comes first", "month first": "the month comes first"}


class Around(Struct, frozen=True):
    """What is known beside the sheet: kinds, animals and places by name, today, its file's name.

    `unit` gives the collection's own unit of a kind of quantity, `dates` the order of day and month
    in which its keeper types; both are proposed. `unknown` gives the words, of those in a field,
    of which no plugin knows the meaning.
    """

    kinds: Kinds
    animals: Mapping[str, str]
    today: date
    name: str
    unit: Callable[[Unit], str]
    places: frozenset[str] = frozenset()
    dates: str = ""
    unknown: Callable[[Mapping[str, Mapping[str, int]]], Sequence[UnknownWord]] = lambda words: ()

    def animal(self, word: str) -> bool:
        """Whether a word is the code or name of an animal."""
        return folded(word) in self.animals


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
    year = int(mapping.year) if mapping.year else _year_in([*titles, around.name])
    table, undone = done_rows(flat(grid, known, year), mapping)
    if CELL in table.columns and not mapping.cells:
        mapping = replace(mapping, cells=_cells_of(table, [*titles, around.name]))
    roles, unknown = roles_of(table, mapping, known.animal)
    mapping, questions = _settled(table, roles, unknown, mapping, around, titles, year)
    mark = "." if grid.exact else mapping.decimal or decimal_mark(_numbers(table, roles))
    at_first = year or (around.today.year if questions else None)
    days = DayReader(asked.order_stated(mapping.date_format), around.today, at_first)
    tidier = Tidier(around.kinds, roles, mapping, days, "." if mark == "?" else mark)
    rows = tuple(tidier.rows(table))
    questions += _about_words(tidier, rows, mapping, around)
    questions += _about_animals(_animal_words(table, roles), mapping, around)
    if questions:
        raise asked.Open(tuple(questions), (*grid.said, *table.said))
    said = (*grid.said, *table.said, *_told(table, roles, mapping, mark, unknown, around.kinds))
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
    questions = list(_about_columns(table, roles, unknown, mapping, around))
    texts = values_of(table, table.columns.index(names[DATE]))
    if mapping.date_format == OWN_DATE:
        order = order_of(texts, around.today)
        mapping = replace(mapping, date_format=order or DAY_FIRST)
        if not order:
            questions.append(asked.order_question(names[DATE], texts[0], around.dates))
    if year is None and (bare := _without_year(texts, around.today, mapping.date_format)):
        questions.append(asked.year_question(bare))
    if not mapping.subject and not _has_owner(table, names):
        owners = {
            around.animals[folded(w)]
            for t in [*titles, around.name]
            for w in _words(t)
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


def _about_columns(
    table: Flat,
    roles: Mapping[str, Role],
    unknown: Sequence[str],
    mapping: CsvMapping,
    around: Around,
) -> Iterator[Question]:
    for column in unknown:
        values = values_of(table, table.columns.index(column))
        if column == CELL:
            yield asked.cells_question(values[0])
        elif all(is_outcome(v) for v in values):
            yield asked.column_question(column, values)
    for column, role in roles.items():
        values = values_of(table, table.columns.index(column))
        spec = _spec_of(role.name, around.kinds)
        if role.name == "fed.outcome" and {"r", "n"} <= {folded(v) for v in values}:
            known_words = {folded(w) for w in (*mapping.words, *role.values)}
            if "r" not in known_words:
                rows = sum(folded(v) == "r" for v in values)
                yield asked.word_question(role.name, "R", rows, ("refused", "regurgitated"))
        if spec is None or spec.unit is None or role.unit:
            continue
        bare = next((v for v in values if v.replace(".", "").replace(",", "").isdigit()), "")
        if bare and spec.unit is not Unit.PERCENT:
            unit = _likely_unit(spec.unit, values, around.unit(spec.unit))
            if column == CELL:
                words = f"in which unit are cells such as {bare!r}"
                option = f"--cells {role.name}:{unit}"
                yield Question("cells", words, option, f"{role.name}:{unit}")
            else:
                yield asked.unit_question(column, role.name, bare, unit)
    if not mapping.decimal and decimal_mark(_numbers(table, roles)) == "?":
        yield asked.decimal_question(
            next(v for v in _numbers(table, roles) if decimal_mark([v]) == "?")
        )


def _likely_unit(unit: Unit, values: Sequence[str], own: str) -> str:
    """The scale to propose for bare numbers: the collection's, but no place is kept at 60 °C."""
    if unit is not Unit.TEMPERATURE:
        return own
    read = sorted(float(v.replace(",", ".")) for v in values if v.replace(",", "").isdigit())
    return "F" if read and read[len(read) // 2] > MOST_CELSIUS else own


def _about_words(
    tidier: Tidier, rows: Sequence[CsvRow], mapping: CsvMapping, around: Around
) -> Iterator[Question]:
    """The words that nobody knows: kinds, choices of fields, and what plugins do not know."""
    for what, words in tidier.unknown.words.items():
        spec = _spec_of(what, around.kinds)
        known = list(around.kinds) if what == KIND else spec.choices if spec else ()
        for word, rows_with in words.items():
            yield asked.word_question(what, word, rows_with, known)
    kept = {folded(word) for word, meant in mapping.words.items() if folded(word) == folded(meant)}
    for u in around.unknown(_free_words(tidier, rows, around.kinds)):
        if folded(u.word) not in kept:
            yield asked.word_question(u.field, u.word, u.times, u.known)


def _free_words(tidier: Tidier, rows: Sequence[CsvRow], kinds: Kinds) -> dict[str, dict[str, int]]:
    """The words of each field that takes any, with how many rows have them."""
    found: dict[str, dict[str, int]] = {}
    for field in tidier.fields:
        spec = _spec_of(field, kinds)
        if spec is not None and spec.form is Form.WORDS:
            words = Counter(row.cells.get(field, "") for row in rows)
            found[field] = {word: n for word, n in words.items() if word}
    return found


def _about_animals(words: Sequence[str], mapping: CsvMapping, around: Around) -> Iterator[Question]:
    """Names that no animal has here, and no place, each once."""
    known = {folded(w) for w in (*mapping.words, *mapping.animals)} | around.places
    strangers: dict[str, int] = {}
    for word in words:
        if word and not around.animal(word) and folded(word) not in known:
            strangers[word] = strangers.get(word, 0) + 1
    names = sorted(around.animals)
    return (asked.word_question(ANIMAL, word, n, names) for word, n in strangers.items())


def _animal_words(table: Flat, roles: Mapping[str, Role]) -> list[str]:
    """The cells that name animals, as they are written."""
    place = next((table.columns.index(c) for c, r in roles.items() if r.name == ANIMAL), None)
    found = [] if place is None else values_of(table, place)
    return [word for word in found if not is_ditto(word)]


def unsaid_questions(unsaid: Mapping[str, list[int]], kinds: Kinds) -> tuple[Question, ...]:
    """What rows leave unsaid, one question for all rows of a field."""
    made = []
    for field, lines in unsaid.items():
        spec = _spec_of(field, kinds)
        about = (spec.help, spec.choices) if spec else ("", ())
        made.append(asked.unsaid_question(field, lines_said(lines), *about))
    return tuple(made)


def _cells_of(table: Flat, titles: list[str]) -> str:
    """What the cells of a grid are believed to hold."""
    return cells_believed(titles, values_of(table, table.columns.index(CELL)))


def _numbers(table: Flat, roles: Mapping[str, Role]) -> list[str]:
    """The cells of all columns that may hold numbers."""
    others = (DATE, TIME, NOTE, ANIMAL, PLACE)
    places = [n for n, c in enumerate(table.columns) if c in roles and roles[c].name not in others]
    return [v for n in places for v in values_of(table, n)]


def _spec_of(field: str, kinds: Kinds) -> FieldSpec | None:
    kind, _, key = field.rpartition(".")
    found = [s for s in kinds[kind].fields if s.key == key] if kind in kinds else []
    return found[0] if found else None


def _without_year(texts: Sequence[str], today: date, order: str) -> str:
    reader = DayReader(asked.order_stated(order), today)
    for text in texts:
        try:
            reader.read(text)
        except BadInput as error:
            if "no year" in str(error) and not is_ditto(text):
                return text
    return ""


def _year_in(titles: list[str]) -> int | None:
    found = {w for t in titles for w in _words(t) if w.isdigit() and w[:2] in ("19", "20")}
    years = [w for w in found if len(w) == 4]
    return int(years[0]) if len(years) == 1 else None


def _words(text: str) -> list[str]:
    return [*"".join(c if c.isalnum() else " " for c in text).split(), text]


def _meant_animal(word: str, mapping: CsvMapping, around: Around) -> bool:
    return around.animal(word) or word in mapping.animals or word in mapping.words


def _columns_named(mapping: CsvMapping) -> frozenset[str]:
    plain = CsvMapping()
    names = ("date", "animal", "enclosure", "note", "kind_column")
    own = [getattr(mapping, n) for n in names if getattr(mapping, n) != getattr(plain, n)]
    return frozenset((*own, *(f.column for f in mapping.fields.values()), *mapping.skipped))


def _told(
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
    spec, kind = _spec_of(role, kinds), split_field(role)[0]
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
