"""What a sheet does not say itself: what must be asked of its columns, words and animals."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from warmside.core.csv.causes import lines_said
from warmside.core.csv.mapping import CsvMapping
from warmside.core.csv.rows import CsvRow
from warmside.core.csv.sheet import asked
from warmside.core.csv.sheet.around import Around, spec_of
from warmside.core.csv.sheet.grid import Flat
from warmside.core.csv.sheet.headings import ANIMAL, KIND
from warmside.core.csv.sheet.layouts import CELL
from warmside.core.csv.sheet.numbers import decimal_mark
from warmside.core.csv.sheet.roles import Role, is_outcome, numbers_in, values_of
from warmside.core.csv.sheet.tidying import Tidier
from warmside.core.csv.sheet.usual_words import folded, is_ditto
from warmside.core.kinds.fields import Form
from warmside.core.kinds.known import Kinds
from warmside.core.values.questions import Question
from warmside.core.values.units import Unit

MOST_CELSIUS = 50.0
"""What is more is written in Fahrenheit; common practice, no source."""


def about_columns(
    table: Flat,
    roles: Mapping[str, Role],
    unknown: Sequence[str],
    mapping: CsvMapping,
    around: Around,
) -> Iterator[Question]:
    """Columns that nobody knows, words with two meanings, numbers without a unit or a sure mark."""
    for column in unknown:
        values = values_of(table, table.columns.index(column))
        if column == CELL:
            yield asked.cells_question(values[0])
        elif all(is_outcome(v) for v in values):
            yield asked.column_question(column, values)
    for column, role in roles.items():
        values = values_of(table, table.columns.index(column))
        spec = spec_of(role.name, around.kinds)
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
    if not mapping.decimal and decimal_mark(numbers_in(table, roles)) == "?":
        yield asked.decimal_question(
            next(v for v in numbers_in(table, roles) if decimal_mark([v]) == "?")
        )


def _likely_unit(unit: Unit, values: Sequence[str], own: str) -> str:
    """The scale to propose for bare numbers: the collection's, but no place is kept at 60 °C."""
    if unit is not Unit.TEMPERATURE:
        return own
    read = sorted(float(v.replace(",", ".")) for v in values if v.replace(",", "").isdigit())
    return "F" if read and read[len(read) // 2] > MOST_CELSIUS else own


def about_words(
    tidier: Tidier, rows: Sequence[CsvRow], mapping: CsvMapping, around: Around
) -> Iterator[Question]:
    """The words that nobody knows: kinds, choices of fields, and what plugins do not know."""
    for what, words in tidier.unknown.words.items():
        spec = spec_of(what, around.kinds)
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
        spec = spec_of(field, kinds)
        if spec is not None and spec.form is Form.WORDS:
            words = Counter(row.cells.get(field, "") for row in rows)
            found[field] = {word: n for word, n in words.items() if word}
    return found


def about_animals(words: Sequence[str], mapping: CsvMapping, around: Around) -> Iterator[Question]:
    """Names that no animal has here, and no place, each once."""
    known = {folded(w) for w in (*mapping.words, *mapping.animals)} | around.places
    strangers: dict[str, int] = {}
    for word in words:
        if word and not around.animal(word) and folded(word) not in known:
            strangers[word] = strangers.get(word, 0) + 1
    names = sorted(around.animals)
    return (asked.word_question(ANIMAL, word, n, names) for word, n in strangers.items())


def unsaid_questions(unsaid: Mapping[str, list[int]], kinds: Kinds) -> tuple[Question, ...]:
    """What rows leave unsaid, one question for all rows of a field."""
    made = []
    for field, lines in unsaid.items():
        spec = spec_of(field, kinds)
        about = (spec.help, spec.choices) if spec else ("", ())
        made.append(asked.unsaid_question(field, lines_said(lines), *about))
    return tuple(made)


def animal_words(table: Flat, roles: Mapping[str, Role]) -> list[str]:
    """The cells that name animals, as they are written."""
    place = next((table.columns.index(c) for c, r in roles.items() if r.name == ANIMAL), None)
    found = [] if place is None else values_of(table, place)
    return [word for word in found if not is_ditto(word)]
