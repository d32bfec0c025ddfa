"""`warmside labels print`, as a keeper types it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pypdfium2
import pytest
from pypdfium2 import raw

from invented_pictures import jpeg, picture, write
from warmside.api import About, Basis, CareRank, LabelLine, Task
from warmside.plugins.labels.content.label import LabelKind
from warmside.plugins.labels.paper.stock import content_of_all, find_stock, label_boxes
from warmside.plugins.labels.paper.stockfile import shipped_stocks
from warmside.testing import Keeper, throw_away_plugin


def words(path: Path) -> str:
    """All text of a PDF, on one line."""
    pages = pypdfium2.PdfDocument(path)
    return " ".join(" ".join(p.get_textpage().get_text_range() for p in pages).split())


def codes(answer: dict) -> list[str]:
    """The codes of the labels, in the order of the print."""
    return [row["code"] for row in answer["labels"]]


def printed(keeper: Keeper, tmp_path: Path, *options: str) -> tuple[list[str], str]:
    """The codes and the text of a print."""
    path = tmp_path / "out.pdf"
    answer = keeper.json("labels", "print", str(path), *options)
    return codes(answer), words(path)


def test_every_enclosure_in_use_gets_its_label(labelled: Keeper, tmp_path: Path) -> None:
    labelled.run("enclosure", "change", "V-03", "--retired")
    path = tmp_path / "labels.pdf"
    answer = labelled.json("labels", "print", str(path))
    assert [(r["label"], r["page"], r["place"], r["code"]) for r in answer["labels"]] == [
        ("Ember", 1, 1, "V-01"),
        ("Moss, Tamsin", 1, 2, "V-02"),
    ]
    text = words(path)
    for said in ("V-01", "Ember ♀", "Boaedon fuliginosus", "hatched 2022-06-11", "living room"):
        assert said in text
    assert answer["file"] == str(path) and answer["labels_printed"] == 2


@pytest.mark.parametrize(
    ("options", "wanted"),
    [
        (("--room", "attic"), ["V-02", "V-03"]),
        (("--enclosure", "V-03", "--animal", "Ember"), ["V-01", "V-03"]),
        (("--kind", "animal"), ["EMB", "MOS", "TAM"]),
        (("--kind", "animal", "--room", "attic"), ["MOS", "TAM"]),
        (("--kind", "animal", "--enclosure", "V-01"), ["EMB"]),
        (("--kind", "animal", "--animal", "Moss"), ["MOS"]),
        (("--kind", "sitter"), ["V-01", "V-02"]),
        (("--sort", "room"), ["V-02", "V-03", "V-01"]),
        (("--sort", "name"), ["V-03", "V-02", "V-01"]),
        (("--enclosure", "V-01", "--copies", "3"), ["V-01", "V-01", "V-01"]),
    ],
)
def test_the_keeper_chooses_what_is_printed(
    labelled: Keeper, tmp_path: Path, options: tuple[str, ...], wanted: list[str]
) -> None:
    assert printed(labelled, tmp_path, *options)[0] == wanted


def test_a_plugins_state_chooses_and_fills_the_door_sign(labelled: Keeper, tmp_path: Path) -> None:
    def ranks(book, on):
        return [CareRank(book.enclosure("V-02").id, 9, "apart, day 3 of 30", "group-a")]

    def lines(book, about):
        if about == About(book.animal("MOS").id):
            yield LabelLine("apart.since", "apart since 2026-03-02")
            yield LabelLine("apart.earliest-end", "not before 2026-04-01")
            yield LabelLine("apart.tools", "the red box")

    plugin = throw_away_plugin("apart", warmside_care_order=ranks, warmside_label_lines=lines)
    with plugin:
        labelled.run("plugin", "enable", "apart")
        assert printed(labelled, tmp_path, "--state", "apart")[0] == ["V-02"]
        assert printed(labelled, tmp_path, "--state", "group-a", "--kind", "animal")[0] == [
            "MOS",
            "TAM",
        ]
        found, text = printed(labelled, tmp_path, "--kind", "door", "--stock", "a4-2x2")
        refused = labelled.run("labels", "print", "x.pdf", "--state", "apert", ok=False)
    assert found == ["V-02"]
    for said in ("QUARANTINE", "since 2026-03-02", "not before 2026-04-01", "the red box"):
        assert said in text
    assert refused.code == 3 and "did you mean 'apart'" in refused.stderr


def test_the_quarantine_plugin_fills_the_door_sign(labelled: Keeper, tmp_path: Path) -> None:
    labelled.run("plugin", "enable", "quarantine")
    labelled.run("arrive", "Aino", "--species", "rainbow boa", "--enclosure", "V-03")
    found, text = printed(labelled, tmp_path, "--kind", "door", "--stock", "a4-2x2")
    assert found == ["V-03"]
    assert "since 2026-03-05" in text and "not before 2026-06-03" in text
    assert printed(labelled, tmp_path, "--state", "quarantined")[0] == ["V-03"]


def test_a_door_sign_of_a_named_enclosure_is_left_to_fill_in(
    labelled: Keeper, tmp_path: Path
) -> None:
    _, text = printed(labelled, tmp_path, "--kind", "door", "--enclosure", "V-03")
    assert "since" in text and "not before" in text and "2026" not in text
    nobody = labelled.run("labels", "print", "x.pdf", "--kind", "door", ok=False)
    assert nobody.code == 3 and "--enclosure" in nobody.stderr


def test_a_strip_says_when_the_next_meal_comes_from_any_plugins_task(
    labelled: Keeper, tmp_path: Path
) -> None:
    def tasks(book, on):
        for animal in book.animals.values():
            basis = Basis("every so often")
            yield Task("feed", date(2026, 3, 9), basis, About(animal.id), "fed")
        where = About(enclosure_id=book.enclosure("V-02").id)
        yield Task("mist", date(2026, 3, 1), basis, where, "misted")

    labelled.run("plugin", "set", "labels", "do_nots", "open at night; handle")
    labelled.run("plugin", "set", "labels", "contact", "555 0100")
    with throw_away_plugin("chores", warmside_tasks=tasks):
        labelled.run("plugin", "enable", "chores")
        _, text = printed(labelled, tmp_path, "--kind", "sitter", "--stock", "a4-2x4")
    assert text.count("next meal: Mon 2026-03-09, feed") == 2
    assert "misting: Thu 2026-03-05, mist" in text  # overdue, so today
    assert "Do not open at night" in text and "Do not handle" in text and "call: 555 0100" in text


def test_lines_of_plugins_are_printed_when_picked(labelled: Keeper, tmp_path: Path) -> None:
    def lines(book, about):
        if about.animal_id is not None:
            yield LabelLine("diet.water", f"{book.animals[about.animal_id].name} drinks mist")

    with throw_away_plugin("diet", warmside_label_lines=lines):
        labelled.run("plugin", "enable", "diet")
        assert "drinks" not in printed(labelled, tmp_path)[1]
        _, text = printed(labelled, tmp_path, "--lines", "diet.water,latin")
        assert "Ember drinks mist" in text and "hatched" not in text
        assert text.index("drinks") < text.index("Boaedon")
        assert "Moss: Moss drinks mist; Tamsin: Tamsin drinks mist" in text
        known = labelled.json("labels", "lines")["lines"]
        assert {"key": "diet.water", "kinds": [], "example": "Ember drinks mist"} in known
    wrong = labelled.run("labels", "print", str(tmp_path / "out.pdf"), "--lines", "diet.watr,latin")
    assert "no plugin gives a line 'diet.watr'" in wrong.stderr


def test_an_empty_enclosure_has_lines_of_plugins_and_notes_too(
    labelled: Keeper, tmp_path: Path
) -> None:
    def lines(book, about):
        if about == About(enclosure_id=book.enclosure("V-03").id):
            yield LabelLine("lamps.warm", "31 °C at the warm side")
            yield LabelLine("lamps.next-meal", "nobody to feed")

    labelled.run("labels", "note", "V-03", "tools", "the red box")
    only = ("--enclosure", "V-03", "--stock", "a4-2x2")
    with throw_away_plugin("lamps", warmside_label_lines=lines):
        labelled.run("plugin", "enable", "lamps")
        assert "31 °C" not in printed(labelled, tmp_path, *only)[1]
        assert (
            "31 °C at the warm side"
            in printed(labelled, tmp_path, *only, "--lines", "lamps.warm")[1]
        )
        strip = printed(labelled, tmp_path, *only, "--kind", "sitter")[1]
        door = printed(labelled, tmp_path, *only, "--kind", "door")[1]
        known = labelled.json("labels", "lines")["lines"]
    assert "next meal: nobody to feed" in strip
    assert "Own tools: the red box" in door
    assert {"key": "lamps.warm", "kinds": [], "example": "31 °C at the warm side"} in known


def test_what_is_said_of_an_animal_stands_before_what_is_said_of_its_enclosure(
    labelled: Keeper, tmp_path: Path
) -> None:
    def lines(book, about):
        yield LabelLine("apart.since", "2026-03-02" if about.animal_id else "2026-03-02, V-02")
        yield LabelLine("apart.do-not", "share water" if about.enclosure_id else "handle")

    only = ("--enclosure", "V-02", "--stock", "a4-2x2")
    with throw_away_plugin("apart", warmside_label_lines=lines):
        labelled.run("plugin", "enable", "apart")
        door = printed(labelled, tmp_path, *only, "--kind", "door")[1]
        strip = printed(labelled, tmp_path, *only, "--kind", "sitter")[1]
    assert "since 2026-03-02" in door and "2026-03-02, V-02" not in door
    assert "Do not handle" in strip and "Do not share water" in strip


def test_the_lines_of_a_kind_are_a_setting(labelled: Keeper, tmp_path: Path) -> None:
    labelled.run("plugin", "set", "labels", "enclosure_lines", "room, names")
    _, text = printed(labelled, tmp_path, "--enclosure", "V-01")
    assert text.index("living room") < text.index("Ember") and "hatched" not in text


def test_notes_of_the_keeper_stand_on_card_sign_and_strip(labelled: Keeper, tmp_path: Path) -> None:
    labelled.run("labels", "note", "Ember", "genes", "het   pale")
    labelled.run("labels", "note", "EMB", "hazard", "bites")
    labelled.run("labels", "note", "V-01", "donot", "lift the lid; whistle")
    assert "genes: het pale" in printed(labelled, tmp_path, "--kind", "animal")[1]
    found, text = printed(labelled, tmp_path, "--kind", "hazard", "--stock", "a4-2x2")
    assert found == ["V-01"] and "BITES" in text and "African house snake" in text
    _, strip = printed(labelled, tmp_path, "--kind", "sitter", "--stock", "a4-2x4")
    assert "Do not lift the lid" in strip and "Do not whistle" in strip
    assert len(labelled.json("labels", "notes")["label_notes"]) == 3
    labelled.run("labels", "note", "EMB", "hazard", "--drop")
    nobody = labelled.run("labels", "print", "x.pdf", "--kind", "hazard", ok=False)
    assert nobody.code == 3 and "no danger is noted" in nobody.stderr


def test_the_gravest_danger_behind_a_door_is_named(labelled: Keeper, tmp_path: Path) -> None:
    labelled.run("labels", "note", "MOS", "hazard", "bites")
    labelled.run("labels", "note", "TAM", "hazard", "venomous")
    _, text = printed(labelled, tmp_path, "--kind", "hazard", "--stock", "a4-2x2")
    assert "VENOMOUS" in text and "BITES" not in text


@pytest.mark.parametrize("kind", list(LabelKind))
def test_settings_reach_the_labels(labelled: Keeper, tmp_path: Path, kind: LabelKind) -> None:
    for name, value in (("contact", "Aunt 555"), ("vet", "Dr Vet"), ("licence", "LIC 7")):
        labelled.run("plugin", "set", "labels", name, value)
    labelled.run("plugin", "set", "labels", "url_prefix", "https://a.example/")
    options = ("--kind", kind.value, "--stock", "a4-2x2", "--animal", "EMB", "--hazard", "large")
    path = tmp_path / "out.pdf"
    answer = labelled.json("labels", "print", str(path), *options)
    assert all(row["qr"].startswith("https://a.example/WS.") for row in answer["labels"])
    wanted = {
        LabelKind.ANIMAL: ("Aunt 555", "Dr Vet"),
        LabelKind.HAZARD: ("Aunt 555", "LIC 7"),
        LabelKind.SITTER: ("Aunt 555",),
    }
    assert all(said in words(path) for said in wanted.get(kind, ()))


def test_a_setting_of_one_enclosure_or_animal_comes_before_the_general_one(
    labelled: Keeper, tmp_path: Path
) -> None:
    setting = ("plugin", "set", "labels")
    labelled.run(*setting, "do_nots", "handle")
    labelled.run(*setting, "do_nots", "open the lid", "--enclosure", "V-02")
    labelled.run(*setting, "vet", "Dr All")
    labelled.run(*setting, "vet", "Dr Gecko", "--animal", "MOS")
    strip = printed(labelled, tmp_path, "--kind", "sitter", "--stock", "a4-2x4")[1]
    assert strip.count("Do not handle") == 1 and strip.count("Do not open the lid") == 1
    cards = printed(labelled, tmp_path, "--kind", "animal", "--stock", "a4-2x4")[1]
    assert cards.count("vet: Dr All") == 2 and cards.count("vet: Dr Gecko") == 1


def test_the_words_about_printing_are_said(labelled: Keeper, tmp_path: Path) -> None:
    result = labelled.run("labels", "print", str(tmp_path / "out.pdf"), "--stock", "roll-50x30")
    assert "print at 100 %, no fit to page" in result.stdout


def test_own_stocks_come_from_a_file(labelled: Keeper, tmp_path: Path) -> None:
    own = tmp_path / "own.toml"
    own.write_text('[[stock]]\nname = "mine"\nroll_width_mm = 60\nroll_length_mm = 40\n')
    names = [s["name"] for s in labelled.json("labels", "stocks", "--stocks", str(own))["stocks"]]
    assert names[-1] == "mine" and "a4-3x8" in names
    target = str(tmp_path / "out.pdf")
    asked = ("labels", "print", target, "--stock", "mine")
    assert labelled.run(*asked, ok=False).code == 2
    assert labelled.json(*asked, "--stocks", str(own))["pages"] == 3
    labelled.run("plugin", "set", "labels", "stocks_file", str(own))
    assert labelled.json(*asked)["stock"] == "mine"


def test_an_animals_card_shows_its_newest_photo(labelled: Keeper, tmp_path: Path) -> None:
    """The whole photo, upright as taken, left of the words; a card without one says the same."""
    for n, size in enumerate(((20, 20), (48, 36))):
        photo = write(tmp_path, f"{n}.jpg", jpeg(picture(*size)))
        labelled.run("picture", "add", "EMB", photo, "--on", f"2026-02-0{n + 1}")
    path = tmp_path / "cards.pdf"
    answer = labelled.run("labels", "print", path, "--kind", "animal", "--pictures")
    assert "no photo of Moss, Tamsin is on record" in " ".join(answer.stderr.split())
    page = pypdfium2.PdfDocument(path)[0]
    (shown,) = page.get_objects(filter=[raw.FPDF_PAGEOBJ_IMAGE])
    stock = find_stock("a4-3x8", shipped_stocks())
    box, content = label_boxes(stock)[0], content_of_all(stock)
    left, bottom, right, top = (v * 25.4 / 72 for v in shown.get_bounds())
    assert (right - left) / (top - bottom) == pytest.approx(48 / 36, rel=0.02)
    assert left == pytest.approx(content.x_mm, abs=0.2) and right < box.x_mm + 0.3 * box.width_mm
    assert stock.page_height_mm - bottom < box.bottom_mm
    assert "Ember" in words(path) and "Moss" in words(path)


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (("--kind", "door"), "add --kind animal"),
        (("--kind", "animal", "--stock", "a4-5x13"), "take a larger stock"),
    ],
)
def test_pictures_stand_on_cards_that_have_room(
    labelled: Keeper, tmp_path: Path, options: tuple[str, ...], says: str
) -> None:
    labelled.run("picture", "add", "EMB", write(tmp_path, "a.jpg", jpeg(picture())))
    path = tmp_path / "cards.pdf"
    said = labelled.run("labels", "print", path, *options, "--pictures", ok=False).complaint(2)
    assert says in said and not path.exists()
