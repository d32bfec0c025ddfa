"""Cells as text: the one place where a value, its kind and the keeper's units become words."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from datetime import date, datetime

from warmside.core.answers.parts import Cell, Column, Fact, Kind, Table
from warmside.core.values.basis import Basis, Estimate
from warmside.core.values.measures.measure import measure_of
from warmside.core.values.moments import local_text
from warmside.core.values.quantities import convert_for_display, format_quantity
from warmside.core.values.units import Unit
from warmside.faces.look import Look
from warmside.faces.terminal.visible import visible, visible_line

NOTHING = "–"
_MOST_DIGITS = 6


def cell_text(value: Cell, kind: Kind | Unit, look: Look) -> str:
    """The value in the keeper's units, safe to show; a dash for None and for no number."""
    if value is None or (isinstance(value, float) and math.isnan(value)):
        return NOTHING
    if isinstance(value, Estimate):
        return estimate_text(value, look)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return _number_text(value, kind, look)
    return visible(_words(value, look))


def fact_text(fact: Fact, look: Look) -> str:
    """The value of a fact; what it wants, or a dash, where there is none."""
    if fact.value in (None, ()) and fact.missing:
        return visible(fact.missing)
    return cell_text(fact.value, fact.kind, look)


def estimate_text(estimate: Estimate, look: Look) -> str:
    """`8.1 (6.9–9.4) kJ/day`, to the digit that the range warrants; the range alone if need be."""
    if any(map(math.isnan, (estimate.low, estimate.high))):
        return cell_text(estimate.value, estimate.unit, look)
    if estimate.low == estimate.high and math.isfinite(estimate.low):
        return format_quantity(estimate.low, estimate.unit, look.display)
    if measure_of(estimate.unit).apart:
        return _said_apart(estimate, look)
    low, unit = convert_for_display(estimate.low, estimate.unit, look.display)
    high, _ = convert_for_display(estimate.high, estimate.unit, look.display)
    digits = range_digits(low, high)
    between = "–" if low >= 0 else " to "
    text = f"{rounded(low, digits)}{between}{rounded(high, digits)}"
    if estimate.value is not None and math.isfinite(estimate.value):
        value, _ = convert_for_display(estimate.value, estimate.unit, look.display)
        text = f"{rounded(value, digits)} ({text})"
    return f"{text} {unit}".strip()


def _said_apart(estimate: Estimate, look: Look) -> str:
    """`2 y 1 m (1 y 11 m to 2 y 3 m)`, each end in the scale that suits it."""
    low, high = (
        format_quantity(end, estimate.unit, look.display) for end in (estimate.low, estimate.high)
    )
    text = low if low == high else f"{low} to {high}"
    if estimate.value is None or not math.isfinite(estimate.value):
        return text
    return f"{format_quantity(estimate.value, estimate.unit, look.display)} ({text})"


def range_digits(low: float, high: float) -> int:
    """Decimals that a range bears: two figures of its breadth; below zero for tens and hundreds.

    Never finer than the two figures of a half range that JCGM 100:2008, 7.2.6 allows (from memory).
    """
    breadth = high - low
    if not math.isfinite(breadth) or breadth <= 0:
        return 1
    return min(_MOST_DIGITS, 1 - math.floor(math.log10(breadth)))


def rounded(value: float, digits: int) -> str:
    """A number with so many decimals, never `-0`; rounded to tens for -1, to hundreds for -2."""
    if not math.isfinite(value):
        return "∞" if value > 0 else "-∞"
    return f"{round(value, digits) + 0.0:.{max(digits, 0)}f}"


def basis_text(basis: Basis) -> str:
    """Rule, source with its mark, and how many records it rests on."""
    text = f"{basis.rule}; {basis.source.text} [{basis.source.mark}]"
    count = len(basis.events)
    if count:
        text += f"; from {count} record{'' if count == 1 else 's'}"
    return visible(text)


def said_bases(facts: Sequence[Fact]) -> list[str]:
    """What is said below each fact: its basis, `as above` if the fact before has the same."""
    texts: list[str] = []
    last: Basis | None = None
    for fact in facts:
        basis = fact_basis(fact)
        same = basis is not None and basis == last
        texts.append("as above" if same else basis_text(basis) if basis else "")
        last = basis
    return texts


def fact_basis(fact: Fact) -> Basis | None:
    """The basis said with a fact: its own, else that of its estimate."""
    if fact.basis is None and isinstance(fact.value, Estimate):
        return fact.value.basis
    return fact.basis


def table_bases(table: Table, columns: Iterable[int]) -> list[str]:
    """The different bases of the estimates in these columns, those of one rule said together.

    `basis of one weighs, together: mass class; a table [published]; usual sizes [from memory]`.
    """
    titles = dict[Basis, dict[str, None]]()
    for index in columns:
        for row in table.rows:
            cell = row[index]
            if isinstance(cell, Estimate):
                bare = Basis(cell.basis.rule, cell.basis.source)
                title = visible_line(table.columns[index].title)
                titles.setdefault(bare, {})[title] = None
    sources = dict[tuple[str, str], list[str]]()
    for basis, of in titles.items():
        said = f"{basis.source.text} [{basis.source.mark}]"
        sources.setdefault((", ".join(of), basis.rule), []).append(said)
    return [
        visible(f"basis of {of}: {rule}; {'; '.join(said)}") for (of, rule), said in sources.items()
    ]


def is_numeric(column: Column, values: Iterable[Cell]) -> bool:
    """Whether a column is set to the right: a quantity, or numbers and nothing else."""
    if isinstance(column.kind, Unit):
        return True
    filled = [value for value in values if value is not None]
    return bool(filled) and all(
        isinstance(value, int | float | Estimate) and not isinstance(value, bool)
        for value in filled
    )


def is_unbroken(values: Iterable[Cell]) -> bool:
    """Whether the texts of these values must stay on one line: numbers, but not their ranges."""
    return not any(isinstance(value, Estimate) for value in values)


def _number_text(value: float, kind: Kind | Unit, look: Look) -> str:
    if not math.isfinite(value):
        return rounded(value, 0)
    if isinstance(kind, Unit):
        return format_quantity(value, kind, look.display)
    return str(value) if isinstance(value, int) else f"{value:.10g}"


def _words(value: str | date | datetime | tuple[str | int, ...], look: Look) -> str:
    if isinstance(value, datetime):
        local = value.replace(tzinfo=look.zone) if value.tzinfo is None else value
        return local_text(local.astimezone(look.zone).date(), local, look.zone)
    if isinstance(value, date):
        return value.isoformat()
    return value if isinstance(value, str) else ", ".join(map(str, value)) or NOTHING
