"""Entering animals as plugins do: many with their parents, a clutch, all its young."""

from warmside.core.record.entries import change_animal as change_animal
from warmside.core.record.kin.brood import candidates as candidates
from warmside.core.record.kin.brood import enter_young as enter_young
from warmside.core.record.kin.clutches import add_clutch as add_clutch
from warmside.core.record.kin.clutches import change_clutch as change_clutch
from warmside.core.record.kin.lineage import Candidate as Candidate
from warmside.core.record.kin.many_kin import Link as Link
from warmside.core.record.kin.many_kin import Newcomer as Newcomer
from warmside.core.record.kin.many_kin import code_of as code_of
from warmside.core.record.kin.many_kin import enter as enter
from warmside.core.record.kin.many_kin import fill as fill
from warmside.core.record.kin.many_kin import hatched_of as hatched_of
from warmside.core.record.kin.many_kin import link as link
from warmside.core.record.kin.many_kin import name_of as name_of
from warmside.core.record.kin.many_kin import sex_of as sex_of

__all__ = (
    "Candidate",
    "Link",
    "Newcomer",
    "add_clutch",
    "candidates",
    "change_animal",
    "change_clutch",
    "code_of",
    "enter",
    "enter_young",
    "fill",
    "hatched_of",
    "link",
    "name_of",
    "sex_of",
)
