"""The pages of a PDF by its page tree, held against what other libraries wrote and count."""

from __future__ import annotations

import io
import time
import zlib

import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfWriter
from reportlab.pdfgen.canvas import Canvas

from warmside.core.pictures.page_count import pages_of


def written(pages: int) -> bytes:
    """A PDF of so many pages, written by ReportLab."""
    out = io.BytesIO()
    canvas = Canvas(out)
    for number in range(pages):
        canvas.drawString(20, 20, f"page {number}")
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def packed() -> bytes:
    """Its page tree within an object stream, as ISO 32000-1:2008, 7.5.7 has it."""
    tree = zlib.compress(b"2 0 << /Type /Pages /Kids [4 0 R] /Count 7 >>")
    head = b"9 0 obj << /Type /ObjStm /N 1 /First 4 /Filter /FlateDecode >>\nstream\n"
    return b"%PDF-1.5\n" + head + tree + b"\nendstream endobj\n"


@pytest.mark.parametrize("pages", [1, 2, 45])
def test_what_three_libraries_write_is_counted(pages: int) -> None:
    raw = written(pages)
    assert pages_of(raw) == pages == len(pypdfium2.PdfDocument(raw))
    again = io.BytesIO()
    PdfWriter(clone_from=io.BytesIO(raw)).write(again)
    assert pages_of(again.getvalue()) == pages
    saved = io.BytesIO()
    pypdfium2.PdfDocument(raw).save(saved)
    assert pages_of(saved.getvalue()) == pages


def test_a_tree_within_an_object_stream_is_read() -> None:
    assert pages_of(packed()) == 7


def test_a_branch_of_the_tree_is_not_taken_for_its_root() -> None:
    branch = b"<< /Type /Pages /Parent 1 0 R /Count 12 >>"
    assert pages_of(branch) is None
    assert pages_of(branch + b"<< /Count 30 /Type /Pages >>") == 30


@given(st.binary(max_size=200))
def test_bytes_that_are_none_give_nothing_and_never_fail(raw: bytes) -> None:
    assert pages_of(b"%PDF-1.4" + raw.replace(b"Pages", b"")) is None


@pytest.mark.parametrize(
    "raw",
    [
        b"/Type /ObjStm >> stream\n" * 100_000,
        b"/Type/Pages " * 500_000,
        (b"/ObjStm stream\n" + zlib.compress(b"/Type/Pages " * 100_000)) * 30,
    ],
)
def test_one_that_was_made_to_take_long_does_not(raw: bytes) -> None:
    began = time.process_time()
    assert pages_of(raw) is None
    assert time.process_time() - began < 5
