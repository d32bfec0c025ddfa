"""Chances in whole families, worked out by hand in exact fractions.

Each value was found by adding up all combinations in fractions and, by a second route, with an
independent library for Bayesian networks (pgmpy 1.1.2).
"""

from __future__ import annotations

import pytest

from gene_families import (
    BOTH,
    FREE,
    HET,
    ONE,
    A,
    B,
    normal,
    perhaps,
    random_mating,
    surely,
    visual,
    young,
)
from warmside.plugins.genes.inheritance.clash import clash
from warmside.plugins.genes.inheritance.facts import Candidates, Member, Prior
from warmside.plugins.genes.inheritance.group import Group, SexChromosomes
from warmside.plugins.genes.inheritance.loci import genotype
from warmside.plugins.genes.inheritance.model import Family, Model


def near(value: float) -> object:
    return pytest.approx(value, abs=1e-12)


@pytest.mark.parametrize(
    ("seen", "of_dam", "of_young"), [(normal, 19 / 29, 11 / 29), (visual, 1.0, None)]
)
def test_an_unknown_sire_is_a_random_animal(seen, of_dam: float, of_young: float | None) -> None:
    members = (Member("D", "female"), Member("Y", "unknown", Candidates({"D": 1.0})))
    facts = (*normal("D"), *seen("Y"))
    model = Model(Family(members, (ONE,), facts, (perhaps("D", 2 / 3),), {"a": {"a": 0.1}}))
    assert model.genotypes("D", "a")[HET] == near(of_dam)
    if of_young is not None:
        assert model.genotypes("Y", "a")[HET] == near(of_young)


def test_two_test_matings_of_one_dam() -> None:
    pups = [young(f"m{n}", "F", "M") for n in range(3)] + [
        young(f"n{n}", "F", "N") for n in range(4)
    ]
    members = (
        *(Member(id, sex) for id, sex in (("G1", "male"), ("G2", "female"), ("M", "male"))),
        Member("N", "male"),
        young("F", "G2", "G1", "female"),
        *pups,
        young("x", "F", "N"),
    )
    facts = (*normal("F", *(str(p.id) for p in pups)), *visual("M"))
    priors = (*(perhaps(id, 1.0) for id in ("G1", "G2", "N")), surely("M"))
    model = Model(Family(members, (ONE,), facts, priors))
    assert model.genotypes("F", "a")[HET] == near(81 / 1105)
    assert model.genotypes("m1", "a")[HET] == near(1.0)
    assert model.genotypes("n3", "a")[HET] == near(566 / 1105)
    assert model.genotypes("x", "a")[BOTH] == near(81 / 4420)


FAMILIES = {"C": "AB", "D": "AB", "G": "CE", "H": "KD", "I": "GH"}
COUSINS = (
    *(Member(id) for id in "ABEK"),
    *(young(id, *parents) for id, parents in FAMILIES.items()),
)
BEFORE = (
    perhaps("A", 1.0),
    perhaps("B", 0.5),
    random_mating("E", 0.05),
    random_mating("K", 0.05),
)


def test_young_of_cousins() -> None:
    """A loop: the parents of I share the grandparents A and B."""
    model = Model(Family(COUSINS, (ONE,), normal(*"BCDEKGH"), BEFORE))
    assert model.genotypes("C", "a")[HET] == near(5945 / 10733)
    assert model.genotypes("I", "a")[BOTH] == near(1013 / 42932)
    assert model.genotypes("I", "a")[HET] == near(5533 / 21466)


def test_a_visual_one_tells_of_all_its_ancestors() -> None:
    facts = (*normal(*"BCDEKGH"), *visual("I"))
    model = Model(Family(COUSINS, (ONE,), facts, BEFORE))
    found = {id: model.genotypes(id, "a")[HET] for id in "BCEG"}
    assert found == {
        "B": near(484 / 1013),
        "C": near(945 / 1013),
        "E": near(158 / 1013),
        "G": near(1),
    }


def test_a_recessive_on_the_z_chromosome() -> None:
    on_z = Group((A,), chromosomes=SexChromosomes.ZW)
    daughters = [young(f"d{n}", "D", "S", "female") for n in range(4)]
    later = [young(f"t{n}", "U", "T", "female") for n in range(3)]
    members = (
        Member("S", "male"),
        Member("D", "female"),
        Member("U", "female"),
        *daughters,
        young("T", "D", "S", "male"),
        *later,
        young("x", "U", "T", "female"),
    )
    facts = normal("T", *(str(m.id) for m in (*daughters, *later)))
    wild = {"a": {"a": 0.0}}
    model = Model(Family(members, (on_z,), facts, (perhaps("S", 2 / 3),), wild))
    assert model.genotypes("S", "a")[HET] == near(9 / 137)
    assert model.genotypes("T", "a")[HET] == near(1 / 137)
    assert model.genotypes("x", "a")[genotype("-", "a")] == near(1 / 274)


def one_of_three(pups: int) -> tuple[Member, ...]:
    sire = Candidates({"S1": 0.5, "S2": 0.3, "S3": 0.2}, together="clutch")
    dam = Candidates({"F": 1.0})
    parents = (Member("F", "female"), *(Member(id, "male") for id in ("S1", "S2", "S3")))
    return (*parents, *(Member(f"y{n}", "unknown", dam, sire) for n in range(pups)))


THREE = (surely("F"), perhaps("S1", 1.0), perhaps("S2", 0.0), perhaps("S3", 2 / 3))


def test_which_sire_it_was_when_all_look_normal() -> None:
    facts = (*visual("F"), *normal("y0", "y1", "y2", "y3"))
    model = Model(Family(one_of_three(4), (ONE,), facts, THREE))
    assert model.parents("y0", "sire") == {
        "S1": near(1 / 13),
        "S2": near(48 / 65),
        "S3": near(12 / 65),
    }
    assert model.genotypes("S3", "a")[HET] == near(22 / 39)


def test_which_sire_it_was_when_one_is_visual() -> None:
    facts = (*visual("F", "y3"), *normal("y0", "y1", "y2"))
    model = Model(Family(one_of_three(4), (ONE,), facts, THREE))
    in_19 = {"S1": 15, "S2": 0, "S3": 4}
    assert model.parents("y0", "sire") == {id: near(n / 19) for id, n in in_19.items()}
    assert model.genotypes("S3", "a")[HET] == near(14 / 19)


def test_young_of_a_clutch_that_may_have_several_sires_choose_each_for_itself() -> None:
    """Alone, each visual young is worth as much for S3 as for itself, not for the clutch."""
    sire = Candidates({"S1": 0.5, "S2": 0.5})
    members = (
        Member("F", "female"),
        Member("S1", "male"),
        Member("S2", "male"),
        *(Member(id, "unknown", Candidates({"F": 1.0}), sire) for id in ("u", "v")),
    )
    priors = (surely("F"), perhaps("S1", 1.0), perhaps("S2", 0.0))
    facts = (*visual("F", "u"), *normal("v"))
    model = Model(Family(members, (ONE,), facts, priors))
    assert model.parents("u", "sire")["S1"] == near(1.0)
    assert model.parents("v", "sire")["S1"] == near(1 / 3)


def test_two_linked_loci_of_unknown_phase() -> None:
    linked = Group((A, B), (0.1,))
    seen = ("a", "b", "a", "", "b")
    pups = [young(f"y{n}", "V", "X") for n in range(6)]
    members = (Member("X", "male"), Member("V", "female"), *pups)
    facts = [*visual("V"), *visual("V", locus=B)]
    for n, shown in enumerate(seen):
        facts += visual(f"y{n}") if "a" in shown else normal(f"y{n}")
        facts += visual(f"y{n}", locus=B) if "b" in shown else normal(f"y{n}", locus=B)
    priors = (surely("V"), surely("V", B), perhaps("X", 1.0), perhaps("X", 1.0, B))
    model = Model(Family(members, (linked,), tuple(facts), priors))
    phases = dict(zip(linked.states, model.states(0, "X"), strict=True))
    names = {(linked.haplotypes[a], linked.haplotypes[b]): p for (a, b), p in phases.items() if p}
    assert names[("+", "+"), ("a", "b")] == near(1 / 730)
    sixth = {
        (linked.genotype(s, 0), linked.genotype(s, 1)): chance
        for s, chance in enumerate(model.states(0, "y5"))
    }
    assert sixth[BOTH, ("b", "b")] == near(369 / 7300)
    assert sixth[BOTH, ("+", "b")] == near(3281 / 7300)


def test_a_trait_near_the_sex_region_goes_from_a_son_to_sons() -> None:
    """One crossover in five with a chance of 1/20: on Y by 6859/6860, next son 65161/68600."""
    near_sex = Group((A,), (0.05,), SexChromosomes.XY, on_single=True)
    shown = (("male", True), ("male", True), ("female", False), ("male", True), ("female", True))
    pups = [young(f"y{n}", "F", "M", sex) for n, (sex, _) in enumerate(shown)]
    members = (Member("M", "male"), Member("F", "female"), *pups, young("next", "F", "M", "male"))
    facts = [f for n, (_, has) in enumerate(shown) for f in _carries(f"y{n}", has)]
    priors = (perhaps("M", 1.0), perhaps("F", 0.0))
    model = Model(Family(members, (near_sex,), tuple(facts), priors))
    on_y = [near_sex.haplotypes[b] == ("Y", "a") for _, b in near_sex.states]
    chances = model.states(0, "M")
    assert sum(c for c, yes in zip(chances, on_y, strict=True) if yes) == near(6859 / 6860)
    assert model.genotypes("next", "a")[HET] == near(65161 / 68600)


def _carries(id: str, has: bool) -> tuple:
    from warmside.plugins.genes.inheritance.facts import Fact

    return (Fact(id, "a", frozenset({HET} if has else {FREE}), "one copy" if has else "none"),)


@pytest.mark.parametrize(
    ("group", "members", "facts", "priors", "who"),
    [
        (
            ONE,
            (Member("M", "male"), Member("F", "female"), young("y", "F", "M")),
            (*visual("M", "F"), *normal("y")),
            (),
            {"M", "F", "y"},
        ),
        (
            Group((A,), chromosomes=SexChromosomes.ZW),
            (Member("M", "male"), Member("F", "female"), young("y", "F", "M", "female")),
            (*visual("M"), *normal("y", "F")),
            (),
            {"M", "y"},
        ),
        (
            ONE,
            (
                Member("M", "male"),
                Member("F", "female"),
                young("y", "F", "M"),
                young("z", "F", "M"),
            ),
            (*visual("y"), *normal("z")),
            (Prior("M", "a", {FREE: 1.0}),),
            {"y"},
        ),
    ],
)
def test_what_cannot_be_is_named(group, members, facts, priors, who: set[str]) -> None:
    found = clash(Family(members, (group,), facts, priors, {"a": {"a": 0.1}}))
    assert {f.animal for f in found} == who


def test_a_family_that_can_be_has_no_clash() -> None:
    assert clash(Family(COUSINS, (ONE,), normal(*"BCDEKGH"), BEFORE)) == ()
