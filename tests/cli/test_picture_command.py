"""Pictures by command: taken in, listed, changed, taken out, saved; refused in a line."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from pypdf import PdfReader

from invented_pictures import SECRETS, coded, exif, jpeg, paper, picture, write, zipped
from warmside.core.file.pictures.places import pictures_of
from warmside.testing import Keeper, new_keeper


@pytest.fixture(scope="module")
def stocked(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    keeper = new_keeper(tmp_path_factory.mktemp("stocked"))
    keeper.run("enclosure", "add", "Shelf")
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "SHE")
    keeper.run("record", "observed", "EMB", "--what", "a wound")
    return keeper


@pytest.fixture
def mine(stocked: Keeper, tmp_path: Path) -> Keeper:
    shutil.copytree(stocked.path.parent, tmp_path / "mine")
    return Keeper(tmp_path / "mine" / stocked.path.name, stocked.now)


def files(keeper: Keeper) -> list[str]:
    folder = pictures_of(keeper.path)
    return sorted(p.name for p in folder.iterdir()) if folder.is_dir() else []


def test_a_picture_is_of_the_day_that_the_camera_says(mine: Keeper, tmp_path: Path) -> None:
    photo = write(tmp_path, "a.jpg", jpeg(exif=exif(6)))
    (told,) = mine.json("picture", "add", "EMB", photo, "--view", "left  side")["taken_in"]
    assert (told["day"], told["view"], told["of"]) == ("2026-02-14", "left side", "Ember (EMB)")
    assert not any(s in f.read_bytes() for f in pictures_of(mine.path).iterdir() for s in SECRETS)


def test_a_clock_that_runs_ahead_is_not_believed_and_a_typed_day_is(
    mine: Keeper, tmp_path: Path
) -> None:
    ahead = write(tmp_path, "a.jpg", jpeg(exif=exif(taken=b"2031:01:01 00:00:00")))
    (told,) = mine.json("picture", "add", "EMB", ahead)["taken_in"]
    assert told["day"] == "2026-03-05"
    other = write(tmp_path, "b.jpg", jpeg(picture(20, 20), exif=exif()))
    (told,) = mine.json("picture", "add", "EMB", other, "--on", "2026-03-01")["taken_in"]
    assert told["day"] == "2026-03-01"
    line = mine.run("picture", "add", "EMB", other, "--on", "tomorrow", ok=False).complaint(2)
    assert "still to come" in line


def test_the_same_picture_is_kept_once(mine: Keeper, tmp_path: Path) -> None:
    photo = write(tmp_path, "a.jpg", jpeg())
    mine.run("picture", "add", "EMB", photo)
    kept = files(mine)
    assert "1 file was known already" in mine.run("picture", "add", "EMB", photo).stdout
    mine.run("picture", "add", "SHE", photo)
    assert files(mine) == kept and len(kept) == 2
    saved = tmp_path / "saved.jpg"
    mine.run("picture", "save", "1", saved)
    assert "known already" in mine.run("picture", "add", "EMB", saved).stdout
    assert len(mine.json("picture", "list")["pictures"]) == 2


def test_of_another_animal_a_known_file_keeps_its_day(mine: Keeper, tmp_path: Path) -> None:
    photo = tmp_path / "photo.jpg"
    photo.write_bytes(jpeg())
    mine.run("picture", "add", "EMB", str(photo), "--on", "2026-01-07")
    mine.run("animal", "add", "Moss", "--species", "corn snake")
    mine.run("picture", "add", "MOS", str(photo))
    (row,) = mine.json("picture", "list", "MOS")["pictures"]
    assert row["day"] == "2026-01-07"


def test_the_same_picture_under_two_names_is_one(mine: Keeper, tmp_path: Path) -> None:
    two = [write(tmp_path, name, jpeg()) for name in ("a.jpg", "b.jpg")]
    assert "took in 1 file; 1 file was known" in mine.run("picture", "add", "EMB", *two).stdout
    assert len(files(mine)) == 2


def test_a_picture_may_show_an_event_and_nothing_else_than_that(
    mine: Keeper, tmp_path: Path
) -> None:
    photo = write(tmp_path, "a.jpg", jpeg())
    mine.run("enclosure", "add", "Cupboard")
    line = mine.run("picture", "add", "CUP", photo, "--event", "2", ok=False).complaint(2)
    assert "event 2 is not about 'CUP'" in line or "event 2 is not about CUP" in line
    (told,) = mine.json("picture", "add", "EMB", photo, "--event", "2")["taken_in"]
    assert told["event"] == 2
    assert mine.run("picture", "add", "EMB", photo, "--event", "99", ok=False).code == 3
    line = mine.run("undo", "3", ok=False).complaint(4)
    assert "rests on it" in line
    mine.run("file", "check")


def test_a_corrected_event_keeps_its_picture_also_when_it_was_another_animal_s(
    mine: Keeper, tmp_path: Path
) -> None:
    mine.run("animal", "add", "Moss", "--species", "ball python", "--enclosure", "SHE")
    mine.run("picture", "add", "EMB", write(tmp_path, "a.jpg", jpeg()), "--event", "2")

    def shown() -> list[tuple[str, str]]:
        told = mine.json("history")["events"]
        whose = mine.json("picture", "list")["pictures"][0]["of"]
        return [(str(e["event"]), whose) for e in told if e["pictures"] == ["1"]]

    assert shown() == [("2", "Ember (EMB)")]
    mine.run("correct", "2", "--subject", "MOS")
    (number, whose) = shown()[0]
    assert number != "2" and whose == "Moss (MOS)"
    mine.run("undo")
    assert shown() == [("2", "Ember (EMB)")]
    mine.run("redo")
    assert shown() == [(number, "Moss (MOS)")]
    mine.run("file", "check")


def test_a_plugins_thing_is_a_row_of_its_table(mine: Keeper, tmp_path: Path) -> None:
    mine.run("plugin", "enable", "rhythm")
    mine.run("rhythm", "set", "cleaned", "--every", "28")
    photo = write(tmp_path, "a.jpg", jpeg())
    (told,) = mine.json("picture", "add", "EMB", photo, "--thing", "rhythm.interval:1")["taken_in"]
    assert told["of"] == "Ember (EMB), rhythm.interval 1"
    said = {
        "rhythm.interval:9": "there is no rhythm.interval 9",
        "nobody.thing:1": "there is no nobody.thing 1",
        "../x": "names nothing",
        "event.x:1": "there is no event.x 1",
    }
    for thing, words in said.items():
        line = mine.run("picture", "add", "EMB", photo, "--thing", thing, ok=False).stderr
        assert words in line and line.count("\n") == 1


def test_a_picture_outlives_the_plugin_whose_thing_it_was_of(mine: Keeper, tmp_path: Path) -> None:
    mine.run("plugin", "enable", "rhythm")
    mine.run("rhythm", "set", "cleaned", "--every", "28")
    photo = write(tmp_path, "a.jpg", jpeg())
    mine.run("picture", "add", "EMB", photo, "--thing", "rhythm.interval:1")
    mine.run("plugin", "disable", "rhythm")
    mine.run("plugin", "forget", "rhythm", "--name", "rhythm")
    (told,) = mine.json("picture", "list", "EMB")["pictures"]
    assert told["of"] == "Ember (EMB)"
    mine.run("file", "check")


def test_of_several_files_all_are_taken_in_or_none(mine: Keeper, tmp_path: Path) -> None:
    folder = tmp_path / "drop"
    folder.mkdir()
    for n in range(3):
        write(folder, f"{n}.jpg", jpeg(picture(20 + n, 20)))
    write(folder, "bad.jpg", jpeg()[:200])
    write(folder, "notes.txt", b"left alone")
    write(folder, ".hidden.jpg", b"left alone")
    line = mine.run("picture", "add", "EMB", folder, ok=False).complaint(4)
    assert "1 of 4 files cannot be taken in: bad.jpg" in line and "--confirm" in line
    assert files(mine) == []
    told = mine.run("picture", "add", "EMB", folder, "--confirm")
    assert "took in 3 files; 1 file was left out" in told.stdout and "bad.jpg" in told.stderr
    assert len(files(mine)) == 6


REFUSED = {
    "nothing there": (lambda folder: folder / "none.jpg", 2, "there is no file none.jpg"),
    "an empty folder": (lambda folder: folder, 2, "there is no picture"),
    "a device": (lambda folder: Path(os.devnull), 2, "is no file"),
    "a ZIP behind it": (lambda f: write(f, "a.jpg", jpeg() + zipped()), 2, "JPEG and ZIP"),
    "a name that no system takes": (lambda folder: folder / ("x" * 300), 2, "cannot read"),
}


@pytest.mark.parametrize("case", REFUSED)
def test_what_cannot_be_taken_in_leaves_nothing(case: str, mine: Keeper, tmp_path: Path) -> None:
    make, code, words = REFUSED[case]
    folder = tmp_path / "given"
    folder.mkdir()
    line = mine.run("picture", "add", "EMB", make(folder), ok=False).complaint(code)
    assert words in line and files(mine) == []


def test_the_collection_itself_is_never_opened_as_a_picture(mine: Keeper) -> None:
    line = mine.run("picture", "add", "EMB", mine.path, ok=False).complaint(2)
    assert "is the collection itself" in line


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="root may write anywhere")
def test_a_folder_without_rights_is_named(mine: Keeper, tmp_path: Path) -> None:
    pictures_of(mine.path).mkdir(mode=0o500)
    line = mine.run("picture", "add", "EMB", write(tmp_path, "a.jpg", jpeg()), ok=False)
    assert "cannot write pictures in" in line.complaint(5)


def test_a_place_where_no_folder_can_be_is_named_and_nothing_is_recorded(
    mine: Keeper, tmp_path: Path
) -> None:
    write(mine.path.parent, f"{mine.path.name}-pictures", b"a file in its place")
    photo = write(tmp_path, "a.jpg", jpeg())
    line = mine.run("picture", "add", "EMB", photo, ok=False).complaint(5)
    assert "cannot write pictures in" in line
    assert mine.json("picture", "list")["pictures"] == []


def test_what_is_said_of_a_picture_is_changed_and_undone(mine: Keeper, tmp_path: Path) -> None:
    mine.run("picture", "add", "EMB", write(tmp_path, "a.jpg", jpeg()), "--view", "Left side")
    mine.run("picture", "change", "1", "--view", "LEFT SIDE", "--note", "calm", "--on", "1 day ago")
    (told,) = mine.json("picture", "list", "EMB", "--view", "left side")["pictures"]
    assert (told["view"], told["note"], told["day"]) == ("Left side", "calm", "2026-03-04")
    assert "name what to change" in mine.run("picture", "change", "1", ok=False).complaint(2)
    assert mine.run("picture", "change", "7", "--note", "x", ok=False).code == 3
    mine.run("undo")
    assert mine.json("picture", "list")["pictures"][0]["note"] is None


def test_a_view_that_nobody_took_is_asked_about(mine: Keeper, tmp_path: Path) -> None:
    mine.run("picture", "add", "EMB", write(tmp_path, "a.jpg", jpeg()), "--view", "left side")
    line = mine.run("picture", "list", "EMB", "--view", "left sid", ok=False).complaint(3)
    assert "did you mean 'left side'?" in line
    assert mine.run("picture", "list", "NOBODY", ok=False).code == 3


def test_a_picture_is_taken_out_and_comes_back(mine: Keeper, tmp_path: Path) -> None:
    mine.run("picture", "add", "EMB", write(tmp_path, "a.jpg", jpeg()))
    mine.run("picture", "remove", "1")
    assert mine.json("picture", "list")["pictures"] == []
    mine.run("undo")
    assert len(mine.json("picture", "list")["pictures"]) == 1 and mine.run("file", "check")


def test_a_picture_is_saved_under_an_ending_that_is_true(mine: Keeper, tmp_path: Path) -> None:
    mine.run("picture", "add", "EMB", write(tmp_path, "a.webp", coded("WEBP")))
    line = mine.run("picture", "save", "1", tmp_path / "x.png", ok=False).complaint(2)
    assert "kept as .jpg" in line
    mine.run("picture", "save", "1", tmp_path)
    assert (tmp_path / "picture-1.jpg").read_bytes()[:3] == b"\xff\xd8\xff"
    line = mine.run("picture", "save", "1", tmp_path, ok=False).complaint(4)
    assert "is there already" in line


def test_a_paper_is_listed_as_one(mine: Keeper, tmp_path: Path) -> None:
    mine.run("picture", "add", "EMB", write(tmp_path, "permit.pdf", paper()), "--note", "permit")
    assert "PDF, 1 kB" in mine.run("picture", "list", "EMB").stdout


def wounds(mine: Keeper, tmp_path: Path, days: list[str]) -> None:
    """A picture of the same view on each of these days."""
    for n, day in enumerate(days):
        photo = write(tmp_path, f"w{n}.jpg", jpeg(picture(30 + n, 20)))
        mine.run("picture", "add", "EMB", photo, "--view", "wound", "--on", day)


def test_a_strip_tells_what_changed_between_pictures(mine: Keeper, tmp_path: Path) -> None:
    mine.run("record", "weighed", "EMB=410g", "--at", "2026-02-01")
    mine.run("record", "weighed", "EMB=425g", "--at", "2026-02-13")
    wounds(mine, tmp_path, ["2026-01-01", "2026-02-01", "2026-02-11"])
    told = mine.json("picture", "strip", "EMB", "--view", "wound")["series"]
    assert [shot["words"] for shot in told] == [
        ["2026-01-01"],
        ["2026-02-01", "31 days later", "410 g"],
        ["2026-02-11", "10 days later", "425 g on 2026-02-13"],
    ]


def test_the_report_and_the_cards_show_them(mine: Keeper, tmp_path: Path) -> None:
    wounds(mine, tmp_path, [f"2026-02-{n:02d}" for n in range(1, 9)])
    mine.run("picture", "add", "SHE", write(tmp_path, "s.jpg", jpeg(picture(90, 20))))
    mine.run("picture", "add", "EMB", write(tmp_path, "p.pdf", paper()))
    told = mine.run("report", "EMB", "--save", tmp_path / "r.pdf").stdout
    assert "wound (the first and the newest of 8)" in told and "Papers" in told
    assert len(PdfReader(tmp_path / "r.pdf").pages[0].images) == 6
    assert "picture 8: 2026-02-08, wound" in mine.run("animal", "show", "EMB").stdout
    assert "picture 9" in mine.run("enclosure", "show", "SHE").stdout
    assert "Pictures" not in mine.run("report", "EMB", "--on", "2026-01-01").stdout


def test_a_dropped_folder_says_whose_its_pictures_are(mine: Keeper, tmp_path: Path) -> None:
    mine.run("animal", "add", "Moss", "--species", "ball python", "--code", "V-02")
    drop = tmp_path / "drop"
    (drop / "SHE").mkdir(parents=True)
    (drop / "empty").mkdir()
    given = {"EMB-1.jpg": 20, "v-02 left.jpg": 21, "Ember_2.JPG": 22, "SHE/IMG_1.jpg": 23}
    for name, width in given.items():
        write(drop, name, jpeg(picture(width, 20)))
    write(drop, "IMG_9.jpg", jpeg(picture(60, 20)))
    line = mine.run("picture", "folder", drop, ok=False).complaint(4)
    assert "1 of 5 files" in line and "IMG_9.jpg names nobody" in line
    assert mine.json("picture", "list")["pictures"] == []
    mine.run("picture", "folder", drop, "--confirm")
    told = [p["of"] for p in mine.json("picture", "list")["pictures"]]
    assert sorted(told) == ["Ember (EMB)", "Ember (EMB)", "Moss (V-02)", "SHE"]
    words = mine.json("undo", "--list")["steps"][0]["what"]
    assert words == "took in 4 files of 3 animals and enclosures"
    mine.run("undo")
    assert mine.json("picture", "list")["pictures"] == []


@pytest.mark.parametrize("make", [lambda p: p / "none", lambda p: write(p, "a.jpg", jpeg())])
def test_what_is_no_folder_is_said(
    make: Callable[[Path], Path], mine: Keeper, tmp_path: Path
) -> None:
    assert "cannot read the folder" in mine.run(
        "picture", "folder", make(tmp_path), ok=False
    ).complaint(2)


def test_a_forgotten_picture_is_gone_everywhere_and_undo_does_not_bring_it_back(
    mine: Keeper, tmp_path: Path
) -> None:
    second = tmp_path / "stick"
    second.mkdir()
    mine.run("file", "change", "--second", second)
    mine.run("picture", "add", "EMB", write(tmp_path, "a.jpg", jpeg()))
    mine.run("picture", "change", "1", "--note", "a face")
    mine.pass_days(1)
    mine.run("record", "observed", "EMB", "--what", "calm")
    name = next(n for n in files(mine) if not n.endswith("small.jpg"))
    lying = list(tmp_path.rglob(f"{name[:64]}*"))
    assert len(lying) == 6
    line = mine.run("picture", "forget", "1", ok=False).complaint(4)
    assert "for good" in line and "--number 1" in line
    mine.run("picture", "forget", "1", "--number", "1")
    assert list(tmp_path.rglob(f"{name[:64]}*")) == []
    assert mine.json("picture", "list")["pictures"] == []
    mine.run("undo")
    mine.run("undo", "3", ok=False)
    assert mine.json("picture", "list")["pictures"] == []
    mine.run("file", "check")


def test_a_file_that_another_picture_needs_outlives_a_forgotten_one(
    mine: Keeper, tmp_path: Path
) -> None:
    photo = write(tmp_path, "a.jpg", jpeg())
    for subject in ("EMB", "SHE"):
        mine.run("picture", "add", subject, photo)
    assert "its file stays" in mine.run("picture", "forget", "1", "--number", "1").stdout
    assert len(files(mine)) == 2 and mine.run("file", "check")
