"""What further young would prove, as facts and a table."""

from __future__ import annotations

from collections.abc import Sequence

from warmside.api import Answer, Column, Fact, Part, Table, Tone, Unit, paragraphs
from warmside.plugins.genes.inheritance.proving import (
    ParentWay,
    after_each,
    any_shows,
    carries,
    lowest,
    needed,
)
from warmside.plugins.genes.telling.wording import MENDEL, NO_VERDICT, percent

COUNTS = (1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 20)
COLUMNS = (
    Column("young", "young", Unit.COUNT),
    Column("left", "if all look normal"),
    Column("seen", "at least one shows it"),
    Column("carries", "carries it", Unit.PROBABILITY, text=False),
    Column("at_least_one", "at least one", Unit.PROBABILITY, text=False),
)


def proof_shown(
    animal: str, partner: str, trait: str, ways: Sequence[ParentWay], sure: float
) -> Answer:
    """The chance now, after each number of young, and how many it takes to be sure."""
    now, then = carries(ways), carries(ways, 0, 1)
    count = needed(ways, 1 - sure)
    parts: list[Part] = [
        Fact("now", "carries it now", now, Unit.PROBABILITY, MENDEL),
        Fact("after_one", "after one that shows it", then, Unit.PROBABILITY),
        Fact("needed", f"young until {100 * sure:g} % sure", count, Unit.COUNT),
    ]
    rows = tuple(
        (n, percent(chance), percent(any_shows(ways, n)), chance, any_shows(ways, n))
        for n, chance in after_each(ways, COUNTS)
    )
    title = f"Further young with {partner}"
    parts.append(Table("further", COLUMNS, rows, title, empty="no young can look normal"))
    parts += paragraphs(*_words(animal, partner, ways, sure, count))
    parts += paragraphs(NO_VERDICT, tone=Tone.CAUTION)
    return Answer(f"Does {animal} carry {trait}?", tuple(parts))


def _words(
    animal: str, partner: str, ways: Sequence[ParentWay], sure: float, count: int | None
) -> tuple[str, ...]:
    """What the numbers say."""
    if count == 0:
        return (f"{animal} is already less likely to carry it than {100 * (1 - sure):.4g} %.",)
    if carries(ways) in (0.0, 1.0):
        return ("It is certain already; young change nothing.",)
    if count is None:
        return (
            f"With {partner} the doubt never falls below {percent(lowest(ways))}, however many "
            "look normal: a partner that shows it proves more.",
        )
    young = "1 young that looks normal leaves" if count == 1 else f"{count} normal young leave"
    return (f"{young} it less likely than {100 * (1 - sure):.4g} %. One that shows it settles it.",)
