"""Cautions that go with meals; the tool neither diagnoses nor prescribes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from warmside.api import Mark, Source
from warmside.plugins.feeding.care.diets import Diet
from warmside.plugins.feeding.care.species import Species

USUAL = Source("usual caution", Mark.COMMON_PRACTICE)


class Caution(Struct, frozen=True):
    """A caution, where it comes from, and how a report puts it, beside others in a line."""

    code: str
    words: str
    source: Source = USUAL
    brief: str = ""


VET = Caution(
    "vet",
    "these figures are a keeper's aid, no ration: a vet decides for an animal that is ill, thin, "
    "fat, very young, gravid or does not eat",
)
HANDS = Caution(
    "hands",
    "wash hands and tools after prey and animal: reptiles and prey can carry Salmonella; "
    "keep both away from kitchens, small children and people with weak defences",
    brief="wash hands after prey and animal",
)
THAW = Caution(
    "thaw",
    "thaw frozen prey fully in a sealed box kept for it, away from human food and all that touches "
    "it: overnight in a refrigerator without food, or for some hours at room temperature; not in a "
    "kitchen, never in its sink or a microwave; offer it within a day, never freeze it again; "
    "disinfect surfaces and tools and wash hands at once",
    Source(
        "UK Food Standards Agency, Health Security Agency and Defra, notice on frozen mice for "
        "reptiles, 2022 (press copy)",
        Mark.SECONDARY,
    ),
    "thaw prey fully, away from human food, never in a microwave",
)
SHORT_GUT_LOAD = "a balanced feed, a full day before they are offered; dust them all the same"
SHORT_THAW = "in a sealed box away from human food, not in the kitchen; wash hands at once"
NO_HANDLING = Caution("handling", "no handling for 48 hours after the meal")
DEAD = Caution(
    "dead",
    "offer prey frozen and thawed rather than live: rodents bite and have killed animals; never "
    "leave a live rodent unattended",
    brief="offer it dead, no live rodent unattended",
)
LAW = Caution(
    "law",
    "feeding live vertebrates is forbidden or limited in many places: local law",
    brief="live vertebrates only as local law allows",
)
WIDTH = Caution(
    "width",
    "no prey wider than the widest part of the animal, where its row says no other",
    brief="no wider than the animal",
)
VENOM = Caution(
    "venom",
    "venomous: fed only with a licence where the law asks for one, by trained people, never alone, "
    "with the plan for a bite at hand",
)
TONGS = Caution("tongs", "offer with long tongs, never from the hand", brief="with long tongs")
WARM = (DEAD, LAW, WIDTH, TONGS)
INSECTS = Caution(
    "insects",
    "take uneaten insects out: crickets bite a sleeping animal; no fireflies, no insects from the "
    "wild or from places that were sprayed",
    brief="take uneaten insects out, give none from the wild",
)
GUT_LOAD = Caution(
    "gut-load",
    "feed insects well for a day or two before: a balanced feed reached its full effect after 24 "
    "hours; dusting does still more for calcium",
    Source(
        "Attard, thesis, University of Guelph, and Schlegel, Renjifo & Valdes 2005, AZA Nutrition "
        "Advisory Group: abstracts",
        Mark.SECONDARY,
    ),
)
THIAMINASE = Caution(
    "thiaminase",
    "no goldfish, minnow, smelt, herring or other fish with thiaminase as a main food: it destroys "
    "vitamin B1, and freezing does not stop it; where fish is the main food ask a vet for thiamin",
    Source("lists of fish with thiaminase", Mark.FROM_MEMORY),
    "no goldfish or other fish with thiaminase as a main food",
)
EGGS = Caution(
    "eggs",
    "eggs fresh, unwashed and unsalted, no wider than it can manage by the species' row; never a "
    "mouse or a chick instead",
    Source("usual care of egg-eating snakes", Mark.COMMON_PRACTICE),
    "eggs fresh and unwashed",
)
PLANTS = Caution(
    "plants",
    "no plants that you cannot name and no greens with spray, no avocado; ask a vet for a list",
    brief="no plants that you cannot name, no avocado",
)


def cautions(species: Species, group: str = "") -> tuple[Caution, ...]:
    """The cautions for what a species eats, the vet's first; `group` is the collection's.

    Where a snake's diet is not known, those of warm-blooded prey.
    """
    venom = (VENOM,) if group in ("viper", "elapid") else ()
    if not species.diet.parts:
        return (VET, *venom, *((THAW, HANDS, *WARM) if species.group == "snake" else (HANDS,)))
    return (VET, *venom, *_of_food(species.diet))


def _of_food(diet: Diet) -> Iterator[Caution]:
    warm = diet.has("rodent", "bird")
    if warm or diet.has("fish"):
        yield THAW
    yield HANDS
    if warm:
        yield from WARM
    if diet.has("insect"):
        yield from (INSECTS, GUT_LOAD)
    if diet.has("plant"):
        yield PLANTS
    if diet.has("fish"):
        yield THIAMINASE
    if diet.has("egg"):
        yield EGGS


def in_brief(of: Sequence[Caution]) -> tuple[str, ...]:
    """The cautions for a report: those of vet and venom in full, the others joined in one line."""
    whole = tuple(c.words for c in of if c in (VET, VENOM))
    brief = "; ".join(c.brief for c in of if c.brief)
    return (*whole, brief) if brief else whole


def left_alone(species: Species) -> bool:
    """Whether it is not handled after a meal: any snake, and who eats rodents or birds."""
    return species.group == "snake" or species.diet.has("rodent", "bird")


def digest(all_species: tuple[Species, ...]) -> tuple[Caution, ...]:
    """The cautions for a whole round, each once."""
    return tuple(dict.fromkeys(c for species in all_species for c in cautions(species)))
