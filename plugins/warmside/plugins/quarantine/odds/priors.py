"""The figures of a risk: agents, methods, and the share infected before any test."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from warmside.api import BadInput, Mark, NotFound, Source, near_miss
from warmside.plugins.quarantine.odds.freedom import Range
from warmside.plugins.quarantine.odds.methods import Performance, methods, performance
from warmside.plugins.quarantine.odds.prevalence import Survey, survey, surveys_of
from warmside.plugins.quarantine.odds.shares import share

OWN_PRIOR = Source("the keeper's own prior", Mark.KEEPERS_OWN)


class Prior(Struct, frozen=True):
    """The share infected before any test, as a range, and who says so."""

    range: Range
    sources: tuple[Source, ...]


def known_figures(own: Mapping[str, Performance]) -> dict[str, Performance]:
    """How good each method is: the laboratory's own figures before the published ones."""
    published = {m.key: p for m in methods() if (p := performance(m.key)) is not None}
    return {**published, **own}


def agents_meant(agent: str | None, from_survey: str | None, group: str) -> list[str]:
    """The agents that a name begins, that of the survey, or all that concern a group of species.

    An agent concerns it where a method or a survey does. Raises NotFound, BadInput.
    """
    known = list(dict.fromkeys(m.agent for m in methods()))
    if from_survey is not None:
        told = survey(from_survey).agent
        if agent is not None and not told.startswith(agent):
            raise BadInput(f"survey {from_survey} is about {told}, not {agent}")
        return [told]
    if agent is None:
        used = {m.agent for m in methods() if m.applies_to(group)}
        return [a for a in known if a in used or surveys_of(a, group)]
    meant = [a for a in known if a == agent or a.startswith(f"{agent}-")]
    if not meant:
        raise NotFound(
            f"there is no agent {agent!r}{near_miss(agent, known)}; known: {', '.join(known)}"
        )
    return meant


def prior_of(agent: str, group: str, from_survey: str | None, own: float | None) -> Prior | None:
    """The prior of the keeper, of one survey, or over all of the agent in a group of species."""
    if own is not None:
        return Prior(Range(share("prior", own), own), (OWN_PRIOR,))
    told: tuple[Survey, ...] = (survey(from_survey),) if from_survey else surveys_of(agent, group)
    if not told:
        return None
    span = Range(min(s.low for s in told), max(s.high for s in told))
    return Prior(span, tuple(s.source for s in told))
