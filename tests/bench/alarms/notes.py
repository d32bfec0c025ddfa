"""What keepers read of enclosures and write of healthy animals; all invented.

Some notes use a word of a sign for something else, as keepers do; where the round asks about one,
the keeper answers within ten days that it was none.
"""

from __future__ import annotations

import random
from datetime import date

from tests.bench.alarms.lives import Life
from tests.bench.alarms.own_words import HARMLESS

from warmside.plugins.signs.seen.notes import signs_in

ROOMS = {
    "Pantherophis guttatus": (30, 23, 50),
    "Lampropeltis californiae": (30, 24, 50),
    "Python regius": (32, 26, 65),
    "Eublepharis macularius": (32, 25, 40),
}
"""Warm and cool side in °C and humidity in %, as a keeper aims at them (assumptions)."""
PLAIN = (
    "calm when handled",
    "shy today, hid at once",
    "yawned twice after the meal",
    "soaked in the water bowl for an hour",
    "climbed all evening",
    "eyes cloudy, a shed is coming",
    "a bit of skin left on the tail tip, soaked off",
    "no mites seen, breathing quiet",
    "large dropping with white urates",
    "rubbed its nose on the glass",
    "ate slowly, but all of it",
    "moved the hide, it found it again",
    "heater checked, water changed",
    "drank for a minute after the water was changed",
)
NOTE_EVERY, ODD_PART, READ_EVERY = 21, 0.06, 9


def noted(rng: random.Random, life: Life, last: int) -> None:
    """Readings and notes from the first day to the last; none once its heater is known to fail."""
    day = life.first + rng.randrange(READ_EVERY)
    while day < (life.onset or last if life.scenario == "too hot" else last):
        life.said.append((day, "climate", _read(rng, life, day)))
        day += rng.randint(4, 2 * READ_EVERY - 4)
    day = life.first + rng.randrange(NOTE_EVERY)
    while day < last:
        text = rng.choice(HARMLESS if rng.random() < ODD_PART else PLAIN)
        life.said.append((day, "observed", {"what": text}))
        for named in signs_in(text):
            answer = {"sign": named.sign.word, "state": "not so"}
            life.said.append((day + rng.randint(1, 10), "sign", answer))
        day += rng.randint(7, 2 * NOTE_EVERY - 7)


def _read(rng: random.Random, life: Life, day: int) -> dict[str, object]:
    """A reading by day, or of one in twelve by night; warmer in summer; cold in winter cooling."""
    warm, cool, damp = ROOMS[life.species]
    if _is_cooled(life, day):
        warm, cool = 15, 12
    elif rng.random() < 1 / 12:
        warm, cool = cool + 1, cool - 2
    summer = 1.5 if date.fromordinal(day).month in (6, 7, 8) else 0.0
    return {
        "warm_c": round(warm + summer + rng.gauss(0, 1), 1),
        "cool_c": round(cool + summer + rng.gauss(0, 1), 1),
        "humidity_percent": round(min(max(damp + rng.gauss(0, 7), 10), 99)),
    }


def _is_cooled(life: Life, day: int) -> bool:
    marks = [s for s in life.said if s[1] == "cooling" and s[0] <= day]
    return bool(marks) and max(marks, key=lambda s: s[0])[2]["state"] == "begun"
