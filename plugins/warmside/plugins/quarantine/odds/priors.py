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


def agents_meant(agent: str | None, from_survey: str | None) -> list[str]:
    """The agent that was named, the one of the survey, or all; raises NotFound, BadInput."""
    known = list(dict.fromkeys(m.agent for m in methods()))
    if from_survey is not None:
        told = survey(from_survey).agent
        if agent not in (None, told):
            raise BadInput(f"survey {from_survey} is about {told}, not {agent}")
        return [told]
    if agent is None:
        return known
    if agent not in known:
        raise NotFound(
            f"there is no agent {agent!r}{near_miss(agent, known)}; known: {', '.join(known)}"
        )
    return [agent]


def prior_of(agent: str, from_survey: str | None, own: float | None) -> Prior | None:
    """The prior of the keeper, of one survey, or over all surveys of the agent."""
    if own is not None:
        return Prior(Range(share("prior", own), own), (OWN_PRIOR,))
    told: tuple[Survey, ...] = (survey(from_survey),) if from_survey else surveys_of(agent)
    if not told:
        return None
    span = Range(min(s.low for s in told), max(s.high for s in told))
    return Prior(span, tuple(s.source for s in told))
