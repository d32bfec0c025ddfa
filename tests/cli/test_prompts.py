"""Prompts and progress on a real terminal; every prompt has an option."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.typed_on_terminal import type_on_terminal

from warmside.core.values.display import Display
from warmside.testing import Keeper


@pytest.fixture
def typist(keeper: Keeper, monkeypatch: pytest.MonkeyPatch) -> Keeper:
    """A collection whose moment and units a terminal has, too."""
    for name, value in keeper.environment.items():
        monkeypatch.setenv(name, value)
    return keeper


@pytest.fixture
def moss(typist: Keeper) -> Keeper:
    """With one animal in it."""
    typist.run("animal", "add", "Moss", "--species", "leopard gecko", "--since", "2025-01-01")
    return typist


def test_new_asks_what_it_needs_and_asks_again_only_what_was_wrong(tmp_path: Path) -> None:
    path = tmp_path / "asked.warmside"
    code, screen = type_on_terminal(
        ["new"], "Shelf\nEurope/Viena\nEurope/Vienna\nimperial\nshed rythm\nshed rhythm\n", path
    )
    assert code == 0, screen
    assert screen.count("Home time zone") == 2 and screen.count("Name of the collection") == 1
    assert "there is no plugin 'rythm'" in screen and "enabled rhythm" in screen
    with Keeper(path).book() as book:
        assert (book.home.name, book.home.zone.key) == ("Shelf", "Europe/Vienna")
        assert book.home.display == Display.IMPERIAL


def test_the_order_of_day_and_month_is_asked_once_and_kept(typist: Keeper) -> None:
    moss = ["animal", "add", "Moss", "--species", "leopard gecko", "--hatched", "4/1/2021"]
    code, screen = type_on_terminal(moss, "both\nmonth\n", typist.path)
    assert code == 0, screen
    assert screen.count("come first in 4/1/2021?") == 2
    fern = ["animal", "add", "Fern", "--species", "leopard gecko", "--hatched", "5/2/21"]
    code, screen = type_on_terminal(fern, "", typist.path)
    assert code == 0 and "come first" not in screen
    shown = [typist.json("animal", "show", name)["hatched"] for name in ("MOS", "FER")]
    assert shown == ["2021-04-01", "2021-05-02"]


def test_an_import_asks_what_it_cannot_know_and_keeps_the_answers(
    moss: Keeper, tmp_path: Path
) -> None:
    """Two readings of a day, an animal that nobody knows, a blank outcome; then one yes."""
    rows = "2/3/2025,Mosy,cricket,Y\n4/3/2025,Moss,cricket,\n5/3/2025,Mosy,locust,N\n"
    path = tmp_path / "log.csv"
    path.write_text(f"Date,Animal,Prey,Eaten?\n{rows}")
    command = ["import", str(path), "--save-map", str(tmp_path / "next.toml")]
    typed = "first\nday\nMoss\neaten up\ntaken\ny\n"
    code, screen = type_on_terminal(command, typed, moss.path)
    assert code == 0, screen
    assert "not 'eaten up'" in screen and screen.count("come first in 'Date'") == 2
    for words in ("day or the month come first", "animal does 'Mosy' (2 rows)", "record 3 events?"):
        assert words in screen
    with moss.book() as book:
        found = [(e.day.isoformat(), e.data["outcome"]) for e in book.events("fed")]
    assert found == [
        ("2025-03-02", "taken"),
        ("2025-03-04", "taken"),
        ("2025-03-05", "refused"),
    ]
    again = moss.run("import", path, "--map", tmp_path / "next.toml")
    assert "imported 0 events" in again.stdout


def test_a_doubt_of_an_import_is_asked_and_no_answer_is_lost(moss: Keeper, tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    path.write_text("Date,Animal,Weight g\n2/3/2025,Mosy,60\n4/3/2025,Mosy,600\n")
    code, screen = type_on_terminal(["import", str(path)], "day\nMoss\ny\ny\n", moss.path)
    assert code == 0 and "10 times the last weight" in screen, screen
    assert screen.count("believed of the sheet") == 1
    assert "next time: --map" in screen, "the answers are kept for the next sheet"
    path.with_name("next.csv").write_text("Date,Animal,Weight g\n5/3/2025,Mosy,61\n")
    kept = ("--map", path.with_name("log.map.toml"))
    assert moss.json("import", path.with_name("next.csv"), *kept, "--confirm")["new"] == 1
    with moss.book() as book:
        assert [e.data["mass_g"] for e in book.events("weighed")] == [60.0, 600.0, 61.0]


def test_an_import_that_is_not_agreed_to_writes_nothing(moss: Keeper, tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    path.write_text("Date,Animal,Weight (g)\n13/3/2025,Moss,55\n")
    code, screen = type_on_terminal(["import", str(path)], "n\n", moss.path)
    assert code == 4 and "weighed: 55 g" in screen
    with moss.book() as book:
        assert book.events("weighed") == []


def test_a_treatment_offers_the_last_one_again(moss: Keeper) -> None:
    """Dose and vet go with it; another treatment takes neither over. The drug is invented."""
    first = ("--what", "Invented drops", "--dose", "one drop", "--by", "Dr Own")
    moss.run("record", "treated", "MOS", *first, "--at", "2026-03-01")
    assert "--what" in moss.run("record", "treated", "MOS", ok=False).complaint(2)
    for typed in ("\n", "Another\n"):
        code, screen = type_on_terminal(["record", "treated", "MOS"], typed, moss.path)
        assert code == 0, screen
        assert "Invented drops, one drop, Dr Own" in " ".join(screen.split())
    with moss.book() as book:
        given = [tuple(e.data[n] for n in ("what", "dose", "by")) for e in book.events("treated")]
    assert given == [("Invented drops", "one drop", "Dr Own")] * 2 + [("Another", "", "")]


def test_how_a_shed_came_off_is_asked_and_never_taken_as_well(moss: Keeper) -> None:
    code, screen = type_on_terminal(["record", "shed", "MOS"], "piece\npieces\n", moss.path)
    assert code == 0 and "How it came off (one piece, pieces, eaten, not said)" in screen, screen
    assert "cannot be 'piece' (did you mean 'pieces'?)" in screen
    for typed in (["MOS=eaten"], ["MOS", "--outcome", "one piece"]):
        code, screen = type_on_terminal(["record", "shed", *typed], "", moss.path)
        assert code == 0 and "came off" not in screen, screen
    with moss.book() as book:
        assert [e.data["outcome"] for e in book.events("shed")] == ["pieces", "eaten", "one piece"]


def test_what_a_record_needs_is_asked_for_until_it_can_be_used(moss: Keeper) -> None:
    code, screen = type_on_terminal(["record", "weighed", "MOS"], "heavy\n60g\n", moss.path)
    assert code == 0 and "Body mass (412g" in screen and "'heavy'" not in screen, screen
    code, screen = type_on_terminal(["record", "weighed", "NOBODY"], "", moss.path)
    assert code == 3 and "Body mass" not in screen, screen
    with moss.book() as book:
        assert [e.data["mass_g"] for e in book.events("weighed")] == [60.0]


def test_new_without_a_terminal_names_the_option(tmp_path: Path) -> None:
    result = Keeper(tmp_path / "n.warmside").run("new", "--zone", "Europe/Vienna", ok=False)
    assert result.code == 2 and "--name" in result.stderr


def test_undo_shows_the_step_and_takes_no_for_an_answer(keeper: Keeper) -> None:
    keeper.run("enclosure", "add", "Low shelf")
    code, screen = type_on_terminal(["undo"], "n\n", keeper.path)
    assert code == 4
    assert "entered enclosure Low shelf" in screen
    assert len(keeper.json("enclosure", "list")["enclosures"]) == 1


def test_done_asks_for_the_values_that_are_missing(typist: Keeper) -> None:
    """An answer that cannot be used is asked again; an empty one leaves that task."""
    for name in ("Ember", "Moss"):
        typist.run("animal", "add", name, "--species", "leopard gecko", "--since", "2026-01-01")
    typist.run("plugin", "enable", "rhythm")
    typist.run("rhythm", "set", "weighed", "--every", "7")
    typist.run("today")
    code, screen = type_on_terminal(["done", "all"], "heavy\n61\n\n", typist.path)
    assert code == 2 and "left out: weigh (Moss) needs its body mass" in screen
    with typist.book() as book:
        assert [e.data["mass_g"] for e in book.events("weighed")] == [61.0]


def test_a_plugin_asks_step_by_step_and_again_only_what_was_wrong(typist: Keeper) -> None:
    """A box and its zones, then a hide: the size on record is not asked, a reason is proposed."""
    typist.run("plugin", "enable", "habitat")
    size = ("--width", "120cm", "--depth", "60cm", "--height", "60cm")
    typist.run("enclosure", "add", "Low", "--code", "LOW", *size)
    box = "straw\nwood\n15mm\nwarm side 60cm, cool side 60cm\n"
    code, screen = type_on_terminal(["habitat", "describe", "LOW"], box, typist.path)
    assert code == 0 and screen.count("what its walls are of") == 2, screen
    hide = "warm side\n30cm\nwide\n20cm\n10cm\n\n"
    code, screen = type_on_terminal(["habitat", "add", "hide", "LOW"], hide, typist.path)
    assert code == 0 and screen.count("its height: ") == 1, screen
    assert screen.count("wide is no number") == 1
    (thing,) = typist.json("habitat", "show", "LOW")["things"]
    assert (thing["zone"], thing["why"]) == ("warm side", "to be there without being seen")
