"""Notes in a keeper's own words: of healthy animals, with a word of a sign for something else, and
of ill ones.

All are invented, and were written before the list of signs was tried on them: what they measure is
what the list is worth beyond its own examples. Whoever changes the list adds notes, and takes none
away.
"""

from __future__ import annotations

from warmside.api import Level

HARMLESS = (
    "gaping at the door of the hide, waiting for food",
    "sat gaping under the lamp for a minute, then went to the cool side",
    "the filter makes bubbles, it chases them",
    "whistling kettle scared it",
    "sits a bit lopsided on the branch since it is so fat from the meal",
    "cork bark is bendy, wedged a stone under it",
    "shaking the tub brings it out at once",
    "tail tip twitching, saw the cricket",
    "branch wobbles, glued it",
    "limp plant replaced, watered the rest",
    "relaxed and almost limp in my hands, then off like a rocket when I put it down",
    "dragging the mouse into the hide to eat it there",
    "blood on the tongs from the thawed rat",
    "drop of blood in the water bowl, was from the prey",
    "I got bitten again, my own fault",
    "cage door was wound with tape",
    "dropped on the floor of the tub and crawled away, 10 cm",
    "squashed itself into the smallest corner",
    "crushed some cuttlefish bone over the salad",
    "burnt my thumb on the lamp guard",
    "the new lamp burns brighter",
    "crusty bowl scrubbed",
    "some fungus grows on the wood, springtails added",
    "bark mites in the soil, harmless",
    "wrote to the vet about mites in general",
    "black dots of soil on its nose",
    "the clock ticks, does not bother it",
    "eyes shut while basking",
    "strains to reach the highest branch",
    "pushing hard against the lid at night",
    "a lump of soil on its back",
    "swallowed a hornworm whole",
    "swallowed a large hopper in two minutes",
    "read that this plant is poison, took it out",
    "bony tail base is normal for this kind, says the book",
    "wasted half the crickets again",
    "always basking after breakfast as it should",
    "stinks of fox from next door, aired the room",
    "prolapse talk at the club evening, good slides",
    "lethargic as every autumn",
    "no idea what the swelling in the log means, it is a new leaf",
    "soft shell of the egg it ate is gone",
)
"""Of healthy animals: a word of the list for something else."""

ILL = (
    ("breathes with open mouth, neck stretched", Level.ACT_NOW),
    ("heard a wheeze again when I took her out this evening", Level.LOOK_SOON),
    ("clicks when breathing, bubbles at the nostrils", Level.LOOK_SOON),
    ("drooling a little on the left side since yesterday", Level.LOOK_SOON),
    ("trembling in the front toes after every step", Level.ACT_NOW),
    ("had a seizure at 8 in the morning, about a minute", Level.ACT_NOW),
    ("stargazing, loses its balance", Level.LOOK_SOON),
    ("hangs limp over my hand, does not react to touch at all", Level.LOOK_SOON),
    ("drags a leg: dragging the right hind one since the fall", Level.LOOK_SOON),
    ("bleeding from a toe, pressed for five minutes", Level.ACT_NOW),
    ("there is blood coming from the vent after the dropping", Level.LOOK_SOON),
    ("bitten by the live rat, two holes on the back", Level.LOOK_SOON),
    ("open wound on the side under the third saddle from the head", Level.NOTE),
    ("burnt its belly on the mat, pale patch of 2 cm", Level.LOOK_SOON),
    ("blisters on the belly scales, the floor was wet", Level.LOOK_SOON),
    ("belly turned pink: red belly from neck to vent", Level.ACT_NOW),
    ("found mites around both eyes and in the water", Level.LOOK_SOON),
    ("tiny black dots moving around its chin, and it soaks all day in the bowl", Level.NOTE),
    ("puffy eyes, keeps them closed", Level.LOOK_SOON),
    ("prolapse, pink tissue out of the vent the size of a pea", Level.ACT_NOW),
    ("straining since last night and nothing comes", Level.ACT_NOW),
    ("constipated, three weeks now", Level.LOOK_SOON),
    ("regurgitated the rat four days after the meal", Level.LOOK_SOON),
    ("hard lump behind the head, bigger than last week", Level.NOTE),
    ("swollen jaw on the right", Level.LOOK_SOON),
    ("looks skinny, spine can be seen", Level.LOOK_SOON),
    ("sunken eyes and folds that stay when I pinch", Level.LOOK_SOON),
    ("swallowed a stone of the substrate, I saw it", Level.ACT_NOW),
    ("egg bound I fear, laid two and pushes", Level.ACT_NOW),
    ("not itself since the move, hides all day", Level.LOOK_SOON),
)
"""Of ill animals: each with the level that a question about it must have at least."""
