"""What the eye says beside the scale: a body condition, and the mass that the keeper wants."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from warmside.api import Display, Level
from warmside.plugins.weight.course.series import day_text, gram_text
from warmside.plugins.weight.course.sign import Sign, WeightSign

THIN, FAT = 2, 4
"""Scores of 1 to 5 by eye: this one or lower is thin, this one or higher is fat."""
FRESH_DAYS = 180.0
"""An older score says little of today (common practice, no source)."""
_GAINS = (Sign.FAST_GAIN, Sign.YEARS_GAIN)
_LOSSES = (Sign.LOSS, Sign.WASTING)


class Body(Struct, frozen=True):
    """The last body condition with its day and event, and the mass wanted in g; None if unknown."""

    score: int | None = None
    day: float = 0.0
    event: int | None = None
    wanted_g: float | None = None

    def on(self, day: float) -> Body:
        """As of a day: a score that is too old does not count."""
        return self if day - self.day <= FRESH_DAYS else Body(wanted_g=self.wanted_g)


def seen_beside(sign: WeightSign, body: Body, last_g: float, display: Display) -> WeightSign | None:
    """The sign in the light of the body; None for a gain that is wanted.

    A loss towards the mass that the keeper wants is a note while it is slow and the animal is not
    thin. A thin one that loses and a fat one that gains are to be looked at by a vet.
    """
    score = body.score
    above = body.wanted_g is not None and last_g >= body.wanted_g
    if sign.sign in _GAINS:
        if (score is not None and score <= THIN) or (body.wanted_g is not None and not above):
            return None
        return _scored(sign, body, Level.LOOK_SOON) if score is not None and score >= FAT else sign
    if sign.sign in _LOSSES and score is not None and score <= THIN:
        return _scored(sign, body, sign.level)
    if sign.sign is Sign.WASTING and above:
        assert body.wanted_g is not None
        words = f"{sign.words}; the {gram_text(body.wanted_g, display)} that you want are not lost"
        return replace(sign, level=Level.NOTE, words=f"{words}; no more than 1 % a week")
    return sign


def _scored(sign: WeightSign, body: Body, level: Level) -> WeightSign:
    """With the score, and for a vet."""
    words = f"{sign.words}; its body was scored {body.score} of 5 on {day_text(body.day)}"
    if "vet" not in sign.words:
        words += ": ask a reptile vet"
    events = sign.events if body.event is None else (body.event, *sign.events)
    return replace(sign, level=level, words=words, events=events)
