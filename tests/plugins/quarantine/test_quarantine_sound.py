"""What the check of the file says of the plugin's own data."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from warmside.testing import Keeper

OWN = (Path(__file__).parent / "own_protocol.toml").read_text(encoding="utf-8")


@pytest.fixture
def pebble(house: Keeper) -> Keeper:
    house.run("arrive", "Pebble", "--species", "leopard gecko", "--enclosure", "TUB")
    return house


def tamper(keeper: Keeper, sql: str, *parameters: object) -> None:
    """A change behind the program's back, as a failing disk or another program would."""
    with closing(sqlite3.connect(keeper.path, isolation_level=None)) as connection:
        connection.execute(sql, parameters)


def said(keeper: Keeper) -> str:
    rows = keeper.run("file", "check", "--json", ok=False).json["checks"]
    return next(r for r in rows if r["what"] == "plugin quarantine")["problem"]


def test_a_sound_file_has_nothing_to_say(pebble: Keeper) -> None:
    pebble.run("quarantine", "protocol", "edit", "general", "days=100")
    pebble.run("quarantine", "laboratory", "flotation", "--sensitivity", "0.6")
    pebble.run("quarantine", "sample", "PEB", "faecal")
    pebble.run("quarantine", "result", "PEB", "negative")
    assert said(pebble) == "none"


def test_a_result_whose_sample_was_undone_is_named(pebble: Keeper) -> None:
    pebble.run("quarantine", "sample", "PEB", "faecal")
    step = pebble.json("undo", "--list")["steps"][0]["step"]
    pebble.run("quarantine", "result", "PEB", "negative")
    pebble.run("undo", step, "--yes")
    assert "of Pebble (PEB): event" in said(pebble)
    assert "is no sample of this animal" in said(pebble)


def test_a_result_before_its_corrected_sample_is_named(pebble: Keeper) -> None:
    made = pebble.json("quarantine", "sample", "PEB", "faecal")["recorded"][0]["event"]
    pebble.run("quarantine", "result", "PEB", "negative")
    pebble.pass_days(3)
    pebble.run("correct", made, "--at", "2026-03-07")
    assert "is before its sample of 2026-03-07" in said(pebble)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("[own", "stored protocol own: it holds no such protocol"),
        ("[other]\ndays = 3", "stored protocol own: it holds no such protocol"),
        (OWN.replace("days = 45", "days = 0"), "stored protocol own: protocol own: days is from"),
    ],
)
def test_a_stored_protocol_that_cannot_be_read_is_named(
    pebble: Keeper, tmp_path: Path, text: str, words: str
) -> None:
    file = tmp_path / "own.toml"
    file.write_text(OWN, encoding="utf-8")
    pebble.run("quarantine", "protocol", "add", str(file))
    tamper(pebble, "UPDATE quarantine_protocol SET text = ?", text)
    assert words in said(pebble)


@pytest.mark.parametrize(
    ("row", "words"),
    [
        (("general", "dayz", "5"), "changed values of protocol general: a protocol has no dayz"),
        (("general", "days", "0"), "changed values of protocol general: days is from"),
        (("gone", "days", "50"), "changed values of protocol gone: there is no protocol gone"),
    ],
)
def test_a_changed_value_that_fits_no_protocol_is_named(
    pebble: Keeper, row: tuple[str, str, str], words: str
) -> None:
    tamper(pebble, "INSERT INTO quarantine_edit VALUES (?, ?, ?)", *row)
    assert words in said(pebble)


def test_laboratory_figures_that_cannot_be_are_named(pebble: Keeper) -> None:
    tamper(pebble, "INSERT INTO quarantine_laboratory VALUES ('flotation', 0.5, 1.5, 1)")
    tamper(pebble, "INSERT INTO quarantine_laboratory VALUES ('guess', 0.5, 0.6, 1)")
    assert "laboratory figures of flotation: sensitivity is between 0 and 1" in said(pebble)
    assert "laboratory figures of guess: no test method 'guess'" in said(pebble)


def test_a_setting_that_names_no_protocol_is_named(pebble: Keeper) -> None:
    pebble.run("plugin", "set", "quarantine", "protocol", "genral")
    assert "usual protocol: the setting protocol names genral" in said(pebble)


def test_a_quarantine_under_a_vanished_protocol_is_named(pebble: Keeper, tmp_path: Path) -> None:
    file = tmp_path / "own.toml"
    file.write_text(OWN, encoding="utf-8")
    pebble.run("quarantine", "protocol", "add", str(file))
    pebble.run("quarantine", "start", "EMB", "--protocol", "own")
    tamper(pebble, "DELETE FROM quarantine_protocol")
    assert "quarantine of Ember (EMB): no protocol own" in said(pebble)
