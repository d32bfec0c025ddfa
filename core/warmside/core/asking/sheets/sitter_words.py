"""What every sitter is told, whatever lives in the house."""

from __future__ import annotations

from warmside.core.answers.parts import Tone, Words

FIRST = (
    "If you are not sure, do less and call. A reptile that is warm, has water and is left in peace "
    "comes to no harm by one meal less. What is ill, and what is done about it, a vet says."
)
LOOK = "the daily look"
LOOKING = (
    "The daily look, at each: is it there, does it breathe quietly, is nothing hurt or stuck? Is "
    "the water full and clean, the warm side warm? Lock the door again, every time."
)
HANDS = (
    "Clean hands: wash them with soap before the first enclosure, after each, and after prey. "
    "Reptiles can carry Salmonella: no eating, drinking or kissing; no bowls or prey in kitchen or "
    "bathroom sinks; no children under five and nobody with weak defences near them."
)
REFUSED = (
    "The food is not eaten: prey that was thawed is taken out the next morning and thrown away, "
    "never frozen again; live insects are taken out the same evening. Write it down. No second try "
    "before the next feeding on this sheet, no force."
)
HEAT = (
    "Heat or light is off: look at the plug, the timer and the fuse; do not feed; close the room "
    "and the doors of the enclosures; call. One cool night is mostly borne. Do not warm up fast: "
    "no hot bottle or heat pack against the skin, no heater put into an enclosure."
)
HOT = (
    "It is too hot (the animal gapes, is frantic or limp): heat off at the plug, room aired and "
    "dark, fresh water at room temperature, no ice; call at once."
)
OUT = (
    "An animal is not there: close the room, windows and gaps under doors, look where you step. "
    "Search dark, narrow, warm places near the enclosure, at night by torch. Call before you lift "
    "a large, biting or venomous one."
)
DEAD = (
    "An animal is dead: call. Keep the body cool in a closed bag, not frozen, away from food; do "
    "not use its tools for others; wash your hands."
)
BITTEN = (
    "You are bitten or scratched: wash with soap and water; see a doctor, also about tetanus. By a "
    "venomous animal: sit still, call the emergency number at once; do not cut, suck, tie or cool."
)
VENOMOUS = (
    "venomous. Nobody opens this enclosure but a person trained and, where the law asks for it, "
    "licensed for it, never alone, with the plan for a bite at hand. Who is not: look from "
    "outside, and call."
)
APART = "last of all, after washing hands, with tools of its own:"
NEVER = (
    "leave a door or lid unlocked, even for a moment",
    "handle an animal within 48 hours of its meal, or one with cloudy eyes",
    "give live rodents, or leave live insects in overnight",
    "give any medicine, vitamin or powder that is not on this sheet; make up for a missed dose",
    "turn heat, timers or thermostats up or down",
    "put animals together, or tools and bowls of one into the home of another",
    "pull at old skin, at what hangs out of the vent, or at what is stuck in the mouth",
    "bathe, warm or force-feed an animal that looks ill",
)
SIGNS = (
    "breathes with its mouth open or neck stretched, bubbles or clicks",
    "lies limp, does not answer to touch, has fits, cannot turn over or throws its head back",
    "bleeds, is burnt, bitten, broken or stuck",
    "something hangs out of the vent, or it strains and nothing comes",
    "brought a meal up, is bloated, or swallowed something that is no food",
    "swims tilted or cannot dive (turtles)",
    "digs, strains or lies weak and carries eggs or young",
    "sits stiff in the cold or frantic in the heat",
)
SOURCES = (
    "Signs and what to leave alone: after Pet Emergency Academy, When to get your reptile to a "
    "veterinarian, and Cannon and Johnson, Handling and Nursing Reptiles (Australian Veterinary "
    "Association); the body kept cool: state veterinary laboratories; hygiene: UK Health "
    "Protection Agency, leaflet on reptiles and Salmonella, 2009. All else is common practice, no "
    "source."
)


def what_if() -> tuple[Words, ...]:
    """What to do when something goes wrong, a paragraph each."""
    return tuple(Words(text) for text in (REFUSED, HEAT, HOT, OUT, DEAD, BITTEN))


def caution() -> Words:
    """What stands at the top."""
    return Words(FIRST, Tone.CAUTION)
