"""The life stages that an animal may be in, from the one answer that all plugins are told."""

from __future__ import annotations

from functools import cache

from warmside.api import LifeStage, Staged
from warmside.plugins.feeding.care.diets import Stage

Stages = tuple[Stage, ...]
"""The youngest first; more than one where age, sex and mass do not settle it."""
_ALL = tuple(Stage)


def possible(staged: Staged | None) -> Stages:
    """The stages that the answer leaves possible; all where there is none."""
    return _named_alike(staged.possible) if staged else _ALL


def only(stages: Stages) -> Stage | None:
    """The one stage that is possible; None where there are more."""
    return stages[0] if len(stages) == 1 else None


def stages_words(stages: Stages) -> str:
    """`as adult`, `as juvenile or subadult`, `at any stage`."""
    return "at any stage" if stages == _ALL else f"as {stages_said(stages)}"


def stages_said(stages: Stages) -> str:
    """`adult`, `subadult or adult`, `juvenile, subadult or adult`."""
    *first, last = stages
    return f"{', '.join(first)} or {last}" if first else last.value


@cache
def _named_alike(stages: tuple[LifeStage, ...]) -> Stages:
    return tuple(Stage(s.value) for s in stages)
