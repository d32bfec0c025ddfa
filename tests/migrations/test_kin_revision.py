"""The revision that gave parents weights and words of events their types loses nothing."""

from __future__ import annotations

import gzip
import json
import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from warmside.testing import Keeper

PACKED = Path(__file__).with_name("level1.warmside.gz")
LATER = datetime(2026, 3, 6, 9, 0, tzinfo=UTC)


@pytest.fixture
def old(tmp_path: Path) -> Path:
    """The file of the first build: Tuppence (1) is the child of Clove (5) and Pepper (6)."""
    path = tmp_path / "old.warmside"
    path.write_bytes(gzip.decompress(PACKED.read_bytes()))
    return path


def write(path: Path, *statements: tuple[str, tuple[object, ...]]) -> None:
    with closing(sqlite3.connect(path)) as connection, connection:
        for statement, values in statements:
            connection.execute(statement, values)


def add_step(path: Path, words: str) -> int:
    with closing(sqlite3.connect(path)) as connection, connection:
        made = connection.execute(
            "INSERT INTO step (at, kind, words) VALUES ('2026-03-05T09:00:00Z', 'do', ?)", (words,)
        )
        return int(made.lastrowid or 0)


def add_event(path: Path, kind: str, animal: int, data: dict[str, object]) -> None:
    step = add_step(path, kind)
    values = (kind, animal, json.dumps(data, separators=(",", ":")), step)
    statement = (
        "INSERT INTO event (kind, animal_id, day, data, note, step_id) "
        "VALUES (?, ?, '2026-03-01', ?, '', ?)"
    )
    write(path, (statement, values))


def opened(path: Path) -> Keeper:
    keeper = Keeper(path, LATER)
    keeper.run("--no-plugins", "animal", "list")
    return keeper


def last(keeper: Keeper, kind: str) -> dict[str, object]:
    found = keeper.json("--no-plugins", "history", "--kind", kind)["events"]
    return dict(max(found, key=lambda e: int(e["event"]))["data"])


@pytest.mark.parametrize(
    ("typed", "partner", "words"),
    [
        ("ses", "SES", ""),
        (" Pepper ", "PEP", ""),
        ("TUP", None, "TUP"),  # the animal itself
        ("Pepper or Sesame", None, "Pepper or Sesame"),
        ("PEP?", None, "PEP?"),
    ],
)
def test_a_partner_is_an_animal_where_the_words_can_mean_but_one_other(
    old: Path, typed: str, partner: str | None, words: str
) -> None:
    add_event(old, "mated", 1, {"partner": typed})
    assert last(opened(old), "mated") == {"partner": partner, "partner_words": words}


def test_a_name_that_two_animals_bear_stays_words(old: Path) -> None:
    write(old, ("UPDATE animal SET name = 'Pepper' WHERE code = 'SES'", ()))
    add_event(old, "mated", 1, {"partner": "Pepper"})
    assert last(opened(old), "mated") == {"partner": None, "partner_words": "Pepper"}


@pytest.mark.parametrize("until", ["2026-02-30", "2026-7-1", "soon", "2026", "20260601"])
def test_an_agreed_return_that_is_no_whole_day_stays_words(old: Path, until: str) -> None:
    add_event(old, "lent", 7, {"to": "Ann", "terms": "", "until": until})
    data = last(opened(old), "lent")
    assert (data["until"], data["until_words"]) == (None, until)


def test_shelved_events_and_images_of_corrected_ones_are_brought_along(old: Path) -> None:
    """An event that was corrected and undone before comes back by redo in its new shape."""
    image = {"id": 210, "kind": "mated", "animal_id": 1, "data": '{"partner":"Pepper"}'}
    after = image | {"replaced_by": 211}
    step = add_step(old, "corrected event 210")
    write(
        old,
        (
            "INSERT INTO change (step_id, tbl, key, before, after) VALUES (?, 'event', ?, ?, ?)",
            (step, '{"id": 210}', json.dumps(image), json.dumps(after)),
        ),
        (
            "INSERT INTO event_shelf (id, kind, animal_id, day, data, note, step_id) "
            "VALUES (900, 'mated', 1, '2026-03-01', '{\"partner\":\"SES\"}', '', 39)",
            (),
        ),
    )
    opened(old)
    with closing(sqlite3.connect(old)) as connection:
        shelved = connection.execute("SELECT data FROM event_shelf WHERE id = 900").fetchone()[0]
        images = connection.execute(
            "SELECT before, after FROM change WHERE step_id = ?", (step,)
        ).fetchone()
    assert json.loads(shelved) == {"partner_animal_id": 7, "partner_words": ""}
    for text in images:
        data = json.loads(json.loads(text)["data"])
        assert data == {"partner_animal_id": 6, "partner_words": ""}


def test_undo_of_an_old_change_of_parents_finds_its_rows(old: Path) -> None:
    """The old key was child and role, and the change put Barnaby in the place of Pepper."""
    key = '{"child_id": 1, "role": "sire"}'
    row = {"child_id": 1, "role": "sire", "certainty": "probable"}
    images = [json.dumps(row | {"parent_id": id}) for id in (6, 3)]
    step = add_step(old, "parents of TUP")
    write(
        old,
        ("UPDATE parentage SET parent_id = 3 WHERE child_id = 1 AND role = 'sire'", ()),
        (
            "INSERT INTO change (step_id, tbl, key, before, after) "
            "VALUES (?, 'parentage', ?, ?, ?)",
            (step, key, *images),
        ),
    )
    keeper = opened(old)
    assert sire(keeper) == ["Barnaby (BAR)"]
    keeper.run("--no-plugins", "undo", step, "--yes")
    assert sire(keeper) == ["Pepper (PEP)"]
    keeper.run("--no-plugins", "redo")
    assert sire(keeper) == ["Barnaby (BAR)"]


def test_an_old_step_of_parents_is_kept_from_undo_by_a_later_one(old: Path) -> None:
    with closing(sqlite3.connect(old)) as connection:
        (step,) = connection.execute(
            "SELECT step_id FROM change WHERE tbl = 'parentage' AND after LIKE '%\"sire\"%'"
        ).fetchone()
    keeper = opened(old)
    keeper.run("--no-plugins", "animal", "parents", "TUP", "--sire", "PEP=0.7")
    refused = keeper.run("--no-plugins", "undo", step, "--yes", ok=False)
    assert "rests on it" in refused.complaint(4)


def test_entering_an_animal_is_kept_from_undo_by_words_that_meant_it(old: Path) -> None:
    """The mating was recorded first, in words; now it refers to the animal."""
    add_event(old, "mated", 1, {"partner": "Quill"})
    step = add_step(old, "entered Quill")
    row = {"id": 50, "code": "QUI", "name": "Quill", "species_id": 6, "sex": "male"}
    row |= {"sex_known_by": "not known", "hatched": "", "origin": "", "note": ""}
    names, marks = ", ".join(row), ", ".join("?" * len(row))
    write(
        old,
        (f"INSERT INTO animal ({names}) VALUES ({marks})", tuple(row.values())),
        (
            "INSERT INTO change (step_id, tbl, key, after) VALUES (?, 'animal', '{\"id\": 50}', ?)",
            (step, json.dumps(row)),
        ),
    )
    keeper = opened(old)
    assert last(keeper, "mated") == {"partner": "QUI", "partner_words": ""}
    assert "rests on it" in keeper.run("undo", step, "--yes", ok=False).complaint(4)


def sire(keeper: Keeper) -> list[str]:
    kin = keeper.json("--no-plugins", "animal", "show", "TUP")["kin"]
    return [k["animal"] for k in kin if k["role"] == "sire"]
