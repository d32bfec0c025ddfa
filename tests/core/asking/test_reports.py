"""Reports of animals and enclosures: an animal's tells what was found about its home."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

import pytest

from warmside.core.answers.parts import Section, paragraphs
from warmside.core.plugins.hook_values import Finding, Level
from warmside.core.values.about import About
from warmside.core.values.basis import Basis
from warmside.testing import Keeper, throw_away_plugin

RULE = Basis("a rule of the test")
CODES = {"findings": (("alder.hot", "too hot"), ("alder.thin", "too thin"))}


@pytest.fixture
def kept(keeper: Keeper) -> Iterator[Keeper]:
    """Two animals in two homes and an empty enclosure; a plugin that finds something of each."""
    for name in ("Low", "High", "Bare"):
        keeper.run("enclosure", "add", name)
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "LOW")
    keeper.run("animal", "add", "Moss", "--species", "leopard gecko", "--enclosure", "HIG")
    keeper.run("record", "watered", "BAR")

    def findings(book: Any) -> Iterator[Finding]:
        for animal in book.animals.values():
            words = f"{animal.name} is thin"
            yield Finding("alder.thin", Level.LOOK_SOON, words, RULE, About(animal.id))
        for place in book.enclosures.values():
            words = f"{place.name} is hot"
            about = About(enclosure_id=place.id)
            yield Finding("alder.hot", Level.ACT_NOW, words, RULE, about)

    def sections(about: About, on: date) -> list[Section]:
        whom = "an animal" if about.animal_id else "a place"
        return [Section(f"About {whom}", paragraphs("told"))]

    with throw_away_plugin(
        "alder",
        manifest=CODES,
        warmside_findings=findings,
        warmside_report_sections=sections,
    ):
        keeper.run("plugin", "enable", "alder")
        yield keeper


def found(keeper: Keeper, subject: str) -> set[str]:
    sections = {s["title"]: s for s in keeper.json("report", subject)["sections"]}
    return {f["words"] for f in sections["Findings"]["findings"]}


def test_an_animals_report_tells_what_is_wrong_with_its_home(kept: Keeper) -> None:
    assert found(kept, "EMB") == {"Ember is thin", "Low is hot"}


def test_what_wants_to_be_looked_at_stands_before_all_else(kept: Keeper) -> None:
    titles = [s["title"] for s in kept.json("report", "EMB")["sections"]]
    assert titles == ["Findings", "About an animal", "History"]


def test_where_nothing_presses_the_findings_stand_near_the_end(keeper: Keeper) -> None:
    keeper.run("animal", "add", "Ember", "--species", "ball python")
    place = About(animal_id=1)
    note = [Finding("alder.hot", Level.NOTE, "a note", Basis("r"), place)]
    telling = [Section("About", paragraphs("told"))]
    with throw_away_plugin(
        "alder",
        manifest=CODES,
        warmside_findings=lambda: note,
        warmside_report_sections=lambda: telling,
    ):
        keeper.run("plugin", "enable", "alder")
        titles = [s["title"] for s in keeper.json("report", "EMB")["sections"]]
    assert titles == ["About", "Findings", "History"]


def test_an_enclosures_report_tells_what_is_wrong_with_those_inside(kept: Keeper) -> None:
    assert found(kept, "HIG") == {"Moss is thin", "High is hot"}


def test_an_empty_enclosure_has_a_report_with_its_own_sections(kept: Keeper) -> None:
    assert found(kept, "BAR") == {"Bare is hot"}
    text = kept.run("report", "BAR").stdout
    assert "About a place" in text and "About an animal" not in text
    assert "watered" in text
    assert "About an animal" in kept.run("report", "EMB").stdout


def test_a_subject_that_is_neither_is_named_with_a_near_miss(kept: Keeper) -> None:
    told = kept.run("report", "Embre", ok=False).complaint(3)
    assert "there is no animal or enclosure 'Embre' (did you mean 'Ember'?)" in told


def test_round_and_reports_agree(kept: Keeper) -> None:
    round_ = {f["words"] for f in kept.json("today")["findings"]}
    assert round_ == found(kept, "EMB") | found(kept, "HIG") | found(kept, "BAR")


def test_one_stay_is_a_sentence_and_several_are_a_table(keeper: Keeper) -> None:
    keeper.run("enclosure", "add", "Low")
    keeper.run("enclosure", "add", "High")
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "LOW")
    assert "\nhere since 2026-03-05, in LOW\n" in keeper.run("animal", "show", "EMB").stdout
    keeper.run("move", "EMB", "--to", "HIG")
    told = keeper.run("animal", "show", "EMB").stdout
    assert "Where it was" in told and "here since" not in told
    assert [p["enclosure"] for p in keeper.json("animal", "show", "EMB")["places"]] == [
        "LOW",
        "HIG",
    ]


def test_an_animals_history_says_its_name_once_and_where_it_was_put(keeper: Keeper) -> None:
    keeper.run("enclosure", "add", "Low")
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "LOW")
    keeper.run("record", "weighed", "EMB=412g")
    for command in ("report", "history"):
        told = keeper.run(command, "EMB").stdout.partition("History")[2]
        assert "Ember" not in told and "weighed: 412 g" in told
        assert "LOW" in told
    assert "Ember (EMB)" in keeper.run("history").stdout
    events = keeper.json("report", "EMB")["sections"][-1]["events"]
    assert {e["subject"] for e in events} == {"Ember (EMB) in LOW", "Ember (EMB)"}
