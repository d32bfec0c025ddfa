"""The whole diet as parts of an answer: each part with its rhythm and what is next."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from warmside.api import Cell, Column, Kind, Table, Unit
from warmside.plugins.feeding.care.diets import rhythm_words
from warmside.plugins.feeding.care.rules import Rules
from warmside.plugins.feeding.planning.whole import PartPlan

COLUMNS = (
    Column("part", "part"),
    Column("often", "how often"),
    Column("due_from", "from", Kind.DATE),
    Column("due_by", "by", Kind.DATE),
    Column("feed", "feed"),
    Column("dust", "dust", Kind.CODE, text=False),
    Column("meal", "meal", Unit.MASS, text=False),
    Column("source", "source", text=False),
    Column("mark", "mark", text=False),
)


def diet_table(plans: Sequence[PartPlan], rules: Rules) -> Iterator[Table]:
    """The parts of a diet in one table; nothing where there is but one."""
    if len(plans) > 1:
        yield Table("diet", COLUMNS, tuple(_row(p, rules) for p in plans), "The whole diet")


def _row(part: PartPlan, rules: Rules) -> tuple[Cell, ...]:
    found, of = part.plan, part.plan.interval.basis.source
    return (
        part.subject.species.part.name,
        often(part),
        found.due_from,
        found.due_by,
        amount(part, rules),
        found.dust.code if found.dust else None,
        found.meal,
        of.text,
        of.mark.value,
    )


def often(part: PartPlan) -> str:
    """How often, in a keeper's words."""
    feeds = part.subject.species.part.feeds_at(part.subject.stage)
    return rhythm_words((part.plan.interval.low, part.plan.interval.high), feeds)


def amount(part: PartPlan, rules: Rules) -> str:
    """`2 × adult mouse of 20 to 28 g`, or how much by eye."""
    if part.plan.fits:
        return part.plan.fits[0].words(rules)
    return part.subject.species.part.portion or "–"
