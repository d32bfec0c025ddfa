"""Manners of all commands: help that is whole, the next command to type, numbers for programs."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.core.values.questions import Question, Unanswered
from warmside.testing import Keeper

GROUPS = ("animal", "enclosure", "species", "plugin", "file", "feeding", "labels", "quarantine")
SINGLE = ("today", "done", "history", "correct", "undo", "import", "report", "move", "arrive")


@pytest.mark.parametrize("command", SINGLE)
def test_completion_is_installed_by_the_program_and_by_no_command(
    house: Keeper, command: str
) -> None:
    assert "completion" not in house.run(command, "--help").stdout
    assert "--install-completion" in house.run("--help").stdout


@pytest.mark.parametrize("group", [*GROUPS, "weight", "shed", "rhythm"])
def test_a_list_of_commands_cuts_no_sentence(house: Keeper, group: str) -> None:
    assert "..." not in house.run(group, "--help").stdout.partition("Commands:")[2]


@pytest.mark.parametrize(
    "words",
    [
        ("today",),
        ("history",),
        ("animal", "list"),
        ("record", "watered", "--all"),
        ("import", "no-such.csv"),
        ("file", "where"),
        ("file", "check"),
        ("file", "backup"),
        ("plugin", "list"),
        ("labels", "print", "x.pdf"),
    ],
    ids=" ".join,
)
def test_with_no_collection_every_command_says_the_next_one(
    tmp_path: Path, words: tuple[str, ...]
) -> None:
    result = Keeper(tmp_path / "none.warmside").run(*words, ok=False)
    assert "warmside new" in result.stdout + result.stderr


def test_events_are_told_in_words_and_in_numbers(mine: Keeper) -> None:
    made = mine.json("record", "weighed", "EMB=0.5lb", "--confirm", "--note", "thin")
    (event,) = made["recorded"]
    assert event["data"] == {"mass_g": pytest.approx(226.796185)}
    assert (event["kind"], event["animal"], event["enclosure"]) == ("weighed", "EMB", None)
    assert (event["day"], event["note"]) == ("2026-03-05", "thin")
    assert event["at"].endswith("Z")
    shown = mine.json("history", "EMB", "--last", "1")["events"][0]
    assert {k: v for k, v in shown.items() if k not in ("state", "pictures")} == event


def test_where_several_animals_have_a_name_history_asks_for_the_code(mine: Keeper) -> None:
    result = mine.run("history", "Ember", ok=False)
    assert result.code == 3 and "2 animals are called 'Ember'; use a code" in result.stderr


def test_who_is_away_is_not_moved_in_passing(mine: Keeper) -> None:
    mine.run("lend", "EMB", "--to", "Ann")
    result = mine.run("move", "EMB", "--to", "H1", ok=False)
    assert result.code == 4 and "Ember is recorded as lent out" in result.stderr


def test_settings_take_and_show_units(mine: Keeper) -> None:
    mine.run("plugin", "enable", "shed")
    assert "dry_below is now 45 %" in mine.run("plugin", "set", "shed", "dry_below", "45%").stdout
    mine.run("plugin", "set", "shed", "recheck_every", "1w")
    rows = {r["name"]: r for r in mine.json("plugin", "show", "shed")["settings"]}
    every = rows["recheck_every"]
    assert (every["value"], every["stored"], every["unit"]) == ("7 days", 7, "days")


def test_all_who_live_there_are_named_when_an_enclosure_cannot_be_retired(mine: Keeper) -> None:
    mine.run("move", "MOS", "--to", "L1")
    result = mine.run("enclosure", "change", "L1", "--retired", ok=False)
    assert "Ember (EMB), Moss (MOS) live in L1; move them first" in result.stderr


def test_a_saved_mapping_is_said(mine: Keeper, tmp_path: Path) -> None:
    source, saved = tmp_path / "a.csv", tmp_path / "a.toml"
    source.write_text("date,kind,animal,mass_g\n2026-03-01,weighed,MOS,60\n", encoding="utf-8")
    said = mine.run("import", str(source), "--dry-run", "--save-map", str(saved)).stdout
    assert "saved the mapping; next time: --map" in said and saved.exists()


def test_history_says_to_whom_from_whom_and_until_when(mine: Keeper) -> None:
    mine.run("lend", "EMB", "--to", "Ann", "--terms", "feed weekly", "--until", "2026-06")
    mine.run("return", "EMB", "--from", "Ann", "--enclosure", "L1")
    said = [e["what"] for e in mine.json("history", "EMB", "--last", "2")["events"]]
    assert said == [
        "lent out: to Ann, feed weekly, until 2026-06",
        "returned: from a loan, from Ann",
    ]


def test_undo_of_a_correction_says_what_was_and_what_is(mine: Keeper) -> None:
    mine.run("correct", "4", "mass=1.3kg")
    assert "weighed: 1.2 kg; now: 2026-02-01 Ember (EMB): weighed: 1.3 kg" in " ".join(
        mine.run("undo", "--preview").stdout.split()
    )


def test_a_shared_enclosure_is_a_warning_beside_the_event(mine: Keeper) -> None:
    moved = mine.json("move", "MOS", "--to", "L1")
    assert moved["warnings"] == ["2 animals are in L1 now: Ember (EMB), Moss (MOS)"]
    assert (moved["recorded"][0]["animal"], moved["recorded"][0]["enclosure"]) == ("MOS", "L1")


def test_restore_from_an_archive_names_the_command_that_reads_it(
    mine: Keeper, tmp_path: Path
) -> None:
    target = tmp_path / "all.zip"
    mine.run("file", "export", str(target))
    result = mine.run("file", "restore", str(target), "--yes", ok=False)
    assert result.code == 2 and "file import" in result.stderr


def test_backups_are_listed_with_their_size_as_a_number(mine: Keeper) -> None:
    mine.run("file", "backup")
    assert mine.json("file", "restore", "--list")["backups"][0]["bytes"] > 10_000


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("record weighd EMB=1g", "'weighd' (did you mean 'weighed'?); see: warmside record --help"),
        ("animal lst", "'lst' (did you mean 'list'?); see: warmside animal --help"),
        ("anmial list", "'anmial' (did you mean 'animal'?); see: warmside --help"),
        ("xyzzy", "there is no command 'xyzzy'; see: warmside --help"),
    ],
)
def test_a_mistyped_command_is_told_with_its_near_miss(
    mine: Keeper, typed: str, meant: str
) -> None:
    assert meant in mine.run(*typed.split(), ok=False).complaint(2)


def test_a_question_that_cannot_be_put_keeps_names_as_they_are_written() -> None:
    asked = Unanswered(Question("food", "What food was it for Ember (EMB)?", "--food"))
    assert str(asked) == "not said: what food was it for Ember (EMB); add --food"
    assert str(Unanswered(Question("why", "Why it can wait", "--reason TEXT"))) == (
        "not said: why it can wait; add --reason TEXT"
    )
