"""The address book of vets through its commands, and on the sheets that it fills."""

from __future__ import annotations

from typing import Any

from warmside.testing import Keeper

GREEN = ("Green practice", "--telephone", "01 234", "--reptiles", "yes")
NIGHT = ("Night clinic", "--emergency", "0800 1", "--hours", "every night")
LINE = "vet: Green practice; treats reptiles; telephone 01 234"


def first_section(keeper: Keeper, *typed: str) -> list[str]:
    section: dict[str, Any] = keeper.json("sheet", *typed)["sections"][0]
    return [note["text"] for note in section["notes"]]


def test_a_vet_is_entered_changed_taken_out_and_brought_back(ill: Keeper) -> None:
    assert ill.json("health", "vets")["vets"] == []
    ill.run("health", "vet", *GREEN)
    ill.run("health", "vet", "green  practice", "--hours", "Mon 9 to 12")
    (row,) = ill.json("health", "vets")["vets"]
    assert (row["name"], row["hours"], row["reptiles"]) == ("Green practice", "Mon 9 to 12", "yes")
    ill.run("health", "drop-vet", "green")
    assert ill.json("health", "vets")["vets"] == []
    ill.run("undo")
    assert ill.json("health", "vets")["vets"] == [row]


def test_what_cannot_be_is_refused_in_a_line(ill: Keeper) -> None:
    ill.run("health", "vet", *GREEN)
    nothing = ill.run("health", "vet", "Green practice", ok=False)
    assert nothing.code == 2 and "say what changes" in nothing.stderr
    unknown = ill.run("health", "drop-vet", "Grene practice", ok=False)
    assert unknown.code == 3 and "did you mean 'Green practice'" in unknown.stderr
    ill.run("health", "vet", "Green meadow", "--telephone", "5")
    both = ill.run("health", "drop-vet", "green", ok=False)
    assert both.code == 2 and "Green practice or Green meadow" in both.stderr


def test_a_sitter_and_a_helper_in_an_emergency_read_whom_to_call(ill: Keeper) -> None:
    days = ("sitter", "--from", "2026-03-06", "--until", "2026-03-07")
    ill.run("health", "vet", *NIGHT)
    ill.run("health", "vet", *GREEN)
    ill.run("health", "vet", "Dog doctor", "--telephone", "7", "--reptiles", "no")
    for typed in (days, ("emergency",)):
        sure, ask_first = first_section(ill, *typed)
        assert sure == LINE
        assert ask_first.startswith("vet: Night clinic; ask first whether they treat reptiles")
        said = " ".join(ill.run("sheet", *typed).stdout.split())
        assert "keeper: ____" in said, "a vet's number is not the keeper's"
        assert "vet who treats reptiles: ___" not in said
