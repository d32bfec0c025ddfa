"""Pictures in an archive: written as they are kept, read where they are what they are named."""

from __future__ import annotations

import zipfile
from collections.abc import Iterable, Sequence
from pathlib import Path

from warmside.core.file.archives.members import PICTURES
from warmside.core.file.half_made import own_folder
from warmside.core.file.pictures.store import found, is_sound, put
from warmside.core.pictures.content import Format, format_of
from warmside.core.pictures.kept import digest_of
from warmside.core.record.pictures import KeptFile
from warmside.core.values.errors import BadInput

KINDS = {Format.JPEG: "jpg", Format.PNG: "png", Format.PDF: "pdf"}


def write_pictures(
    archive: zipfile.ZipFile, files: Iterable[KeptFile], places: Sequence[Path]
) -> None:
    """Add each picture that lies sound in one of the places; a check tells of the others."""
    for kept in sorted(files):
        source = found(places, kept)
        if source is not None:
            archive.writestr(zipfile.ZipInfo(PICTURES + kept.name), source.read_bytes())


def put_pictures(archive: zipfile.ZipFile, files: Iterable[KeptFile], folder: Path) -> None:
    """Put the pictures that the rows name into the folder; ValueError for what is none of them.

    What was put there goes again where one is bad, so that nothing is left of a bad archive.
    """
    named = {PICTURES + kept.name: kept for kept in files}
    members = [n for n in archive.namelist() if n.startswith(PICTURES)]
    if strange := sorted(set(members) - named.keys()):
        raise ValueError(f"no row names its member {strange[0]}")
    new = []
    try:
        for member in members:
            raw, kept = archive.read(member), named[member]
            _check(raw, kept)
            if not is_sound(folder, kept):
                own_folder(folder)
                new.append(folder / kept.name)
                put(folder / kept.name, raw)
    except BaseException:
        for path in new:
            path.unlink(missing_ok=True)
        raise


def _check(raw: bytes, kept: KeptFile) -> None:
    """Raise ValueError where the content is not what the name says."""
    try:
        kind = KINDS.get(format_of(raw, kept.name))
    except BadInput as problem:
        raise ValueError(str(problem)) from None
    if kind != kept.kind or digest_of(raw) != kept.digest:
        raise ValueError(f"its picture {kept.name[:12]}… is not what it is named")
