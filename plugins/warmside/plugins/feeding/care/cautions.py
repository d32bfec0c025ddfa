"""Cautions that go with meals; the tool neither diagnoses nor prescribes."""

from __future__ import annotations

from msgspec import Struct

from warmside.api import Mark, Source
from warmside.plugins.feeding.care.species import Diet, Species

USUAL = Source("usual caution", Mark.COMMON_PRACTICE)


class Caution(Struct, frozen=True):
    """A caution and where it comes from."""

    code: str
    words: str
    source: Source = USUAL


VET = Caution(
    "vet",
    "these figures are a keeper's aid, no ration: a vet decides for an animal that is ill, thin, "
    "fat, very young, gravid or does not eat",
)
HANDS = Caution(
    "hands",
    "wash hands and tools after prey and animal: reptiles and prey can carry Salmonella; "
    "keep both away from kitchens, small children and people with weak defences",
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
)
SHORT_THAW = "in a sealed box away from human food, not in the kitchen; wash hands at once"
NO_HANDLING = Caution("handling", "no handling for 48 hours after the meal")
DEAD = Caution(
    "dead",
    "offer prey frozen and thawed rather than live: rodents bite and have killed animals; never "
    "leave a live rodent unattended",
)
LAW = Caution("law", "feeding live vertebrates is forbidden or limited in many places: local law")
WIDTH = Caution(
    "width", "no prey wider than the widest part of the animal, where its row says no other"
)
VENOM = Caution(
    "venom",
    "venomous: fed only with a licence where the law asks for one, by trained people, never alone, "
    "with the plan for a bite at hand",
)
TONGS = Caution("tongs", "offer with long tongs, never from the hand")
INSECTS = Caution(
    "insects",
    "take uneaten insects out: crickets bite a sleeping animal; no insects from the wild or from "
    "places that were sprayed",
)
PLANTS = Caution(
    "plants", "no plants that you cannot name and no greens with spray; ask a vet for a list"
)


def cautions(species: Species, group: str = "") -> tuple[Caution, ...]:
    """The cautions for what a species eats, the vet's first; `group` is the collection's."""
    if species.diet is Diet.VERTEBRATES:
        venom = (VENOM,) if group in ("viper", "elapid") else ()
        return (VET, *venom, THAW, HANDS, DEAD, LAW, WIDTH, TONGS)
    plants = (PLANTS,) if species.plants else ()
    return (VET, HANDS, INSECTS, *plants)


def digest(all_species: tuple[Species, ...]) -> tuple[Caution, ...]:
    """The cautions for a whole round, each once."""
    return tuple(dict.fromkeys(c for species in all_species for c in cautions(species)))
