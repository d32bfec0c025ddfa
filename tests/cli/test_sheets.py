"""Ten sheets as keepers keep them, invented here: each imports at once, or after one answer."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any
from zipfile import ZipFile

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from warmside.core.csv.causes import lines_said
from warmside.core.doing.import_told import belief
from warmside.testing import Keeper, copy_of, new_keeper

MANIFEST = (
    '<manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0">'
    '<manifest:file-entry manifest:full-path="/" '
    'manifest:media-type="application/vnd.oasis.opendocument.spreadsheet"/></manifest:manifest>'
)


@pytest.fixture(scope="module")
def shelf_once(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """What `shelf` copies, made once."""
    keeper = new_keeper(tmp_path_factory.mktemp("shelf"))
    keeper.run("enclosure", "add", "Low shelf")
    for name, species in (
        ("Ember", "ball python"),
        ("Juno", "ball python"),
        ("Moss", "Boa imperator"),
    ):
        keeper.run(
            *("animal", "add", name, "--species", species, "--since", "2020-01-01"),
            *("--hatched", "2019", "--enclosure", "LOW"),
        )
    return keeper


@pytest.fixture
def shelf(shelf_once: Keeper, tmp_path: Path) -> Keeper:
    """Three snakes."""
    return copy_of(shelf_once, tmp_path)


def sheet(keeper: Keeper, text: str, name: str = "sheet.csv", encoding: str = "utf-8") -> Path:
    """A file with that text."""
    path = keeper.path.with_name(name)
    path.write_bytes(text.encode(encoding))
    return path


def taken(keeper: Keeper, *words: str | Path) -> dict[str, Any]:
    """What an import answered, after which the same import changes nothing."""
    answer = keeper.json("import", *words, "--confirm")
    assert keeper.json("import", *words, "--confirm")["new"] == 0
    return dict(answer)


def events(keeper: Keeper, kind: str, code: str = "") -> list[tuple[str, Any]]:
    """Day and data of the events of a kind, oldest first."""
    with keeper.book() as book:
        of = book.animal(code).id if code else None
        return [(e.day.isoformat(), e.data) for e in book.events(kind, animal=of)]


def masses(keeper: Keeper, code: str = "") -> list[tuple[str, float]]:
    """Day and grams of the weighings, oldest first."""
    return [(day, round(data["mass_g"], 1)) for day, data in events(keeper, "weighed", code)]


def meals(keeper: Keeper, code: str = "") -> list[tuple[str, str, str]]:
    return [(day, d["item"], d["outcome"]) for day, d in events(keeper, "fed", code)]


def test_a_plain_table_from_a_scale(shelf: Keeper) -> None:
    text = "Date,Time,Name,Weight (g)\n2026-01-05,08:30,Ember,1412.5\n2026-01-12,08:40,Juno,988\n"
    assert taken(shelf, sheet(shelf, text))["new"] == 2
    assert masses(shelf) == [("2026-01-05", 1412.5), ("2026-01-12", 988.0)]
    with shelf.book() as book:
        assert book.events("weighed")[0].at is not None


def test_a_breeders_card_of_one_animal(shelf: Keeper) -> None:
    text = (
        "Record card,,,,,\nName:,Ember,,,,\nSpecies:,ball python,,,,\n,,,,,\n"
        "Date,Weight g,Fed,Ate?,Shed,Comments\n"
        "3 Nov 2025,1400,rat,Y,,\nMon 10 Nov 2025,,rat,N,,in blue\n"
        "17 Nov 2025,1388,,,complete,\n24 Nov 2025,n/a,-,-,,calm\n"
    )
    assert taken(shelf, sheet(shelf, text))["new"] == 6
    assert masses(shelf, "EMB") == [("2025-11-03", 1400.0), ("2025-11-17", 1388.0)]
    assert meals(shelf, "EMB") == [("2025-11-03", "rat", "taken"), ("2025-11-10", "rat", "refused")]
    assert [(d, e["outcome"]) for d, e in events(shelf, "shed")] == [("2025-11-17", "one piece")]
    assert [(d, e["what"]) for d, e in events(shelf, "observed")] == [("2025-11-24", "calm")]


def test_a_long_feeding_log_with_american_dates(shelf: Keeper) -> None:
    text = (
        "Snake,Feed Date,Prey,Qty,Accepted\nEmber,7/4/25,small rat,1,Y\n"
        '",7/18/25,f/t small rat,2,R\nJuno,7/18/25,mouse,1,y\n'
    )
    assert taken(shelf, sheet(shelf, text))["new"] == 3
    assert meals(shelf, "EMB") == [
        ("2025-07-04", "small rat", "taken"),
        ("2025-07-18", "small rat", "refused"),
    ]
    assert events(shelf, "fed", "EMB")[1][1]["form"] == "thawed"
    assert events(shelf, "fed", "EMB")[1][1]["count"] == 2


def test_a_wide_feeding_log(shelf: Keeper) -> None:
    text = (
        "Feeding log 2025,,,\nDate,Ember,Juno,Moss\n1/12/2025,mouse Y,2 x mouse (refused),\n"
        "15/12/2025,mouse R,,small rat - ate\n"
    )
    assert taken(shelf, sheet(shelf, text))["new"] == 4
    assert meals(shelf, "EMB") == [
        ("2025-12-01", "mouse", "taken"),
        ("2025-12-15", "mouse", "refused"),
    ]
    assert meals(shelf, "MOS") == [("2025-12-15", "small rat", "taken")]


def test_semicolons_and_decimal_commas(shelf: Keeper) -> None:
    text = "Datum;Tier;Gewicht (kg)\n31.12.2025;Moss;1,268\n07.01.2026;Moss;1,27\n"
    assert taken(shelf, sheet(shelf, text))["new"] == 2
    assert masses(shelf, "MOS") == [("2025-12-31", 1268.0), ("2026-01-07", 1270.0)]


def test_thousands_are_asked_about_where_nothing_tells(shelf: Keeper) -> None:
    path = sheet(shelf, "Date;Snake;Weight g\n2026-01-05;Moss;1.268\n")
    refused = shelf.run("import", path, ok=False)
    assert "'1.268'" in refused.complaint(2) and "--decimal" in refused.stderr
    assert masses(shelf) == []
    taken(shelf, path, "--decimal", ",")
    assert masses(shelf) == [("2026-01-05", 1268.0)]


def test_utf_16_with_ounces_and_pounds_and_notes_in_cells(shelf: Keeper) -> None:
    text = (
        "Date\tSnake\tWeight\tNotes\n1/15/2026\tEmber\t1 lb 2 oz\t\n"
        "1/22/2026\tEmber\t18 oz (after a meal)\tcalm\n"
    )
    assert taken(shelf, sheet(shelf, text, encoding="utf-16"))["new"] == 2
    assert masses(shelf) == [("2026-01-15", 510.3), ("2026-01-22", 510.3)]
    with shelf.book() as book:
        assert book.events("weighed")[1].note == "after a meal; calm"


def test_a_spreadsheet_with_a_title_and_a_total_row(shelf: Keeper) -> None:
    openpyxl = pytest.importorskip("openpyxl")
    book = openpyxl.Workbook()
    page = book.active
    for row in (
        ["My snakes"],
        [],
        ["Date", "Animal", "Weight (g)", "Shed"],
        [date(2026, 1, 5), "Ember", 1268.0, None],
        [date(2026, 2, 3), "Moss", 2100.5, "in pieces"],
        ["Total", None, 3368.5, None],
    ):
        page.append(row)
    path = shelf.path.with_name("export.xlsx")
    book.save(path)
    assert taken(shelf, path)["new"] == 3
    assert masses(shelf) == [("2026-01-05", 1268.0), ("2026-02-03", 2100.5)]
    assert events(shelf, "shed")[0][1]["outcome"] == "pieces"


def test_an_open_document_sheet(shelf: Keeper) -> None:
    def cell(text: str) -> str:
        return (
            '<table:table-cell office:value-type="string" calcext:value-type="string">'
            f"<text:p>{text}</text:p></table:table-cell>"
        )

    rows = (("Date", "Animal", "Weight g"), ("2026-01-05", "Juno", "901"))
    table = "".join(f"<table:table-row>{''.join(map(cell, r))}</table:table-row>" for r in rows)
    names = " ".join(
        f'xmlns:{n}="urn:oasis:names:tc:opendocument:xmlns:{n}:1.0"'
        for n in ("office", "table", "text")
    )
    content = (
        f'<?xml version="1.0"?><office:document-content {names} xmlns:calcext="urn:x" '
        'office:version="1.2"><office:body><office:spreadsheet><table:table table:name="A">'
        f"{table}</table:table></office:spreadsheet></office:body></office:document-content>"
    )
    path = shelf.path.with_name("export.ods")
    with ZipFile(path, "w") as file:
        file.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
        file.writestr("content.xml", content)
        file.writestr("META-INF/manifest.xml", MANIFEST)
    assert taken(shelf, path)["new"] == 1
    assert masses(shelf, "JUN") == [("2026-01-05", 901.0)]


def test_a_grid_like_a_calendar(shelf: Keeper) -> None:
    days = ",".join(str(n) for n in range(1, 32))
    ember = ",".join("Y" if n in (4, 11) else ("R" if n == 18 else "") for n in range(1, 32))
    moss = ",".join("Y" if n == 7 else "" for n in range(1, 32))
    text = f"Feeding October 2025{',' * 31}\n,{days}\nEmber,{ember}\nMoss,{moss}\n"
    path = sheet(shelf, text)
    assert "fed.item" in shelf.run("import", path, ok=False).stderr
    assert taken(shelf, path, "--unsaid", "fed.item=mouse")["new"] == 4
    assert meals(shelf, "EMB") == [
        ("2025-10-04", "mouse", "taken"),
        ("2025-10-11", "mouse", "taken"),
        ("2025-10-18", "mouse", "refused"),
    ]
    assert meals(shelf, "MOS") == [("2025-10-07", "mouse", "taken")]


def test_a_log_of_sheds(shelf: Keeper) -> None:
    text = (
        "Snake,Date,Shed,Notes\nEmber,13/10/2025,complete,\nJuno,14/10/2025,partial - tail,humid\n"
        "Moss,,,\nMoss,20/10/2025,Y,\n"
    )
    path = sheet(shelf, text)
    refused = shelf.run("import", path, ok=False)
    assert "line 5: shed.outcome is not said" in refused.stderr and refused.code == 4
    assert taken(shelf, path, "--unsaid", "shed.outcome=pieces")["new"] == 3
    assert [e["outcome"] for _, e in events(shelf, "shed")] == ["one piece", "pieces", "pieces"]


def test_a_mixed_notebook(shelf: Keeper) -> None:
    text = (
        'Date,Who,What,Details\n2025-11-01,Ember,Fed,"mouse, refused"\n'
        "2025-11-02,Ember,Weight,1395 g\n"
        "2025-11-03,Juno,Shed,whole\n2025-11-04,Juno,note,a bit restless\n"
        "2025-11-05,Moss,In blue,\n2025-11-06,LOW,Cleaned,deep\n"
    )
    assert taken(shelf, sheet(shelf, text))["new"] == 6
    assert meals(shelf) == [("2025-11-01", "mouse", "refused")]
    assert masses(shelf, "EMB") == [("2025-11-02", 1395.0)]
    assert events(shelf, "shed", "JUN")[0][1]["outcome"] == "one piece"
    assert events(shelf, "observed")[0][1]["what"] == "a bit restless"
    assert events(shelf, "shedding", "MOS")[0][1]["stage"] == "opaque"
    assert events(shelf, "cleaned")[0][1]["extent"] == "full"


def test_months_as_headings_over_numbers_of_days(shelf: Keeper) -> None:
    text = "Weights 2025\nDay,Ember g,Juno g\n".replace(" g", "") + (
        "March,,\n3,1400,990\n17,1410,\nApril,,\n2,1422,1001\n"
    )
    path = sheet(shelf, text)
    assert "--cells weighed.mass:g" in shelf.run("import", path, ok=False).complaint(2)
    assert taken(shelf, path, "--cells", "weighed.mass:g")["new"] == 5
    assert masses(shelf, "EMB") == [
        ("2025-03-03", 1400.0),
        ("2025-03-17", 1410.0),
        ("2025-04-02", 1422.0),
    ]


def test_headings_merged_over_the_columns_of_each_animal(shelf: Keeper) -> None:
    text = (
        ",Ember,,Juno,\nDate,Weight (g),Food,Weight (g),Food\n"
        "28/12/2025,1400,rat taken,990,\n4/1/2026,,rat refused,,mouse taken\n"
    )
    assert taken(shelf, sheet(shelf, text))["new"] == 5
    assert masses(shelf) == [("2025-12-28", 1400.0), ("2025-12-28", 990.0)]
    assert meals(shelf, "JUN") == [("2026-01-04", "mouse", "taken")]


def test_a_column_of_letters_that_nobody_mapped_is_asked_about(shelf: Keeper) -> None:
    path = sheet(shelf, "Date,Snake,Food,OK\n2026-01-05,Ember,rat,Y\n2026-01-12,Ember,rat,R\n")
    refused = shelf.run("import", path, ok=False).complaint(2)
    assert "what does column 'OK' hold (Y, R)" in refused
    assert taken(shelf, path, "--field", "fed.outcome=OK")["new"] == 2
    assert [outcome for *_, outcome in meals(shelf)] == ["taken", "refused"]


def test_letters_with_two_meanings_are_asked_about(shelf: Keeper) -> None:
    text = "Date,Snake,Food,Ate\n" + "".join(
        f"2026-01-0{n},Ember,rat,{letter}\n" for n, letter in enumerate("YNR", 5)
    )
    path = sheet(shelf, text)
    assert "fed.outcome does 'R' (1 row) mean" in shelf.run("import", path, ok=False).complaint(2)
    taken(shelf, path, "--word", "R=regurgitated")
    assert [outcome for *_, outcome in meals(shelf)] == ["taken", "refused", "regurgitated"]


def test_unknown_words_are_listed_once_each_and_mapped_in_the_same_go(shelf: Keeper) -> None:
    text = (
        "Date,Snake,Event,Details\n2026-01-05,Embr,Weight,1400 g\n2026-01-06,Embr,Weight,1402 g\n"
        "2026-01-06,Sold one,Weight,80 g\n2026-01-07,Juno,Wieght,900 g\n"
    )
    path = sheet(shelf, text)
    first = shelf.run("import", path, ok=False).complaint(2)
    assert first.count("'Wieght' (1 row)") == 1
    second = shelf.run("import", path, "--word", "Wieght=weighed", ok=False).complaint(2)
    assert "'Embr' (2 rows) mean (did you mean 'ember'?)" in second
    words = ("--word", "Wieght=weighed", "--word", "Embr=EMB", "--word", "Sold one=skip")
    assert taken(shelf, path, *words)["new"] == 3


def test_animals_and_columns_are_asked_about_together(shelf: Keeper) -> None:
    text = "Date,Animal,Eaten?\n13/1/2026,Embr,R\n14/1/2026,Juno,N\n"
    asked = shelf.run("import", sheet(shelf, text), ok=False).complaint(2)
    assert "'R' (1 row)" in asked and "did you mean 'ember'?" in asked


def test_food_that_nobody_knows_is_asked_about_once_each(shelf: Keeper) -> None:
    """A word that the keeper keeps as it is has to be confirmed; nothing is written before."""
    shelf.run("plugin", "enable", "feeding")
    rows = "13/1/2026,Ember,gloop,Y\n14/1/2026,Juno,gloop,N\n15/1/2026,Juno,smal rat,Y\n"
    path = sheet(shelf, f"Date,Animal,Prey,Eaten?\n{rows}")
    asked = shelf.run("import", path, ok=False).complaint(2)
    assert asked.count("gloop") == 3 and "food does 'gloop' (2 rows) mean" in asked
    assert "(did you mean 'small rat'?)" in asked
    wrong = shelf.run("import", path, "--word", "gloop=blurb", ok=False).complaint(2)
    assert "food does 'blurb' (2 rows) mean" in wrong, "a meaning that is none is asked about, too"
    mouse = ("--word", "smal rat=small rat")
    kept = shelf.run("import", path, *mouse, "--word", "gloop=gloop", ok=False).complaint(4)
    assert "Ember (EMB) and Juno (JUN): 'gloop' is no food that is known" in kept
    assert meals(shelf) == []
    shelf.run("import", path, *mouse, "--word", "gloop=quail")
    assert [item for _, item, _ in meals(shelf)] == ["quail", "quail", "small rat"]


def test_a_saved_mapping_reads_the_next_sheet_without_a_question(
    shelf: Keeper, tmp_path: Path
) -> None:
    head = "Weights\nDay,Pet,Gew.,OK\n"
    path = sheet(shelf, f"{head}2/3/25,Ember,1.402,Y\n")
    saved = tmp_path / "next.toml"
    shelf.run(
        *("import", path, "--date-format", "day first", "--decimal", ",", "--skip", "OK"),
        *("--field", "weighed.mass=Gew.:g", "--save-map", saved),
    )
    assert masses(shelf) == [("2025-03-02", 1402.0)]
    later = sheet(shelf, f"{head}4/3/25,Ember,1.411,N\n", "later.csv")
    assert shelf.json("import", later, "--map", saved)["new"] == 1
    assert masses(shelf)[-1] == ("2025-03-04", 1411.0)


def test_what_is_believed_is_told_with_three_events_as_they_are_recorded(shelf: Keeper) -> None:
    text = "Date,Snake,Weight (g),Shed\n13/1/2026,Ember,1400,\n14/1/2026,Juno,990,whole\n"
    told = " ".join(shelf.run("import", sheet(shelf, text), "--dry-run").stdout.split())
    assert "'Date' holds the date, the day comes first" in told
    assert "'Weight (g)' holds weighed (body mass) in g" in told
    assert "2026-01-13 Ember (EMB) weighed: 1.4 kg" in told
    plain = sheet(shelf, "Date,Snake,Weight (g)\n2026-01-13,Ember,1400\n", "plain.csv")
    assert "comes first" not in shelf.run("import", plain, "--dry-run").stdout
    assert "shed: one piece" in told
    assert masses(shelf) == []


def test_a_dry_run_lists_unknown_animals_kinds_and_food_in_one_go(shelf: Keeper) -> None:
    shelf.run("plugin", "enable", "feeding")
    rows = "4/1/2025,Embr,Fed,gloop\n5/1/2025,Embr,Fed,rat\n6/1/2025,Juno,Wieght,900 g\n"
    path = sheet(shelf, f"Date,Who,What,Details\n{rows}")
    looked = shelf.run("import", path, "--dry-run", "--json", ok=False)
    assert looked.code == 2
    asked = {q["question"]: q["option"] for q in looked.json["questions"]}
    assert [option.split("=")[0] for option in asked.values()] == [
        *("--date-format 'day first' or 'month first'", "--word 'Wieght", "--word 'gloop"),
        *("--word 'rat", "--word 'Embr"),
    ]
    rat = next(words for words in asked if "food does 'rat'" in words)
    assert "known are" in rat and "medium rat" in rat
    said = ("--date-format", "day first", "--word", "Wieght=weighed", "--word", "gloop=skip")
    said += ("--word", "rat=small rat", "--word", "Embr=EMB")
    assert shelf.json("import", path, "--dry-run", *said)["new"] == 1  # and what came of the rat?
    assert events(shelf, "fed") == []


def test_a_dry_run_tells_what_plugins_would_have_against_it(shelf: Keeper) -> None:
    """Also where all columns are our own; nothing of it stays written."""
    shelf.run("plugin", "enable", "feeding", "weight")
    for day in ("2026-01-01", "2026-01-08", "2026-01-15", "2026-01-22"):
        shelf.run("record", "weighed", "EMB=1400g", "--at", day)
    rows = "2026-01-29,weighed,EMB,14,\n2026-01-30,fed,EMB,,gloop\n"
    path = sheet(shelf, f"date,kind,animal,mass_g,item\n{rows}")
    before = shelf.path.read_bytes()
    told = shelf.json("import", path, "--dry-run")
    against = {(a["plugin"], a["so"]): a["what"] for a in told["against"]}
    assert "'gloop' is no food that is known" in against["feeding", "ask"]
    assert "1400 g was meant" in against["weight", "ask"]
    assert shelf.path.read_bytes() == before


def test_a_column_of_yes_is_asked_for_what_it_leaves_unsaid(shelf: Keeper) -> None:
    path = sheet(shelf, "Date,Snake,Poop\n13/1/2026,Ember,Y\n14/1/2026,Juno,\n")
    refused = shelf.run("import", path, ok=False).complaint(4)
    assert "line 2: defecated.looks is not said" in refused
    assert taken(shelf, path, "--unsaid", "defecated.looks=normal")["new"] == 1


def test_degrees_that_no_place_has_are_proposed_as_fahrenheit(shelf: Keeper) -> None:
    path = sheet(shelf, "Date,Tank,Hot side\n13/1/2026,LOW,90\n14/1/2026,LOW,88\n")
    assert "climate.warm=Hot side:F" in shelf.run("import", path, ok=False).complaint(2)


@given(st.lists(st.text("abc ',", max_size=120), max_size=60), st.integers(0, 3))
@settings(max_examples=30)
def test_what_is_believed_leaves_room_for_the_question_on_one_screen(
    said: list[str], events: int
) -> None:
    shown = (("2026-01-05 08:30", "Ember (EMB)", "fed: mouse " * 20),) * events
    lines = belief(said, shown)
    assert len(lines) <= 21 and max(map(len, lines)) < 80


def test_a_line_of_a_grid_is_named_once_however_many_of_its_cells_lack_it() -> None:
    assert lines_said([3, 3, 3, 4]) == "lines 3 and 4"
    assert lines_said([7, 7]) == "line 7"
    assert lines_said(range(2, 102)) == "lines 2, 3, 4, 5, 6, 7 and 94 more"
