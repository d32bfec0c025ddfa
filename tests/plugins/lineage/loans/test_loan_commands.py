"""Loans as a keeper has them: lent, agreed, due, shared out, back."""

from __future__ import annotations

import shlex
from pathlib import Path

import pytest

from warmside.testing import Keeper, copy_of, new_keeper


@pytest.fixture(scope="session")
def lent(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """Fern is lent out until the 3rd of April, half of her young are ours; Rust stays here."""
    keeper = new_keeper(tmp_path_factory.mktemp("lent"), plugins=["lineage", "quarantine"])
    for name, sex in (("Fern", "female"), ("Rust", "male")):
        keeper.run(
            *("animal", "add", name, "--species", "corn snake"),
            *("--sex", sex, "--since", "2024-05-01"),
        )
    terms = ("--until", "2026-04-03", "--terms", "corn snakes only")
    keeper.run("lend", "Fern", "--to", "A. Nother", *terms, "--at", "2026-01-10")
    keeper.run(
        *("lineage", "loan", "agree", "Fern", "--ours", "50%", "--odd", "them"),
        *("--young", "they pick first", "--at", "2026-01-10"),
    )
    keeper.run("clutch", "add", "--code", "C1", "--dam", "Fern", "--sire", "Rust")
    keeper.run("clutch", "change", "C1", "--laid", "2026-02-10")
    return keeper


@pytest.fixture
def mine(lent: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(lent, tmp_path)


def hatch(keeper: Keeper, count: int) -> None:
    keeper.run("record", "hatched", "Fern", "--count", str(count), "--clutch", "C1")


def overdue(keeper: Keeper) -> list[str]:
    with keeper.ask() as ask:
        found = ask.findings(ask.book.today)
    return [f.words for f in found if f.code == "lineage.overdue"]


def test_what_was_agreed_is_told_in_words(mine: Keeper) -> None:
    told = [e["what"] for e in mine.json("history", "Fern")["events"]]
    assert (
        "loan agreed: 50 %, of the young of each clutch, an odd one is theirs, they pick first"
        in told
    )
    answer = mine.json("lineage", "loan", "show", "Fern")
    assert (answer["other"], answer["until"]) == ("A. Nother", "2026-04-03")
    assert answer["share"] == (
        "50 % of the young of each clutch is ours, an odd one is theirs; they pick first"
    )
    assert answer["terms"] == "corn snakes only"


def test_young_fall_to_each_side_once_they_hatched(mine: Keeper) -> None:
    (before,) = mine.json("lineage", "loan", "show", "Fern")["broods"]
    assert before["hatched"] is None and before["ours"] is None
    hatch(mine, 7)
    (after,) = mine.json("lineage", "loan", "show", "Fern")["broods"]
    assert (after["hatched"], after["ours"], after["theirs"]) == (7, 3, 4)
    (row,) = mine.json("lineage", "loan", "list")["loans"]
    assert (row["young"], row["ours"], row["theirs"]) == (7, 3, 4)


def test_young_that_were_shared_out_otherwise_are_told(mine: Keeper) -> None:
    hatch(mine, 7)
    mine.run("lineage", "loan", "divide", "Fern", "C1", "--ours", "3", "--theirs", "4")
    as_agreed = mine.json("lineage", "loan", "show", "Fern")["notes"]
    assert not any("not what was agreed" in n["text"] for n in as_agreed)
    mine.run("lineage", "loan", "divide", "Fern", "C1", "--ours", "4", "--theirs", "3")
    answer = mine.json("lineage", "loan", "show", "Fern")
    assert answer["broods"][0]["shared_out"] == "4 ours, 3 theirs"
    assert any("4 ours and 3 theirs is not what was agreed" in n["text"] for n in answer["notes"])


def test_the_return_is_a_task_from_a_week_before_to_its_day(mine: Keeper) -> None:
    seen = []
    for on in ("2026-03-26", "2026-03-27", "2026-04-03", "2026-04-04"):
        tasks = mine.json("today", "--on", on)["tasks"]
        seen.append([(t["what"], t["pace"] if "pace" in t else t["group"]) for t in tasks])
    what = "have it back from A. Nother"
    assert seen == [[], [(what, "may be done")], [(what, "today")], []]  # then a finding


def test_a_late_return_is_a_finding_until_a_longer_loan_is_agreed(mine: Keeper) -> None:
    assert overdue(mine) == []
    mine.pass_days(29)  # the very day
    assert overdue(mine) == []
    mine.pass_days(2)
    (words,) = overdue(mine)
    assert "since 2026-04-03, 2 days ago" in words and "loan agree FER" in words
    assert "warmside return FER" in words
    mine.run("lineage", "loan", "agree", "Fern", "--until", "2026-06-01")
    assert overdue(mine) == []
    assert mine.json("lineage", "loan", "show", "Fern")["until"] == "2026-06-01"


def test_the_return_settles_it_and_starts_a_quarantine(mine: Keeper) -> None:
    mine.pass_days(29)
    mine.run("today")
    done = mine.run("done", "1").stdout
    assert "returned: from a loan" in done and "quarantine begun" in done
    assert overdue(mine) == []
    assert mine.json("lineage", "loan", "list")["loans"] == []
    assert len(mine.json("lineage", "loan", "list", "--all")["loans"]) == 1


def test_a_year_or_month_that_was_agreed_ends_with_its_last_day(mine: Keeper) -> None:
    mine.run("lend", "Rust", "--to", "B. Other", "--until", "2026-03")
    assert mine.json("lineage", "loan", "show", "Rust")["until"] == "2026-03"
    mine.pass_days(26)
    assert overdue(mine) == []
    mine.pass_days(1)
    assert len(overdue(mine)) == 1


def test_an_animal_here_on_loan_is_to_be_given_back(mine: Keeper) -> None:
    mine.run(
        *("arrive", "Slate", "--species", "corn snake", "--sex", "male"),
        *("--how", "on loan here", "--from", "C. Third"),
    )
    mine.run("lineage", "loan", "agree", "Slate", "--until", "2026-03-10", "--ours", "0%")
    mine.run("enclosure", "add", "Rack")
    mine.run("move", "Slate", "--to", "Rack")
    (row,) = [r for r in mine.json("lineage", "loan", "list")["loans"] if "Slate" in r["animal"]]
    assert (row["which"], row["other"]) == ("here on loan", "C. Third")
    mine.pass_days(5)
    tasks = mine.json("today")["tasks"]
    number = next(t["number"] for t in tasks if t["what"] == "give it back to C. Third")
    mine.run("done", str(number))
    assert mine.json("animal", "show", "Slate")["custody"] == "departed"
    mine.run("undo")
    mine.pass_days(1)
    (words,) = [words for words in overdue(mine) if "back with C. Third" in words]
    assert 'warmside depart SLA --how "back to its owner"' in words


def test_who_is_lent_out_stands_below_the_animals(mine: Keeper) -> None:
    out = mine.run("animal", "list").stdout
    assert "Fern (FER) is with A. Nother until 2026-04-03" in out
    assert mine.json("animal", "list")["away"][0]["to"] == "A. Nother"


def test_the_report_tells_of_loans(mine: Keeper) -> None:
    sections = {s["title"]: s for s in mine.json("report", "Fern")["sections"]}
    assert sections["Loans"]["loans"][0]["other"] == "A. Nother"
    assert "Loans" not in {s["title"] for s in mine.json("report", "Rust")["sections"]}


def test_young_without_a_clutch_count_by_their_date_of_hatching(mine: Keeper) -> None:
    for name in ("Dot", "Dash"):
        mine.run("animal", "add", name, "--species", "corn snake", "--hatched", "2026-03-01")
        mine.run("animal", "parents", name, "--dam", "Fern")
    rows = mine.json("lineage", "loan", "show", "Fern")["broods"]
    assert [(r["clutch"], r["hatched"]) for r in rows] == [
        ("C1", None),
        ("none", 2),
        ("in all", 2),
    ]


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("agree Fern", "say what was agreed"),
        ("agree Rust --ours 50%", "is not on loan on 2026-03-05"),
        ("agree Fern --until 2025-12-01", "before the loan began, 2026-01-10"),
        ("agree Fern --ours 150%", "at most 100 %"),
        ("agree Fern --odd me", "us or them, not 'me'"),
        ("agree Fern --over all", "each clutch or all clutches, not 'all'"),
        ("show Rust", "was not on loan"),
        ("divide Fern C1 --ours 0 --theirs 0", "no young are shared out"),
        ("divide Fern C1 --ours=-1 --theirs 2", "0 or more"),
        ("divide Rust C1 --ours 1 --theirs 1", "is not on loan"),
        ("divide Fern C9 --ours 1 --theirs 1", "C9"),
    ],
)
def test_bad_input_is_one_line(mine: Keeper, typed: str, told: str) -> None:
    result = mine.run("lineage", "loan", *shlex.split(typed), ok=False)
    assert result.code in (2, 3)
    assert told in result.complaint(result.code)


def test_more_young_than_hatched_cannot_be_shared_out(mine: Keeper) -> None:
    hatch(mine, 7)
    asked = ("lineage", "loan", "divide", "Fern", "C1", "--ours", "5", "--theirs", "3")
    assert "8 young cannot be shared out, 7 are on record" in mine.run(*asked, ok=False).complaint(
        2
    )
