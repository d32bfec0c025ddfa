"""What a keeper records of genes, and what the tool makes of it."""

from __future__ import annotations

from typing import Any

import pytest

from warmside.api import About, Level
from warmside.testing import Keeper, new_keeper


def traits(keeper: Keeper, animal: str) -> dict[str, dict[str, Any]]:
    return {row["trait"]: row for row in keeper.json("genes", "show", animal)["traits"]}


def findings(keeper: Keeper) -> list[tuple[str, Level, About]]:
    with keeper.ask() as ask:
        found = ask.findings(ask.book.today)
        return [(f.code, f.level, f.about) for f in found if f.code.startswith("genes.")]


def test_the_words_of_the_trade_are_understood_and_said_back(mine: Keeper) -> None:
    mine.run("genes", "known", "Rust", "visual motley, 66% poss. het anery; het for amel")
    told = [e["what"] for e in mine.json("history", "Rust")["events"]]
    assert sorted(t for t in told if t.startswith("genes")) == [
        "genes: 66 % het anerythristic, stated",
        "genes: het amelanistic, stated",
        "genes: visual motley, seen",
    ]
    with mine.ask() as ask:
        lines = {x.key: x.text for x in ask.label_lines(About(animal_id=1), ask.book.today)}
    assert lines["genes.known"] == "visual motley, 66 % het anerythristic, het amelanistic"


def test_normal_young_of_a_test_mating_make_a_het_unlikely(mine: Keeper) -> None:
    """Prior 2/3 and four normal young of a visual: 2 / (2 + 2^4) = 1/9 (test mating, textbook)."""
    mine.run("genes", "known", "Rust", "66.6666666667 % het amelanistic")
    mine.run("genes", "known", "Fern", "visual amelanistic")
    mine.run("genes", "known", "Moss", "normal amelanistic")
    for n in range(3):
        mine.run("animal", "add", f"Young{n}", "--species", "corn snake", "--code", f"Y{n}")
        mine.run("animal", "parents", f"Y{n}", "--dam", "Fern", "--sire", "Rust")
        mine.run("genes", "known", f"Y{n}", "normal amelanistic")
    row = traits(mine, "Rust")["amelanistic"]
    assert row["one_copy"] == pytest.approx(1 / 9, abs=1e-4)
    assert traits(mine, "Moss")["amelanistic"]["one_copy"] == pytest.approx(1.0)
    assert traits(mine, "Moss")["amelanistic"]["said"] == "normal amelanistic (seen)"


def test_a_visual_young_proves_both_parents_though_nothing_was_known_of_them(mine: Keeper) -> None:
    mine.run("genes", "known", "Moss", "visual amelanistic")
    mine.run("genes", "known", "Rust", "normal amelanistic")
    assert traits(mine, "Rust")["amelanistic"]["one_copy"] == pytest.approx(1.0)
    assert traits(mine, "Fern")["amelanistic"]["no_copy"] == pytest.approx(0.0)


def test_what_cannot_be_true_is_named_and_leaves_other_traits_alone(mine: Keeper) -> None:
    mine.run("genes", "known", "Rust", "no amelanistic", "--evidence", "tested")
    mine.run("genes", "known", "Moss", "visual amelanistic")
    mine.run("genes", "known", "Fern", "visual lavender")
    answer = mine.json("genes", "show", "Moss")
    told = [n["text"] for n in answer["notes"]]
    assert any("Rust (RUS) no amelanistic (tested); Moss (MOS) visual" in t for t in told)
    rows = {row["trait"]: row for row in answer["traits"]}
    assert rows["amelanistic"]["no_copy"] is None
    assert rows["lavender"]["one_copy"] == pytest.approx(0.99)
    assert findings(mine) == [("genes.clash", Level.LOOK_SOON, About(animal_id=1))]
    assert mine.run("genes", "plan", "Fern", "Rust", ok=False).code == 2


def test_a_statement_gives_way_to_what_was_seen(mine: Keeper) -> None:
    mine.run("genes", "known", "Rust", "no amelanistic")
    mine.run("genes", "known", "Moss", "visual amelanistic")
    assert traits(mine, "Rust")["amelanistic"]["one_copy"] == pytest.approx(1.0, abs=0.02)
    assert findings(mine) == [("genes.disproved", Level.NOTE, About(animal_id=1))]


def test_a_stated_het_becomes_doubtful_by_its_young(mine: Keeper) -> None:
    """Even before, five normal young of a visual leave 1 / (2^5 + 1) = 3 %, four 6 %."""
    mine.run("genes", "known", "Rust", "het amelanistic")
    mine.run("genes", "known", "Fern", "visual amelanistic")
    mine.run("genes", "known", "Moss", "normal amelanistic")
    for n in range(4):
        assert findings(mine) == []
        mine.run("animal", "add", f"Young{n}", "--species", "corn snake", "--code", f"Y{n}")
        mine.run("animal", "parents", f"Y{n}", "--dam", "Fern", "--sire", "Rust")
        mine.run("genes", "known", f"Y{n}", "normal amelanistic")
    assert findings(mine) == [("genes.doubtful", Level.NOTE, About(animal_id=1))]


def test_healthy_records_have_no_findings(mine: Keeper) -> None:
    mine.run("genes", "known", "Rust", "het amelanistic")
    mine.run("genes", "known", "Fern", "50 % het amelanistic, visual motley")
    mine.run("genes", "known", "Moss", "normal amelanistic, normal motley")
    assert findings(mine) == []


def test_a_round_reckons_only_when_something_has_changed(
    mine: Keeper, monkeypatch: pytest.MonkeyPatch
) -> None:
    mine.run("genes", "known", "Rust", "no amelanistic")
    mine.run("genes", "known", "Moss", "visual amelanistic")
    before = findings(mine)

    def never(*_: object) -> None:
        raise AssertionError("reckoned again")

    monkeypatch.setattr("warmside.plugins.genes.reading.doubts.settled", never)
    assert findings(mine) == before
    mine.run("record", "weighed", "Rust", "--mass", "400g")
    assert findings(mine) == before
    mine.run("genes", "known", "Fern", "normal amelanistic")
    assert findings(mine) == []  # the hook failed: it was worked out again


def test_undo_takes_a_statement_back(mine: Keeper) -> None:
    mine.run("genes", "known", "Rust", "visual amelanistic")
    mine.run("undo")
    assert traits(mine, "Rust") == {}


def test_a_plan_compares_sires_and_weighs_possible_hets_together(mine: Keeper) -> None:
    """66 % x 66 % with six young: 3367/9216 of at least one visual, in exact fractions."""
    mine.run("animal", "add", "Slate", "--species", "corn snake", "--sex", "male")
    for name in ("Fern", "Slate"):
        mine.run("genes", "known", name, "66.6666666667 % het amelanistic")
    mine.run("genes", "known", "Moss", "visual lavender")
    looks = mine.json("genes", "plan", "Fern", "Slate", "--young", "6")["looks"]
    whole = {row["words"]: row["at_least_one"] for row in looks}
    assert whole["amelanistic"] == pytest.approx(3367 / 9216, abs=2e-3)
    several = mine.run("genes", "plan", "Fern", "Slate", "Moss", "--young", "6").stdout
    assert "Slate (SLA)" in several and "Moss (MOS)" in several


def test_a_plan_says_where_unsure_parents_leave_several_traits_inexact(
    mine: Keeper, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One unsure sire is reckoned with exactly; where that is too much, it is said."""
    mine.run("animal", "add", "Slate", "--species", "corn snake", "--sex", "male")
    mine.run("genes", "known", "Rust", "het amelanistic, het lavender")
    mine.run("genes", "known", "Fern", "visual amelanistic, visual lavender")
    mine.run("animal", "parents", "Moss", "--sire", "Rust=0.6", "--sire", "Slate=0.4")
    exact = mine.json("genes", "plan", "Fern", "Moss")
    looks = {row["words"]: row["chance"] for row in exact["looks"]}
    assert not any("not certain" in n["text"] for n in exact["notes"])
    monkeypatch.setattr("warmside.plugins.genes.inheritance.model.MOST_JOINED", 1)
    apart = mine.json("genes", "plan", "Fern", "Moss")
    assert any("not certain" in n["text"] for n in apart["notes"])
    alone = {row["words"]: row["chance"] for row in apart["looks"]}
    assert alone["amelanistic, lavender"] != pytest.approx(looks["amelanistic, lavender"])
    for one in (looks, alone):  # chances of one trait are the same
        total = one["amelanistic"] + one["amelanistic, lavender"]
        assert total == pytest.approx(looks["amelanistic"] + looks["amelanistic, lavender"])


def test_proving_says_how_many_young_it_takes(mine: Keeper) -> None:
    """50 % het with a visual: five normal young leave 1/33, under 5 %; one visual proves it."""
    mine.run("genes", "known", "Rust", "50 % het amelanistic")
    mine.run("genes", "known", "Fern", "visual amelanistic")
    answer = mine.json("genes", "prove", "Rust", "amel", "--with", "Fern")
    assert (answer["now"], answer["after_one"], answer["needed"]) == (0.5, 1.0, 5)
    left = {row["young"]: row["carries"] for row in answer["further"]}
    assert left[5] == pytest.approx(1 / 33)
    mine.run("genes", "known", "Moss", "normal amelanistic")  # one of them is there already
    after = mine.json("genes", "prove", "Rust", "amel", "--with", "Fern")
    assert (after["now"], after["needed"]) == (pytest.approx(1 / 3), 4)


def test_a_section_of_the_report_tells_of_genes(mine: Keeper) -> None:
    mine.run("genes", "known", "Rust", "het amelanistic")
    sections = {s["title"]: s for s in mine.json("report", "Moss")["sections"]}
    (row,) = sections["Genes"]["traits"]
    assert row["one_copy"] == pytest.approx(0.5, abs=0.01)


@pytest.mark.parametrize(
    ("first", "then"),
    [
        ("visual amelanistic", "normal amelanistic"),
        ("visual amelanistic", "visual ultra"),
        ("proven het amelanistic", "visual amelanistic"),
    ],
)
def test_what_cannot_be_beside_what_is_known_is_refused(
    mine: Keeper, first: str, then: str
) -> None:
    mine.run("genes", "known", "Rust", first)
    result = mine.run("genes", "known", "Rust", then, ok=False)
    told = result.complaint(2)
    assert "Rust (RUS) is " in told and "so it cannot be" in told and "warmside correct" in told


@pytest.mark.parametrize(
    ("first", "then"),
    [
        ("het amelanistic", "visual amelanistic"),  # a statement gives way
        ("visual amelanistic", "het amelanistic"),  # and may be recorded beside what is known
        ("normal amelanistic", "66 % het amelanistic"),
        ("normal amelanistic", "proven het amelanistic"),
        ("visual amelanistic", "visual motley"),
        ("visual amelanistic", "visual amelanistic"),
    ],
)
def test_what_can_be_beside_what_is_known_is_recorded(mine: Keeper, first: str, then: str) -> None:
    mine.run("genes", "known", "Rust", first)
    mine.run("genes", "known", "Rust", then)


def test_a_family_that_is_too_large_is_cut_where_nothing_is_known_and_says_so(
    mine: Keeper, monkeypatch: pytest.MonkeyPatch
) -> None:
    mine.run("genes", "known", "Moss", "normal amelanistic")
    whole = mine.json("genes", "show", "Moss")
    assert not any("too large" in n["text"] for n in whole["notes"])
    monkeypatch.setattr("warmside.plugins.genes.reading.family.MOST_KIN", 1)
    cut = mine.json("genes", "show", "Moss")
    assert any("too large" in n["text"] for n in cut["notes"])
    # nothing is known of Fern and Rust, so that Moss is a random animal with or without them
    ours, theirs = (a["traits"][0]["one_copy"] for a in (whole, cut))
    assert 0 < ours == pytest.approx(theirs, rel=1e-9)


def test_young_of_which_nothing_is_known_change_nothing(mine: Keeper) -> None:
    mine.run("genes", "known", "Rust", "het amelanistic")
    before = traits(mine, "Rust")
    for n in range(3):
        mine.run("animal", "add", f"Young{n}", "--species", "corn snake", "--code", f"Y{n}")
        mine.run("animal", "parents", f"Y{n}", "--dam", "Fern", "--sire", "Rust")
    assert traits(mine, "Rust") == before


@pytest.mark.parametrize("said", ["66 % het amelanistic", "possible het amelanistic"])
def test_what_may_be_het_does_not_show_it(mine: Keeper, said: str) -> None:
    """Normal-looking young of two hets: 2/3 carry it, whoever says how much (Mendel)."""
    mine.run("genes", "known", "Rust", "het amelanistic")
    mine.run("genes", "known", "Fern", "het amelanistic")
    mine.run("genes", "known", "Moss", said)
    row = traits(mine, "Moss")["amelanistic"]
    assert (row["one_copy"], row["two_copies"]) == (pytest.approx(2 / 3), 0)
    assert findings(mine) == []


def test_what_turned_out_to_show_it_is_no_longer_called_het_by_chance(mine: Keeper) -> None:
    mine.run("genes", "known", "Moss", "66 % het amelanistic")
    mine.run("genes", "known", "Moss", "visual amelanistic")
    assert traits(mine, "Moss")["amelanistic"]["two_copies"] == 1
    assert findings(mine) == []


def test_a_chance_that_the_family_contradicts_is_told_of(mine: Keeper) -> None:
    """Young of two visuals show it, all of them."""
    for name in ("Rust", "Fern"):
        mine.run("genes", "known", name, "visual amelanistic")
    mine.run("genes", "known", "Moss", "66 % het amelanistic")
    assert findings(mine) == [("genes.disproved", Level.NOTE, About(animal_id=3))]


def test_a_visual_young_makes_a_possible_het_a_proven_one_on_labels(mine: Keeper) -> None:
    mine.run("genes", "known", "Rust", "66 % het amelanistic, 50 % het lavender")

    def line() -> str:
        with mine.ask() as ask:
            found = ask.label_lines(About(animal_id=1), ask.book.today)
        return next(x.text for x in found if x.key == "genes.known")

    assert line() == "66 % het amelanistic, 50 % het lavender"
    mine.run("genes", "known", "Moss", "visual amelanistic")
    assert line() == "proven het amelanistic, 50 % het lavender"


def test_what_is_called_proven_is_known_by_young(mine: Keeper) -> None:
    mine.run("genes", "known", "Rust", "proven het amelanistic, het lavender")
    told = {e["what"] for e in mine.json("history", "Rust")["events"]}
    assert {"genes: het amelanistic, proven", "genes: het lavender, stated"} <= told


def test_an_own_trait_stands_among_those_that_ship(mine: Keeper) -> None:
    shipped = {row["name"] for row in mine.json("genes", "traits", "corn snake")["traits"]}
    mine.run("genes", "add", "corn snake", "ember", "--shows", "dominant", "--source", "own young")
    rows = {row["name"]: row for row in mine.json("genes", "traits", "corn snake")["traits"]}
    assert rows.keys() - shipped == {"ember"}
    assert rows["ember"]["source"] == "own young (keeper's own)"
    assert mine.run("genes", "traits", "dodo", ok=False).code == 3


def test_an_own_trait_is_used_and_can_be_dropped(mine: Keeper) -> None:
    mine.run("genes", "add", "corn snake", "ember", "--shows", "dominant", "--source", "own young")
    mine.run("genes", "known", "Rust", "visual ember")
    assert traits(mine, "Moss")["ember"]["one_copy"] == pytest.approx(0.5, abs=0.02)
    mine.run("genes", "drop", "corn snake", "ember")
    assert traits(mine, "Moss") == {}
    assert mine.run("genes", "known", "Rust", "visual ember", ok=False).code == 3


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (("known", "Rust", "visual hazel"), "no trait 'hazel' is known"),
        (("known", "Rust", "het ammel"), "did you mean 'amel'"),
        (("known", "Rust", "150 % het amel"), "at most 100 %"),
        (("known", "Rust", "het amel, visual amel"), "named twice"),
        (("known", "Rust", "normal"), "name the traits"),
        (("known", "Rust", "visual amel, visual ultra"), "both cannot be true"),
        (("known", "Rust", "het amel", "--evidence", "hearsay"), "seen, stated, tested, proven"),
        (("plan", "Fern", "Fern"), "as dam and as sire"),
        (("plan", "Rust", "Fern"), "is male and cannot be a dam"),
        (("plan", "Rust", "Moss"), "are both male"),
        (("prove", "Rust", "amel", "--with", "Moss"), "are both male"),
        (("prove", "Rust", "amel", "--with", "Fern", "--sure", "100%"), "less than 100 %"),
        (("prove", "Rust", "hazel", "--with", "Fern"), "no trait 'hazel'"),
        (("plan", "Fern", "Rust", "--young", "400"), "1 to 200"),
        (("add", "corn snake", "x", "--shows", "dominant", "--linked", "sun"), '"near sex"'),
        (("add", "corn snake", "x", "--shows", "dominant", "--follows", "motley"), "recombination"),
        (
            ("add", "corn snake", "x"),
            "'--shows'; one of: recessive, incomplete dominant, dominant;",
        ),
        (
            (
                *("add", "corn snake", "x", "--shows", "dominant"),
                *("--follows", "motley", "--recombination", "0.7"),
            ),
            "between 0 and 0.5",
        ),
        (("pair", "--species", "newt", "--dam", "x", "--sire", "y"), "no traits are known"),
        (
            ("pair", "--species", "corn snake", "--dam", "possible het amel", "--sire", "amel"),
            "50 % het",
        ),
    ],
)
def test_bad_input_is_one_line_that_says_what_to_do(
    mine: Keeper, typed: tuple[str, ...], told: str
) -> None:
    result = mine.run("genes", *typed, ok=False)
    assert result.code in (2, 3)
    assert told in result.stderr
    assert len(result.stderr.strip().splitlines()) == 1


def test_a_trait_of_another_species_is_unknown(tmp_path) -> None:
    keeper = new_keeper(tmp_path, plugins=["genes"])
    keeper.run("animal", "add", "Dot", "--species", "leopard gecko")
    result = keeper.run("genes", "known", "Dot", "het piebald", ok=False)
    assert result.code == 3 and "no trait 'piebald'" in result.stderr
