"""What tests of a group tell: how surely they find an infection, and how many it takes."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from warmside.api import Basis, Column, Fact, Part, Table, Tone, Unit, Words
from warmside.plugins.quarantine.odds.discount import found_needed, free_after
from warmside.plugins.quarantine.odds.groups import GROUP, population_sensitivity, sample_size
from warmside.plugins.quarantine.odds.imperfect import (
    EXACT,
    Cut,
    GroupTest,
    cut_at,
    cuts,
    likelihoods,
    sample_and_cut,
)

SURE = 0.95  # common practice, no source: how surely a free group is to pass
CUT_COLUMNS = (
    Column("positives", "cut-point", Unit.COUNT),
    Column("found", "infected group found", Unit.PROBABILITY),
    Column("passed", "free group passes", Unit.PROBABILITY),
)
CUT_POINT = "cut-point: positives from which the group counts as infected"
A_POSITIVE = (
    "a positive animal is for a reptile vet to judge, whatever the figures of the group say"
)
FOUND = "chance that an infected group is found"
PASSED = "chance that a free group passes"
NOT_ENOUGH = "testing every animal once is not enough for this target"


class GroupQuestion(Struct, frozen=True):
    """Either `sampled` animals of which `negatives` were negative, or a `target` to reach.

    `cut` is the number of positives from which the group counts as infected (None: the first that
    a free group stays below with 0.95). `free` is the chance that the group was free before it was
    tested, already lowered by that of an introduction; None where it is not asked.
    """

    test: GroupTest
    sampled: int | None
    negatives: int | None
    target: float | None
    cut: int | None
    free: float | None

    @property
    def basis(self) -> Basis:
        """What is asked, and whose formula answers."""
        t = self.test
        size = f"a group of {t.population}" if t.population is not None else "a large group"
        rule = f"{size}, {t.prevalence:g} infected, sensitivity {t.sensitivity:g}"
        if t.specificity == 1:
            return Basis(rule, GROUP)
        return Basis(f"{rule}, specificity {t.specificity:g}", EXACT)


def group_parts(asked: GroupQuestion) -> Iterator[Part]:
    """The answer as parts."""
    if asked.target is not None:
        yield from _to_sample(asked, asked.target)
    elif asked.test.specificity == 1:
        yield from _perfect(asked)
    else:
        yield from _imperfect(asked)


def _perfect(asked: GroupQuestion) -> Iterator[Part]:
    t, sampled = asked.test, asked.sampled or 0
    found = population_sensitivity(sampled, t.prevalence, t.sensitivity, t.population)
    title = "chance that one of them tests positive, if the group is infected"
    yield Fact("population_sensitivity", title, found, Unit.PROBABILITY, asked.basis)
    if asked.negatives is not None and asked.negatives < sampled:
        yield Words("a positive is a true one where the specificity is 1: the group is infected")
        yield Words(A_POSITIVE, Tone.CAUTION)
    elif asked.free is not None:
        yield _free(free_after(asked.free, found), "all negative", asked)


def _imperfect(asked: GroupQuestion) -> Iterator[Part]:
    t, sampled = asked.test, asked.sampled or 0
    tried = list(cuts(t, sampled, SURE))
    yield Table("cuts", CUT_COLUMNS, tuple((c.positives, c.found, c.passed) for c in tried))
    cut = tried[-1] if asked.cut is None else cut_at(t, sampled, asked.cut)
    yield from _of_cut(cut, asked.basis)
    if asked.negatives is not None:
        yield from _outcome(asked, sampled, sampled - asked.negatives)
    elif asked.free is not None:
        rule = f"fewer than {cut.positives} positive"
        yield _free(free_after(asked.free, cut.found, cut.passed), rule, asked)


def _of_cut(cut: Cut, basis: Basis) -> Iterator[Part]:
    yield Fact("cut_point", CUT_POINT, cut.positives, Unit.COUNT, basis)
    yield Fact("population_sensitivity", FOUND, cut.found, Unit.PROBABILITY, basis)
    yield Fact("population_specificity", PASSED, cut.passed, Unit.PROBABILITY, basis)


def _outcome(asked: GroupQuestion, sampled: int, positives: int) -> Iterator[Part]:
    """How well what was found fits an infected group, and a free one."""
    t = asked.test
    few = 1 - cut_at(t, sampled, positives + 1).found if positives < sampled else 1.0
    many = 1 - cut_at(t, sampled, positives).passed if positives else 1.0
    title = f"chance of at most {positives} positive, if it is infected"
    yield Fact("as_few_if_infected", title, few, Unit.PROBABILITY, asked.basis)
    title = f"chance of at least {positives} positive, if it is free"
    yield Fact("as_many_if_free", title, many, Unit.PROBABILITY, asked.basis)
    if positives:
        yield Words(A_POSITIVE, Tone.CAUTION)
    if asked.free is not None:
        infected, free = likelihoods(t, sampled, positives)
        after = free_after(asked.free, 1 - infected, free)
        yield _free(after, f"{positives} positive of {sampled}", asked)


def _to_sample(asked: GroupQuestion, target: float) -> Iterator[Part]:
    """The number to test, and from how many positives the group counts as infected."""
    t = asked.test
    passed = 1.0 if t.specificity == 1 else SURE
    wanted = target if asked.free is None else found_needed(asked.free, target, passed)
    if not wanted:
        yield _size(asked, None if wanted is None else 0)
        known = "no test reaches it" if wanted is None else "it is reached without a test"
        yield Words(f"with what was known before, {known}")
    elif t.specificity == 1:
        size = sample_size(wanted, t.prevalence, t.sensitivity, t.population)
        yield _size(asked, size)
        yield from [Words(NOT_ENOUGH)] if size is None else []
    else:
        cut = sample_and_cut(t, wanted, target if asked.free is None else SURE)
        yield _size(asked, cut.sampled if cut else None)
        yield from _of_cut(cut, asked.basis) if cut else [Words(NOT_ENOUGH)]


def _size(asked: GroupQuestion, size: int | None) -> Fact:
    rule = asked.basis.rule
    if asked.free is not None:
        rule += f"; free before with {asked.free:.4g}, afterwards with {asked.target:g}"
    basis = Basis(rule, asked.basis.source)
    return Fact("sample_size", "animals to test", size, Unit.COUNT, basis)


def _free(after: float, rule: str, asked: GroupQuestion) -> Fact:
    basis = Basis(f"{rule}; free before with {asked.free:.4g}", asked.basis.source)
    return Fact("probability_free", "chance that the group is free", after, Unit.PROBABILITY, basis)
