"""How many pages a PDF says it has, read without running or drawing anything of it.

A picture of the first page would take an engine that draws PDFs: millions of lines that parse what
strangers send. So a paper is shown as a card with what its page tree says: `Count` of the root of
the tree (ISO 32000-1:2008, 7.7.3.2), in the file itself or in its object streams (7.5.7).
"""

from __future__ import annotations

import re
import zlib
from collections.abc import Iterator
from itertools import islice

MOST_READ = 1 << 20  # of an object stream once it is unpacked: a page tree is far smaller
MOST_STREAMS, MOST_TREES = 20, 500
NEAR = 16_384  # bytes within which a dictionary begins and ends: beyond, it is not looked at
MOST_PAGES = 100_000
OBJECTS = re.compile(rb"/ObjStm\b")
BODY = re.compile(rb"\bstream\r?\n")
TYPE = re.compile(rb"/Type\s{0,9}/Pages\b")
COUNT = re.compile(rb"/Count\s{1,9}(\d{1,6})\b")


def pages_of(raw: bytes) -> int | None:
    """The number of pages; None where it cannot be told, as of one that is locked."""
    return max((number for text in _texts(raw) for number in _counts(text)), default=None)


def _texts(raw: bytes) -> Iterator[bytes]:
    """The file as it stands, then what its object streams hold."""
    yield raw
    for found in islice(OBJECTS.finditer(raw), MOST_STREAMS):
        body = BODY.search(raw, found.end(), found.end() + NEAR)
        try:
            packed = memoryview(raw)[body.end() :] if body else b""
            yield zlib.decompressobj().decompress(packed, MOST_READ)
        except zlib.error:
            continue


def _counts(text: bytes) -> Iterator[int]:
    """What the roots of page trees count: they have no parent, and count all that is below."""
    for found in islice(TYPE.finditer(text), MOST_TREES):
        begin = max(0, text.rfind(b"<<", max(0, found.start() - NEAR), found.start()))
        end = text.find(b">>", found.end(), found.end() + NEAR)
        tree = text[begin : end if end >= 0 else begin]
        counted = COUNT.search(tree)
        if counted and b"/Parent" not in tree and 0 < int(counted[1]) <= MOST_PAGES:
            yield int(counted[1])
