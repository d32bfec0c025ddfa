"""Events from a keeper's spreadsheet."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.testing import Keeper, copy_of, new_keeper

OWN = "date,kind,animal,enclosure,mass_g,item,outcome,note\n"


@pytest.fixture(scope="module")
def room_once(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """What `room` copies, made once."""
    keeper = new_keeper(tmp_path_factory.mktemp("room"))
    keeper.run("enclosure", "add", "Low shelf")
    keeper.run("enclosure", "add", "High shelf")
    for name, place in (("Ember", "LOW"), ("Juno", "HIG")):
        keeper.run(
            *("animal", "add", name, "--species", "leopard gecko"),
            *("--enclosure", place, "--since", "2024-01-01", "--hatched", "2023"),
        )
    return keeper


@pytest.fixture
def room(room_once: Keeper, tmp_path: Path) -> Keeper:
    """Two animals in two enclosures."""
    return copy_of(room_once, tmp_path)


def csv(keeper: Keeper, text: str, encoding: str = "utf-8", name: str = "in.csv") -> str:
    """The path of a file with that text."""
    path = keeper.path.parent / name
    path.write_bytes(text.encode(encoding))
    return str(path)


def masses(keeper: Keeper) -> list[float]:
    with keeper.book() as book:
        return [e.data["mass_g"] for e in book.events("weighed")]


def test_our_own_columns_need_no_mapping(room: Keeper) -> None:
    text = OWN + "2025-01-02,weighed,EMB,,41.5,,,\n2025-01-03,fed,Juno,,,cricket,refused,shy\n"
    answer = room.json("import", csv(room, text))
    assert (answer["new"], answer["same"], answer["bad"]) == (2, 0, 0)
    with room.book() as book:
        fed = book.events("fed")[0]
    assert (fed.data["item"], fed.data["outcome"], fed.note) == ("cricket", "refused", "shy")
    assert masses(room) == [41.5]


def test_the_same_file_twice_changes_nothing(room: Keeper) -> None:
    path = csv(room, OWN + "2025-01-02,weighed,EMB,,41.5,,,\n2025-01-02,weighed,EMB,,41.5,,,\n")
    assert room.json("import", path)["new"] == 2
    again = room.json("import", path)
    assert (again["new"], again["same"]) == (0, 2)
    assert masses(room) == [41.5, 41.5]


def test_a_corrected_event_does_not_come_back(room: Keeper) -> None:
    path = csv(room, OWN + "2025-01-02,weighed,EMB,,41.5,,,\n")
    room.run("import", path)
    with room.book() as book:
        number = book.events("weighed")[0].id
    room.run("correct", str(number), "mass=42.5g")
    assert room.json("import", path)["same"] == 1
    assert masses(room) == [42.5]


def test_one_import_is_one_step(room: Keeper) -> None:
    room.run(
        "import", csv(room, OWN + "2025-01-02,weighed,EMB,,41,,,\n2025-02-02,weighed,JUN,,50,,,\n")
    )
    assert "imported 2 events" in room.run("undo").stdout
    assert masses(room) == []
    room.run("redo")
    assert masses(room) == [41.0, 50.0]


def test_foreign_columns_with_options_and_a_saved_mapping(room: Keeper, tmp_path: Path) -> None:
    text = "Tag;Tier;Gewicht;Bemerkung\n02.01.2025;Glut;41,5;gut\n"
    saved = tmp_path / "map.toml"
    room.run(
        *("import", csv(room, text.replace("Glut", "Ember"))),
        *("--kind", "weighed", "--date-column", "Tag", "--date-format", "DD.MM.YYYY"),
        *("--animal-column", "Tier", "--note-column", "Bemerkung"),
        *("--field", "mass=Gewicht:g", "--save-map", str(saved)),
    )
    assert masses(room) == [41.5]
    saved.write_text(saved.read_text() + '\n[animals]\nGlut = "EMB"\n')
    assert room.json("import", csv(room, text), "--map", str(saved))["same"] == 1


def test_units_may_stand_in_the_cells(room: Keeper) -> None:
    text = "date,animal,mass\n2025-01-02,EMB,1.5oz\n"
    room.run("import", csv(room, text), "--kind", "weighed")
    assert masses(room) == pytest.approx([42.52428], abs=1e-4)


def test_a_dry_run_writes_nothing_and_says_what_is_bad(room: Keeper) -> None:
    text = OWN + "2025-01-02,weighed,EMB,,41,,,\n2025-13-02,weighed,EMB,,41,,,\nx\n"
    answer = room.json("import", csv(room, text), "--dry-run")
    assert (answer["new"], answer["bad"]) == (1, 2)
    assert [row["lines"] for row in answer["bad_lines"]] == [[3], [4]]
    assert masses(room) == []


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (OWN + "2025-01-02,weighed,EMB,,41\n", "line 2: has 5 cells, not 8"),
        (OWN + "2025-01-02,weighed,Nobody,,41,,,\n", "line 2: there is no animal 'Nobody'"),
        (OWN + "2025-01-02,weighd,EMB,,41,,,\n", "did you mean 'weighed'"),
        (OWN + "2025-01-02,weighed,EMB,,-3,,,\n", "line 2: "),
        (OWN + "2025-02-30,weighed,EMB,,41,,,\n", "line 2: "),
        (OWN + ",weighed,EMB,,41,,,\n", "line 2: no date"),
        ("animal,mass_g\nEMB,41\n", "no column 'date'"),
        ("date,kind,kind\n", "two columns called 'kind'"),
        ("", "is empty"),
        ("date,animal,g\n2026-03-01,EMB,42\n", "what the file's columns hold: 'g'; say it of one"),
    ],
)
def test_bad_files_import_nothing(room: Keeper, text: str, said: str) -> None:
    result = room.run("import", csv(room, text), ok=False)
    assert result.code == 2
    assert said in result.stderr
    assert result.stderr.count("\n") == 1
    assert masses(room) == []


def test_a_header_alone_imports_nothing(room: Keeper) -> None:
    assert room.json("import", csv(room, OWN))["new"] == 0


def test_an_older_encoding_is_seen_and_said_and_a_named_one_is_held_to(room: Keeper) -> None:
    text = OWN + "2025-01-02,weighed,EMB,,41,,,\n2025-01-03,weighed,EMB,,41,,,früh\n"
    path = csv(room, text, "cp1252")
    result = room.run("import", path, "--encoding", "utf-8", ok=False)
    assert result.code == 2 and "line 3: this is not utf-8" in result.stderr
    assert "the text is CP1252" in room.run("import", path).stdout
    with room.book() as book:
        assert [e.note for e in book.events("weighed")] == ["", "früh"]
    assert masses(room) == [41.0, 41.0]


@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16"])
def test_byte_order_marks_are_no_part_of_the_header(room: Keeper, encoding: str) -> None:
    room.run("import", csv(room, OWN + "2025-01-02,weighed,EMB,,41,,,\n", encoding))
    assert masses(room) == [41.0]


def test_bad_rows_can_be_left_out(room: Keeper) -> None:
    text = OWN + "2025-01-02,weighed,EMB,,41,,,\nbad\n"
    assert room.json("import", csv(room, text), "--skip-bad")["new"] == 1
    assert masses(room) == [41.0]


def test_a_slip_of_ten_asks_to_be_confirmed(room: Keeper) -> None:
    text = OWN + "2025-01-02,weighed,EMB,,41,,,\n2025-02-02,weighed,EMB,,4100,,,\n"
    path = csv(room, text)
    result = room.run("import", path, ok=False)
    assert result.code == 4 and "line 3" in result.stderr
    assert masses(room) == []
    room.run("import", path, "--confirm")
    assert masses(room) == [41.0, 4100.0]


def test_rows_for_enclosures_and_moves(room: Keeper) -> None:
    text = (
        "date,kind,animal,enclosure,extent\n"
        "2025-01-02,cleaned,,LOW,full\n2025-01-03,moved,EMB,HIG,\n2025-01-04,cleaned,EMB,,spot\n"
    )
    room.run("import", csv(room, text))
    with room.book() as book:
        cleaned = [(e.enclosure_id, e.data["extent"]) for e in book.events("cleaned")]
        high = book.enclosure("HIG").id
        low = book.enclosure("LOW").id
    # an animal stands for its enclosure as it is on record, not as the same file says
    assert cleaned == [(low, "full"), (low, "spot")]
    assert high != low


def test_an_unknown_key_in_a_mapping_is_named(room: Keeper, tmp_path: Path) -> None:
    saved = tmp_path / "map.toml"
    saved.write_text('dat = "Tag"\n')
    result = room.run("import", csv(room, OWN), "--map", str(saved), ok=False)
    assert result.code == 2 and "unknown key 'dat' (did you mean 'date'?)" in result.stderr


def test_a_cause_is_told_once_with_its_lines(room: Keeper) -> None:
    rows = "".join(f"2025-01-0{n},weighed,Emba,,4{n},,,\n" for n in range(1, 4))
    result = room.run("import", csv(room, OWN + rows), ok=False)
    assert "lines 2, 3 and 4: there is no animal 'Emba' (did you mean" in result.complaint(2)
    (cause,) = room.json("import", csv(room, OWN + rows), "--dry-run")["bad_lines"]
    assert (cause["lines"], cause["rows"]) == ([2, 3, 4], 3)


def test_a_meal_that_does_not_say_whether_it_was_eaten_is_never_taken(room: Keeper) -> None:
    text = OWN + "2025-01-02,fed,EMB,,,cricket,,\n2025-01-03,fed,EMB,,,cricket,refused,\n"
    path = csv(room, text)
    refused = room.run("import", path, ok=False)
    assert "line 2: fed.outcome is not said" in refused.stderr and refused.code == 4
    assert "--unsaid fed.outcome=VALUE" in refused.stderr
    assert room.json("import", path, "--dry-run")["doubtful"] == 1
    room.run("import", path, "--confirm")
    with room.book() as book:
        assert [e.data["outcome"] for e in book.events("fed")] == ["refused"]
    room.run("import", path, "--unsaid", "fed.outcome=part taken")
    with room.book() as book:
        assert [e.data["outcome"] for e in book.events("fed")] == ["part taken", "refused"]


def test_a_row_holds_several_events_and_a_blank_cell_none(room: Keeper, tmp_path: Path) -> None:
    text = (
        "date,animal,Weight,Food,Eaten,Shed,Water,note\n"
        "2025-01-02,EMB,41,cricket,yes,whole,x,all well\n"
        "2025-01-03,EMB,,,,,,\n2025-01-04,EMB,42,,,,,\n"
    )
    saved = tmp_path / "several.toml"
    saved.write_text(
        '[fields]\n"weighed.mass" = { column = "Weight", unit = "g" }\n"fed.item" = "Food"\n'
        '"fed.outcome" = { column = "Eaten", values = { yes = "taken" } }\n'
        '"shed.outcome" = { column = "Shed", values = { whole = "one piece" } }\n'
        '"watered." = { column = "Water", values = { x = "(yes)" } }\n'
    )
    assert room.json("import", csv(room, text), "--map", str(saved))["new"] == 5
    with room.book() as book:
        assert [e.day.day for e in book.events("shed")] == [2]
        assert [e.day.day for e in book.events("watered")] == [2]
    assert masses(room) == [41.0, 42.0]


def test_a_blank_cell_of_a_sheet_of_one_kind_holds_no_event(room: Keeper) -> None:
    text = "date,animal,Shed\n2025-01-02,EMB,\n2025-01-03,EMB,pieces\n"
    room.run("import", csv(room, text), "--kind", "shed", "--field", "outcome=Shed")
    with room.book() as book:
        assert [e.day.day for e in book.events("shed")] == [3]


def test_the_order_of_rows_tells_which_of_two_hours_of_autumn_is_meant(room: Keeper) -> None:
    clocks = ("01:50", "02:40", "02:20", "02:40", "03:10")
    rows = [f"2025-10-26 {c},weighed,EMB,,{40 + n},,," for n, c in enumerate(clocks)]
    room.run("import", csv(room, OWN + "\n".join(rows)), "--confirm")
    with room.book() as book:
        found = [e.at.strftime("%H:%M") for e in book.events("weighed") if e.at]
    assert found == ["23:50", "00:40", "01:20", "01:40", "02:10"]
