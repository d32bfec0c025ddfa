"""Odds of pairings against exact fractions and textbook ratios."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gene_families import BOTH, HET, ONE, A, B, normal, perhaps, surely
from gene_families import young as child
from warmside.api import BadInput
from warmside.plugins.genes.inheritance.facts import Candidates, Member, Prior
from warmside.plugins.genes.inheritance.group import Group, SexChromosomes
from warmside.plugins.genes.inheritance.loci import Allele, Locus, Shows, genotype
from warmside.plugins.genes.inheritance.model import Family, Model
from warmside.plugins.genes.inheritance.pairing import Offspring, carried, offspring


def pair(*priors: Prior, groups: tuple[Group, ...] = (ONE,), tell=None) -> Offspring:
    members = (Member("D", "female"), Member("S", "male"))
    model = Model(Family(members, groups, (), priors), [("D", "S")])
    return offspring(model, "D", "S", *([tell] if tell else []))


def of(dam: float | None, sire: float | None) -> Offspring:
    priors = [surely(id) if p is None else perhaps(id, p) for id, p in (("D", dam), ("S", sire))]
    return pair(*priors)


@pytest.mark.parametrize(
    ("dam", "sire", "chance"),
    [
        (2 / 3, 2 / 3, 3367 / 9216),
        (1 / 2, 1 / 2, 3367 / 16384),
        (2 / 3, 1.0, 3367 / 6144),
        (2 / 3, 1 / 2, 3367 / 12288),
        (2 / 3, None, 21 / 32),
        (1 / 2, None, 63 / 128),
    ],
)
def test_young_share_the_doubt_about_their_parents(
    dam: float, sire: float | None, chance: float
) -> None:
    """At least one visual in six, in exact fractions: the odds of each must not be multiplied."""
    assert of(dam, sire).at_least_one(("a",), 6) == pytest.approx(chance, abs=1e-12)


@pytest.mark.parametrize(
    ("loci", "in_twenty"), [(1, 0.996829), (2, 0.724941), (3, 0.270187), (4, 0.075293)]
)
def test_several_loci_of_which_both_parents_are_het(loci: int, in_twenty: float) -> None:
    """All visual in (1/4)^k, all normal in (3/4)^k (Mendel's ratios; textbook)."""
    each = [Locus(f"l{n}", (Allele(f"l{n}", Shows.RECESSIVE),)) for n in range(loci)]
    het = [Prior(id, x.name, {genotype("+", x.name): 1.0}) for id in "DS" for x in each]
    found = pair(*het, groups=tuple(Group((x,)) for x in each))
    all_visual = tuple(x.name for x in each)
    assert found.chances()[all_visual] == pytest.approx(0.25**loci, abs=1e-12)
    assert found.chances()[("normal",) * loci] == pytest.approx(0.75**loci, abs=1e-12)
    assert found.at_least_one(all_visual, 20) == pytest.approx(in_twenty, abs=5e-7)


@pytest.mark.parametrize(
    ("rate", "coupled", "both", "one_only", "neither"),
    [
        (0.1, True, 81 / 400, 19 / 400, 281 / 400),
        (0.1, False, 1 / 400, 99 / 400, 201 / 400),
        (0.2, True, 4 / 25, 9 / 100, 33 / 50),
        (0.2, False, 1 / 100, 6 / 25, 51 / 100),
        (0.5, True, 1 / 16, 3 / 16, 9 / 16),
    ],
)
def test_two_linked_recessives(
    rate: float, coupled: bool, both: float, one_only: float, neither: float
) -> None:
    """The F2 of a double het: ((1-r)/2)^2 in coupling, (r/2)^2 in repulsion (textbook)."""
    linked = Group((A, B), (rate,))
    model = Model(
        Family((Member("D", "female"), Member("S", "male")), (linked,), (), ()), [("D", "S")]
    )
    phase = (("+", "+"), ("a", "b")) if coupled else (("+", "b"), ("a", "+"))
    state = linked.place[tuple(linked.haplotypes.index(h) for h in phase)]  # type: ignore[index]
    chances = {}
    for (h1, p1), (h2, p2) in product(linked.gametes(state).items(), repeat=2):
        made = linked.place[h1, h2]
        look = tuple(x.look(linked.genotype(made, n)) for n, x in enumerate(linked.loci))
        chances[look] = chances.get(look, 0.0) + p1 * p2
    assert model.family.groups == (linked,)
    expected = {
        ("a", "b"): both,
        ("a", "normal"): one_only,
        ("normal", "b"): one_only,
        ("normal", "normal"): neither,
    }
    assert chances == {look: pytest.approx(p, abs=1e-12) for look, p in expected.items() if p}


def test_two_alleles_of_one_locus() -> None:
    """a/u with +/a: a quarter each of +/a, +/u, a/a and a/u."""
    locus = Locus(
        "albino",
        (Allele("a", Shows.RECESSIVE), Allele("u", Shows.RECESSIVE)),
        {("a", "u"): "between"},
    )
    priors = (Prior("D", "albino", {("a", "u"): 1.0}), Prior("S", "albino", {("+", "a"): 1.0}))
    both = pair(*priors, groups=(Group((locus,)),), tell=carried)
    assert both.chances() == dict.fromkeys([("+/a",), ("+/u",), ("a/a",), ("a/u",)], 0.25)
    looks = pair(*priors, groups=(Group((locus,)),)).chances()
    assert looks == {("normal",): 0.5, ("a",): 0.25, ("between",): 0.25}


def test_a_visual_male_on_z_gives_visual_daughters_and_het_sons() -> None:
    """Z-linked recessive, ZaZa x Z+W (textbook)."""
    on_z = Group((A,), chromosomes=SexChromosomes.ZW)
    priors = (perhaps("D", 0.0), surely("S"))
    wild = {"a": {"a": 0.0}}
    members = (Member("D", "female"), Member("S", "male"))
    model = Model(Family(members, (on_z,), (), priors, wild), [("D", "S")])
    found = offspring(model, "D", "S").chances()
    assert found == {("a", "female"): 0.5, ("normal", "male"): 0.5}


@pytest.mark.parametrize(
    ("dam", "sire", "young", "expected"),
    [
        (2 / 3, 2 / 3, 6, 2777 / 5849),
        (1 / 2, 1 / 2, 6, 4825 / 13017),
        (2 / 3, 1 / 2, 6, 4825 / 8921),
        (1 / 2, 1.0, 8, 6561 / 72097),
        (2 / 3, 1.0, 4, 81 / 209),
        (2 / 3, None, 5, 2 / 34),
        (1 / 2, None, 3, 1 / 9),
    ],
)
def test_normal_young_lower_the_chance_of_the_dam(
    dam: float, sire: float | None, young: int, expected: float
) -> None:
    """Posterior by p q^n / (p q^n + 1 - p) and its extension to two doubtful parents."""
    members = (Member("D", "female"), Member("S", "male"))

    pups = tuple(child(f"y{n}", "D", "S") for n in range(young))
    priors = (perhaps("D", dam), surely("S") if sire is None else perhaps("S", sire))
    facts = normal(*(str(p.id) for p in pups))
    model = Model(Family((*members, *pups), (ONE,), facts, priors))
    assert model.genotypes("D", "a")[HET] == pytest.approx(expected, abs=1e-12)


def test_what_was_seen_changes_what_is_to_be_expected() -> None:
    pairing = of(2 / 3, None)
    after = pairing.after({("normal",): 5})
    assert after.chances()[("a",)] == pytest.approx((2 / 34) / 2, abs=1e-12)
    assert pairing.after({("a",): 1}).chances()[("a",)] == pytest.approx(0.5, abs=1e-12)
    with pytest.raises(BadInput, match="cannot have had"):
        of(None, None).after({("normal",): 1})


@pytest.mark.parametrize(
    ("dam", "sire", "sure", "young"),
    [(1.0, None, 0.95, 5), (1.0, 1.0, 0.95, 11), (1.0, None, 0.99, 7), (1.0, 1.0, 0.99, 17)],
)
def test_young_needed_to_see_one(dam: float, sire: float | None, sure: float, young: int) -> None:
    """1 - (1 - q)^n (textbook)."""
    pair = of(dam, sire)
    assert pair.at_least_one(("a",), young) >= sure > pair.at_least_one(("a",), young - 1)


@given(st.floats(0, 1), st.floats(0, 1), st.integers(1, 30))
def test_chances_are_chances(dam: float, sire: float, young: int) -> None:
    found = of(dam, sire)
    assert sum(found.chances().values()) == pytest.approx(1)
    once, more = (found.at_least_one(("a",), n) for n in (young, young + 1))
    assert -1e-12 <= once <= more + 1e-12 <= 1 + 2e-12


def test_many_possible_genotypes_are_refused_in_a_line() -> None:
    each = [Locus(f"l{n}", (Allele(f"l{n}", Shows.RECESSIVE),)) for n in range(14)]
    groups = tuple(Group((x,)) for x in each)
    members = (Member("D", "female"), Member("S", "male"))
    frequencies = {x.name: {x.name: 0.3} for x in each}
    model = Model(Family(members, groups, (), (), frequencies), [("D", "S")])
    with pytest.raises(BadInput, match="fewer traits"):
        offspring(model, "D", "S")
    assert BOTH == ("a", "a")


def unsure_sire(share: float) -> Offspring:
    """Y, of a wild dam, by S (both recessives) or else by a wild male; paired with V, as S is."""
    members = (
        Member("V", "female"),
        Member("S", "male"),
        Member("W", "male"),
        Member("M", "female"),
        Member("Y", "male", Candidates({"M": 1.0}), Candidates({"S": share, "W": 1 - share})),
    )
    wild = [Prior(id, x.name, {("+", "+"): 1.0}) for id in "WM" for x in (A, B)]
    both = [Prior(id, x.name, {genotype(x.name, x.name): 1.0}) for id in "VS" for x in (A, B)]
    family = Family(members, (ONE, Group((B,))), (), tuple(wild + both))
    model = Model(family, [("V", "Y")])
    assert model.is_joint
    return offspring(model, "V", "Y")


@pytest.mark.parametrize("share", [0.0001, 0.3, 0.5, 0.9])
def test_an_unsure_sire_gives_both_traits_or_neither(share: float) -> None:
    """Het for both with the chance of the sire, for neither else: by hand, share / 4 for both."""
    chances = unsure_sire(share).chances()
    assert chances[("a", "b")] == pytest.approx(share / 4, abs=1e-12)
    assert chances[("a", "normal")] == pytest.approx(share / 4, abs=1e-12)
    assert chances[("normal", "normal")] == pytest.approx(1 - 3 * share / 4, abs=1e-12)


@given(st.floats(0.01, 0.99), st.integers(1, 30))
def test_a_clutch_of_an_unsure_sire_is_of_one_sire(share: float, young: int) -> None:
    """At least one that shows both: only if he is the sire, and then 1 - (3/4)^n."""
    once = unsure_sire(share).at_least_one(("a", "b"), young)
    assert once == pytest.approx(share * (1 - 0.75**young), abs=1e-9)
