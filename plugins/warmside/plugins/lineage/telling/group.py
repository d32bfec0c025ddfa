"""How alike a group of animals is, and what founders gave to it."""

from __future__ import annotations

from collections.abc import Hashable, Mapping

from warmside.api import Answer, Basis, Column, Fact, Mark, Source, Table, Unit
from warmside.plugins.lineage.kinship.founders import Group

EQUIVALENTS = Basis(
    "1 / sum of squared contributions", Source("Lacy 1989 Zoo Biol 8:111-123", Mark.PUBLISHED)
)
MEAN = Basis(
    "over all pairs, each animal with itself too; founders are taken as unrelated",
    Source("Lacy 1995 Zoo Biol 14:565-578", Mark.PUBLISHED),
)


def group_shown(species: str, found: Group, labels: Mapping[int, str]) -> Answer:
    """Coefficients of the group, then its members and its founders."""
    facts = (
        Fact(
            "founder_equivalents",
            "founder equivalents",
            *_ratio(found.founder_equivalents),
            EQUIVALENTS,
        ),
        Fact("mean_kinship", "mean kinship", *_ratio(found.mean), MEAN),
        Fact("gene_diversity", "gene diversity", *_ratio(1 - found.mean)),
        Fact("unknown", "share from parents not known", *_ratio(found.unknown)),
    )
    members = sorted(found.mean_kinship.items(), key=lambda item: item[1])
    founders = sorted(found.contributions.items(), key=lambda item: -item[1])
    tables = (
        _table("animals", "animal", "mean kinship", members, labels),
        _table("founders", "founder", "share", founders, labels),
    )
    return Answer(f"{species}: {len(members)} here", (*facts, *tables))


def _ratio(value: float) -> tuple[float, Unit]:
    return value, Unit.RATIO


def _table(
    key: str,
    who: str,
    what: str,
    rows: list[tuple[Hashable, float]],
    labels: Mapping[int, str],
) -> Table:
    columns = (Column(who, who), Column(what.replace(" ", "_"), what, Unit.RATIO))
    named = tuple((labels[int(str(id))], value) for id, value in rows)
    return Table(key, columns, named, empty=f"no {who} is on record")
