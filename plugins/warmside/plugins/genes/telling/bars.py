"""The chances of a pairing as a picture: a bar for each look."""

from __future__ import annotations

from warmside.api import shapes
from warmside.plugins.genes.inheritance.pairing import Offspring
from warmside.plugins.genes.telling.pairing import RARE, looks_words
from warmside.plugins.genes.telling.wording import percent

MOST_BARS = 24
WIDTH_MM, ROW_MM, WORDS_MM, BAR_MM = 160.0, 6.0, 70.0, 70.0
CELLS = 40  # of the longest bar on a terminal


def bars(pair: Offspring) -> shapes.Drawing:
    """A bar for each look, the likeliest on top, as long as its chance."""
    rows = [(look, c) for look, c in pair.chances().items() if c >= RARE][:MOST_BARS]
    longest = max(chance for _, chance in rows)
    drawn: list[shapes.Shape] = []
    for n, (look, chance) in enumerate(rows):
        base = (n + 0.7) * ROW_MM
        length = BAR_MM * chance / longest
        drawn.append(shapes.Label((WORDS_MM - 2, base), looks_words(look)[:48], anchor="end"))
        box = shapes.Box((WORDS_MM, n * ROW_MM + 1), max(length, 0.3), ROW_MM - 2, shapes.Fill.FULL)
        drawn += [box, shapes.Label((WORDS_MM + length + 2, base), percent(chance))]
    return shapes.Drawing(
        "bars",
        "Chance of each look",
        WIDTH_MM,
        ROW_MM * len(rows),
        "mm",
        tuple(drawn),
        tuple(_line(looks_words(look), chance, longest) for look, chance in rows),
        {"chances": {looks_words(look): chance for look, chance in rows}},
    )


def _line(words: str, chance: float, longest: float) -> str:
    """A line of the terminal: words, bar, percent."""
    bar = "█" * max(1, round(CELLS * chance / longest))
    return f"{words[:28]:>28} {bar} {percent(chance)}"
