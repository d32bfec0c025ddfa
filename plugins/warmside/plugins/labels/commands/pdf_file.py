"""Writing a PDF whole or not at all, and only over files that this plugin wrote."""

from __future__ import annotations

import os
from pathlib import Path

from warmside.api import BadInput, Refused, WarmsideError
from warmside.plugins.labels.drawing.marks import CREATOR


def check_target(path: Path, replace: bool) -> None:
    """Raise unless a PDF may be written there: BadInput for a bad place, Refused for a file that
    this plugin did not write, unless it is to be replaced."""
    if path.suffix.lower() != ".pdf":
        raise BadInput(f"labels are written as PDF: end the name in .pdf, not {path.name!r}")
    try:
        if not path.parent.is_dir():
            raise BadInput(f"there is no folder {path.parent}; make it first")
        if path.is_dir():
            raise BadInput(f"{path} is a folder; name a file in it")
        if path.exists() and not replace and not is_ours(path):
            raise Refused(
                f"{path} exists and holds no labels of warmside; name another file, or add "
                "--replace"
            )
    except OSError as error:
        raise BadInput(f"cannot write {path.name!r}: {_reason(error)}") from error


def is_ours(path: Path) -> bool:
    """Whether the file is a PDF of labels that this plugin wrote."""
    content = path.read_bytes()
    return content.startswith(b"%PDF-") and f"/Creator ({CREATOR})".encode() in content


def write_pdf(path: Path, content: bytes) -> None:
    """Write the file; the old one stays as it was until the new one is complete."""
    part = path.with_name(f"{path.name}.{os.getpid()}.part")
    try:
        try:
            part.write_bytes(content)
            part.replace(path)
        finally:
            part.unlink(missing_ok=True)
    except OSError as error:
        raise WarmsideError(
            f"cannot write {path}: {_reason(error)}; nothing was printed or noted"
        ) from error


def _reason(error: OSError) -> str:
    return (error.strerror or type(error).__name__).lower()
