"""A clutch has its parents, its days and its young, and is undone like all else."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from warmside.core.record.kin.clutches import NOBODY
from warmside.core.record.kin.lineage import hatched_in
from warmside.core.values.moments import parse_partial_date
from warmside.testing import Keeper, copy_of, new_keeper


@pytest.fixture(scope="module")
def breeder_once(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """What `breeder` copies, made once."""
    keeper = new_keeper(tmp_path_factory.mktemp("breeder"))
    for name, sex in (("Ash", "female"), ("Bo", "male"), ("Dill", "male")):
        keeper.run("animal", "add", name, "--species", "leopard gecko", "--sex", sex)
    keeper.run(
        *("clutch", "add", "--dam", "ASH", "--sire", "BO=0.7", "--sire", "DIL=0.3"),
        *("--laid", "2025-06-01", "--eggs", "2", "--good", "2"),
    )
    return keeper


@pytest.fixture
def breeder(breeder_once: Keeper, tmp_path: Path) -> Keeper:
    """A dam, two sires, and a clutch laid and hatched last year."""
    return copy_of(breeder_once, tmp_path)


def parents(keeper: Keeper, child: str) -> list[tuple[str, str, float | None]]:
    kin = keeper.json("animal", "show", child).get("kin", [])
    return [(k["role"], k["animal"], k["weight"]) for k in kin if k["role"] != "young"]


OF_THE_CLUTCH = [("dam", "Ash (ASH)", None), ("sire", "Bo (BO)", 0.7), ("sire", "Dill (DIL)", 0.3)]


def test_a_clutch_is_listed_and_shown_with_its_parents(breeder: Keeper) -> None:
    (row,) = breeder.json("clutch", "list")["clutches"]
    assert (row["code"], row["dam"], row["laid"]) == ("C1", "Ash (ASH)", "2025-06-01")
    assert row["sires"] == ["Bo (BO), probable, 70 %", "Dill (DIL), possible, 30 %"]
    assert breeder.json("clutch", "show", "c1")["eggs"] == 2


def test_young_of_a_clutch_get_its_parents_species_and_day_of_hatching(breeder: Keeper) -> None:
    breeder.run("clutch", "change", "C1", "--hatched", "2025-08-01")
    breeder.run("animal", "add", "Elm", "--clutch", "C1")
    shown = breeder.json("animal", "show", "ELM")
    assert (shown["clutch"], shown["hatched"], shown["species"]) == (
        "C1",
        "2025-08-01",
        "Eublepharis macularius",
    )
    assert parents(breeder, "ELM") == OF_THE_CLUTCH
    assert [y["code"] for y in breeder.json("clutch", "show", "C1")["young"]] == ["ELM"]


def test_an_animal_may_be_put_into_a_clutch_later_and_keeps_what_is_known_of_it(
    breeder: Keeper,
) -> None:
    breeder.run("animal", "add", "Elm", "--species", "leopard gecko")
    breeder.run("animal", "parents", "ELM", "--sire", "DIL")
    breeder.run("animal", "change", "ELM", "--clutch", "C1")
    assert parents(breeder, "ELM") == [("dam", "Ash (ASH)", None), ("sire", "Dill (DIL)", None)]


def test_new_parents_of_a_clutch_reach_the_young_that_have_the_old_ones(breeder: Keeper) -> None:
    breeder.run("animal", "add", "Elm", "--clutch", "C1")
    breeder.run("animal", "add", "Fir", "--clutch", "C1")
    breeder.run("animal", "parents", "FIR", "--sire", "DIL")  # as a test of it alone told
    breeder.run("clutch", "change", "C1", "--sire", "BO")
    assert parents(breeder, "ELM") == [("dam", "Ash (ASH)", None), ("sire", "Bo (BO)", None)]
    assert parents(breeder, "FIR")[1:] == [("sire", "Dill (DIL)", None)]
    breeder.run("undo", "--yes")
    assert parents(breeder, "ELM") == OF_THE_CLUTCH


def test_an_event_names_its_clutch_by_code(breeder: Keeper) -> None:
    said = breeder.json("record", "laid", "ASH", "--count", "2", "--clutch", "C1")["recorded"][0]
    assert (said["what"], said["data"]["clutch"]) == ("laid: 2 in all, clutch C1", "C1")
    shown = breeder.json("clutch", "show", "C1")
    assert [e["event"] for e in shown["events"]] == [said["event"]]
    refused = breeder.run("record", "hatched", "BO", "--clutch", "C1", ok=False)
    assert "clutch C1 is of Ash (ASH)" in refused.complaint(2)


def test_undo_of_a_clutch_is_refused_while_young_or_events_rest_on_it(breeder: Keeper) -> None:
    with breeder.book() as book:
        entered = book.steps(1)[0].id
    breeder.run("record", "laid", "ASH", "--count", "2", "--clutch", "C1")
    assert "rests on it" in breeder.run("undo", entered, "--yes", ok=False).complaint(4)
    breeder.run("undo", "--yes")
    breeder.run("animal", "add", "Elm", "--clutch", "C1")
    assert "rests on it" in breeder.run("undo", entered, "--yes", ok=False).complaint(4)
    breeder.run("undo", "--yes")
    breeder.run("undo", entered, "--yes")
    assert breeder.json("clutch", "list")["clutches"] == []
    breeder.run("redo")
    assert breeder.json("clutch", "list")["clutches"][0]["sires"]


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        ("--dam BO", "Bo (BO) is male and cannot be a dam"),
        ("--sire ASH", "Ash (ASH) is female and cannot be a sire"),
        ("--laid 2025-06-01", "a clutch needs a parent: --dam CODE, --sire CODE or both"),
        ("--dam ASH --laid 2026-03-06", "2026-03-06 is in the future"),
        ("--dam ASH --laid 2025-06-01 --hatched 2025-05-01", "hatched 2025-05-01 is before laid"),
        ("--dam ASH --last-hatched 2025-05-01", "say when the first hatched, with --hatched"),
        (
            "--dam ASH --hatched 2025-05-02 --last-hatched 2025-05-01",
            "the last hatched 2025-05-01 is before hatched 2025-05-02",
        ),
        ("--dam ASH --eggs 3 --good 4", "4 good of 3 eggs cannot be"),
        ("--dam ASH --eggs 100000", "100000 eggs cannot be; check the number"),
        ("--dam ASH --sire BO=0.7 --sire DIL=0.4", "sum to 1.1, which is more than 1"),
    ],
)
def test_an_impossible_clutch_is_refused(breeder: Keeper, arguments: str, told: str) -> None:
    assert told in breeder.run("clutch", "add", *arguments.split(), ok=False).complaint(2)


def test_a_code_that_is_taken_is_refused(breeder: Keeper) -> None:
    refused = breeder.run("clutch", "add", "--dam", "ASH", "--code", "c1", ok=False)
    assert "code C1 is taken by clutch C1" in refused.complaint(4)
    breeder.run("clutch", "add", "--dam", "ASH")
    assert [c["code"] for c in breeder.json("clutch", "list")["clutches"]] == ["C1", "C2"]


def test_a_parent_of_a_clutch_keeps_its_sex_and_its_age(breeder: Keeper) -> None:
    refused = breeder.run("animal", "change", "DIL", "--sex", "female", ok=False)
    assert "is recorded as a sire and cannot be female" in refused.complaint(4)
    refused = breeder.run("animal", "change", "ASH", "--hatched", "2025-07", ok=False)
    assert "not before clutch C1 was laid" in refused.complaint(2)


def test_the_file_keeps_days_and_shares_possible(breeder: Keeper) -> None:
    with closing(sqlite3.connect(breeder.path)) as connection:
        for statement in (
            "UPDATE clutch SET laid = '2026-02-30'",
            "UPDATE clutch_sire SET weight = 1.5",
            "UPDATE clutch_sire SET weight = 0",
        ):
            with pytest.raises(sqlite3.IntegrityError):
                connection.execute(statement)


def test_check_finds_shares_of_more_than_one(breeder: Keeper) -> None:
    with closing(sqlite3.connect(breeder.path)) as connection, connection:
        connection.execute("UPDATE clutch_sire SET weight = 0.9")
    assert "1 sum of weights" in breeder.run("file", "check", ok=False).stdout


days = st.dates(date(2020, 1, 1), date(2022, 12, 31))


@given(days, days)
def test_the_day_of_hatching_is_as_exact_as_all_young_share(one: date, other: date) -> None:
    first, last = sorted((one, other))
    text = hatched_in(replace(NOBODY, hatched_first=first, hatched_last=last))
    if first.year == last.year:
        known = parse_partial_date(text)
        assert known.earliest <= first and last <= known.latest
        assert (known.day is not None) == (first == last)
    else:
        assert text == ""
