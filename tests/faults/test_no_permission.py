"""A file or folder that may not be written: reading goes on, writing says what to check.

Nothing is forbidden to the superuser, so that right is laid down while the command runs.
"""

from __future__ import annotations

import ctypes
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, nullcontext
from pathlib import Path

import pytest

from invented_pictures import jpeg
from warmside.core.file.copies import backup
from warmside.testing import Keeper, Result

if os.name != "posix" or (os.geteuid() == 0 and not sys.platform.startswith("linux")):
    pytest.skip("needs permissions that bind", allow_module_level=True)

OVERRIDE = 1 << 1 | 1 << 2  # CAP_DAC_OVERRIDE, CAP_DAC_READ_SEARCH of linux/capability.h
VERSION_3 = 0x20080522
GET_BITS, SET_BITS, AS_IT_IS = 27, 28, 1 << 2  # PR_..._SECUREBITS, SECBIT_NO_SETUID_FIXUP
READERS: tuple[tuple[str, ...], ...] = (
    ("today",),
    ("animal", "list"),
    ("history", "--json"),
    ("file", "check"),
)
WRITERS: tuple[tuple[str, ...], ...] = (
    ("record", "weighed", "EMB=410g"),
    ("undo",),
    ("plugin", "enable", "rhythm"),
    ("animal", "add", "Sol", "--species", "ball python"),
)


@pytest.fixture
def locked_out(stocked: Keeper) -> Iterator[Keeper]:
    """The stocked collection in a folder of its own, which can be removed after the test."""
    yield stocked
    stocked.path.parent.chmod(0o755)


@contextmanager
def _without_override() -> Iterator[None]:
    """This thread without the superuser's right to pass by permissions."""
    libc = ctypes.CDLL(None, use_errno=True)
    head, rights = (ctypes.c_uint32 * 2)(VERSION_3, 0), (ctypes.c_uint32 * 6)()
    bits = libc.prctl(GET_BITS)
    if libc.prctl(SET_BITS, bits | AS_IT_IS) or libc.capget(head, rights):  # else access() has all
        pytest.skip("cannot lay down the rights of the superuser")
    had = rights[0]  # those in effect
    rights[0] = had & ~OVERRIDE
    assert libc.capset(head, rights) == 0
    try:
        yield
    finally:
        rights[0] = had
        assert (libc.capset(head, rights), libc.prctl(SET_BITS, bits)) == (0, 0)


def bound(keeper: Keeper, *arguments: str | Path) -> Result:
    """What a user gets who is bound by permissions, as the superuser usually is not."""
    with _without_override() if os.geteuid() == 0 else nullcontext():
        return keeper.run(*arguments, ok=False)


def test_a_write_protected_file_can_be_read_but_not_written(locked_out: Keeper) -> None:
    locked_out.path.chmod(0o444)
    locked_out.path.parent.chmod(0o555)
    before = locked_out.path.read_bytes()
    for arguments in READERS:
        assert bound(locked_out, *arguments).code == 0
    for arguments in WRITERS:
        line = bound(locked_out, *arguments).complaint(5)
        assert "cannot write" in line and "check the permissions" in line
    assert locked_out.path.read_bytes() == before


def test_a_write_protected_folder_is_named_too(locked_out: Keeper) -> None:
    locked_out.path.chmod(0o666)  # the file may be written, its journal cannot be made
    locked_out.path.parent.chmod(0o555)
    before = locked_out.path.read_bytes()
    assert bound(locked_out, "today").code == 0
    restore: tuple[str, ...] = ("file", "restore", "--yes")
    for arguments in (*WRITERS, restore):
        assert "cannot write" in bound(locked_out, *arguments).complaint(5)
    assert locked_out.path.read_bytes() == before
    assert bound(locked_out, "file", "backup").code == 0  # the backups' own folder is open


def test_a_write_protected_folder_of_backups_stops_no_record(locked_out: Keeper) -> None:
    locked_out.pass_days(1)
    folder = backup.folder_of(locked_out.path)
    folder.chmod(0o555)
    assert "cannot write the backup" in bound(locked_out, "file", "backup").complaint(5)
    recorded = bound(locked_out, "record", "weighed", "EMB=410g")
    assert recorded.code == 0 and "no backup was made today" in recorded.stderr
    folder.chmod(0o755)


def test_a_file_that_may_not_even_be_read_is_named(locked_out: Keeper) -> None:
    locked_out.path.chmod(0o000)
    for arguments in (*READERS, *WRITERS):
        line = bound(locked_out, *arguments).complaint(5)
        assert str(locked_out.path) in line and "Permission denied" in line


def test_a_new_collection_where_nothing_may_be_made(locked_out: Keeper) -> None:
    locked_out.path.parent.chmod(0o555)
    new = Keeper(locked_out.path.with_name("new.warmside"), locked_out.now)
    words = ("new", "--name", "N", "--zone", "Europe/Vienna", "--units", "metric")
    assert "cannot" in bound(new, *words).complaint(5)
    assert not new.path.exists()


def test_a_folder_of_pictures_without_rights_is_said_and_nothing_is_half_taken_in(
    locked_out: Keeper, tmp_path: Path
) -> None:
    photo = tmp_path / "photo.jpg"
    folder = locked_out.path.with_name(f"{locked_out.path.name}-pictures")
    photo.write_bytes(jpeg())
    folder.mkdir()
    folder.chmod(0o555)
    line = bound(locked_out, "picture", "add", "EMB", str(photo)).complaint(5)
    assert f"cannot write pictures in {folder}" in line
    folder.chmod(0o755)
    assert locked_out.json("picture", "list", "EMB")["pictures"] == []
    assert list(folder.iterdir()) == []
