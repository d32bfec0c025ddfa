"""The life stage whose prior the forecast starts out from, by age.

The ages between the stages are settings; mass is not used, since grown size differs too much
between animals of one species. An animal of unknown age is read as an adult.
"""

from __future__ import annotations

from datetime import date

from warmside.api import BadInput, PartialDate


def life_stage(
    hatched: PartialDate | None, on: date, subadult_from: float, adult_from: float
) -> str:
    """The stage at the middle of the ages that are possible; limits are in days of age."""
    if subadult_from >= adult_from:
        raise BadInput(
            f"an adult from {adult_from:g} days cannot be a subadult from {subadult_from:g} days; "
            "change a setting: warmside plugin set shed adult_from AGE"
        )
    if hatched is None:
        return "adult"
    age = sum(hatched.age_days(on)) / 2
    if age < subadult_from:
        return "juvenile"
    return "subadult" if age < adult_from else "adult"


def stage_rule(hatched: PartialDate | None) -> str:
    """By which rule the stage was found."""
    return "by its age" if hatched else "its age is not known, so read as an adult"
