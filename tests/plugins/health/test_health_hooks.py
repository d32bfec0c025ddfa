"""Cases in the round, in the report and at the border."""

from __future__ import annotations

from datetime import date

from warmside.api import About, Finding, Level, Task
from warmside.testing import Keeper

CASE = ("record", "health.case", "EMB")


def begin(ill: Keeper) -> None:
    ill.run(
        *(*CASE, "--state", "open", "--what", "wheezing", "--awaited", "swab result"),
        *("--recheck", "2026-03-12", "--at", "2026-03-01"),
    )


def found(keeper: Keeper, about: About | None = None) -> list[Finding]:
    with keeper.ask() as ask:
        all_of_them = ask.findings(ask.book.today, about)
    return [f for f in all_of_them if f.code == "health.case"]


def tasks(keeper: Keeper, on: date) -> list[Task]:
    with keeper.ask() as ask:
        return [task for _, task in ask.tasks(on)]


def test_a_case_stands_in_the_round_until_it_is_closed(ill: Keeper) -> None:
    begin(ill)
    (one,) = found(ill)
    assert (one.level, one.about) == (Level.LOOK_SOON, About(1))
    assert one.words.startswith("case since 2026-03-01, wheezing; waiting for swab result: ")
    ill.run(*CASE, "--state", "open", "--what", "result is here", "--at", "2026-03-04")
    (one,) = found(ill)
    assert one.words.startswith("case since 2026-03-01, wheezing; on 2026-03-04, result is here: ")
    assert len(one.basis.events) == 2
    ill.run(*CASE, "--state", "closed", "--what", "the vet found it well")
    assert found(ill) == []
    ill.run("undo")
    assert len(found(ill)) == 1


def test_a_case_is_told_of_its_animal_and_of_its_enclosure_alone(ill: Keeper) -> None:
    begin(ill)
    assert found(ill, About(2)) == []
    assert len(found(ill, About(1))) == len(found(ill, About(enclosure_id=1))) == 1


def test_a_recheck_is_due_on_its_day_and_a_visit_settles_it(ill: Keeper) -> None:
    begin(ill)
    assert tasks(ill, date(2026, 3, 11)) == []
    (task,) = tasks(ill, date(2026, 3, 12))
    assert (task.due, task.settles, task.about) == (date(2026, 3, 12), "examined", About(1))
    ill.run("record", "examined", "EMB", "--told", "come again if it wheezes")
    assert tasks(ill, date(2026, 3, 12)) == []
    assert len(found(ill)) == 1, "a visit closes no case"


def test_of_an_animal_that_died_nothing_more_is_asked(ill: Keeper) -> None:
    begin(ill)
    ill.run("record", "died", "EMB", "--confirm")
    left = [t for t in tasks(ill, date(2026, 3, 12)) if t.about.animal_id is not None]
    assert (found(ill), left) == ([], [])


def test_the_report_shows_all_entries(ill: Keeper) -> None:
    begin(ill)
    ill.run(*CASE, "--state", "closed", "--what", "well again")
    said = ill.run("report", "EMB").stdout
    assert "Cases of illness" in said and "wheezing" in said and "well again" in said
    assert "Cases of illness" not in ill.run("report", "MOS").stdout


def test_what_cannot_be_is_refused_in_a_line(ill: Keeper) -> None:
    refused = ill.run(*CASE, "--state", "closed", "--what", "well", ok=False)
    assert refused.code == 2
    assert "EMB has no open case on 2026-03-05" in refused.stderr
    early = ("--recheck", "2026-03-01")
    refused = ill.run(*CASE, "--state", "open", "--what", "limp", *early, ok=False)
    assert refused.code == 2
    assert "the recheck, 2026-03-01, is before the entry of 2026-03-05" in refused.stderr
    assert found(ill) == []


def test_the_cases_of_an_animal_are_listed_with_all_entries(ill: Keeper) -> None:
    assert ill.json("health", "cases", "MOS")["cases"] == []
    begin(ill)
    ill.run(*CASE, "--state", "closed", "--what", "well again")
    rows = ill.json("health", "cases", "Ember")["cases"]
    assert [(r["day"], r["case"], r["state"]) for r in rows] == [
        ("2026-03-01", "2026-03-01", "open"),
        ("2026-03-05", "2026-03-01", "closed"),
    ]
