"""The thresholds of the weight checks, each with its source; the keeper may set others."""

from __future__ import annotations

from msgspec import Struct

from warmside.api import Display, Mark, Source

CUSTOM = Source("keepers' custom", Mark.COMMON_PRACTICE)
SUPPORT = Source(
    "Kaplan 2000 and a veterinary wiki: support is called for beyond 10 % acute or 20 % chronic "
    "loss of body mass; marks for support, not a limit for a fast",
    Mark.SECONDARY,
)
OUR_RULE = Source(
    "our rule: medians of its own weighings, checked on simulated healthy and ill animals; that a "
    "tenth without a reason is for a vet is keepers' custom",
    Mark.COMMON_PRACTICE,
)
FASTING = Source(
    "McCue 2007, Zoology, as told in J Exp Biol 210(23): in 168 days without food, with water, "
    "ball pythons lost 18.3 %, ratsnakes 9.3 %, rattlesnakes 24.4 %",
    Mark.SECONDARY,
)
CHANNEL = Source(
    "a shift of 0.67 standard deviations, one space between centile lines, as in Ong et al. 2000, "
    "BMJ 320:967-971 (human infants)",
    Mark.FROM_MEMORY,
)
LINES = Source(
    "two major centile lines, as for faltering growth in human children", Mark.FROM_MEMORY
)
CLUTCH = Source(
    "Ellis & Chappell 1987: a clutch is about 32 % of the female's mass (Python regius); the "
    "45 % taken as the most is common practice",
    Mark.SECONDARY,
)

MAJOR_CENTILES = (5.0, 10.0, 25.0, 50.0, 75.0, 90.0, 95.0)
CLUTCH_DROP = 0.45
"""The greatest part of her mass that a clutch or litter explains (see CLUTCH)."""


class Limits(Struct, frozen=True):
    """Thresholds: parts of body mass (0 to 1), standard deviations, and days.

    Acute and chronic loss as in SUPPORT, the channel as in CHANNEL; the rest is common practice.
    `display` is for words.
    """

    acute_loss: float = 0.10
    acute_days: float = 60.0
    chronic_loss: float = 0.20
    chronic_days: float = 365.0
    channel_shift: float = 0.67
    low_loss: float = 0.05
    vet_loss: float = 0.10
    vet_days: float = 183.0
    stall_gain: float = 0.02
    stall_days: float = 60.0
    hatchling_stall_days: float = 30.0
    fast_gain: float = 0.15
    fast_days: float = 90.0
    years_gain: float = 0.10
    digestion_days: float = 5.0
    lizard_digestion_days: float = 3.0
    display: Display = Display.METRIC


DEFAULTS = Limits()
