"""The commands of the core end to end: what they write and what they say."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from warmside.core.kinds.kind import EventKind
from warmside.core.kinds.shared import Observed
from warmside.testing import Keeper, Result, throw_away_plugin


def dump(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as connection:
        return list(connection.iterdump())


def told(result: Result) -> str:
    """What was said, as one line."""
    return " ".join(result.stdout.split())


def test_new_makes_a_collection_without_asking(tmp_path: Path) -> None:
    keeper = Keeper(tmp_path / "deep" / "my.warmside")
    said = keeper.run("new", "--name", "My room", "--zone", "Europe/Vienna", "--units", "imperial")
    assert "made the collection 'My room'" in said.stdout
    keeper.run("animal", "add", "Ember", "--species", "ball python")
    said = keeper.run("record", "weighed", "EMB=1lb")
    assert "weighed: 1 lb" in said.stdout
    assert keeper.json("file", "where")["why"] == "named by WARMSIDE_COLLECTION"


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (("--zone", "Europe/Vienna", "--units", "metric"), "--name"),
        (("--name", "X", "--zone", "Europe/Wien", "--units", "metric"), "no time zone Europe/Wien"),
        (
            ("--name", "X", "--zone", "Europe/Vienna", "--units", "stone"),
            "units are metric, us trade",
        ),
        (("--name", " ", "--zone", "Europe/Vienna", "--units", "metric"), "needs a name"),
    ],
)
def test_new_refuses_what_it_cannot_use(
    tmp_path: Path, options: tuple[str, ...], says: str
) -> None:
    result = Keeper(tmp_path / "my.warmside").run("new", *options, ok=False)
    assert (result.code, result.stderr.count("\n")) == (2, 1)
    assert says in result.stderr
    assert list(tmp_path.iterdir()) == []


def test_the_collection_is_found_by_option_then_variable_then_folder(
    house: Keeper, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = tmp_path / "other.warmside"
    named = house.json("--collection", str(other), "file", "where")
    assert (named["path"], named["why"]) == (str(other), "named by --collection")
    assert house.json("file", "where")["why"] == "named by WARMSIDE_COLLECTION"
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    nameless = Keeper(Path())
    monkeypatch.setattr(Keeper, "environment", {"WARMSIDE_COLLECTION": ""})
    assert nameless.json("file", "where")["why"] == "the user's data folder"


def test_animals_are_listed_with_their_enclosures(house: Keeper) -> None:
    here = {a["code"]: a["enclosure"] for a in house.json("animal", "list")["animals"]}
    assert here == {"EMB": "L1", "MOS": "H1", "EM9": None}
    everyone = house.json("animal", "list", "--all")["animals"]
    assert {a["code"]: a["custody"] for a in everyone}["ASH"] == "never here"
    attic = house.json("animal", "list", "--room", "attic")["animals"]
    assert [a["code"] for a in attic] == ["EMB", "MOS"]


def test_an_animal_shows_who_it_is_and_where_it_was(mine: Keeper) -> None:
    mine.run("animal", "parents", "EMB", "--dam", "ASH", "--certainty", "probable")
    mine.run("move", "EMB", "--to", "H1", "--at", "2026-03-01", "--reason", "cooler")
    shown = mine.json("animal", "show", "EMB")
    assert shown["species"] == "Python regius"
    assert (shown["hatched"], shown["enclosure"]) == ("2022-06", "H1")
    assert shown["kin"] == [
        {"role": "dam", "animal": "Ash (ASH)", "certainty": "probable", "weight": None}
    ]
    assert [(p["since"], p["enclosure"]) for p in shown["places"]] == [
        ("2024-01-01", "L1"),
        ("2026-03-01", "H1"),
    ]


def test_an_enclosure_is_shown_with_its_last_readings(mine: Keeper) -> None:
    assert mine.json("enclosure", "show", "L1")["readings"] == []
    for day in range(1, 7):
        words = ("--warm", f"{30 + day}C", "--humidity", "60")
        mine.run("record", "climate", "L1", *words, "--at", f"2026-03-0{day}", "--confirm")
    shown = mine.json("enclosure", "show", "L1")["readings"]
    assert [r["read"] for r in shown] == [f"2026-03-0{day}" for day in range(2, 7)]
    assert (shown[-1]["warm_c"], shown[-1]["humidity_percent"]) == (36.0, 60.0)


def test_enclosures_show_their_inner_size_with_its_unit(house: Keeper) -> None:
    shelf = house.json("enclosure", "show", "L1")
    assert (shelf["width_mm"], shelf["animals"]) == (1200.0, ["Ember (EMB)"])
    in_use = [e["code"] for e in house.json("enclosure", "list")["enclosures"]]
    assert in_use == ["H1", "L1"]
    assert "O1" in [e["code"] for e in house.json("enclosure", "list", "--all")["enclosures"]]


def test_a_retired_enclosure_can_be_used_again(mine: Keeper) -> None:
    mine.run("enclosure", "change", "O1", "--in-use")
    assert mine.run("move", "EMB", "--to", "O1").code == 0


def test_many_are_recorded_at_once_in_one_step(mine: Keeper) -> None:
    def subjects(*words: str) -> list[str]:
        return [r["subject"] for r in mine.json("record", *words)["recorded"]]

    assert subjects("observed", "--all", "--what", "calm") == [
        "Ember (EM9)",
        "Ember (EMB)",
        "Moss (MOS)",
    ]
    assert subjects("observed", "--room", "attic", "--what", "calm") == [
        "Ember (EMB)",
        "Moss (MOS)",
    ]
    assert subjects("watered", "--all") == ["High shelf (H1)", "Low shelf (L1)"]
    assert subjects("cleaned", "MOS") == ["High shelf (H1)"], "an animal means its enclosure"
    assert subjects("weighed", "EMB=1.2kg", "EM9", "--mass", "40g") == [
        "Ember (EMB)",
        "Ember (EM9)",
    ]
    mine.run("undo")
    assert len(mine.json("history", "--kind", "weighed")["events"]) == 2


def test_times_are_the_home_zones_and_days_stay_days(mine: Keeper) -> None:
    for at, shown in (
        ("2026-03-01", "2026-03-01"),
        ("08:30", "2026-03-05 08:30"),
        ("yesterday", "2026-03-04"),
        ("3 days ago", "2026-03-02"),
        ("2026-03-01T23:30Z", "2026-03-02 00:30"),
    ):
        said = mine.json("record", "observed", "EMB", "--what", "x", "--at", at)
        assert said["recorded"][0]["when"] == shown


def test_a_correction_keeps_the_old_event_visible(mine: Keeper) -> None:
    mine.run("correct", "4", "mass=1.25kg", "--note", "read again")
    weighed = mine.json("history", "EMB", "--kind", "weighed")["events"]
    assert [(e["what"], e["state"]) for e in weighed] == [
        ("weighed: 1.2 kg", "corrected by 7"),
        ("weighed: 1.25 kg (read again)", ""),
    ]
    again = mine.run("correct", "4", "mass=1kg", ok=False)
    assert (again.code, "corrected already, by event 7" in again.stderr) == (4, True)
    mine.run("undo")
    assert [e["state"] for e in mine.json("history", "EMB", "--kind", "weighed")["events"]] == [""]


def test_a_correction_may_change_the_day_and_the_subject(mine: Keeper) -> None:
    mine.run("correct", "5", "--subject", "EM9", "--at", "2026-02-02")
    (event,) = mine.json("history", "EM9", "--kind", "weighed")["events"]
    assert (event["when"], event["what"]) == ("2026-02-02", "weighed: 61 g")
    mine.run("correct", "6", "--subject", "H1")
    assert mine.json("history", "H1", "--kind", "cleaned")["events"][0]["subject"] == (
        "High shelf (H1)"
    )


def test_history_is_of_all_or_of_one_subject_and_shortened(mine: Keeper) -> None:
    for n in range(5):
        mine.run("record", "observed", "EMB", "--what", f"note {n}", "--at", f"{n} days ago")
    whole = mine.json("history")["events"]
    assert [e["when"][:10] for e in whole] == sorted(e["when"][:10] for e in whole)
    assert len(mine.json("history", "--last", "2")["events"]) == 2
    assert "the last 2 of 11" in mine.run("history", "--last", "2").stdout
    recent = mine.json("history", "EMB", "--since", "yesterday")["events"]
    assert [e["what"] for e in recent] == ["observed: note 1", "observed: note 0"]
    assert {e["subject"] for e in mine.json("history", "L1")["events"]} == {
        "Ember (EMB) in L1",
        "Low shelf (L1)",
    }


def test_animals_come_and_go(mine: Keeper) -> None:
    arrive = ("arrive", "Fern", "--species", "crested gecko", "--from", "a friend")
    said = mine.json(*arrive, "--how", "gift", "--enclosure", "H1")
    assert said["recorded"][0]["what"] == "arrived: gift, from a friend"
    mine.run("lend", "FER", "--to", "the school", "--until", "2026-06", "--terms", "feed weekly")
    assert mine.json("animal", "show", "FER")["custody"] == "lent out"
    mine.run("return", "FER", "--enclosure", "L1")
    assert mine.json("animal", "show", "FER")["enclosure"] == "L1"
    mine.run("depart", "FER", "--how", "sold", "--to", "Ann")
    card = mine.json("animal", "show", "FER")
    assert card["custody"] == "departed"
    assert [p["counterpart"] for p in card["places"]] == [
        "a friend",
        "the school",
        None,
        "Ann",
    ]
    assert mine.run("record", "fed", "FER", "--item", "x", ok=False).code == 4


def test_an_animal_that_left_may_arrive_again(mine: Keeper) -> None:
    mine.run("depart", "EMB", "--how", "lost")
    mine.run("arrive", "EMB", "--how", "rescued", "--enclosure", "L1")
    assert mine.json("animal", "show", "EMB")["custody"] == "here"


def test_the_round_is_numbered_and_done_by_number(mine: Keeper) -> None:
    mine.run("rhythm", "set", "weighed", "--every", "30")
    mine.run("rhythm", "set", "watered", "--every", "2")
    tasks = mine.json("today")["tasks"]
    assert [t["number"] for t in tasks] == [1, 2, 3, 4, 5]
    assert [(t["enclosure"], t["what"]) for t in tasks] == [
        ("L1", "fresh water"),
        ("L1", "weigh"),
        ("H1", "fresh water"),
        ("H1", "weigh"),
        (None, "weigh"),
    ]
    first = next(t for t in tasks if t["what"] == "weigh" and t["animal"] == "MOS")
    assert first["since"] == "2 days ago"
    assert "every 30 days, last 32 days ago" in first["why"]
    assert first["events"] == [5]
    waters = [str(t["number"]) for t in tasks if t["what"] == "fresh water"]
    mine.run("done", *waters, f"{first['number']}=62g")
    left = [(t["what"], t["animal"]) for t in mine.json("today")["tasks"]]
    assert left == [("weigh", "EMB"), ("weigh", "EM9")]
    assert mine.json("history", "MOS", "--last", "1")["events"][0]["what"] == "weighed: 62 g"


def test_numbers_stay_those_of_the_round_as_it_was_shown(mine: Keeper) -> None:
    mine.run("rhythm", "set", "watered", "--every", "2")
    shown = mine.json("today")["tasks"]
    assert [t["enclosure"] for t in shown] == ["L1", "H1"]
    mine.run("done", "1")
    done_twice = mine.run("done", "1", ok=False)
    assert done_twice.code == 4
    assert "task 1, fresh water (Low shelf), is done already" in done_twice.stderr
    mine.run("done", "2")
    assert mine.json("today")["tasks"] == []


@pytest.mark.parametrize(
    ("number", "says"),
    [("1", "weigh (Moss) needs its body mass: write it behind the number"), ("1=heavy", "heavy")],
)
def test_a_task_that_needs_a_value_says_so(mine: Keeper, number: str, says: str) -> None:
    mine.run("rhythm", "set", "weighed", "MOS", "--every", "30")
    mine.run("today")
    refused = mine.run("done", number, ok=False)
    assert refused.code == 2
    assert says in refused.stderr


def test_an_animal_with_nothing_due_is_still_seen(mine: Keeper) -> None:
    seen = mine.json("today")["seen"]
    assert [s["animal"] for s in seen] == ["Ember (EM9)", "Ember (EMB)", "Moss (MOS)"]


def test_the_round_of_another_day(mine: Keeper) -> None:
    mine.run("rhythm", "set", "weighed", "MOS", "--every", "40")
    assert mine.json("today")["tasks"] == []
    assert len(mine.json("today", "--on", "in 2 weeks")["tasks"]) == 1


def test_a_report_tells_the_story_and_defers_to_a_vet(house: Keeper) -> None:
    said = told(house.run("report", "EMB"))
    assert "not a diagnosis" in said
    assert "weighed: 1.2 kg" in said
    as_of = house.json("report", "EMB", "--on", "2026-01-01")
    assert "weighed" not in str(as_of)


def test_saving_says_where_and_refuses_other_endings(house: Keeper, tmp_path: Path) -> None:
    target = tmp_path / "animals.txt"
    said = house.run("animal", "list", "--save", str(target))
    assert said.stderr == f"saved {target}\n"
    assert target.read_text(encoding="utf-8") == said.stdout


def test_a_file_that_cannot_be_saved_is_refused_before_anything_is_written(
    house: Keeper, tmp_path: Path
) -> None:
    before = dump(house.path)
    wrong = str(tmp_path / "animals.doc")
    refused = house.run("record", "observed", "EMB", "--what", "x", "--save", wrong, ok=False)
    assert (refused.code, "end it in .pdf, .svg, .json or .txt" in refused.stderr) == (2, True)
    assert dump(house.path) == before


def test_what_a_plugin_offers_can_be_seen_before_there_is_a_collection(tmp_path: Path) -> None:
    keeper = Keeper(tmp_path / "none.warmside")
    assert "rhythm" in {p["name"] for p in keeper.json("plugin", "list")["plugins"]}
    assert keeper.json("plugin", "show", "rhythm")["enabled"] is False


def test_version_and_help_need_no_collection(tmp_path: Path) -> None:
    keeper = Keeper(tmp_path / "none.warmside")
    assert keeper.run("--version").stdout.startswith("warmside 0.")
    assert "record" in keeper.run("--help").stdout
    assert "warmside new" in keeper.run().stdout


def test_plugins_are_listed_shown_and_set(mine: Keeper) -> None:
    listed = {p["name"]: p["state"] for p in mine.json("plugin", "list")["plugins"]}
    assert listed["rhythm"] == "enabled"
    assert "weighed" not in listed
    shown = mine.json("plugin", "show", "rhythm")
    assert (shown["enabled"], shown["commands"]) == (True, ["rhythm"])


def test_a_kind_of_a_plugin_has_its_command(mine: Keeper) -> None:
    kind = EventKind("brush.brushed", "brushed", Observed)
    with throw_away_plugin("brush", warmside_event_kinds=lambda: [kind]):
        mine.run("plugin", "enable", "brush")
        said = mine.json("record", "brush.brushed", "EMB", "--what", "the back")
        assert said["recorded"][0]["what"] == "brushed: the back"
        assert "brush.brushed" in mine.run("record", "--help").stdout
    left = mine.json("history", "EMB", "--last", "1")["events"][0]
    assert left["what"] == "brush.brushed: what the back", "told though the plugin is gone"
