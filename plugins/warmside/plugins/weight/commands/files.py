"""Reading a text file that the keeper named."""

from __future__ import annotations

from pathlib import Path

from warmside.api import BadInput, csv_files

LARGEST = 20_000_000


def read_text(path: Path) -> str:
    """The file's text; BadInput where it cannot be read or is not UTF-8."""
    try:
        if path.stat().st_size > LARGEST:
            raise BadInput(f"{path} is larger than 20 MB; a reference is far smaller")
        raw = path.read_bytes()
    except OSError as error:
        raise BadInput(f"cannot read {path}: {error.strerror}") from error
    return csv_files.decoded(raw, "utf-8", path)
