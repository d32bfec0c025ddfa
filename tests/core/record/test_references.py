"""Events may refer to other animals: typed as codes, stored as ids, watched by undo and check."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

import pytest

from warmside.core.kinds.declaring import animal_ref, day
from warmside.core.kinds.kind import EventKind
from warmside.core.record.entries import add_animal
from warmside.testing import Keeper, throw_away_plugin


@dataclass(frozen=True, slots=True, kw_only=True)
class Fought:
    """A fight between two animals."""

    other_animal_id: int = animal_ref("with whom", before="with")
    again: str | None = day("when to try again", optional=True, before="try again on")


def kinds() -> Iterable[EventKind]:
    return [EventKind("spar.fought", "fought", Fought)]


@pytest.fixture
def pair(keeper: Keeper) -> Iterator[Keeper]:
    """Ember and Peppermint, with a plugin whose kind refers to animals."""
    with throw_away_plugin("spar", warmside_event_kinds=kinds):
        keeper.run("plugin", "enable", "spar")
        for name in ("Ember", "Peppermint"):
            keeper.run("animal", "add", name, "--species", "leopard gecko")
        yield keeper


def stored(keeper: Keeper) -> list[str]:
    with closing(sqlite3.connect(keeper.path)) as connection:
        return [r[0] for r in connection.execute("SELECT data FROM event WHERE kind LIKE 'spar%'")]


@pytest.mark.parametrize("typed", ["PEP", "pep", "Peppermint"])
def test_an_animal_is_typed_as_code_or_name_stored_as_id_and_told_by_its_label(
    pair: Keeper, typed: str
) -> None:
    said = pair.json("record", "spar.fought", "EMB", "--other", typed, "--again", "in 2 weeks")
    (made,) = said["recorded"]
    assert made["what"] == "fought: with Peppermint (PEP), try again on 2026-03-19"
    assert made["data"] == {"other": "PEP", "again": "2026-03-19"}
    assert stored(pair) == ['{"other_animal_id":2,"again":"2026-03-19"}']


def test_a_new_code_is_shown_in_old_events(pair: Keeper) -> None:
    pair.run("record", "spar.fought", "EMB=PEP")
    pair.run("animal", "change", "PEP", "--code", "MINT", "--name", "Mint")
    shown = pair.json("history", "EMB", "--kind", "spar.fought")["events"][0]
    assert (shown["what"], shown["data"]["other"]) == ("fought: with Mint (MINT)", "MINT")


def test_an_event_of_a_plugin_not_at_work_is_told_with_codes_too(pair: Keeper) -> None:
    pair.run("record", "spar.fought", "EMB=PEP")
    told = pair.json("--no-plugins", "history", "EMB")["events"][-1]
    assert told["what"] == "spar.fought: other PEP"


@pytest.mark.parametrize(
    ("other", "code", "told"),
    [
        ("NOA", 3, "there is no animal 'NOA'"),
        ("EMB", 2, "spar.fought: other cannot be Ember (EMB) itself"),
    ],
)
def test_an_animal_that_cannot_be_meant_is_refused(
    pair: Keeper, other: str, code: int, told: str
) -> None:
    assert told in pair.run("record", "spar.fought", "EMB", "--other", other, ok=False).complaint(
        code
    )


def test_a_correction_types_an_animal_as_code(pair: Keeper) -> None:
    pair.run("animal", "add", "Ash", "--species", "leopard gecko")
    number = pair.json("record", "spar.fought", "EMB=PEP")["recorded"][0]["event"]
    corrected = pair.json("correct", number, "other=ASH")["recorded"][0]
    assert corrected["what"] == "fought: with Ash (ASH)"


def test_undo_of_entering_an_animal_is_refused_while_an_event_refers_to_it(pair: Keeper) -> None:
    pair.run("animal", "add", "Ash", "--species", "leopard gecko", "--ancestor")
    entered = last_step(pair)
    pair.run("record", "spar.fought", "EMB=ASH")
    fought = last_step(pair)
    refused = pair.run("--no-plugins", "undo", entered, "--yes", ok=False).complaint(4)
    assert f"step {fought} (Ember (EMB): fought: with Ash (ASH)) rests on it" in refused
    pair.run("undo", fought, "--yes")
    pair.run("undo", entered, "--yes")


def test_an_event_that_refers_to_animal_30_does_not_rest_on_animal_3(pair: Keeper) -> None:
    pair.run("animal", "add", "Ash", "--species", "leopard gecko", "--ancestor")
    entered = last_step(pair)
    with pair.open().step("many", pair.now) as writer:
        many = [add_animal(writer, f"Other {n}", "leopard gecko") for n in range(27)]
    assert many[-1].id == 30
    pair.run("record", "spar.fought", "EMB", "--other", many[-1].code)
    pair.run("undo", entered, "--yes")


def last_step(keeper: Keeper) -> int:
    with keeper.book() as book:
        return book.steps(1)[0].id


def test_check_finds_an_event_that_refers_to_no_animal(pair: Keeper) -> None:
    pair.run("record", "spar.fought", "EMB=PEP")
    assert pair.run("file", "check").code == 0
    with closing(sqlite3.connect(pair.path)) as connection, connection:
        connection.execute("DROP TRIGGER event_is_append_only")
        connection.execute(
            "UPDATE event SET data = '{\"other_animal_id\":99}' WHERE kind = 'spar.fought'"
        )
    told = pair.run("file", "check", ok=False)
    assert "1 event referring to no animal" in told.stdout


def test_an_import_reads_days_in_its_own_format_and_animals_by_its_own_names(
    pair: Keeper, tmp_path: Path
) -> None:
    sheet = tmp_path / "fights.csv"
    sheet.write_text("date,animal,other,again\n05.03.2026,EMB,Minty,19.03.2026\n")
    mapping = tmp_path / "map.toml"
    mapping.write_text('date_format = "DD.MM.YYYY"\nkind = "spar.fought"\n[animals]\nMinty = "PEP"')
    pair.run("import", sheet, "--map", mapping)
    assert stored(pair) == ['{"other_animal_id":2,"again":"2026-03-19"}']
