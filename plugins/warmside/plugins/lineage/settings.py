"""The settings of the plugin."""

from __future__ import annotations

from warmside.api import Setting, Unit

_CUSTOM = "keepers' custom (common practice, no source)"
_ASK = "none is known for all species; those that ship have one (common practice, no source)"


def _gate(name: str, help: str, unit: Unit, most: float) -> Setting:
    return Setting(name, help, 0.0, _ASK, unit, 0.0, most, per=("species", "animal"))


def _days(name: str, help: str, default: float, most: float, per: tuple[str, ...]) -> Setting:
    return Setting(name, help, default, _CUSTOM, Unit.DAYS, 0.0, most, per=per)


SETTINGS = (
    Setting(
        "kinship_limit",
        "a pair is told of whose young would be more inbred; 0.0625 is that of first cousins",
        0.0625,
        "no limit is known for reptiles (common practice, no source)",
        Unit.RATIO,
        0.0,
        0.5,
        per=("species",),
    ),
    _days("back_notice", "so many days before a loan ends it is told of", 7.0, 90.0, ()),
    _days(
        "loan_young",
        "young that come until so many days after a loan count as young of the loan",
        180.0,
        1500.0,
        ("species",),
    ),
    _gate(
        "female_mass", "a lighter female is told of before she is paired; 0: none", Unit.MASS, 5e5
    ),
    _gate("female_age", "a younger female is told of before she is paired; 0: none", Unit.AGE, 2e4),
    _gate("male_mass", "a lighter male is told of before he is paired; 0: none", Unit.MASS, 5e5),
    _gate("male_age", "a younger male is told of before he is paired; 0: none", Unit.AGE, 2e4),
    _gate("rest_days", "days from laying until she is paired again; 0: none", Unit.DAYS, 2000),
    _days(
        "late_days",
        "so many days after the end of her window a female that did not lay is for a vet",
        7.0,
        30.0,
        ("species",),
    ),
    _days("egg_check", "days between two looks at eggs; 0 asks for none", 7.0, 60.0, ("species",)),
    _days(
        "first_feed",
        "days after its first shed until a first meal is offered",
        2.0,
        30.0,
        ("species",),
    ),
    _days(
        "sexing",
        "days after hatching from which on it may be sexed; 0 asks not",
        14.0,
        1000.0,
        ("species",),
    ),
)
