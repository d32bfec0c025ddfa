"""`warmside quarantine odds`: what negative tests would mean, without an animal."""

from __future__ import annotations

from typing import Annotated

import typer

from warmside.api import (
    Answer,
    BadInput,
    Basis,
    Fact,
    Part,
    Tone,
    Unit,
    Words,
    paragraphs,
)
from warmside.plugins.quarantine.odds.freedom import BAYES, negatives_needed, probability_free
from warmside.plugins.quarantine.odds.groups import GROUP, population_sensitivity, sample_size
from warmside.plugins.quarantine.telling.wording import DEFER, INDEPENDENCE

NEEDS = (
    "for one animal give --prior, --sensitivity and --negatives; for a group --prevalence, "
    "--sensitivity and --sampled or --target"
)


def odds(
    context: typer.Context,
    prior: Annotated[
        float | None, typer.Option(help="Share infected before any test: 0.1.")
    ] = None,
    sensitivity: Annotated[
        float | None, typer.Option(help="Share of the infected that test positive.")
    ] = None,
    specificity: Annotated[float, typer.Option(help="Share of the free that test negative.")] = 1.0,
    negatives: Annotated[int, typer.Option(help="Negative results so far.")] = 0,
    population: Annotated[int | None, typer.Option(help="Animals in the group.")] = None,
    sampled: Annotated[int | None, typer.Option(help="Animals tested once.")] = None,
    prevalence: Annotated[
        float | None, typer.Option(help="Least share infected worth finding: 0.05.")
    ] = None,
    target: Annotated[
        float | None, typer.Option(help="Instead of --sampled: how sure to be, 0.95.")
    ] = None,
) -> Answer:
    """What k negative tests mean for one animal, or n tested of a group."""
    if sensitivity is None:
        raise BadInput(f"the sensitivity of the test is missing; {NEEDS}")
    if prior is not None and prevalence is not None:
        raise BadInput(f"--prior is for one animal, --prevalence for a group; {NEEDS}")
    if prevalence is not None:
        parts = _of_group(prevalence, sensitivity, population, sampled, target)
    elif prior is not None:
        _no_group_options(population, sampled, target)
        parts = _of_one(prior, sensitivity, specificity, negatives)
    else:
        raise BadInput(f"the share infected is missing; {NEEDS}")
    return Answer("What negative tests would mean", (*parts, *paragraphs(DEFER, tone=Tone.CAUTION)))


def _no_group_options(population: int | None, sampled: int | None, target: float | None) -> None:
    if any(value is not None for value in (population, sampled, target)):
        raise BadInput(f"--population, --sampled and --target go with --prevalence; {NEEDS}")


def _of_one(prior: float, se: float, sp: float, negatives: int) -> tuple[Part, ...]:
    free = probability_free(prior, se, sp, negatives)
    rule = f"{negatives} negative, prior {prior:g}, sensitivity {se:g}, specificity {sp:g}"
    facts: list[Part] = [
        Fact(
            "probability_free",
            "probability free of the infection",
            free,
            Unit.PROBABILITY,
            Basis(rule, BAYES),
        )
    ]
    for percent in (95, 99):
        needed = negatives_needed(prior, se, sp, percent / 100)
        facts.append(
            Fact(
                f"negatives_for_{percent}_percent", f"negatives for {percent} %", needed, Unit.COUNT
            )
        )
    unreachable = [f for f in facts if isinstance(f, Fact) and f.value is None]
    if unreachable:
        facts.append(Words("no number of such negatives reaches it"))
    return (*facts, *paragraphs(INDEPENDENCE, tone=Tone.CAUTION))


def _of_group(
    prevalence: float,
    se: float,
    population: int | None,
    sampled: int | None,
    target: float | None,
) -> tuple[Part, ...]:
    if (sampled is None) == (target is None):
        raise BadInput(f"for a group give either --sampled or --target; {NEEDS}")
    size = f"a group of {population}" if population is not None else "a large group"
    rule = f"{size}, {prevalence:g} infected, sensitivity {se:g}"
    if sampled is not None:
        found = population_sensitivity(sampled, prevalence, se, population)
        title = "chance that one of them tests positive, if the group is infected"
        return (Fact("population_sensitivity", title, found, Unit.PROBABILITY, Basis(rule, GROUP)),)
    assert target is not None
    wanted = sample_size(target, prevalence, se, population)
    fact = Fact("sample_size", "animals to test", wanted, Unit.COUNT, Basis(rule, GROUP))
    if wanted is None:
        return (fact, Words("testing every animal once is not enough for this target"))
    return (fact,)
