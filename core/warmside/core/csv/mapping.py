"""How the columns of a keeper's spreadsheet map to events; from options, or from a saved file.

date = "Datum"
date_format = "DD.MM.YYYY"
animal = "Tier"
kind = "weighed"
[animals]
Glut = "EMB"
[fields]
mass = { column = "Gewicht", unit = "g" }
outcome = { column = "Gefressen", values = { ja = "taken", nein = "refused" } }

Where a row holds several events, a field is named with its kind (`"weighed.mass"`), and a blank
cell holds none. `[words]` translates words of any column, `[unsaid]` says what a field is where the
sheet does not say it; "skip" leaves such a row out.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

import tomli
from msgspec import Struct, field

from warmside.core.values.errors import BadInput
from warmside.core.values.hints import near_miss

OWN_DATE = "YYYY-MM-DD"
SKIP = "skip"
"""What is answered where something is to be left out."""


class FieldColumn(Struct, frozen=True):
    """The column of a field; `unit` is put behind its numbers, `values` translates its words."""

    column: str
    unit: str = ""
    values: Mapping[str, str] = field(default_factory=dict)


class CsvMapping(Struct, frozen=True):
    """Which column holds what. Empty names mean that the file has no such column.

    `kind` and `subject` hold for every row; else they come from the columns, or from fields that
    name their kind. `cells` says what the cells of a table with a column for each animal hold;
    `decimal` is the mark before decimals, `year` that of dates without one; columns in `skipped`
    hold nothing to read.
    """

    date: str = "date"
    date_format: str = OWN_DATE
    animal: str = "animal"
    enclosure: str = "enclosure"
    note: str = "note"
    kind: str = ""
    kind_column: str = "kind"
    subject: str = ""
    kinds: Mapping[str, str] = field(default_factory=dict)
    cells: str = ""
    decimal: str = ""
    year: str = ""
    animals: Mapping[str, str] = field(default_factory=dict)
    words: Mapping[str, str] = field(default_factory=dict)
    unsaid: Mapping[str, str] = field(default_factory=dict)
    skipped: Mapping[str, str] = field(default_factory=dict)
    fields: Mapping[str, FieldColumn] = field(default_factory=dict)


NAMES = CsvMapping.__struct_fields__
WORD_MAPS = ("kinds", "animals", "words", "unsaid", "skipped")
MAPS = (*WORD_MAPS, "fields")


def read_mapping(path: Path) -> CsvMapping:
    """A saved mapping; raises BadInput naming the key that is wrong."""
    try:
        document = tomli.loads(path.read_text(encoding="utf-8"))
    except OSError as error:
        raise BadInput(f"cannot read the mapping {path}: {error.strerror}") from error
    except (tomli.TOMLDecodeError, UnicodeDecodeError) as error:
        raise BadInput(f"the mapping {path} is no TOML: {error}") from error
    return parsed_mapping(document, str(path))


def parsed_mapping(document: Mapping[str, Any], where: str) -> CsvMapping:
    """A mapping from its TOML document."""
    for key, value in document.items():
        if key not in NAMES:
            raise BadInput(f"{where} has an unknown key {key!r}{near_miss(key, NAMES)}")
        if not isinstance(value, dict if key in MAPS else str):
            raise BadInput(f"{where}: {key} is {'a table' if key in MAPS else 'text'}")
    columns = {k: field_column(k, v, where) for k, v in document.get("fields", {}).items()}
    return CsvMapping(**{**document, "fields": columns})


def field_column(name: str, value: Any, where: str) -> FieldColumn:
    """One field's column, written as its name or as a table."""
    if isinstance(value, str):
        return FieldColumn(value)
    known = ("column", "unit", "values")
    if not isinstance(value, dict) or "column" not in value:
        raise BadInput(f"{where}: field {name} needs its column")
    for key in value:
        if key not in known:
            raise BadInput(f"{where}: field {name} has an unknown key {key!r}")
    return FieldColumn(**value)


def typed_fields(texts: Iterable[str]) -> dict[str, FieldColumn]:
    """Fields typed as `mass=Weight` or `mass=Weight:g`."""
    found = {}
    for text in texts:
        name, equals, column = text.partition("=")
        if not equals or not name or not column:
            raise BadInput(
                "write a field as mass=COLUMN or mass=COLUMN:g, with its kind where a row holds "
                f"several events (weighed.mass=COLUMN:g), not {text!r}"
            )
        title, _, unit = column.rpartition(":")
        found[name] = FieldColumn(title, unit) if title else FieldColumn(column)
    return found


def typed_words(texts: Iterable[str], option: str) -> dict[str, str]:
    """Words typed as `WORD=MEANING`; the last `=` counts."""
    found = {}
    for text in texts:
        word, _, meaning = text.rpartition("=")
        if not word.strip() or not meaning.strip():
            raise BadInput(f"write {option} as WORD=MEANING, not {text!r}")
        found[word.strip()] = meaning.strip()
    return found


def mapping_text(mapping: CsvMapping) -> str:
    """The mapping as TOML, to be saved and used again."""
    plain = CsvMapping()
    lines = [
        f"{name} = {_quoted(getattr(mapping, name))}"
        for name in NAMES
        if name not in MAPS and getattr(mapping, name) != getattr(plain, name)
    ]
    for name in WORD_MAPS:
        if getattr(mapping, name):
            lines += ["", f"[{name}]"]
            lines += [f"{_quoted(k)} = {_quoted(v)}" for k, v in getattr(mapping, name).items()]
    if mapping.fields:
        lines += ["", "[fields]", *(_field_line(n, c) for n, c in mapping.fields.items())]
    return "\n".join(lines) + "\n"


def _field_line(name: str, column: FieldColumn) -> str:
    parts = [f"column = {_quoted(column.column)}"]
    if column.unit:
        parts.append(f"unit = {_quoted(column.unit)}")
    if column.values:
        words = ", ".join(f"{_quoted(k)} = {_quoted(v)}" for k, v in column.values.items())
        parts.append(f"values = {{ {words} }}")
    return f"{_quoted(name)} = {{ {', '.join(parts)} }}"


def _quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(c if c.isprintable() else f"\\u{ord(c):04x}" for c in escaped) + '"'
