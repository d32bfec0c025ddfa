"""References as lists and tables of centiles."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from warmside.api import (
    Answer,
    Basis,
    Cell,
    Column,
    Estimate,
    Fact,
    Kind,
    NotFound,
    Part,
    Source,
    Table,
    Unit,
    Words,
    charts,
)
from warmside.plugins.weight.lms.held import Held, Ranges, Stored
from warmside.plugins.weight.lms.lms import LmsCurve, mass_at, z_of_centile

LISTED = (
    Column("name", "name"),
    Column("species", "species", Kind.LATIN),
    Column("curves", "curves", Kind.LIST),
    Column("animals", "held to it", Unit.COUNT),
    Column("mark", "mark"),
    Column("source", "source"),
    Column("licence", "licence", text=False),
    Column("made_from", "made from", text=False),
)
CENTILES = (5.0, 50.0, 95.0)
_MOST_ROWS = 14
_EMPTY = (
    "no reference yet; build one from your weighings (warmside weight reference build NAME "
    "--species …) or import one (warmside weight reference import FILE)"
)


def listed(references: Iterable[Stored], mine: Iterable[Held | None]) -> Answer:
    """References, and how many animals are held to each; `mine` is what each animal is held to."""
    counts = Counter(one.stored.id for one in mine if one is not None)
    rows = tuple(_line(one, counts[one.id]) for one in references)
    return Answer("Growth references", (Table("references", LISTED, rows, empty=_EMPTY),))


def _line(one: Stored, count: int) -> tuple[Cell, ...]:
    r = one.reference
    names = tuple(" ".join(filter(None, key)) for key in r.curves)
    source = r.source
    return (
        one.name, r.species, names, count, source.mark.value, source.text, r.licence, one.made_from,
    )  # fmt: skip


def shown(one: Stored, sex: str) -> Answer:
    """A reference with source and licence, a table and a chart for each curve."""
    r = one.reference
    curves = {key: curve for key, curve in r.curves.items() if not sex or key[0] == sex}
    if not curves:
        raise NotFound(
            f"{one.name} has no curve for sex {sex!r}; see: warmside weight reference list"
        )
    parts: list[Part] = [
        Fact("species", "species", r.species, Kind.LATIN),
        Fact("source", "source", r.source.text),
        Fact("mark", "mark", r.source.mark.value),
        Fact("licence", "licence", r.licence),
        Fact("made_from", "made from", one.made_from),
    ]
    for key, curve in curves.items():
        title = " ".join(filter(None, key))
        parts += [
            _table(title, curve, one.ranges.get(key, {}), r.source),
            _chart(title, curve),
        ]
    if any(one.ranges.values()):
        parts.append(
            Words("ranges: where the centile may truly lie, 95 %; few animals say little of others")
        )
    return Answer(f"Reference {one.name}", tuple(parts))


def _table(title: str, curve: LmsCurve, ranges: Ranges, source: Source) -> Table:
    picked = _picked(len(curve.ages_days))
    columns = (
        Column("age", "age", Unit.AGE),
        *(Column(f"p{c:.0f}", f"{c:.0f}th", Unit.MASS) for c in CENTILES),
        *(Column(k, k, Unit.RATIO, text=False) for k in ("l", "s")),
    )
    rows = tuple(
        (
            curve.ages_days[i],
            *(_mass(curve, i, c, ranges, source) for c in CENTILES),
            curve.l[i],
            curve.s[i],
        )
        for i in picked
    )
    return Table(f"{title.replace(' ', '_')}_centiles", columns, rows, f"{title}: mass by age")


def _mass(curve: LmsCurve, i: int, centile: float, ranges: Ranges, source: Source) -> Cell:
    mass = mass_at(z_of_centile(centile), curve.at(curve.ages_days[i]))
    if centile not in ranges:
        return mass
    low, high = ranges[centile][i]
    return Estimate(mass, low, high, Unit.MASS, Basis("penalised LMS fit, 95 % range", source))


def _picked(n: int) -> list[int]:
    if n <= _MOST_ROWS:
        return list(range(n))
    return sorted({round(i * (n - 1) / (_MOST_ROWS - 1)) for i in range(_MOST_ROWS)})


def _chart(title: str, curve: LmsCurve) -> charts.Chart:
    ages = curve.ages_days
    low, middle, high = (
        tuple(mass_at(z_of_centile(c), curve.at(age)) for age in ages) for c in CENTILES
    )
    return charts.Chart(
        f"{title.replace(' ', '_')}_chart",
        f"{title}: mass by age",
        "age in days",
        "mass",
        Unit.MASS,
        (charts.Line("median", ages, middle),),
        (charts.Band("5th to 95th centile", ages, low, high),),
        axis=charts.Axis.NUMBERS,
    )
