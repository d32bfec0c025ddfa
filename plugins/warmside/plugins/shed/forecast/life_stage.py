"""The life stage whose prior the forecast starts out from: the oldest that the animal may be in.

The oldest, since its intervals are the longest: where the stage is open, no shed is called late too
soon.
"""

from __future__ import annotations

from warmside.api import Basis, LifeStage, Staged


def prior_stage(staged: Staged) -> str:
    """The name of the prior; that of a juvenile stands for a hatchling, too."""
    oldest = staged.possible[-1]
    return (LifeStage.JUVENILE if oldest is LifeStage.HATCHLING else oldest).value


def stage_rule(staged: Staged) -> Basis:
    """By which rule the stage was found."""
    if staged.stage is not None:
        return staged.basis
    basis = staged.basis
    return Basis(f"{basis.rule}, so read as {prior_stage(staged)}", basis.source, basis.events)
