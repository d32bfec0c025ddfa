"""A death through the commands and the round: what is asked, of whom, and what is left."""

from __future__ import annotations

from datetime import date

from warmside.api import Task
from warmside.testing import Keeper

DEATH = ("health", "death", "EMB")


def asked(keeper: Keeper, on: date = date(2026, 3, 5)) -> list[Task]:
    with keeper.ask() as ask:
        return [task for _, task in ask.tasks(on)]


def questions(keeper: Keeper, on: date = date(2026, 3, 5)) -> list[str]:
    return [str(task.data["question"]) for task in asked(keeper, on)]


def begin(ill: Keeper) -> None:
    thawed = ("--item", "adult mouse", "--form", "thawed", "--at", "2026-02-20")
    ill.run("record", "fed", "EMB", *thawed)
    ill.run(*DEATH, "--found", "lay in the bowl")


def test_it_is_written_down_and_the_questions_are_asked_of_the_living(ill: Keeper) -> None:
    begin(ill)
    assert questions(ill) == ["necropsy", "contacts", "equipment", "prey"]
    assert all(t.about.animal_id is None and t.about.enclosure_id == 1 for t in asked(ill))
    necropsy, contacts, _, prey = asked(ill)
    assert "not frozen" in necropsy.note and "Moss (MOS)" in contacts.note
    assert "adult mouse on 2026-02-20" in prey.note
    (died,) = ill.json("history", "EMB", "--last", "1")["events"]
    assert died["what"] == "died: lay in the bowl"


def test_each_is_settled_by_its_number_with_what_was_done(ill: Keeper) -> None:
    begin(ill)
    ill.run("today")
    bare = ill.run("done", "1", ok=False)
    assert bare.code == 2
    numbers = {t["what"]: n for n, t in enumerate(ill.json("today")["tasks"], 1)}
    ill.run("today")
    necropsy = next(n for what, n in numbers.items() if "necropsy" in what)
    wrong = ill.run("done", f"{necropsy}=perhaps", ok=False)
    assert wrong.code == 2 and "it is one of: asked for, no, done" in wrong.stderr
    ill.run("done", f"{necropsy}=yes")
    assert questions(ill) == ["contacts", "equipment", "prey"]
    assert ill.json("report", "EMB")["sections"][0]["death"][0]["necropsy"] == "asked for"
    ill.run("undo")
    assert "necropsy" in questions(ill)


def test_what_is_asked_after_a_death_does_not_stop_done_all(ill: Keeper) -> None:
    begin(ill)
    ill.run("plugin", "enable", "rhythm")
    ill.run("rhythm", "set", "cleaned", "--every", "7")
    ill.run("today")
    done = ill.run("done", "all", ok=False)
    assert done.code == 2 and "cleaned" in done.stdout
    assert "needs whether one was asked for, done or not" in done.stderr
    assert questions(ill) == ["necropsy", "contacts", "equipment", "prey"]


def test_one_command_may_answer_all_and_later_ones_add_what_was_found(ill: Keeper) -> None:
    begin(ill)
    ill.run(*DEATH, "--necropsy", "asked for", "--contacts", "weighed", "--equipment", "dried")
    ill.run(*DEATH, "--prey", "thrown away")
    assert questions(ill) == []
    ill.pass_days(20)
    ill.run(*DEATH, "--necropsy", "done", "--found", "in the laboratory's words")
    assert len(ill.json("history", "EMB")["events"]) == 6


def test_the_questions_end(ill: Keeper) -> None:
    begin(ill)
    assert questions(ill, date(2026, 3, 9)) == ["contacts", "equipment", "prey"]
    assert questions(ill, date(2026, 4, 5)) == []


def test_of_a_living_animal_nothing_can_follow_its_death(ill: Keeper) -> None:
    refused = ill.run("record", "health.death", "EMB", "--found", "thin", ok=False)
    assert refused.code == 2 and "is not on record as dead" in refused.stderr


def test_the_body_may_be_sent_in_and_its_result_is_listed_but_never_asked_for(ill: Keeper) -> None:
    begin(ill)
    ill.run("health", "sample", "EMB", "body", "--lab", "State laboratory")
    assert [r["what"] for r in ill.json("health", "awaited")["results"]] == ["body"]
    assert "body" not in " ".join(t.what for t in asked(ill, date(2026, 5, 1)))
