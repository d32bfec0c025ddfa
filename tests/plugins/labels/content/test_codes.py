"""The identifier that print, QR and scanner share."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from warmside.core.values.errors import BadInput
from warmside.plugins.labels.content.codes import (
    LONGEST_PAYLOAD,
    ScannedCode,
    Subject,
    checked_prefix,
    parse_scanned,
    payload,
)
from warmside.plugins.labels.typesetting.qr import SMALLEST_MODULE_MM, plan_qr, qr_matrix

PREFIX = "https://example.org/r/"


@given(st.sampled_from(Subject), st.text(min_size=1, max_size=8), st.sampled_from(["", PREFIX]))
def test_any_code_that_may_be_printed_is_scanned_back(
    subject: Subject, code: str, prefix: str
) -> None:
    try:
        text = payload(subject, code, prefix)
    except BadInput:
        return
    assert text.isascii() and len(text) <= LONGEST_PAYLOAD
    assert parse_scanned(text) == ScannedCode(subject, code)
    assert parse_scanned(f" {text}\r\n") == ScannedCode(subject, code)


@given(st.text(alphabet="ABCXYZ0189-", min_size=1, max_size=20))
def test_usual_codes_are_accepted_as_they_stand(code: str) -> None:
    assert payload(Subject.ENCLOSURE, code) == f"WS.E.{code}"


@given(st.text(max_size=60))
def test_any_scanned_text_gives_a_code_or_one_line(text: str) -> None:
    try:
        scanned = parse_scanned(text)
    except BadInput as error:
        assert "\n" not in str(error)
    else:
        assert scanned.code


@given(st.text("ABC12-", min_size=1, max_size=8), st.lists(st.text(max_size=12), max_size=3))
def test_the_line_that_is_read_never_hides_or_changes_the_code(code: str, who: list[str]) -> None:
    text = payload(Subject.ANIMAL, code, who=who)
    assert parse_scanned(text) == ScannedCode(Subject.ANIMAL, code)
    assert len(qr_matrix(text)) <= 25


def test_a_phone_shows_name_species_and_code_and_an_address_takes_their_place() -> None:
    who = ("Zoë", "Kenyan sand boa")
    assert payload(Subject.ENCLOSURE, "LOW", who=who) == "ZOE - KENYAN SAND BOA - WS.E.LOW"
    long = ("Zoë", "Northern blue-tongued skink of the hills")
    assert payload(Subject.ENCLOSURE, "LOW", who=long) == "ZOE - WS.E.LOW"
    capitals = payload(Subject.ENCLOSURE, "LOW", "HTTP://192.168.1.20/", who)
    assert capitals == "HTTP://192.168.1.20/WS.E.LOW" and len(qr_matrix(capitals)) == 25
    assert parse_scanned(capitals).code == "LOW"


def test_a_bare_code_may_name_either() -> None:
    assert parse_scanned("RACK-03\n") == ScannedCode(None, "RACK-03")


def test_a_scanner_with_capitals_locked_still_finds_the_subject() -> None:
    assert parse_scanned("ws.e.rack-03") == ScannedCode(Subject.ENCLOSURE, "rack-03")


@pytest.mark.parametrize(
    "text",
    ["", "  ", "\x00", "WS.E.%zz", "WS.A.%ff", "WS.A.%0A", "https://example.org/x", "a\x1b[31mb"],
)
def test_what_is_no_code_is_refused(text: str) -> None:
    with pytest.raises(BadInput):
        parse_scanned(text)


@pytest.mark.parametrize("code", ["", " E1", "E\n1", "E\ud8001", "E\x1b[31m", "E\u202e1"])
def test_a_code_that_print_and_scan_cannot_share_is_refused(code: str) -> None:
    with pytest.raises(BadInput, match="cannot stand on a label"):
        payload(Subject.ANIMAL, code)


def test_a_payload_that_is_too_long_is_refused_with_its_length() -> None:
    with pytest.raises(BadInput, match="would hold 61 characters"):
        payload(Subject.ANIMAL, "A" * 56)
    assert len(payload(Subject.ANIMAL, "A" * 55)) == LONGEST_PAYLOAD


@pytest.mark.parametrize(
    "prefix", ["example.org/", "https://example.org", "ftp://x/", "https:// /"]
)
def test_an_address_that_is_none_is_refused(prefix: str) -> None:
    with pytest.raises(BadInput, match="cannot stand before a code"):
        checked_prefix(prefix)


@given(st.text(alphabet="ABC123", min_size=1, max_size=55), st.floats(5, 60), st.floats(5, 60))
def test_a_planned_qr_fits_its_room_and_can_be_printed(
    code: str, wanted_mm: float, room_mm: float
) -> None:
    assume(wanted_mm <= room_mm)
    try:
        plan = plan_qr(payload(Subject.ANIMAL, code), wanted_mm, room_mm)
    except BadInput as error:
        assert "larger stock" in str(error)
    else:
        assert plan.side_mm <= room_mm + 1e-9
        assert plan.module_mm >= SMALLEST_MODULE_MM
        assert plan.quiet_mm == pytest.approx(4 * plan.module_mm)


def test_a_module_is_a_whole_number_of_dots_where_there_is_room() -> None:
    plan = plan_qr("WS.E.RACK-03", 30, 30)
    dots = plan.module_mm / (25.4 / 203)
    assert dots == pytest.approx(round(dots)) and dots >= 4


def test_capital_codes_keep_the_smallest_pattern() -> None:
    assert len(qr_matrix("WS.E.RACK-2024-07")) == 21
    assert len(qr_matrix("WS.E.rack-2024-07")) == 25
