"""A season as a keeper has it: planned, paired, seen, laid, hatched, first weeks, taken back."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from warmside.testing import Keeper, copy_of, new_keeper

KNOWN = ("FER", "RUS")


@pytest.fixture(scope="session")
def bred(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """Fern and Rust, ball pythons het albino; Dusk, a boa; genes and lineage; today 2026-03-05."""
    keeper = new_keeper(tmp_path_factory.mktemp("season"), plugins=["lineage", "genes"])
    keeper.run("enclosure", "add", "Rack", "--code", "RACK")
    for name, sex, species in (
        ("Fern", "female", "ball python"),
        ("Rust", "male", "ball python"),
        ("Dusk", "female", "Boa imperator"),
    ):
        keeper.run(
            *("animal", "add", name, "--species", species, "--sex", sex),
            *("--hatched", "2018-05-01", "--since", "2020-01-01"),
        )
    for name, mass in (("Fern", "1800g"), ("Rust", "800g")):
        keeper.run("record", "weighed", f"{name}={mass}")
        keeper.run("genes", "known", name, "het albino")
    return keeper


@pytest.fixture
def mine(bred: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(bred, tmp_path)


@pytest.fixture(scope="session")
def with_eggs(bred: Keeper, tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """Fern mated, ovulated, shed and laid seven eggs, one of them a slug; Rust is the sire."""
    keeper = copy_of(bred, tmp_path_factory.mktemp("laid"))
    keeper.run("record", "mated", "Fern", "--partner", "Rust", "--at", "2026-01-10")
    keeper.run("record", "lineage.cycle", "Fern", "--seen", "ovulation", "--at", "2026-01-20")
    keeper.run("record", "shed", "Fern", "--at", "2026-02-05")
    keeper.run(
        *("lineage", "laid", "Fern", "--eggs", "7", "--misfit", "1", "--sire", "Rust"),
        *("--kept", "31C", "--where", "incubator 1", "--at", "2026-03-05"),
    )
    return keeper


@pytest.fixture
def laid(with_eggs: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(with_eggs, tmp_path)


def found(keeper: Keeper, code: str) -> list[tuple[str, str]]:
    with keeper.ask() as ask:
        told = ask.findings(ask.book.today)
    return [(f.level.value, f.words) for f in told if f.code == code]


def tasks(keeper: Keeper, on: str) -> list[str]:
    return [t["what"] for t in keeper.json("today", "--on", on)["tasks"]]


def events(keeper: Keeper, kind: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = keeper.json("history", "--kind", kind, "--last", "50")["events"]
    return found


def test_a_planned_pair_is_put_together_on_its_day_and_that_settles_it(mine: Keeper) -> None:
    answer = mine.json("lineage", "season", "plan", "Fern", "Rust", "--begin", "2026-03-10")
    assert {g["gate"]: g["held"] for g in answer["gates"] if g["animal"].startswith("Fern")} == {
        "mass": "yes",
        "age": "yes",
        "condition": "not known",
        "rest": "not known",
    }
    what = "put her together with Rust (RUS)"
    assert tasks(mine, "2026-03-09") == [] and tasks(mine, "2026-03-10") == [what]
    mine.pass_days(5)
    mine.run("today")
    mine.run("done", "1")
    assert tasks(mine, "2026-03-11") == []
    assert events(mine, "pairing")[-1]["data"]["state"] == "together"


def test_a_female_under_the_mass_that_is_set_is_asked_about_and_then_told_of(mine: Keeper) -> None:
    mine.run("record", "weighed", "Fern=1450g")
    plan = ("lineage", "season", "plan", "Fern", "Rust")
    assert "1.45 kg, at least 1.5 kg is set" in mine.run(*plan, ok=False).complaint(4)
    assert found(mine, "lineage.unfit") == []
    mine.run(*plan, "--confirm")
    ((level, words),) = found(mine, "lineage.unfit")
    assert level == "look soon" and "mass: 1.45 kg" in words
    mine.run("plugin", "set", "lineage", "female_mass", "1400g", "--animal", "FER")
    assert found(mine, "lineage.unfit") == []


def test_a_light_female_that_was_paired_is_told_of_for_a_while(mine: Keeper) -> None:
    mine.run("record", "weighed", "Fern=1450g")
    mine.run("lineage", "season", "plan", "Fern", "Rust", "--confirm")
    mine.run("record", "mated", "Fern", "--partner", "Rust")
    ((level, words),) = found(mine, "lineage.unfit")
    assert level == "note" and "was paired" in words and "ask a vet" in words
    mine.pass_days(61)
    assert found(mine, "lineage.unfit") == []


def test_a_light_female_that_only_lives_with_a_male_is_a_note(mine: Keeper) -> None:
    mine.run("record", "weighed", "Fern=1450g")
    mine.run("move", "Fern", "Rust", "--to", "RACK")
    assert [level for level, _ in found(mine, "lineage.unfit")] == ["note"]


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        (("Rust", "Fern"), "name the female first"),
        (("Dusk", "Rust"), "is of another species"),
        (("Fern", "Rust", "--begin", "2026-03-01"), "is past"),
    ],
)
def test_a_plan_that_cannot_be_is_refused(mine: Keeper, typed: tuple[str, ...], told: str) -> None:
    assert told in mine.run("lineage", "season", "plan", *typed, ok=False).complaint(2)


def test_an_overdue_female_is_for_a_vet_until_she_laid(mine: Keeper) -> None:
    mine.run("record", "lineage.cycle", "Fern", "--seen", "ovulation", "--at", "2026-01-20")
    mine.run("record", "shed", "Fern", "--at", "2026-02-05")
    assert "give her a place to lay in" in tasks(mine, "2026-03-05")
    answer = mine.json("lineage", "season", "show", "Fern")
    assert (answer["earliest"], answer["latest"]) == ("2026-03-05", "2026-03-27")
    mine.pass_days(22)
    assert found(mine, "lineage.late") == []
    mine.pass_days(1)
    assert [level for level, _ in found(mine, "lineage.late")] == ["look soon"]
    mine.pass_days(7)
    ((level, words),) = found(mine, "lineage.late")
    assert level == "act now" and "a vet, not waiting" in words
    mine.run("lineage", "laid", "Fern", "--eggs", "6", "--good", "0")  # slugs only
    assert found(mine, "lineage.late") == [] and tasks(mine, "2026-05-01") == []


def test_a_clutch_is_one_step_with_its_eggs_sire_and_warmth(laid: Keeper) -> None:
    answer = laid.json("lineage", "eggs", "show", "C1")
    assert (answer["left"], answer["misfits"], answer["kept_c"]) == (6, 1, 31.0)
    assert (answer["earliest"], answer["latest"]) == ("2026-04-29", "2026-05-14")
    laid.run("undo")
    assert laid.json("clutch", "list")["clutches"] == [] and events(laid, "laid") == []


def test_without_a_named_sire_her_mates_are_offered_and_none_is_made_up(mine: Keeper) -> None:
    mine.run("lineage", "laid", "Fern", "--eggs", "6")
    assert mine.json("clutch", "show", "C1").get("sires", []) == []
    mine.run("undo")
    mine.run("record", "mated", "Rust", "--partner", "Fern", "--at", "2026-01-10")
    answer = mine.run("lineage", "laid", "Fern", "--eggs", "6").stdout
    assert "Sire by the matings on record: Rust (RUS), probable" in answer
    assert mine.json("clutch", "show", "C1")["sires"] == ["Rust (RUS), probable"]


def test_eggs_are_looked_at_as_a_task_whose_value_is_what_is_left(laid: Keeper) -> None:
    assert tasks(laid, "2026-03-11") == []
    assert tasks(laid, "2026-03-12") == ["look at the eggs of clutch C1"]
    laid.pass_days(7)
    laid.run("today")
    laid.run("done", "1=5")
    assert laid.json("lineage", "eggs", "list")["clutches"][0]["left"] == 5
    assert tasks(laid, "2026-03-18") == [] and len(tasks(laid, "2026-03-19")) == 1
    laid.run("lineage", "eggs", "check", "C1", "--removed", "1", "--looks", "mould")
    assert laid.json("lineage", "eggs", "show", "C1")["left"] == 4
    laid.run("lineage", "eggs", "check", "C1", "--good", "0")
    assert laid.json("lineage", "eggs", "list")["clutches"] == []


def test_eggs_of_a_dam_that_died_are_looked_after_and_hatch(laid: Keeper) -> None:
    laid.run("record", "died", "Fern", "--circumstances", "invented")
    laid.pass_days(60)
    laid.run("today")
    laid.run("done", "1")
    laid.run("lineage", "hatch", "C1", "--count", "3")
    assert len(laid.json("clutch", "show", "C1")["young"]) == 3
    told = laid.run("lineage", "laid", "Fern", "--eggs", "3", ok=False).complaint(2)
    assert "died on 2026-03-05 and cannot have laid" in told


def test_a_whole_clutch_is_entered_by_one_command_and_taken_back_by_one(laid: Keeper) -> None:
    laid.pass_days(60)
    young = ("54g female visual albino", "Kid: 51g m normal", "normal")
    answer = laid.json("lineage", "hatch", "C1", *young, "--into", "RACK", "--lost", "3")
    assert [(y["code"], y["name"], y["sex"], y["mass_g"], y["looks"]) for y in answer["young"]] == [
        ("C1-1", "C1 1", "female", 54.0, "visual albino"),
        ("C1-2", "Kid", "male", 51.0, "normal"),
        ("C1-3", "C1 3", "unknown", None, "normal"),
    ]
    with laid.book() as book:
        kid = book.animal("Kid")
        parents = {(p.role, book.animals[p.parent_id].name) for p in book.parents[kid.id]}
        assert parents == {("dam", "Fern"), ("sire", "Rust")}
        assert (kid.hatched and kid.hatched.text, kid.origin) == ("2026-05-04", "bred here")
        assert book.whereabouts()[kid.id].enclosure_id == book.enclosure("RACK").id
    genes = [e["data"]["says"] for e in events(laid, "genes.known") if e["animal"] not in KNOWN]
    assert genes == ["visual albino", "normal albino", "normal albino"]
    assert laid.json("lineage", "eggs", "list")["clutches"] == []
    laid.run("undo")
    assert laid.json("clutch", "show", "C1")["young"] == []
    assert laid.json("lineage", "eggs", "show", "C1")["left"] == 6
    laid.run("redo")
    assert len(laid.json("clutch", "show", "C1")["young"]) == 3


def test_young_that_hatch_later_join_the_clutch(laid: Keeper) -> None:
    laid.pass_days(60)
    laid.run("lineage", "hatch", "C1", "--count", "2", "--at", "2026-05-02")
    laid.run("lineage", "hatch", "C1", "--count", "1", "--at", "2026-05-04")
    shown = laid.json("clutch", "show", "C1")
    assert (shown["hatched_first"], shown["hatched_last"]) == ("2026-05-02", "2026-05-04")
    assert [y["code"] for y in shown["young"]] == ["C1-1", "C1-2", "C1-3"]
    assert laid.json("lineage", "eggs", "list")["clutches"][0]["left"] == 3


def test_young_come_from_a_file_and_a_bad_line_is_named(laid: Keeper, tmp_path: Path) -> None:
    laid.pass_days(60)
    file = tmp_path / "young.csv"
    file.write_text("name,code,sex,mass,looks\nKid,KID,f,54g,visual albino\n,,f,,\n", "utf-8")
    answer = laid.json("lineage", "hatch", "C1", "--file", file)
    assert [(y["code"], y["mass_g"]) for y in answer["young"]] == [("KID", 54.0), ("C1-2", None)]
    laid.run("undo")
    file.write_text("name,code,sex,mass,looks\nKid,KID,f,54 spoons,\n", "utf-8")
    assert "line 2" in laid.run("lineage", "hatch", "C1", "--file", file, ok=False).complaint(2)


@pytest.mark.parametrize(
    ("typed", "code", "told"),
    [
        (("--count", "400"), 2, "1 to 200"),
        (("--count", "15"), 2, "15 young of 7 eggs cannot be"),
        (("--count", "8"), 4, "8 young of 7 eggs"),
        (("--count", "3", "--at", "2026-03-01"), 2, "is before laid 2026-03-05"),
        (("--count", "3", "--at", "2026-03-20"), 4, "15 days from laying to hatching"),
        (("--count", "3", "--at", "2026-06-01"), 2, "in the future"),
        ((), 2, "say how many hatched"),
        (("54g visual griffin",), 3, "griffin"),
        (("--count", "3", "--lost", "-1"), 2, "-1 lost eggs"),
    ],
)
def test_young_that_cannot_be_are_refused_and_nothing_is_written(
    laid: Keeper, typed: tuple[str, ...], code: int, told: str
) -> None:
    laid.pass_days(60)
    assert told in laid.run("lineage", "hatch", "C1", *typed, ok=False).complaint(code)
    assert laid.json("clutch", "show", "C1")["young"] == []


@pytest.mark.parametrize(
    ("typed", "code", "told"),
    [
        (("Fern", "--eggs", "400"), 2, "a clutch of 400 cannot be"),
        (("Fern", "--eggs", "20"), 4, "more than is known of the species (14)"),
        (("Rust", "--eggs", "6"), 2, "is male"),
        (("Fern", "--eggs", "6", "--good", "7"), 2, "7 good of 6 eggs"),
        (("Fern", "--eggs", "6", "--good", "5", "--misfit", "2"), 2, "are not 6 eggs"),
        (("Fern", "--eggs", "6", "--kept", "40C"), 4, "29 to 32 °C are usual"),
        (("Dusk", "--eggs", "6"), 2, "bears live young"),
    ],
)
def test_clutches_that_cannot_be_are_refused(
    mine: Keeper, typed: tuple[str, ...], code: int, told: str
) -> None:
    assert told in mine.run("lineage", "laid", *typed, ok=False).complaint(code)
    assert mine.json("clutch", "list")["clutches"] == []


def test_a_litter_born_alive_is_one_command_with_its_stillborn(mine: Keeper) -> None:
    answer = mine.json("lineage", "born", "Dusk", "60g", "58g f", "--young", "4", "--lost", "2")
    assert answer["hatched"] == 4
    shown = mine.json("clutch", "show", "C1")
    assert (shown["eggs"], shown["good"], shown["laid"], shown["hatched_first"]) == (
        *(6, 4),
        *("2026-03-05", "2026-03-05"),
    )
    assert mine.json("lineage", "eggs", "list")["clutches"] == []
    assert "lays eggs" in mine.run("lineage", "born", "Fern", "60g", ok=False).complaint(2)
    mine.run("undo")
    told = mine.run("lineage", "born", "Dusk", "--lost", "3").stdout  # none alive
    assert "after birth" in told and "for a vet" in told
    assert mine.json("clutch", "show", "C1")["young"] == []


def test_a_hatchling_is_asked_for_its_shed_then_its_meal_then_its_sex(laid: Keeper) -> None:
    laid.pass_days(60)
    laid.run("lineage", "hatch", "C1", "54g", "--lost", "5")
    assert tasks(laid, "2026-05-10") == []
    assert tasks(laid, "2026-05-11") == ["see its first shed"]
    laid.run("record", "shed", "C1-1", "--at", "2026-05-04")
    assert tasks(laid, "2026-05-06") == ["offer its first meal"]
    laid.run("record", "fed", "C1-1", "--item", "mouse", "--at", "2026-05-04")
    assert tasks(laid, "2026-05-20") == ["see its sex, where that can be done safely"]
    laid.pass_days(16)
    laid.run("today")
    assert "needs its sex" in laid.run("done", "1", ok=False).complaint(2)
    laid.run("done", "1=female")
    assert tasks(laid, "2026-05-20") == []
    assert laid.json("animal", "show", "C1-1")["sex"] == "female"


def number_of(keeper: Keeper, begin: str) -> int:
    found = keeper.json("today")["tasks"]
    return next(int(t["number"]) for t in found if t["what"].startswith(begin))


def test_young_are_entered_by_the_number_of_the_task_with_how_many_there_are(laid: Keeper) -> None:
    """As by the command: what looks odd is asked, and without a number nothing is entered."""
    laid.pass_days(60)
    task = number_of(laid, "look for young in clutch C1")
    assert "needs how many hatched" in laid.run("done", task, ok=False).complaint(2)
    assert "is no number that can be" in laid.run("done", f"{task}=many", ok=False).complaint(2)
    assert "count again" in laid.run("done", f"{task}=60", ok=False).complaint(2)
    early = laid.run("done", f"{task}=2", "--at", "2026-03-10", ok=False)
    assert early.code == 4 and "--confirm" in early.stderr
    said = laid.run("done", f"{task}=2").stdout
    assert "2 young of" in said and "is for a vet" in " ".join(said.split())
    assert [e["animal"] for e in events(laid, "arrived")][-2:] == ["C1-1", "C1-2"]
    assert events(laid, "hatched")[-1]["data"]["count"] == 2
    laid.run("undo")
    assert events(laid, "hatched") == []


def test_eggs_are_entered_by_the_number_of_the_task_that_expects_them(mine: Keeper) -> None:
    mine.run("record", "mated", "Fern", "--partner", "Rust", "--at", "2026-01-10")
    mine.run("record", "lineage.cycle", "Fern", "--seen", "ovulation", "--at", "2026-01-20")
    mine.run("record", "shed", "Fern", "--at", "2026-02-05")
    task = number_of(mine, "look for eggs every day")
    mine.run("done", f"{task}=7")
    (clutch,) = mine.json("clutch", "list")["clutches"]
    assert (clutch["eggs"], clutch["dam"]) == (7, "Fern (FER)")
    assert [e["data"]["clutch"] for e in events(mine, "lineage.incubated")] == [clutch["code"]]


def test_a_litter_is_entered_by_the_number_of_the_task_that_expects_it(mine: Keeper) -> None:
    mine.run("record", "lineage.cycle", "Dusk", "--seen", "ovulation", "--at", "2025-11-05")
    mine.run("record", "shed", "Dusk", "--at", "2025-11-22")
    task = number_of(mine, "look for young every day")
    said = mine.run("done", f"{task}=3").stdout
    assert "3 young of Dusk (DUS)" in said and "for a vet" in " ".join(said.split())
    assert [e["animal"] for e in events(mine, "arrived")][-3:] == ["C1-1", "C1-2", "C1-3"]


def test_odd_counts_of_a_clutch_make_a_stated_genotype_doubtful(mine: Keeper) -> None:
    """12 of 12 normal of het x het: 770563/16777216 = 0.0459 by the exact multinomial test.

    Computed in exact fractions, as likely or less likely counts of 3:1 (SciPy's binomtest agrees).
    """
    mine.run("lineage", "laid", "Fern", "--eggs", "12", "--sire", "Rust", "--at", "2026-01-01")
    answer = mine.run("lineage", "hatch", "C1", *["normal"] * 12).stdout
    assert "12 normal" in answer and "4.6 % of" in answer.replace("\n", " ")
    assert "warmside genes clutch C1" in answer
    mine.run("undo")
    usual = mine.run("lineage", "hatch", "C1", *["normal"] * 9, *["visual albino"] * 3).stdout
    assert "may be doubtful" not in usual


def test_looks_stay_on_record_where_no_plugin_knows_genes(laid: Keeper) -> None:
    laid.run("plugin", "disable", "genes")
    laid.pass_days(60)
    laid.run("lineage", "hatch", "C1", "54g visual griffin")
    assert events(laid, "looks")[0]["data"]["says"] == "visual griffin"


def test_eggs_past_their_window_are_a_note(laid: Keeper) -> None:
    laid.pass_days(77)
    assert found(laid, "lineage.eggs_late") == []
    laid.pass_days(1)
    ((level, words),) = found(laid, "lineage.eggs_late")
    assert level == "note" and "do not open them" in words


def test_the_season_stands_in_the_list_and_in_the_report(laid: Keeper) -> None:
    laid.run("record", "gravid", "Dusk", "--state", "confirmed")
    seasons = laid.json("lineage", "season", "list")
    assert [f["animal"] for f in seasons["females"]] == ["Dusk (DUS)"]
    assert [c["clutch"] for c in seasons["clutches"]] == ["C1"]
    assert "Season" in laid.run("report", "Fern").stdout
