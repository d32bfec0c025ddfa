"""Files of pictures: put in place whole or not at all, looked at, carried from folder to folder."""

from __future__ import annotations

import contextlib
import hashlib
from collections.abc import Iterable, Sequence
from pathlib import Path

from msgspec import Struct

from warmside.core.file.copies.backup import sync
from warmside.core.file.half_made import begin, own_folder, part_beside
from warmside.core.record.pictures import KeptFile


def put(target: Path, raw: bytes) -> None:
    """Write the file for its owner alone, on the disk before it bears its name."""
    part = part_beside(target)
    begin(part)
    try:
        part.write_bytes(raw)
        sync(part)
        part.replace(target)
    finally:
        with contextlib.suppress(OSError):
            part.unlink(missing_ok=True)


def is_sound(folder: Path, kept: KeptFile) -> bool:
    """Whether the file lies there with the content that its name says."""
    return digest_in(folder / kept.name) == kept.digest


def digest_in(path: Path) -> str:
    """SHA-256 of a file's content; empty where it cannot be read."""
    try:
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except OSError:
        return ""


def found(places: Iterable[Path], kept: KeptFile) -> Path | None:
    """The first sound file of that name in these folders; None where there is none."""
    return next((p / kept.name for p in places if is_sound(p, kept)), None)


def small_of(places: Sequence[Path], kept: KeptFile) -> bytes | None:
    """The preview of a photo, made anew where it is missing; None where the photo is, too."""
    there = next((p / kept.small for p in places if (p / kept.small).is_file()), None)
    if there is not None:
        return there.read_bytes()
    source = found(places, kept)
    if source is None or not kept.small:
        return None
    from warmside.core.pictures.photos import small_photo  # imports Pillow

    small = small_photo(source.read_bytes(), source.name)
    with contextlib.suppress(OSError):  # it is shown all the same
        put(source.with_name(kept.small), small)
    return small


class Carried(Struct, frozen=True):
    """What was copied, and what lies sound nowhere."""

    brought: tuple[KeptFile, ...]
    lost: tuple[KeptFile, ...]


def carry(files: Iterable[KeptFile], places: Sequence[Path], to: Path) -> Carried:
    """Copy to a folder what is not there yet; what is there is taken to be sound."""
    return _carried([f for f in sorted(files) if not (to / f.name).is_file()], places, to)


def mend(files: Iterable[KeptFile], places: Sequence[Path], to: Path) -> Carried:
    """As `carry`, also in the place of a file that is not as it was kept."""
    return _carried([f for f in sorted(files) if not is_sound(to, f)], places, to)


def _carried(files: list[KeptFile], places: Sequence[Path], to: Path) -> Carried:
    brought = tuple(f for f in files if _copied(f, places, to))
    return Carried(brought, tuple(f for f in files if f not in brought))


def _copied(kept: KeptFile, places: Sequence[Path], to: Path) -> bool:
    source = found((p for p in places if p != to), kept)
    if source is None:
        return False
    own_folder(to)
    put(to / kept.name, source.read_bytes())
    small = source.with_name(kept.small) if kept.small else None
    if small is not None and small.is_file():
        put(to / kept.small, small.read_bytes())
    sync(to)
    return True
