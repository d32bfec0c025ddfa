"""The settings of the plugin: how often to weigh, and from which change on it speaks."""

from __future__ import annotations

from warmside.api import Setting, Unit

_CUSTOM = "keepers' custom [common practice, no source]"
_SUPPORT = (
    "support is called for beyond 10 % acute or 20 % chronic loss: Kaplan 2000 and a veterinary "
    "wiki [secondary]"
)
_CHANNEL = (
    "one space between centile lines, 0.67 standard deviations, as for human infants: "
    "Ong et al. 2000, BMJ 320:967-971 [from memory]"
)
_PASSAGE = (
    "mean passage 1.2 to 1.8 days at 32 °C, half of the time until the gut is empty: "
    "Waldschmidt, Jones & Porter 1986, Physiol Zool 59:376, abstract [secondary]"
)


def _days(
    name: str, default: float, least: float, most: float, help: str, source: str = _CUSTOM
) -> Setting:
    return Setting(name, help, float(default), source, Unit.DAYS, float(least), float(most))


def _percent(
    name: str, default: float, least: float, most: float, help: str, source: str = _CUSTOM
) -> Setting:
    return Setting(name, help, float(default), source, Unit.PERCENT, float(least), float(most))


RHYTHM = (
    _days("hatchling_every", 7, 0, 365, "days between weighings of a hatchling; 0 asks for none"),
    _days(
        "juvenile_every",
        14,
        0,
        365,
        "days between weighings of a juvenile or subadult; 0 asks for none",
    ),
    _days(
        "adult_every",
        28,
        0,
        365,
        "days between weighings of an adult, or where it may be one; 0 asks for none",
    ),
    _days("cooling_every", 14, 0, 365, "days between weighings in winter cooling; 0 asks for none"),
    _days("fasting_every", 14, 1, 365, "days between weighings while it refuses its meals"),
    _days("lighter_every", 7, 1, 365, "days until a weighing that was low is looked at again"),
)

THRESHOLDS = (
    _percent("low_loss", 5, 2, 20, "loss to be looked at, where two weighings running show it"),
    _percent("vet_loss", 10, 5, 30, "loss without a known reason that is for a vet"),
    _days("vet_days", 183, 60, 365, "how far back its height is looked for, for a vet"),
    _percent("acute_loss", 10, 2, 50, "loss from which a fast or cooling needs support", _SUPPORT),
    _days("acute_days", 60, 7, 180, "a loss within so many days is acute"),
    _percent("chronic_loss", 20, 5, 60, "loss that wants action whatever the reason is", _SUPPORT),
    _days("chronic_days", 365, 90, 730, "how far back a chronic loss is looked for"),
    Setting(
        "channel_shift",
        "standard deviations from its own channel from which an animal has left it",
        0.67,
        _CHANNEL,
        Unit.RATIO,
        0.2,
        3.0,
    ),
    _percent("stall_gain", 2, 0, 20, "a juvenile that gains less than that has stalled"),
    _days("stall_days", 60, 14, 365, "over so many days a juvenile's gain is looked at"),
    _days("hatchling_stall_days", 30, 14, 90, "over so many days a hatchling's gain is looked at"),
    _percent("fast_gain", 15, 5, 100, "an adult that gains as much gains fast"),
    _days("fast_days", 90, 14, 365, "over so many days an adult's gain is looked at"),
    _percent("years_gain", 10, 5, 50, "an adult that gains as much in a year is told of once"),
    _days("digestion_days", 5, 0, 21, "days until a meal no longer weighs in the gut"),
    _days(
        "lizard_digestion_days",
        3,
        0,
        21,
        "the same for lizards, but iguanas and monitors",
        _PASSAGE,
    ),
)

SETTINGS = RHYTHM + THRESHOLDS
