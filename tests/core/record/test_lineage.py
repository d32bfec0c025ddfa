"""Impossible parents are refused, each with its reason."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from warmside.core.record.entities import Animal, Parent, Species
from warmside.core.record.kin.lineage import (
    Candidate,
    ancestors,
    certainties,
    check_parent,
    of_other_species,
)
from warmside.core.values.errors import BadInput
from warmside.core.values.moments import parse_partial_date
from warmside.testing import Keeper

GECKO = Species(1, "Gekko fictus", "paper gecko", "gecko", "unknown")
ASH = Animal(1, "ASH", "Ash", GECKO, "female", "probed", None, "", "")
BO = Animal(2, "BO", "Bo", GECKO, "male", "probed", None, "", "")
CY = Animal(3, "CY", "Cy", GECKO, "unknown", "not known", None, "", "")


def test_relatives_of_two_species_are_told_and_subspecies_are_not() -> None:
    other = replace(GECKO, id=2, scientific="Gekko alter")
    kind = replace(GECKO, id=3, scientific="Gekko fictus minor")
    assert of_other_species([ASH, BO, replace(CY, species=kind)]) == ""
    told = of_other_species([ASH, replace(BO, species=other), CY])
    assert told.startswith("Ash (ASH) is Gekko fictus, Bo (BO) is Gekko alter: look at the codes")


def test_a_sire_of_another_species_is_recorded_with_a_warning(keeper: Keeper) -> None:
    for name, species in (("Ash", "corn snake"), ("Bo", "leopard gecko"), ("Cy", "corn snake")):
        keeper.run("animal", "add", name, "--species", species)
    warned = keeper.run("animal", "parents", "Cy", "--sire", "Bo").stderr
    assert "Bo (BO) is Eublepharis macularius" in warned and "hybrids" in warned
    assert "hybrids" in keeper.run("clutch", "add", "--dam", "Ash", "--sire", "Bo").stderr
    assert keeper.run("animal", "parents", "Cy", "--dam", "Ash").stderr == ""


def hatched(animal: Animal, text: str) -> Animal:
    return replace(animal, hatched=parse_partial_date(text))


def family(*pairs: tuple[int, int]) -> dict[int, tuple[Parent, ...]]:
    """Parents from (child, parent) pairs; at most two a child."""
    found: dict[int, tuple[Parent, ...]] = {}
    for child, parent in pairs:
        role = "sire" if child in found else "dam"
        found[child] = (*found.get(child, ()), Parent(child, role, parent, "certain"))
    return found


@pytest.mark.parametrize(
    ("child", "role", "parent", "pairs", "reason"),
    [
        (ASH, "dam", ASH, (), r"Ash \(ASH\) cannot be its own dam"),
        (ASH, "dam", BO, (), r"Bo \(BO\) is male and cannot be a dam"),
        (BO, "sire", ASH, (), r"Ash \(ASH\) is female and cannot be a sire"),
        (BO, "dam", CY, ((3, 2),), r"Cy \(CY\) descends from Bo \(BO\) and cannot be its dam"),
        (BO, "dam", CY, ((3, 1), (1, 2)), r"Cy \(CY\) descends from Bo"),
    ],
)
def test_impossible_parents(
    child: Animal, role: str, parent: Animal, pairs: tuple[tuple[int, int], ...], reason: str
) -> None:
    with pytest.raises(BadInput, match=reason):
        check_parent(child, role, parent, family(*pairs))


@pytest.mark.parametrize(
    ("parent", "child", "possible"),
    [
        ("2020", "2021", True),
        ("2021", "2020", False),
        ("2021-05-02", "2021-05-02", False),
        ("2021-05-02", "2021-05-03", True),
        ("2021-05", "2021", True),  # the child may have hatched later that year
        ("2021", "2021", True),  # nothing is known to speak against it
        ("2021-05-02", "2021-05", True),
        ("2021-06-01", "2021-05", False),
    ],
)
def test_a_parent_hatched_before_its_child(parent: str, child: str, possible: bool) -> None:
    dam, young = hatched(ASH, parent), hatched(CY, child)
    if possible:
        check_parent(young, "dam", dam, {})
    else:
        with pytest.raises(BadInput, match=f"hatched {parent}, not before"):
            check_parent(young, "dam", dam, {})


def test_an_animal_of_unknown_sex_may_be_either_parent() -> None:
    check_parent(ASH, "dam", CY, {})
    check_parent(ASH, "sire", CY, {})


@given(st.lists(st.floats(0.01, 1), min_size=1, max_size=6))
def test_shares_of_probability_are_taken_up_to_one_and_named(weights: list[float]) -> None:
    them = [Candidate(replace(BO, id=n, code=f"B{n}"), w) for n, w in enumerate(weights)]
    if sum(weights) > 1 + 1e-6:
        with pytest.raises(BadInput, match="which is more than 1"):
            certainties("sire", them)
    elif sum(weights) <= 1:
        words = certainties("sire", them)
        for weight, word in zip(weights, words, strict=True):
            assert (word == "certain") == (weight == 1)
            assert (word == "possible") == (weight <= 0.5)
        assert words.count("probable") + words.count("certain") <= 1


def test_decimal_thirds_and_tenths_that_sum_to_one_are_taken() -> None:
    them = [Candidate(replace(BO, id=n, code=f"B{n}"), 0.1) for n in range(10)]
    assert certainties("sire", them) == ["possible"] * 10


@pytest.mark.parametrize(
    ("candidates", "certainty", "told"),
    [
        ([Candidate(BO, 0.5)], "probable", "a weight says how sure it is"),
        ([Candidate(BO, 0.5), Candidate(CY)], None, "give each sire a weight, such as BO=0.5"),
        ([Candidate(BO), Candidate(CY)], "certain", "there are 2 sires, so none is certain"),
        ([Candidate(BO), Candidate(BO)], None, "Bo \\(BO\\) is named twice as sire"),
        ([Candidate(BO, 0.0)], None, "more than 0 and at most 1, not 0"),
        ([Candidate(BO, 1.5)], None, "more than 0 and at most 1, not 1.5"),
        ([Candidate(BO, float("nan"))], None, "more than 0 and at most 1, not nan"),
    ],
)
def test_candidates_that_contradict_each_other_are_refused(
    candidates: list[Candidate], certainty: str | None, told: str
) -> None:
    with pytest.raises(BadInput, match=told):
        certainties("sire", candidates, certainty)


def test_without_weights_one_is_certain_and_several_are_possible() -> None:
    assert certainties("sire", [Candidate(BO)]) == ["certain"]
    assert certainties("sire", [Candidate(BO), Candidate(CY)]) == ["possible", "possible"]
    assert certainties("sire", [Candidate(BO), Candidate(CY)], "probable") == ["probable"] * 2


edges = st.lists(st.tuples(st.integers(0, 7), st.integers(0, 7)), max_size=12)


@given(edges)
def test_ancestors_are_what_can_be_reached_upwards(pairs: list[tuple[int, int]]) -> None:
    """Even in a broken record with circles, where it must end all the same."""
    parents = family(*pairs)
    reached = {n: {p for c, p in pairs if c == n} for n in range(8)}
    for _ in range(8):  # the closure, a step of the ladder at a time
        reached = {n: up.union(*(reached[p] for p in up)) for n, up in reached.items()}
    for n in range(8):
        assert ancestors(n, parents) == reached[n]


def test_parents_are_replaced_and_listed_with_their_certainty(keeper: Keeper) -> None:
    for name, sex in (("Ash", "female"), ("Fern", "female"), ("Bo", "male"), ("Cy", "unknown")):
        keeper.run("animal", "add", name, "--species", "leopard gecko", "--sex", sex)
    keeper.run("animal", "parents", "CY", "--dam", "ASH", "--sire", "BO")
    keeper.run("animal", "parents", "CY", "--dam", "FER", "--certainty", "possible")
    kin = keeper.json("animal", "show", "CY")["kin"]
    assert {(k["role"], k["animal"], k["certainty"]) for k in kin} == {
        ("dam", "Fern (FER)", "possible"),
        ("sire", "Bo (BO)", "certain"),
    }
    assert keeper.json("animal", "show", "BO")["kin"][0]["role"] == "young"


@pytest.fixture
def breeder(keeper: Keeper) -> Keeper:
    """A dam, two sires and a young animal."""
    for name, sex in (("Ash", "female"), ("Bo", "male"), ("Dill", "male"), ("Cy", "unknown")):
        keeper.run("animal", "add", name, "--species", "leopard gecko", "--sex", sex)
    return keeper


def sires(keeper: Keeper, child: str = "CY") -> list[tuple[str, str, float | None]]:
    kin = keeper.json("animal", "show", child)["kin"]
    return [(k["animal"], k["certainty"], k["weight"]) for k in kin if k["role"] == "sire"]


def test_several_candidates_have_weights_the_likeliest_first(breeder: Keeper) -> None:
    said = breeder.run("animal", "parents", "CY", "--sire", "BO=0.3", "--sire", "DIL=60%").stdout
    assert "Cy (CY): sire Dill (DIL), probable, 60 %; sire Bo (BO), possible, 30 %" in said
    assert sires(breeder) == [("Dill (DIL)", "probable", 0.6), ("Bo (BO)", "possible", 0.3)]
    with breeder.book() as book:
        assert [p.parent_id for p in book.parents[book.animal("CY").id]] == [3, 2]


def test_candidates_are_replaced_as_a_whole_and_undo_brings_the_old_ones_back(
    breeder: Keeper,
) -> None:
    breeder.run("animal", "parents", "CY", "--sire", "BO=0.3", "--sire", "DIL=0.6", "--dam", "ASH")
    breeder.run("animal", "parents", "CY", "--sire", "BO=0.9")
    assert sires(breeder) == [("Bo (BO)", "probable", 0.9)]
    assert breeder.json("animal", "show", "CY")["kin"][0]["animal"] == "Ash (ASH)"
    breeder.run("undo", "--yes")
    assert sires(breeder) == [("Dill (DIL)", "probable", 0.6), ("Bo (BO)", "possible", 0.3)]
    breeder.run("redo")
    assert sires(breeder) == [("Bo (BO)", "probable", 0.9)]


@pytest.mark.parametrize("sire", ["DIL", "BO=0.7"])
def test_each_candidate_is_checked(breeder: Keeper, sire: str) -> None:
    breeder.run("animal", "parents", "BO", "--sire", "CY")
    breeder.run("animal", "parents", "DIL", "--dam", "CY")
    refused = breeder.run("animal", "parents", "CY", "--sire", sire, ok=False)
    assert "descends from Cy (CY)" in refused.complaint(2)


@pytest.mark.parametrize("typed", ["BO=much", "BO=0,7", "BO=0", "BO=nan"])
def test_a_weight_that_is_no_share_is_refused_in_one_line(breeder: Keeper, typed: str) -> None:
    refused = breeder.run("animal", "parents", "CY", "--sire", typed, ok=False)
    assert "the weight of a sire is" in refused.complaint(2)


def test_a_parent_keeps_the_sex_that_its_role_needs(keeper: Keeper) -> None:
    keeper.run("animal", "add", "Ash", "--species", "leopard gecko")
    keeper.run("animal", "add", "Cy", "--species", "leopard gecko")
    keeper.run("animal", "parents", "CY", "--dam", "ASH")
    refused = keeper.run("animal", "change", "ASH", "--sex", "male", ok=False)
    assert (refused.code, "is recorded as a dam" in refused.stderr) == (4, True)


def test_a_parent_that_is_not_older_is_refused_also_by_a_later_hatch_date(keeper: Keeper) -> None:
    keeper.run("animal", "add", "Ash", "--species", "leopard gecko", "--hatched", "2020")
    keeper.run("animal", "add", "Cy", "--species", "leopard gecko", "--hatched", "2022")
    keeper.run("animal", "parents", "CY", "--dam", "ASH")
    for code, day in (("ASH", "2023"), ("CY", "2019")):
        refused = keeper.run("animal", "change", code, "--hatched", day, ok=False)
        assert refused.code == 2
        assert "and cannot be its dam" in refused.stderr
