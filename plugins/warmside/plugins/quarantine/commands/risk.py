"""`warmside quarantine risk`: what the negatives so far leave open."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Annotated

import typer

from warmside.api import (
    Answer,
    Basis,
    Cell,
    Column,
    Estimate,
    Kind,
    Source,
    Table,
    Tone,
    Unit,
    paragraphs,
    session_of,
)
from warmside.plugins.quarantine.clock.state import QuarantineState
from warmside.plugins.quarantine.commands.recording import AnimalName, running_or_refused
from warmside.plugins.quarantine.odds.freedom import BAYES, Range
from warmside.plugins.quarantine.odds.methods import Method, Performance, methods
from warmside.plugins.quarantine.odds.priors import Prior, agents_meant, known_figures, prior_of
from warmside.plugins.quarantine.odds.risk import MoreNegatives, negatives_by_method, remaining_risk
from warmside.plugins.quarantine.reading.standing import positive_agents
from warmside.plugins.quarantine.reading.stored import laboratory_figures
from warmside.plugins.quarantine.telling.wording import DEFER, INDEPENDENCE

NO_FIGURE, POSITIVE = "no figure", "was positive"
WAS_POSITIVE = (
    "a test was positive: no negatives undo it, and no chance is worked out for what it looks for; "
    "what it means is for a reptile vet to say"
)
HOW_TO_READ = (
    "neg.: negatives that count; chance free: after them; to 95 % and 99 %: how many more would "
    "do, with the best and with the worst figures"
)
COLUMNS = (
    Column("agent", "agent", text=False),
    Column("looks_for", "agent"),
    Column("method", "method", Kind.CODE, text=False),
    Column("next_test", "next test"),
    Column("prior", "infected before any test", Unit.PROBABILITY, text=False),
    Column("negatives", "neg.", Unit.COUNT),
    Column("probability_free", "chance free", Unit.PROBABILITY),
    Column("more_for_95_percent", "to 95 %"),
    Column("more_for_99_percent", "to 99 %"),
    Column("sources", "sources of the sensitivity", Kind.LIST, text=False),
)


def risk(
    context: typer.Context,
    animal: AnimalName,
    agent: Annotated[str | None, typer.Option(help="Only this agent: cryptosporidium …")] = None,
    from_survey: Annotated[
        str | None, typer.Option("--survey", help="Prior from this survey alone.")
    ] = None,
    prior: Annotated[float | None, typer.Option(help="A prior of your own: 0.1.")] = None,
    on: Annotated[str | None, typer.Option(help="As of that day.")] = None,
) -> Answer:
    """What the counted negatives leave open for each agent, over the published figures."""
    session = session_of(context)
    with session.ask() as ask:
        day = session.day(on, ask.book)
        subject = ask.book.animal(animal)
        state = running_or_refused(ask, subject, day)
        figures = known_figures(laboratory_figures(ask.book))
        own = set(laboratory_figures(ask.book))
        positive = positive_agents(ask, subject.id, state, day)
    group = subject.species.group
    agents = agents_meant(agent, from_survey, group)
    usable = {m.key: figures[m.key] for m in methods() if _usable(m, group, figures, own)}
    priors = {a: p for a in agents if (p := prior_of(a, group, from_survey, prior)) is not None}
    known = {a: p for a, p in priors.items() if a not in positive}
    rows = [row for a in agents for row in _rows(state, a, known.get(a), usable, a in positive)]
    return Answer(
        f"{subject.label}, remaining risk on {day}",
        (
            Table("risks", COLUMNS, tuple(rows)),
            *paragraphs(HOW_TO_READ, *(_prior_words(a, p) for a, p in known.items())),
            *paragraphs(*([WAS_POSITIVE] if positive & set(agents) else []), tone=Tone.CAUTION),
            *paragraphs(INDEPENDENCE, DEFER, tone=Tone.CAUTION),
            *paragraphs(*_hints(agents, usable, group), tone=Tone.HINT),
        ),
    )


def _usable(
    method: Method, group: str, figures: Mapping[str, Performance], own: Collection[str]
) -> bool:
    """Whether a figure of the method holds for the animal: studied in its like, or the keeper's."""
    return method.key in own or (method.key in figures and method.applies_to(group))


def _hints(agents: list[str], figures: Mapping[str, Performance], group: str) -> list[str]:
    fit = [m for m in methods() if m.agent in agents and m.applies_to(group)]
    unknown = [m.key for m in fit if m.key not in figures]
    hints = [f"no figure on file for: {', '.join(unknown)}"] if unknown else []
    if len(fit) < sum(m.agent in agents for m in methods()):
        hints.append("methods that were studied in other animals say nothing of this one")
    return [*hints, "warmside quarantine laboratory METHOD --sensitivity 0.8 (your own figures)"]


def _prior_words(agent: str, prior: Prior) -> str:
    """The prior with its sources, and that a survey is not this collection."""
    span = f"{prior.range.low:.3g} to {prior.range.high:.3g}"
    told = "; ".join(dict.fromkeys(s.text for s in prior.sources))
    return (
        f"{agent}: infected before any test {span}, a guide and not this animal's figure ({told})"
    )


def _rows(
    state: QuarantineState,
    agent: str,
    prior: Prior | None,
    figures: Mapping[str, Performance],
    positive: bool,
) -> list[tuple[Cell, ...]]:
    """A row for each method of the agent whose figures are known; one that says so if none is."""
    name = next(m.looks_for for m in methods() if m.agent == agent)
    counts = negatives_by_method(state, agent)
    evidence = [figures[k].negatives(n) for k, n in counts.items() if k in figures]
    known = [m for m in methods() if m.agent == agent and m.key in figures]
    if prior is None or not known:
        span = None if prior is None else _prior_range(prior)
        said = POSITIVE if positive else NO_FIGURE
        done = sum(counts.values())
        return [(agent, name, None, said, span, done, None, None, None, ())]
    found: list[tuple[Cell, ...]] = []
    for m in known:
        left = remaining_risk(prior.range, evidence, figures[m.key])
        free = _range(left.free, f"{left.negatives} negative", BAYES)
        more = [_more_words(more) for more in left.more]
        told = tuple(source.text for source in figures[m.key].sources)
        span = _prior_range(prior)
        found.append((agent, name, m.key, m.key, span, left.negatives, free, *more, told))
    return found


def _prior_range(prior: Prior) -> Estimate:
    return _range(prior.range, "surveys, or the keeper's own", prior.sources[0])


def _range(span: Range, rule: str, source: Source) -> Estimate:
    return Estimate(None, span.low, span.high, Unit.PROBABILITY, Basis(rule, source))


def _more_words(more: MoreNegatives) -> str:
    if more.most is None:
        return "not reached" if more.fewest is None else f"{more.fewest} or more"
    assert more.fewest is not None
    return str(more.most) if more.fewest == more.most else f"{more.fewest} to {more.most}"
