"""Files of pictures go where the record goes: copies, archives, what is put back and recovered."""

from __future__ import annotations

import os
import shutil
import sqlite3
import stat
import zipfile
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest
from PIL import Image

from built_once import restored
from crafted_archives import Members, members_of
from crafted_archives import write as write_archive
from invented_pictures import jpeg, paper, picture, write
from warmside.core.file import attention
from warmside.core.file.copies import backup
from warmside.core.file.copies.daily import daily
from warmside.core.file.copies.pictures import named_in
from warmside.core.file.pictures.places import kept_for_copies, pictures_of
from warmside.core.file.pictures.store import is_sound
from warmside.core.values.errors import BadInput
from warmside.testing import Keeper, new_keeper

NEXT_DAY = date(2026, 3, 6)


@pytest.fixture(scope="module")
def shown(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """Ember with a photo and a paper, and a picture of her enclosure."""
    folder = tmp_path_factory.mktemp("shown")
    keeper = new_keeper(folder)
    keeper.run("enclosure", "add", "Shelf")
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "SHE")
    photo, permit = write(folder, "a.jpg", jpeg()), write(folder, "p.pdf", paper())
    keeper.run("picture", "add", "EMB", photo, permit)
    keeper.run("picture", "add", "SHE", write(folder, "b.jpg", jpeg(picture(40, 40))))
    keeper.run("file", "backup")
    return keeper


@pytest.fixture
def mine(shown: Keeper, tmp_path: Path) -> Keeper:
    folder = tmp_path / "shown"
    shutil.copytree(shown.path.parent, folder)
    return Keeper(folder / shown.path.name, shown.now)


def whole(keeper: Keeper, folder: Path | None = None) -> bool:
    """Whether each picture that the record names lies sound in the folder."""
    named, place = named_in(keeper.path), folder or pictures_of(keeper.path)
    return len(named) == 3 and all(is_sound(place, one) for one in named)


def problems(keeper: Keeper) -> str:
    checked = keeper.run("file", "check", "--json", ok=False).json["checks"]
    return str([check["problem"] for check in checked])


def photo_of(keeper: Keeper) -> Path:
    with keeper.book() as book:
        return pictures_of(keeper.path) / f"{book.pictures[1].digest}.jpg"


def test_only_the_owner_may_look(mine: Keeper) -> None:
    folders = [pictures_of(mine.path), kept_for_copies(mine.path)]
    assert [stat.S_IMODE(f.stat().st_mode) for f in folders] == [0o700, 0o700]
    files = [file for folder in folders for file in folder.iterdir()]
    assert {stat.S_IMODE(f.stat().st_mode) for f in files} == {0o600} and len(files) == 10


def test_a_picture_that_is_missing_or_changed_is_found_and_brought_back(mine: Keeper) -> None:
    photo = photo_of(mine)
    photo.unlink()
    assert "1 is missing (picture 1); bring them back" in problems(mine)
    assert mine.run("file", "check", ok=False).code == 5
    photo.write_bytes(b"another picture")
    assert "1 is changed (picture 1)" in problems(mine)
    told = mine.run("picture", "mend").stdout
    assert "1 picture was brought back" in told and whole(mine)
    assert mine.run("file", "check").code == 0
    assert "no picture had to be" in mine.run("picture", "mend").stdout


def test_the_day_s_look_sees_what_is_missing_and_keeps_the_good_copies(mine: Keeper) -> None:
    photo_of(mine).unlink()
    assert "missing or changed" in daily(mine.path, NEXT_DAY).notes[0]
    assert "picture 1" in attention.standing(mine.path)[0]


def test_each_picture_lies_once_beside_all_copies(mine: Keeper) -> None:
    for _ in range(3):
        mine.pass_days(1)
        mine.run("record", "observed", "EMB", "--what", "calm")
    assert len(backup.all_of(mine.path)) >= 4
    assert whole(mine, kept_for_copies(mine.path))
    assert len(list(kept_for_copies(mine.path).iterdir())) == 5


def test_a_new_picture_is_beside_the_copies_the_next_day(mine: Keeper) -> None:
    new = write(mine.path.parent, "c.jpg", jpeg(picture(30, 60)))
    mine.run("picture", "add", "EMB", new)
    mine.pass_days(1)
    mine.run("record", "observed", "EMB", "--what", "calm")
    assert all(is_sound(kept_for_copies(mine.path), one) for one in named_in(mine.path))


def test_all_is_put_back_when_the_folder_is_lost_too(mine: Keeper) -> None:
    mine.path.unlink()
    shutil.rmtree(pictures_of(mine.path))
    told = mine.run("file", "restore", "--yes").stdout
    assert "3 pictures were brought back" in " ".join(told.split())
    assert whole(mine) and mine.run("file", "check").code == 0


def test_what_lies_nowhere_any_more_is_said(mine: Keeper) -> None:
    shutil.rmtree(pictures_of(mine.path))
    shutil.rmtree(kept_for_copies(mine.path))
    assert "3 pictures are found in no copy" in mine.run("picture", "mend").stderr


def test_second_copies_have_them_too_and_serve_alone(mine: Keeper, tmp_path: Path) -> None:
    second = tmp_path / "stick"
    second.mkdir()
    mine.run("file", "change", "--second", second)
    mine.pass_days(1)
    mine.run("record", "observed", "EMB", "--what", "calm")
    (copy,) = second.glob("*.warmside")
    assert whole(mine, pictures_of(copy)) and pictures_of(copy).parent == second
    new = Keeper(tmp_path / "new" / "test.warmside", mine.now)
    new.path.parent.mkdir()
    new.run("file", "restore", copy, "--yes")
    assert whole(new)
    shutil.rmtree(pictures_of(mine.path))
    shutil.rmtree(kept_for_copies(mine.path))
    assert "3 pictures were brought back" in mine.run("picture", "mend").stdout


def test_a_copy_that_was_asked_for_opens_with_its_pictures(mine: Keeper, tmp_path: Path) -> None:
    mine.run("file", "backup", tmp_path / "taken along.warmside")
    copy = Keeper(tmp_path / "taken along.warmside", mine.now)
    assert whole(copy) and copy.run("file", "check").code in (0, 5)
    assert "missing" not in problems(copy)


def test_a_copy_among_the_copies_opens_with_their_pictures(mine: Keeper) -> None:
    assert whole(Keeper(backup.all_of(mine.path)[0], mine.now))


def test_an_archive_holds_them_and_gives_them_again(mine: Keeper, tmp_path: Path) -> None:
    mine.run("file", "export", tmp_path / "all.zip")
    names = zipfile.ZipFile(tmp_path / "all.zip").namelist()
    assert len([n for n in names if n.startswith("pictures/")]) == 3
    new = Keeper(tmp_path / "new" / "test.warmside", mine.now)
    restored(tmp_path / "all.zip", new.path)
    assert whole(new)
    modes = {stat.S_IMODE(f.stat().st_mode) for f in pictures_of(new.path).iterdir()}
    assert modes == {0o600}


def test_they_come_along_when_a_damaged_file_is_recovered(mine: Keeper) -> None:
    target = mine.path.with_name("saved.warmside")
    with mine.path.open("r+b") as file:
        file.seek(100)
        file.write(os.urandom(300))
    mine.run("file", "recover", target)
    assert whole(Keeper(target, mine.now))


def test_undo_and_redo_take_them_out_and_bring_them_back(mine: Keeper) -> None:
    mine.run("undo")
    with mine.book() as book:
        assert len(book.pictures) == 2
    assert whole(mine), "the file stays for redo"
    mine.run("redo")
    with mine.book() as book:
        assert len(book.pictures) == 3
    mine.run("file", "check")


def test_an_animal_with_a_picture_is_not_undone_from_under_it(mine: Keeper) -> None:
    line = mine.run("undo", "2", ok=False).complaint(4)
    assert "took in" in line and "rests on it" in line


def test_an_archive_beyond_two_gigabytes_is_read_too(
    mine: Keeper, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Such a one ends with larger records; here they are wanted from 200,000 bytes on."""
    monkeypatch.setattr(zipfile, "ZIP64_LIMIT", 200_000)
    noise = Image.effect_noise((500, 500), 90).convert("RGB")
    mine.run("picture", "add", "EMB", write(tmp_path, "n.jpg", jpeg(noise, quality=95)))
    mine.run("file", "export", tmp_path / "large.zip")
    content = (tmp_path / "large.zip").read_bytes()
    assert b"PK\x06\x07" in content[-60:]
    new = Keeper(tmp_path / "new" / "test.warmside", mine.now)
    restored(tmp_path / "large.zip", new.path)
    assert all(is_sound(pictures_of(new.path), one) for one in named_in(mine.path))
    at = content.rindex(b"PK\x06\x06") + 40  # the size of its table of contents
    for size in (1 << 40, 5 << 20):
        many = content[:at] + size.to_bytes(8, "little") + content[at + 8 :]
        (tmp_path / "many.zip").write_bytes(many)
        with pytest.raises(BadInput, match="too many members"):
            restored(tmp_path / "many.zip", tmp_path / "none.warmside")
    where = content.rindex(b"PK\x06\x07") + 8
    astray = content[:where] + (1 << 50).to_bytes(8, "little") + content[where + 8 :]
    (tmp_path / "astray.zip").write_bytes(astray)
    with pytest.raises(BadInput, match="its end is broken"):
        restored(tmp_path / "astray.zip", tmp_path / "none.warmside")


def test_an_archive_without_its_pictures_says_what_is_missing(mine: Keeper, tmp_path: Path) -> None:
    photo_of(mine).unlink()
    (kept_for_copies(mine.path) / photo_of(mine).name).unlink()
    told = mine.run("file", "export", tmp_path / "all.zip")
    assert "1 is missing (picture 1)" in told.stderr
    new = Keeper(tmp_path / "new" / "test.warmside", mine.now)
    told = new.run("file", "import", tmp_path / "all.zip")
    assert "1 picture is not in the archive" in told.stderr


def archive(mine: Keeper, tmp_path: Path) -> Members:
    mine.run("file", "export", tmp_path / "all.zip")
    return members_of(tmp_path / "all.zip")


def crafted(members: Members, tmp_path: Path) -> str:
    """What is said of an archive of these members, which makes nothing at all."""
    target = tmp_path / "crafted.zip"
    write_archive({n: c for n, c in members.items() if not n.startswith("pictures/")}, target)
    with zipfile.ZipFile(target, "a") as file:
        for name, content in members.items():
            if name.startswith("pictures/"):
                file.writestr(zipfile.ZipInfo(name), content)
    before = set(tmp_path.rglob("*"))
    with pytest.raises(BadInput) as refused:
        restored(target, tmp_path / "new.warmside")
    left = {p for p in set(tmp_path.rglob("*")) - before if not p.is_dir()}
    assert not left, left
    return str(refused.value)


def test_a_picture_of_an_archive_is_what_its_name_says_or_refused(
    mine: Keeper, tmp_path: Path
) -> None:
    members = archive(mine, tmp_path)
    *_, last = sorted(n for n in members if n.endswith(".jpg"))
    assert "is not what it is named" in crafted(members | {last: jpeg(picture(9, 9))}, tmp_path)
    script = members | {last: b"<script>"}
    assert "no picture and no paper" in crafted(script, tmp_path)
    nobody = f"pictures/{'0' * 64}.jpg"
    assert "no row names" in crafted(members | {nobody: jpeg()}, tmp_path)
    outside = members | {"pictures/../../x.jpg": jpeg()}
    assert "none of a collection's archive" in crafted(outside, tmp_path)


def test_a_packed_picture_is_none_of_ours(mine: Keeper, tmp_path: Path) -> None:
    """Stored as they are, they cannot unpack to more than the archive's own size."""
    write_archive(archive(mine, tmp_path), tmp_path / "packed.zip")
    with pytest.raises(BadInput, match="no picture as this program writes"):
        restored(tmp_path / "packed.zip", tmp_path / "new.warmside")


def test_a_row_that_names_another_place_reaches_nothing(mine: Keeper, tmp_path: Path) -> None:
    """A file of a stranger may hold any text where a digest should be."""
    with closing(sqlite3.connect(mine.path)) as connection, connection:
        connection.execute("UPDATE picture SET digest = '../../secret' WHERE id = 1")
    assert len(named_in(mine.path)) <= 3
    assert all(len(one.digest) == 64 for one in named_in(mine.path))
    assert "1 name no file" in problems(mine)
