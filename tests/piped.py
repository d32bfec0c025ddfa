"""A pipe into which something is written once."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from threading import Thread


@contextmanager
def piped(path: Path, content: bytes) -> Iterator[Path]:
    """A pipe into which another thread writes once, as `zcat sheet.csv.gz > pipe` does."""
    os.mkfifo(path)

    def write() -> None:
        with suppress(BrokenPipeError):
            path.write_bytes(content)

    thread = Thread(target=write)
    thread.start()
    yield path
    thread.join()
