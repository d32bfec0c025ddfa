"""What feeding adds to sheets: the diet for a vet, how food is offered for a sitter."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.api import About, Section, Words, sheets
from warmside.plugins.feeding.care import cautions
from warmside.plugins.feeding.reading import Reading
from warmside.plugins.feeding.telling.label import diet

WHOLE = ("rodent", "bird", "fish")
THAW_STEPS = (
    "Thawing:\n"
    "1. The evening before: take out what the day's line says, into a closed box kept for it, in a "
    "refrigerator without human food, or some hours at room temperature. Not in a kitchen, its "
    "sink or a microwave.\n"
    "2. Before offering: soft right through, no ice inside, warm as a hand (the closed bag in warm "
    "water, not hot).\n"
    "3. Offer it with long tongs, never from the hand; shut the door, leave it alone.\n"
    "4. Once the day is over throw away what is left; never freeze it again.\n"
    "5. Wash hands, tongs and surfaces at once."
)
INSECTS = (
    "Live insects: feed them well from the day before (greens, a feed for them); dust them as the "
    "day's line says; put in no more than are eaten within minutes; take the rest out the same "
    "evening, since crickets bite a sleeping animal. Never from the wild."
)
PLANTS = (
    "Greens: only those that lie ready or are named by the keeper, washed; away in the evening."
)


def for_vet(reading: Reading, about: About) -> Iterator[Section]:
    """What it is to eat and how often, with what is dusted."""
    told = diet(reading, about.animal_id) if about.animal_id is not None else ""
    if told:
        yield Section("Diet as planned", (Words(told),), sheets.Place.FOOD)


def for_sitter(reading: Reading, about: About) -> Iterator[Section]:
    """How to offer each kind of food that anybody here eats, or the one whom it is about."""
    meant = [a for a in reading.here() if about.animal_id in (None, a)]
    diets = [s.diet for a in meant if (s := reading.species(a)) is not None]
    texts = (
        (THAW_STEPS, any(d.has(*WHOLE) for d in diets)),
        (INSECTS, any(d.has("insect") for d in diets)),
        (PLANTS, any(d.has("plant") for d in diets)),
    )
    words = tuple(Words(text) for text, wanted in texts if wanted)
    if words:
        source = cautions.THAW.source
        marked = Words(f"Thawing after: {source.text} [{source.mark}]; the rest: common practice.")
        yield Section("Feeding", (*words, marked), sheets.SitterPlace.HOW)
