"""The sitter's sheet: the days in the order of care, and a table that comes back by import."""

from __future__ import annotations

import csv
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from warmside.core.plugins.hook_values import CareRank, Task
from warmside.core.values.about import About
from warmside.core.values.basis import Basis
from warmside.testing import Keeper, throw_away_plugin

RULE = Basis("a rule of the test")
DAYS = ("--from", "2026-03-06", "--until", "2026-03-10")


def tasks(on: date) -> list[Task]:
    """A snake to feed on the 8th, water every two days, a weighing; Fern is in quarantine."""
    rat = {"item": "adult rat", "count": 1, "form": "thawed"}
    cricket = {"item": "cricket", "count": 5, "form": "insect"}
    snake, gecko, new = About(1), About(2), About(3)
    low = About(enclosure_id=1)
    return [
        Task("feed a rat", date(2026, 3, 8), RULE, snake, settles="fed", data=rat),
        Task("feed crickets", date(2026, 3, 6), RULE, gecko, "fed", cricket, every_days=3),
        Task(
            "feed mash",
            date(2026, 3, 7),
            RULE,
            new,
            "fed",
            {"item": "mash"},
            note="tongs of its own",
        ),
        Task("fresh water", date(2026, 3, 6), RULE, low, "watered", every_days=2),
        Task("weigh", date(2026, 3, 6), RULE, snake, settles="weighed"),
    ]


@pytest.fixture
def sat(house: Keeper) -> Any:
    with throw_away_plugin(
        "alder",
        warmside_tasks=lambda on: [t for t in tasks(on) if t.due <= on],
        warmside_care_order=lambda: [CareRank(3, 900, "apart", "apart", "wash hands; blue tongs")],
    ):
        house.run("plugin", "enable", "alder")
        yield house


def days(keeper: Keeper, *more: str) -> list[dict[str, Any]]:
    whole = keeper.json("sheet", "sitter", *DAYS, *more)
    return next(s["days"] for s in whole["sections"] if s["title"] == "Day by day")


def test_each_day_has_what_is_due_then_and_quarantine_comes_last(sat: Keeper) -> None:
    found = days(sat)
    eighth = [(r["who"], r["what"]) for r in found if r["day"] == "2026-03-08"]
    assert eighth == [
        ("Ember, Moss", "the daily look"),
        (None, "fresh water"),
        ("Ember", "feed a rat"),
        ("Fern", "the daily look"),
    ]
    assert [r["day"] for r in found if r["what"] == "feed crickets"] == ["2026-03-06", "2026-03-09"]
    assert [r["day"] for r in found if r["what"] == "fresh water"] == [
        "2026-03-06",
        "2026-03-08",
        "2026-03-10",
    ]
    (thaw,) = [r for r in found if "freezer" in r["what"]]
    assert (thaw["day"], thaw["what"]) == (
        "2026-03-07",
        "evening: out of the freezer for tomorrow: 1 × adult rat",
    )


def test_what_is_the_keepers_is_said_to_the_keeper_alone(sat: Keeper) -> None:
    result = sat.run("sheet", "sitter", *DAYS)
    assert "left for you, since it can wait or is yours: weigh (Ember)" in result.stderr
    assert "weigh" not in result.stdout


def test_prey_of_the_first_day_is_the_keepers_to_thaw(sat: Keeper) -> None:
    told = sat.run("sheet", "sitter", "--from", "2026-03-08", "--until", "2026-03-09").stderr
    assert "prey for 2026-03-08 is to be thawed on 2026-03-07: by you" in told


def test_prey_of_today_is_taken_out_before_all_else_and_said_once(house: Keeper) -> None:
    rat = {"item": "adult rat", "form": "thawed"}

    def asked(on: date) -> list[Task]:
        feed = Task("feed a rat", on, RULE, About(1), settles="fed", data=rat)
        return [feed, Task("thaw prey for tomorrow", on, RULE, data={"form": "thawed"})]

    with throw_away_plugin("alder", warmside_tasks=asked):
        house.run("plugin", "enable", "alder")
        typed = ("sheet", "sitter", "--from", "2026-03-05", "--until", "2026-03-05")
        told = house.run(*typed)
        rows = house.json(*typed)["sections"][1]["days"]
    whats = [row["what"] for row in rows]
    assert whats[0] == "out of the freezer for today, first of all: 1 × adult rat"
    assert sum("freezer" in what for what in whats) == 1
    assert "thaw" not in told.stderr and "thaw prey" not in told.stdout


def test_only_some_enclosures(sat: Keeper) -> None:
    assert {r["who"] for r in days(sat, "--only", "HIG")} == {"Moss"}


def test_a_stranger_finds_all_of_it_on_paper(sat: Keeper, tmp_path: Path) -> None:
    path = tmp_path / "sitter.pdf"
    said = ("--call", "Ann, 0000 111", "--never", "open the window")
    sat.run("sheet", "sitter", *DAYS, *said, "--paper", "letter", "--save", path)
    pages = PdfReader(path).pages
    text = "\n".join(page.extract_text() for page in pages)
    assert {round(float(page.mediabox.height)) for page in pages} == {792}
    order = ("Ann, 0000 111", "Friday 2026-03-06", "Saturday 2026-03-07", "The daily look")
    order += ("The food is not eaten", "Heat or light is off", "An animal is not there")
    order += ("open the window", "Call when an animal", "Who lives where", "wash hands; blue tongs")
    assert list(order) == sorted(order, key=text.index)
    assert text.count("☐") == len(days(sat))
    assert "48 hours" in text and "crested gecko" in text


def test_a_venomous_animal_is_for_nobody_untrained(house: Keeper) -> None:
    house.run("species", "add", "Vipera ficta", "--common", "paper viper", "--group", "viper")
    house.run("animal", "add", "Asp", "--species", "paper viper", "--enclosure", "FAR")
    text = house.run("sheet", "sitter", *DAYS).stdout
    assert "Asp (ASP): venomous." in text and "VENOMOUS: do not open" in text


def filled(path: Path, *done: tuple[str, str, str, str]) -> None:
    """Fill in the table: by day and kind, what is written under done and outcome."""
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    for day, kind, mark, outcome in done:
        row = next(r for r in rows if r["date"] == day and r["kind"] == kind)
        row |= {"done": mark, "outcome": outcome}
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, list(rows[0]))
        writer.writeheader()
        writer.writerows(rows)


def test_the_table_that_was_filled_in_comes_back_by_import(sat: Keeper, tmp_path: Path) -> None:
    path = tmp_path / "form.csv"
    sat.run("sheet", "sitter", *DAYS, "--table", path)
    filled(
        path,
        ("2026-03-06", "fed", "", "refused"),
        ("2026-03-08", "fed", "x", "taken"),
        ("2026-03-08", "watered", "yes", ""),
        ("2026-03-06", "watered", "no", ""),
    )
    sat.pass_days(7)
    sat.run("import", path)
    with sat.book() as book:
        new = [e for e in book.events("fed", "watered") if e.day >= date(2026, 3, 6)]
    said = [(e.day.day, e.kind, e.animal_id, e.data.get("outcome")) for e in new]
    assert sorted(said, key=str) == [
        (6, "fed", 2, "refused"),
        (8, "fed", 1, "taken"),
        (8, "watered", None, None),
    ]
    assert "new:               0" in sat.run("import", path).stdout


def test_a_meal_without_its_outcome_is_not_guessed(sat: Keeper, tmp_path: Path) -> None:
    path = tmp_path / "form.csv"
    sat.run("sheet", "sitter", *DAYS, "--table", path)
    filled(path, ("2026-03-08", "fed", "x", ""))
    sat.pass_days(7)
    told = sat.run("import", path, ok=False).complaint(4)
    assert "fed.outcome is not said, and is not guessed" in told


@pytest.mark.parametrize(
    ("first", "last", "told"),
    [
        ("2026-03-10", "2026-03-06", "2026-03-06 is before 2026-03-10"),
        ("2026-03-01", "2026-03-04", "2026-03-04 is over; name days to come"),
        ("2026-03-06", "2026-06-06", "are too many days for a sheet"),
        ("2026-12-06", "2026-12-08", "2026-12-08 is too far ahead to know what will be due"),
    ],
)
def test_days_that_cannot_be(house: Keeper, first: str, last: str, told: str) -> None:
    days = ("--from", first, "--until", last)
    assert told in house.run("sheet", "sitter", *days, ok=False).complaint(2)


def test_a_table_that_is_there_is_kept(house: Keeper, tmp_path: Path) -> None:
    path = tmp_path / "form.csv"
    path.write_text("filled in")
    told = house.run("sheet", "sitter", *DAYS, "--table", path, ok=False).complaint(4)
    assert "is there already; name another file" in told and path.read_text() == "filled in"
    told = house.run("sheet", "sitter", *DAYS, "--table", tmp_path / "a.txt", ok=False)
    assert "the table is a CSV file; name it a.csv" in told.complaint(2)
