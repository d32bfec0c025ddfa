"""`warmside scan`: what a scanner typed opens the animal or enclosure."""

from __future__ import annotations

from datetime import date

import pytest

from warmside.api import About, Basis, CareRank, Finding, Level, Task
from warmside.testing import Keeper, throw_away_plugin


@pytest.mark.parametrize(
    "text",
    ["WS.A.EMB", "ws.a.emb", "https://a.example/WS.A.EMB", "EMB", "Ember", " WS.A.EMB\r\n"],
)
def test_an_animal_is_opened(labelled: Keeper, text: str) -> None:
    answer = labelled.json("scan", text)
    assert (answer["kind"], answer["code"], answer["enclosure"]) == ("animal", "EMB", "V-01")
    assert answer["species"] == "Boaedon fuliginosus"
    assert answer["tasks"] == [] and answer["label_code"] == "WS.A.EMB"


def test_an_enclosure_is_opened_with_who_lives_there(labelled: Keeper) -> None:
    answer = labelled.json("scan", "WS.E.V-02")
    assert (answer["kind"], answer["code"], answer["room"]) == ("enclosure", "V-02", "attic")
    assert [a["code"] for a in answer["animals"]] == ["MOS", "TAM"]
    assert labelled.json("scan", "WS.E.V-03")["animals"] == []


def test_what_is_due_and_known_there_is_shown_and_nothing_else(labelled: Keeper) -> None:
    basis = Basis("because it is so")

    def tasks(book, on):
        home = About(enclosure_id=book.enclosure("V-02").id)
        for animal in book.animals.values():
            yield Task(f"weigh {animal.code}", date(2026, 3, 1), basis, About(animal.id))
            yield Task("later", date(2027, 3, 1), basis, About(animal.id))
        yield Task("mist", date(2026, 3, 4), basis, home)

    def findings(book, on):
        for animal in book.animals.values():
            yield Finding("chores.thin", Level.LOOK_SOON, "thin", basis, About(animal.id))
        home = About(enclosure_id=book.enclosure("V-02").id)
        yield Finding("chores.leak", Level.ACT_NOW, "wet floor", basis, home)
        yield Finding("chores.cold", Level.ACT_NOW, "no animal, no enclosure", basis)

    def ranks(book, on):
        return [CareRank(book.enclosure("V-02").id, 5, "comes last", before="wash hands")]

    manifest = {
        "findings": (("chores.thin", "thin"), ("chores.leak", "wet"), ("chores.cold", "cold"))
    }
    with throw_away_plugin(
        "chores",
        manifest=manifest,
        warmside_tasks=tasks,
        warmside_findings=findings,
        warmside_care_order=ranks,
    ):
        labelled.run("plugin", "enable", "chores")
        moss = labelled.json("scan", "WS.A.MOS")
        tall = labelled.json("scan", "WS.E.V-02")
        shown = labelled.run("scan", "WS.A.MOS").stdout
        spare = labelled.json("scan", "WS.E.V-03")
        early = labelled.json("scan", "MOS", "--on", "2026-02-01")
    assert [t["what"] for t in moss["tasks"]] == ["weigh MOS", "mist"]
    assert [t["what"] for t in tall["tasks"]] == ["weigh TAM", "weigh MOS", "mist"]
    assert [f["subject"] for f in moss["findings"]] == ["V-02", "Moss (MOS)"]  # its home's, too
    assert [f["subject"] for f in tall["findings"]] == ["V-02", "Moss (MOS)", "Tamsin (TAM)"]
    assert "caution: comes last" in shown and "caution: wash hands" in shown
    assert "! 4 days late" in shown and "because it is so" in shown
    assert spare["tasks"] == [] and spare["findings"] == [] and early["tasks"] == []


def test_what_one_event_settles_is_one_task_as_in_the_round(labelled: Keeper) -> None:
    def chores(book, on):
        about = About(book.animal("EMB").id)
        return [Task("feed a mouse", on, Basis("weekly"), about, "fed", {"item": "mouse"})]

    def diet(book, on):
        return [Task("feed", on, Basis("it is hungry"), About(book.animal("EMB").id), "fed")]

    with (
        throw_away_plugin("chores", warmside_tasks=chores),
        throw_away_plugin("diet", warmside_tasks=diet),
    ):
        labelled.run("plugin", "enable", "chores")
        labelled.run("plugin", "enable", "diet")
        (scanned,) = labelled.json("scan", "WS.A.EMB")["tasks"]
        (shown,) = labelled.json("today")["tasks"]
    assert {k: v for k, v in shown.items() if k != "number"} == scanned
    assert scanned["why"] == "weekly; it is hungry" and scanned["plugin"] == "chores and diet"


def test_the_card_of_a_day_says_where_the_animal_was(labelled: Keeper) -> None:
    labelled.run("move", "Moss", "--to", "V-03")
    assert labelled.json("scan", "MOS")["enclosure"] == "V-03"
    before = labelled.json("scan", "MOS", "--on", "2026-03-04")
    assert before["custody"] != "here" and "enclosure" not in before


def test_a_code_of_both_asks_which(labelled: Keeper) -> None:
    labelled.run("enclosure", "add", "Emberhome", "--code", "EMB")
    result = labelled.run("scan", "EMB", ok=False)
    assert result.code == 2 and "WS.A.EMB, WS.E.EMB" in result.stderr
    assert labelled.json("scan", "WS.E.EMB")["name"] == "Emberhome"


@pytest.mark.parametrize(
    ("text", "code", "said"),
    [
        ("WS.A.V-01", 3, "this label names animal 'V-01'"),
        ("WS.A.Ember", 3, "this label names animal 'Ember'"),  # a label has a code, not a name
        ("WS.E.EMB", 3, "this label names enclosure 'EMB'"),
        ("Embre", 3, "did you mean 'Ember'"),
        ("", 2, "is no code"),
        ("   ", 2, "is no code"),
        ("https://example.org/", 2, "an address without a code"),
        ("WS.A.%FF", 2, "damaged"),
        ("WS.A.\udcff", 2, "is no code"),
        ("\x1b[31mEMB", 2, "is no code"),
        ("{{7*7}}", 3, "no animal or enclosure"),
        ("9" * 5000, 2, "is no code"),
    ],
)
def test_what_is_no_code_of_ours_is_refused_in_one_line(
    labelled: Keeper, text: str, code: int, said: str
) -> None:
    result = labelled.run("scan", text, ok=False)
    assert result.code == code and said in result.stderr and result.stderr.count("\n") == 1
    assert "\x1b" not in result.stderr
