"""One command is one step: rows of any table are written, taken back and put in force together."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest
from sqlalchemy import Column, Integer, MetaData, Table, Text

from warmside.core.record import tables
from warmside.core.record.book import Book
from warmside.core.record.entities import NewEvent
from warmside.core.record.entries import add_animal, add_enclosure, add_species
from warmside.core.record.kin.lineage import Candidate
from warmside.core.record.kin.parentage import set_parents
from warmside.core.record.steps import StepWriter
from warmside.core.values.errors import BadInput, NotFound, Refused, WarmsideError
from warmside.testing import Keeper, copy_of, new_keeper, throw_away_plugin

DAY = date(2026, 3, 5)
pair = Table(  # a plugin's table, with names of its own for what it refers to
    "pairs_pair",
    MetaData(),
    Column("id", Integer, primary_key=True),
    Column("partner", Integer),
    Column("note", Text),
)


def add_pairs_table(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(
            "CREATE TABLE pairs_pair (id INTEGER PRIMARY KEY, "
            "partner INTEGER REFERENCES animal ON DELETE CASCADE, note TEXT)"
        )


def rows(keeper: Keeper, table: Table) -> list[tuple[object, ...]]:
    with keeper.book() as book:
        return book.rows(f"SELECT * FROM {table.name}")


def words(keeper: Keeper) -> list[str]:
    with keeper.book() as book:
        return [s.words for s in book.steps()]


@pytest.fixture(scope="module")
def ember_once(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """What `ember` copies, made once."""
    keeper = new_keeper(tmp_path_factory.mktemp("ember"))
    add_pairs_table(keeper.path)
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--sex", "female")
    return keeper


@pytest.fixture
def ember(ember_once: Keeper, tmp_path: Path) -> Keeper:
    """A keeper with one animal and the table of a plugin."""
    return copy_of(ember_once, tmp_path)


def test_a_step_writes_any_table_and_undo_takes_all_of_it_back(ember: Keeper) -> None:
    before = ember.path.read_bytes(), rows(ember, pair)
    with ember.open().step("paired Ember", ember.now) as writer:
        first = writer.insert(pair, partner=1, note="first")
        second = writer.insert(pair, partner=1, note="second")
        writer.change(pair, {"id": first}, note="changed")
        writer.remove(pair, {"id": second})
        writer.change(tables.animal, {"id": 1}, name="Cinder")
        writer.record(NewEvent("observed", DAY, {"what": "paired"}, 1))
    assert rows(ember, pair) == [(1, 1, "changed")]
    assert ember.open().undo(ember.now).words == "paired Ember"
    assert rows(ember, pair) == before[1] == []
    with ember.book() as book:
        assert book.animal("EMB").name == "Ember"
        assert book.events("observed") == []


def test_redo_puts_the_same_rows_in_force_again(ember: Keeper) -> None:
    with ember.open().step("paired", ember.now) as writer:
        writer.insert(pair, id=7, partner=1, note="first")
        writer.insert(pair, id=8, partner=1, note="gone again")
        writer.remove(pair, {"id": 8})
    written = rows(ember, pair)
    ember.run("undo")
    assert rows(ember, pair) == []
    ember.run("redo")
    assert rows(ember, pair) == written == [(7, 1, "first")]
    ember.run("undo")
    assert rows(ember, pair) == []


def test_a_removed_row_comes_back_as_it_was(ember: Keeper) -> None:
    with ember.open().step("paired", ember.now) as writer:
        writer.insert(pair, id=7, partner=1, note="ätsch ' \" \n ♀")
    with ember.open().step("parted", ember.now) as writer:
        writer.remove(pair, {"id": 7})
    assert rows(ember, pair) == []
    ember.run("undo")
    assert rows(ember, pair) == [(7, 1, "ätsch ' \" \n ♀")]


def test_a_step_that_writes_nothing_leaves_no_trace(ember: Keeper) -> None:
    before = words(ember)
    with ember.open().step("nothing", ember.now):
        pass
    with ember.open().step("the same", ember.now) as writer:
        writer.change(tables.animal, {"id": 1}, name="Ember")
    assert words(ember) == before


def test_a_step_that_fails_leaves_no_trace(ember: Keeper) -> None:
    before = words(ember)
    with (
        pytest.raises(ZeroDivisionError),
        ember.open().step("fails", ember.now) as writer,
    ):
        writer.insert(pair, partner=1, note="")
        writer.record(NewEvent("observed", DAY, {"what": "x"}, 1))
        raise ZeroDivisionError
    assert (words(ember), rows(ember, pair)) == (before, [])


def test_events_are_never_changed_or_removed_through_a_step(ember: Keeper) -> None:
    with ember.open().step("rewrite", ember.now) as writer:
        with pytest.raises(TypeError, match="append-only"):
            writer.change(tables.event, {"id": 1}, note="rewritten")
        with pytest.raises(TypeError, match="append-only"):
            writer.remove(tables.event, {"id": 1})


def test_the_file_itself_keeps_events_append_only(ember: Keeper) -> None:
    with closing(sqlite3.connect(ember.path)) as connection:
        for statement in ("UPDATE event SET data = '{}'", "DELETE FROM event"):
            with pytest.raises(sqlite3.IntegrityError, match="append-only"):
                connection.execute(statement)


def test_a_row_that_is_not_there_is_named(ember: Keeper) -> None:
    with (
        pytest.raises(NotFound, match=r"pairs_pair has no row \{'id': 99\}"),
        ember.open().step("change", ember.now) as writer,
    ):
        writer.change(pair, {"id": 99}, note="x")


def test_undo_previews_in_the_keepers_words_and_takes_nothing_back(ember: Keeper) -> None:
    ember.run("record", "weighed", "EMB=412g")
    preview = ember.run("undo", "--preview").stdout
    assert "would take back step 2: Ember (EMB): weighed: 412 g" in preview
    assert ember.json("history", "EMB", "--kind", "weighed")["events"]
    done = ember.run("undo").stdout
    assert "took back step 2: Ember (EMB): weighed: 412 g" in done
    assert ember.json("history", "EMB", "--kind", "weighed")["events"] == []


def test_undo_and_redo_are_steps_themselves(ember: Keeper) -> None:
    ember.run("record", "weighed", "EMB=412g")
    ember.run("undo")
    ember.run("redo")
    listed = ember.json("undo", "--list")["steps"]
    assert [s["what"] for s in listed] == [
        "redo of step 3: Ember (EMB): weighed: 412 g",
        "undo of step 2: Ember (EMB): weighed: 412 g",
        "Ember (EMB): weighed: 412 g",
        "entered Ember",
    ]
    assert [s["state"] for s in listed] == ["", "taken back by 4", "", ""]


def test_what_was_taken_back_is_not_done_again_once_something_else_was_recorded(
    ember: Keeper,
) -> None:
    assert "nothing to redo" in ember.run("redo", ok=False).complaint(3)
    ember.run("record", "weighed", "EMB=412g")
    ember.run("undo")
    ember.run("record", "weighed", "EMB=421g")
    assert "recorded after the last undo" in ember.run("redo", ok=False).complaint(3)
    ember.run("undo")
    ember.run("redo")
    assert [e["data"]["mass_g"] for e in ember.json("history", "EMB")["events"][-1:]] == [421]


def test_many_events_are_previewed_by_the_first_and_a_count(ember: Keeper) -> None:
    for name in ("Moss", "Juniper", "Slate", "Fern"):
        ember.run("animal", "add", name, "--species", "leopard gecko")
    ember.run("record", "observed", "--all", "--what", "calm")
    assert "and 2 more" in ember.run("undo", "--preview").stdout


def refused_undo(keeper: Keeper, number: int) -> str:
    with pytest.raises(Refused) as refused:
        keeper.open().undo(keeper.now, number)
    return str(refused.value)


def test_undo_is_refused_while_later_events_rest_on_the_animal(ember: Keeper) -> None:
    ember.run("record", "weighed", "EMB=412g")
    told = refused_undo(ember, 1)
    assert told == (
        "cannot undo step 1 (entered Ember): step 2 (Ember (EMB): weighed: 412 g) rests on it; "
        "undo that first: warmside undo 2"
    )
    ember.run("undo", "2")
    ember.run("undo", "1")
    assert ember.json("animal", "list")["animals"] == []


def test_undo_is_refused_while_a_later_step_changed_the_same_row(ember: Keeper) -> None:
    ember.run("animal", "change", "EMB", "--note", "shy")
    assert "step 2 (changed Ember (EMB)) rests on it" in refused_undo(ember, 1)


def test_undo_is_refused_while_a_later_step_corrected_its_event(ember: Keeper) -> None:
    ember.run("record", "weighed", "EMB=412g")
    ember.run("correct", "2", "mass=421g")
    said = refused_undo(ember, 2)
    assert "step 3 (corrected event 2: " in said and "rests on it" in said
    ember.run("undo")
    ember.run("undo")
    assert ember.json("history", "--kind", "weighed")["events"] == []


def test_undo_is_refused_while_a_plugins_row_refers_to_what_was_made(ember: Keeper) -> None:
    """A foreign key that would cascade must not make undo lose what a later step wrote."""
    with ember.open().step("paired Ember", ember.now) as writer:
        writer.insert(pair, partner=1, note="")
    assert "step 2 (paired Ember) rests on it" in refused_undo(ember, 1)
    assert rows(ember, pair) == [(1, 1, "")]


def test_undo_is_refused_while_a_later_child_has_the_animal_as_its_dam(ember: Keeper) -> None:
    ember.run("animal", "add", "Young", "--species", "ball python")
    ember.run("animal", "parents", "YOU", "--dam", "EMB")
    assert "step 3 (Young (YOU): dam Ember (EMB), certain) rests on it" in refused_undo(ember, 1)


def test_undo_is_refused_while_an_animal_is_of_the_species(keeper: Keeper) -> None:
    keeper.run("species", "add", "Varanus fictus", "--common", "paper monitor")
    keeper.run("animal", "add", "Ash", "--species", "paper monitor", "--ancestor")
    assert "step 2 (entered Ash) rests on it" in refused_undo(keeper, 1)


def test_undo_is_refused_while_the_enclosure_is_lived_in(keeper: Keeper) -> None:
    keeper.run("enclosure", "add", "Shelf")
    keeper.run("animal", "add", "Ash", "--species", "leopard gecko", "--enclosure", "SHE")
    assert "step 2 (entered Ash) rests on it" in refused_undo(keeper, 1)


def test_a_plugins_rows_are_taken_back_when_the_plugin_is_gone(tmp_path: Path) -> None:
    keeper = new_keeper(tmp_path, plugins=["rhythm"])
    keeper.run("rhythm", "set", "weighed", "--every", "30")
    assert keeper.run("--no-plugins", "undo").stdout.startswith("took back step 2: rhythm: weighed")
    assert keeper.json("rhythm", "list")["rhythms"] == []


def test_what_a_plugin_adds_to_a_step_is_undone_with_it(keeper: Keeper) -> None:
    def look(events: tuple[object, ...]) -> list[NewEvent]:
        return [NewEvent("observed", DAY, {"what": "set off by a plugin"}, 1)]

    with throw_away_plugin("echo", warmside_events_recorded=look):
        keeper.run("plugin", "enable", "echo")
        keeper.run("animal", "add", "Ember", "--species", "ball python")
        history = keeper.json("history")["events"]
        assert [e["what"] for e in history] == ["here already", "observed: set off by a plugin"]
        keeper.run("undo")
        assert keeper.json("history")["events"] == []


@pytest.mark.parametrize(
    "wrong",
    [
        NewEvent("observed", DAY, {}, 1),
        NewEvent("observed", DAY, {"what": "no subject"}),
        NewEvent("echo.unknown", DAY, {}, 1),
        NewEvent("observed", DAY, {"what": "no such animal"}, 99),
    ],
    ids=["bad data", "no subject", "unknown kind", "no such animal"],
)
def test_what_a_plugin_adds_wrongly_is_its_fault_and_stops_the_step(
    keeper: Keeper, wrong: NewEvent
) -> None:
    with throw_away_plugin("echo", warmside_events_recorded=lambda events: [wrong]):
        keeper.run("plugin", "enable", "echo")
        failed = keeper.run("animal", "add", "Ember", "--species", "ball python", ok=False)
        assert failed.code == 1
        assert failed.stderr.count("\n") == 1
        assert "plugin echo" in failed.stderr
        assert keeper.json("animal", "list")["animals"] == []


def test_step_numbers_that_cannot_be_undone_are_told_apart(ember: Keeper) -> None:
    ember.run("record", "weighed", "EMB=412g")
    ember.run("undo")
    collection = ember.open()
    for number, error, text in (
        (2, Refused, "step 2 is undone already"),
        (3, Refused, "step 3 took back or redid another itself; use: warmside redo"),
        (99, NotFound, "there is no step 99"),
    ):
        with pytest.raises(error, match=text):
            collection.undo(ember.now, number)


def test_ids_of_undone_events_are_never_given_again(ember: Keeper) -> None:
    ember.run("record", "weighed", "EMB=412g")
    ember.run("undo")
    ember.run("record", "weighed", "EMB=413g")
    assert [e["event"] for e in ember.json("history", "--kind", "weighed")["events"]] == [3]


def test_an_event_about_the_wrong_subject_is_refused(ember: Keeper) -> None:
    wrong: list[tuple[NewEvent, type[WarmsideError]]] = [
        (NewEvent("cleaned", DAY, {}, 1), BadInput),
        (NewEvent("weighed", DAY, {"mass_g": 9.0}), BadInput),
        (NewEvent("weighed", DAY, {"mass_g": 9.0}, 99), NotFound),
        (NewEvent("moved", DAY, {}, 1), BadInput),
        (NewEvent("nosuch", DAY, {}, 1), NotFound),
    ]
    for new, error in wrong:
        with (
            pytest.raises(error),
            ember.open().step("wrong", ember.now) as writer,
        ):
            writer.record(new)


def entries(writer: StepWriter) -> None:
    """A family in an enclosure, of a species of its own."""
    add_species(writer, "Gekko fictus", "paper gecko", "gecko", "unknown")
    add_enclosure(writer, "Shelf", room="Attic")
    dam = add_animal(writer, "Ash", "paper gecko", sex="female")
    child = add_animal(writer, "Moss", "paper gecko")
    set_parents(writer, child, "dam", [Candidate(dam)])
    writer.record(NewEvent("kept", DAY, {}, child.id, 1))


def test_a_step_of_rows_that_rest_on_each_other_is_undone_and_redone_whole(keeper: Keeper) -> None:
    with keeper.open().step("a family", keeper.now) as writer:
        entries(writer)
    whole = keeper.json("animal", "list", "--all")
    keeper.run("undo")
    assert keeper.json("animal", "list", "--all")["animals"] == []
    assert keeper.json("enclosure", "list")["enclosures"] == []
    keeper.run("redo")
    assert keeper.json("animal", "list", "--all") == whole
    assert keeper.run("file", "check").code == 0


def housed(keeper: Keeper) -> None:
    keeper.run("enclosure", "add", "BOX")
    keeper.run("animal", "add", "Ember", "--species", "leopard gecko", "--enclosure", "BOX")


def test_a_book_read_again_keeps_what_the_step_left_as_it_was(keeper: Keeper) -> None:
    housed(keeper)
    with keeper.open().step("renamed", keeper.now) as writer:
        ember, enclosures = writer.book.animals[1], writer.book.enclosures
        assert writer.reread().animals[1] is ember
        writer.change(tables.animal, {"id": 1}, name="Ash")
        again = writer.reread()
        assert [a.name for a in again.animals.values()] == ["Ash"]
        assert again.enclosures is enclosures


@pytest.mark.parametrize(
    ("table", "key", "values", "told"),
    [
        (tables.species, {"id": 1}, {"common": "other"}, "animals"),
        (tables.species, {"id": 1}, {"common": "other"}, "species"),
        (tables.enclosure, {"id": 1}, {"room": "attic"}, "enclosures"),
        (tables.collection, {"id": 1}, {"name": "Other"}, "home"),
        (
            tables.parentage,
            {"child_id": 2, "role": "dam", "parent_id": 1},
            {"weight": 0.5},
            "parents",
        ),
        (tables.clutch, {"id": 1}, {"eggs": 2}, "clutches"),
    ],
)
def test_what_a_step_changes_is_read_again(
    keeper: Keeper, table: Table, key: dict[str, object], values: dict[str, object], told: str
) -> None:
    housed(keeper)
    keeper.run("animal", "add", "Ash", "--species", "leopard gecko")
    keeper.run("clutch", "add", "--dam", "EMB", "--laid", "2026-02-01")
    with keeper.open().step("parents", keeper.now) as writer:
        dam = {"child_id": 2, "role": "dam", "parent_id": 1, "certainty": "certain", "weight": None}
        writer.insert(tables.parentage, **dam)
    with keeper.open().step("changed", keeper.now) as writer:
        if table is tables.species:
            key = {"id": writer.book.animals[1].species.id}
        before = getattr(writer.book, told)
        writer.change(table, key, **values)
        assert getattr(writer.reread(), told) != before


def test_recording_one_event_reads_its_animal_alone_and_once(
    keeper: Keeper, monkeypatch: pytest.MonkeyPatch
) -> None:
    housed(keeper)
    asked: list[str] = []
    plain = Book.rows
    spy = lambda book, sql, *more: asked.append(sql) or plain(book, sql, *more)  # type: ignore[func-returns-value]  # noqa: E731
    monkeypatch.setattr(Book, "rows", spy)
    keeper.run("record", "weighed", "EMB=43g")
    read = [sql for sql in asked if "FROM animal LEFT JOIN" in sql]
    assert len(read) == 1 and read[0].endswith("WHERE code = ?")
