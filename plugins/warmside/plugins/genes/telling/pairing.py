"""What a pair can produce, as a table, bars and cautions."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from warmside.api import Cell, Column, Part, Table, Tone, Unit, paragraphs
from warmside.plugins.genes.inheritance.loci import NORMAL
from warmside.plugins.genes.inheritance.pairing import Looks, Offspring
from warmside.plugins.genes.telling.wording import NO_VERDICT, percent
from warmside.plugins.genes.traits.catalogue import Trait

MOST_ROWS = 60
RARE = 0.01
"""Looks that a clutch shows less often than this are counted, not listed."""
SEXES = ("female", "male")
CARRIED = (
    Column("words", "genotype"),
    Column("share", "each young"),
    Column("chance", "chance", Unit.PROBABILITY, text=False),
)
COLUMNS = (
    Column("words", "looks"),
    Column("share", "each young"),
    Column("expected", "expected", Unit.RATIO),
    Column("any", "at least one"),
    Column("chance", "chance", Unit.PROBABILITY, text=False),
    Column("at_least_one", "at least one", Unit.PROBABILITY, text=False),
)


def looks_words(look: Looks) -> str:
    """The looks that are not normal, behind the sex where it matters."""
    sex = [word for word in look if word in SEXES]
    traits = [word for word in look if word not in (NORMAL, *SEXES)]
    return " ".join([*sex, ", ".join(traits) or NORMAL])


def looks_table(pair: Offspring, young: int) -> Table:
    """A row for each look, the likeliest first."""
    rows = tuple(_row(pair, look, pair.chances()[look], young) for look in listed(pair, young))
    return Table("looks", COLUMNS, rows, f"Looks, of {young} young")


def listed(pair: Offspring, young: int) -> list[Looks]:
    """The looks that are not too rare to be listed, the likeliest first."""
    every = pair.chances()
    return [look for look in every if pair.at_least_one(look, young) >= RARE][:MOST_ROWS]


def _row(pair: Offspring, look: Looks, chance: float, young: int) -> tuple[Cell, ...]:
    once = pair.at_least_one(look, young)
    expected = round(chance * young, 6)
    return (looks_words(look), percent(chance), expected, percent(once), chance, once)


def carried_table(pair: Offspring) -> Table:
    """A row for each genotype, the likeliest first."""
    chances = pair.chances().items()
    rows = tuple((_carried(k), percent(c), c) for k, c in chances if c >= RARE)
    return Table("genotypes", CARRIED, rows[:MOST_ROWS], "What each young carries")


def _carried(told: Looks) -> str:
    """The genotypes at which something is not wild: `+/piebald, albino/albino`."""
    sex = [word for word in told if word in SEXES]
    pairs = [word for word in told if word not in SEXES and word not in ("+/+", "+/-")]
    return " ".join([*sex, ", ".join(pairs) or "nothing"])


def left_out(pair: Offspring, young: int) -> tuple[Part, ...]:
    """Says how many looks are not listed."""
    left = len(pair.chances()) - len(listed(pair, young))
    looks = "look is" if left == 1 else "looks are"
    return paragraphs(f"{left} more {looks} rarer than 1 in 100 clutches.") if left else ()


def harm_words(traits: Iterable[Trait]) -> tuple[Part, ...]:
    """What harm is told of the traits, each with who says so."""
    told = tuple(_harm(traits))
    return paragraphs(*told, NO_VERDICT, tone=Tone.CAUTION)


def _harm(traits: Iterable[Trait]) -> Iterator[str]:
    for trait in traits:
        if trait.welfare and trait.welfare_source:
            source = trait.welfare_source
            yield f"{trait.name}: {trait.welfare} ({source.text}; {source.mark.value})."
        if trait.lethal_twice:
            yield (
                f"{trait.name}: two copies are said not to live; of the young that hatch the "
                "chances are then other than in the table."
            )


def several(pairs: Sequence[tuple[str, Offspring]], young: int) -> Table:
    """Several pairings side by side: a column each, at least one of each look."""
    looks = dict.fromkeys(look for _, pair in pairs for look in listed(pair, young))
    columns = (
        Column("words", "at least one of"),
        *(Column(f"pair_{n}", name) for n, (name, _) in enumerate(pairs, 1)),
    )
    rows = tuple(
        (looks_words(look), *(percent(p.at_least_one(look, young)) for _, p in pairs))
        for look in looks
    )
    return Table("pairings", columns, rows[:MOST_ROWS], f"Of {young} young")
