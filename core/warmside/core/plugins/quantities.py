"""The quantities that plugins may ask each other about, so that a slip in a name is an error.

A plugin may declare further ones in its manifest, named `<plugin>.<word>`.
"""

from __future__ import annotations

from warmside.core.values.units import Unit

QUANTITIES: dict[str, Unit | None] = {
    "mass": Unit.MASS,
    "adult mass": Unit.MASS,
    "weight_loss": Unit.PERCENT,
    "length": Unit.LENGTH,
    "days to slough": Unit.DAYS,
    "hours without heat": Unit.HOURS,
    "zone temperature": Unit.TEMPERATURE,
    "next meal": None,
    "kinship": Unit.RATIO,
    "clutch odds": Unit.PROBABILITY,
    "copies of traits": Unit.COUNT,
    "treatment": None,
    "feeding as told": None,
    "winter rest": None,
    "after a death": None,
    "standing signs": Unit.COUNT,
}
"""Unit of each quantity; None for a range of days.

`clutch odds`, asked about one of its young: for each trait the chance that a clutch of its parents
looks as odd as this one, or odder. `copies of traits`: for each trait of which anything is known in
the family of an animal the chances that it has no copy, one, and all that it can have (2), with the
trait as the rule. The days of `treatment` are those of a case of illness or a
course, with its words as the rule; `feeding as told` answers while an animal is fed by a vet's word
and not by its plan, with the word as the rule; `winter rest` answers the days of a planned rest
whose loss of mass the answering plugin tells; `after a death` answers of an animal that died, for
so long as the answering plugin itself asks about a necropsy and looks after those that were with
it; `standing signs` counts signs of illness of which
the answering plugin speaks itself.
"""
