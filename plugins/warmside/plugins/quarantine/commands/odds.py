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
from warmside.plugins.quarantine.odds.discount import discounted
from warmside.plugins.quarantine.odds.freedom import BAYES, negatives_needed, probability_free
from warmside.plugins.quarantine.odds.imperfect import GroupTest
from warmside.plugins.quarantine.odds.shares import share
from warmside.plugins.quarantine.telling.group_odds import GroupQuestion, group_parts
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
    negatives: Annotated[
        int | None, typer.Option(help="Negative results so far; of a group, of those sampled.")
    ] = None,
    population: Annotated[int | None, typer.Option(help="Animals in the group.")] = None,
    sampled: Annotated[int | None, typer.Option(help="Animals tested once.")] = None,
    prevalence: Annotated[
        float | None, typer.Option(help="Least share infected worth finding: 0.05.")
    ] = None,
    target: Annotated[
        float | None, typer.Option(help="Instead of --sampled: how sure to be, 0.95.")
    ] = None,
    cut_point: Annotated[
        int | None, typer.Option(help="Positives from which a group counts as infected.")
    ] = None,
    free_before: Annotated[
        float | None, typer.Option(help="How sure the group was free before: 0.5.")
    ] = None,
    introduced: Annotated[
        float, typer.Option(help="Chance that it was brought in since: 0.01.")
    ] = 0.0,
) -> Answer:
    """What k negative tests mean for one animal, or n tested of a group."""
    if sensitivity is None:
        raise BadInput(f"the sensitivity of the test is missing; {NEEDS}")
    if prior is not None and prevalence is not None:
        raise BadInput(f"--prior is for one animal, --prevalence for a group; {NEEDS}")
    if prevalence is not None:
        test = GroupTest(sensitivity, specificity, prevalence, population)
        free = _known_before(free_before, introduced)
        asked = GroupQuestion(test, sampled, negatives, target, cut_point, free)
        _check_group(asked)
        parts = tuple(group_parts(asked))
    elif prior is not None:
        _no_group_options(population, sampled, target, cut_point, free_before)
        now = 1 - discounted(1 - share("prior", prior), introduced)
        parts = _of_one(now, sensitivity, specificity, negatives or 0)
    else:
        raise BadInput(f"the share infected is missing; {NEEDS}")
    return Answer("What negative tests would mean", (*parts, *paragraphs(DEFER, tone=Tone.CAUTION)))


def _no_group_options(*values: float | None) -> None:
    if any(value is not None for value in values):
        raise BadInput(
            "--population, --sampled, --target, --cut-point and --free-before go with "
            f"--prevalence; {NEEDS}"
        )


def _known_before(free: float | None, introduced: float) -> float | None:
    """The chance that the group is free today; raises BadInput for half of what it needs."""
    if free is not None:
        return discounted(free, introduced)
    if introduced:
        raise BadInput("with --introduced say how sure it was free before: --free-before 0.5")
    return None


def _check_group(asked: GroupQuestion) -> None:
    """Raise BadInput for options that do not go together."""
    if (asked.sampled is None) == (asked.target is None):
        raise BadInput(f"for a group give either --sampled or --target; {NEEDS}")
    if asked.target is not None and (asked.negatives is not None or asked.cut is not None):
        raise BadInput("--negatives and --cut-point go with --sampled, not with --target")
    if asked.cut is not None and asked.test.specificity == 1:
        raise BadInput("with a specificity of 1 one positive is enough; leave --cut-point out")
    if asked.negatives is not None and not 0 <= asked.negatives <= (asked.sampled or 0):
        raise BadInput(
            f"--negatives is how many of the {asked.sampled} sampled, not {asked.negatives}"
        )


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
