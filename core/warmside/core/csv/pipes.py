"""What comes out of a pipe: it comes once, may come slowly, and may never end."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from queue import Empty, Queue
from threading import Thread

PIECE = 1 << 16  # bytes
STILL_WAITING_S = 0.1

Told = Callable[[int], None]
"""Hears how many bytes have come so far: for each piece, and again while nothing comes."""

_kept: dict[Path, bytes] = {}


def is_pipe(path: Path) -> bool:
    """Whether bytes come from it that cannot be read a second time, or without end."""
    return path.is_fifo() or path.is_char_device()


def out_of(path: Path, most: int, told: Told = lambda so_far: None) -> bytes:
    """All that comes out of a pipe, up to `most` bytes; kept, since it comes once.

    Raises OSError where it cannot be read.
    """
    if path not in _kept:
        found = bytearray()
        for piece in _pieces(path):
            found += piece
            told(len(found))
            if len(found) >= most:
                break
        _kept[path] = bytes(found[:most])
    return _kept[path]


def _pieces(path: Path) -> Iterator[bytes]:
    """The pieces as they come, and nothing again and again while none does.

    A thread waits for them: a pipe into which nobody writes cannot even be opened, and who waits
    himself can say nothing meanwhile.
    """
    came = Queue[bytes | OSError](maxsize=16)
    Thread(target=_fetch, args=(path, came), daemon=True).start()
    while True:
        try:
            piece = came.get(timeout=STILL_WAITING_S)
        except Empty:
            yield b""
            continue
        if isinstance(piece, OSError):
            raise piece
        if not piece:
            return
        yield piece


def _fetch(path: Path, came: Queue[bytes | OSError]) -> None:
    """Put each piece into the queue, and nothing or what went wrong at the end."""
    try:
        with path.open("rb", buffering=0) as pipe:
            while piece := pipe.read(PIECE):
                came.put(piece)
        came.put(b"")
    except OSError as error:
        came.put(error)
