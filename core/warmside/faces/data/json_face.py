"""The JSON face: one object, stable keys that end in their unit, numbers as they are stored."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import assert_never
from zoneinfo import ZoneInfo

from warmside.core.answers.parts import (
    Answer,
    Cell,
    Chart,
    Drawing,
    Fact,
    Kind,
    Part,
    Section,
    Strip,
    Table,
    Timeline,
    Words,
)
from warmside.core.values.basis import Basis, Estimate
from warmside.core.values.errors import WarmsideError
from warmside.core.values.units import Unit
from warmside.faces.cells import fact_basis
from warmside.faces.data.json_drawings import chart_data, drawing_data, timeline_data
from warmside.faces.data.json_strips import strip_data
from warmside.faces.data.json_values import Json, merge, plain_value
from warmside.faces.terminal.visible import json_safe

FORMAT = 1
"""Raised when a key changes its name or meaning; new keys leave it as it is."""


def render_json(answer: Answer, zone: ZoneInfo) -> str:
    """The answer as one line of JSON.

    Always there: `format`, `title`, `notes`, `sections`, `warnings`. Facts, tables and drawings
    stand at the top under their keys, those of a section within it. `extra` comes last and may
    replace a key. Times without a zone are read in `zone`. Raises WarmsideError where two values
    of one answer claim the same key.
    """
    whole: Json = {"format": FORMAT, "title": answer.title}
    merge(whole, _parts(answer.parts, zone))
    whole["sections"] = [_section(section, zone) for section in answer.sections]
    whole["warnings"] = list(answer.warnings)
    extra = {str(key): plain_value(value, zone) for key, value in answer.extra.items()}
    extra.pop("format", None)
    whole = {key: value for key, value in whole.items() if key not in extra} | extra
    return json_safe(json.dumps(whole, ensure_ascii=False, allow_nan=False))


def _section(section: Section, zone: ZoneInfo) -> Json:
    whole: Json = {"title": section.title}
    merge(whole, _parts(section.parts, zone))
    return whole


def _parts(parts: Iterable[Part], zone: ZoneInfo) -> Json:
    whole: Json = {}
    notes: list[Json] = []
    for part in parts:
        match part:
            case Words():
                notes.append({"text": part.text, "tone": part.tone.value})
            case Fact():
                merge(whole, _fact(part, zone))
            case Table():
                merge(whole, {part.key: _table(part, zone)})
            case Chart():
                merge(whole, {part.key: chart_data(part)})
            case Timeline():
                merge(whole, {part.key: timeline_data(part)})
            case Drawing():
                merge(whole, {part.key: drawing_data(part, zone)})
            case Strip():
                merge(whole, {part.key: strip_data(part)})
            case _:
                assert_never(part)
    merge(whole, {"notes": notes})
    return whole


def _fact(fact: Fact, zone: ZoneInfo) -> Json:
    data = _cell(fact.key, fact.value, fact.kind, zone)
    basis = fact_basis(fact)
    return data | {f"{fact.key}_basis": _basis(basis)} if basis else data


def _table(table: Table, zone: ZoneInfo) -> list[Json]:
    """Every row with the same keys: a column that holds an estimate has its range in each row."""
    ranged = [
        any(isinstance(row[index], Estimate) for row in table.rows)
        for index in range(len(table.columns))
    ]
    said_before = dict(table.breaks)
    rows = []
    for number, row in enumerate(table.rows):
        data: Json = {"before": said_before.get(number)} if said_before else {}
        for column, cell, wide in zip(table.columns, row, ranged, strict=True):
            merge(data, _cell(column.key, cell, column.kind, zone, wide=wide))
        rows.append(data)
    return rows


def _cell(key: str, value: Cell, kind: Kind | Unit, zone: ZoneInfo, *, wide: bool = False) -> Json:
    """A value under its key and unit; an estimate with its range, in a table with its basis."""
    if isinstance(value, Estimate):
        return _estimate(key, value, kind, zone, wide)
    suffix = kind.suffix if isinstance(kind, Unit) else ""
    data: Json = {key + suffix: plain_value(value, zone)}
    if wide:
        data |= {f"{key}_low{suffix}": None, f"{key}_high{suffix}": None, f"{key}_basis": None}
    return data


def _estimate(key: str, estimate: Estimate, kind: Kind | Unit, zone: ZoneInfo, wide: bool) -> Json:
    if isinstance(kind, Unit) and kind is not estimate.unit:
        raise WarmsideError(
            f"{key} is declared in {kind.code} but estimated in {estimate.unit.code}; "
            "report this to the author of the command"
        )
    suffix = estimate.unit.suffix
    data: Json = {
        key + suffix: plain_value(estimate.value, zone),
        f"{key}_low{suffix}": plain_value(estimate.low, zone),
        f"{key}_high{suffix}": plain_value(estimate.high, zone),
    }
    return data | {f"{key}_basis": _basis(estimate.basis)} if wide else data


def _basis(basis: Basis) -> Json:
    return {
        "rule": basis.rule,
        "source": basis.source.text,
        "mark": basis.source.mark.value,
        "events": list(basis.events),
    }
