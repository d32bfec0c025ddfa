"""Marks and documents: entered, reminded of, listed; nothing is asked of who has none."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.plugins.papers.documents.held import Document, notice_from
from warmside.plugins.papers.findings import ended
from warmside.plugins.papers.tasks import see_to
from warmside.testing import Keeper, copy_of, new_keeper

DAY = date(2026, 3, 5)


@pytest.fixture(scope="session")
def _kept(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    keeper = new_keeper(tmp_path_factory.mktemp("papers"), plugins=["papers"])
    keeper.run("enclosure", "add", "Low", "--room", "Attic")
    for name in ("Ember", "Moss"):
        keeper.run("animal", "add", name, "--species", "ball python", "--enclosure", "LOW")
    return keeper


@pytest.fixture
def kept(_kept: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(_kept, tmp_path)


def add(keeper: Keeper, until: str, *more: str) -> None:
    of = ("--animal", "EMB", "--number", "12-3", "--kept", "green folder")
    keeper.run("papers", "add", "permit", *of, "--until", until, *more)


def round_of(keeper: Keeper) -> tuple[list[str], list[str]]:
    """What the round asks for, and what it finds."""
    found = keeper.json("today")
    return [t["what"] for t in found["tasks"]], [f["code"] for f in found["findings"]]


def test_nobody_without_papers_is_asked_for_any(kept: Keeper) -> None:
    assert round_of(kept) == ([], [])
    assert "the law's to say" in " ".join(kept.run("papers", "list").stdout.split())


def test_a_document_that_is_on_record_is_not_entered_twice(kept: Keeper) -> None:
    """Else each of them is asked for in the round; put aside, its number may come again."""
    add(kept, "2026-06-01")
    again = ("papers", "add", "Permit", "--number", "12-3")
    line = kept.run(*again, "--animal", "EMB", "--until", "2027-06-01", ok=False).complaint(2)
    assert "on record already, as document 1" in line and "papers change 1" in line
    kept.run(*again)  # the keeper's own
    kept.run("papers", "end", "1")
    add(kept, "2027-06-01")
    for _ in range(2):
        kept.run("papers", "add", "receipt", "--animal", "EMB")  # without a number: another


def test_the_new_end_of_a_document_is_typed_behind_the_number_of_its_task(kept: Keeper) -> None:
    add(kept, "2026-06-01")
    kept.pass_days(30)
    kept.run("today")
    assert "such as 1=2027-06-01" in kept.run("done", "1", ok=False).complaint(2)
    assert "type a later day" in kept.run("done", "1=2026-05-01", ok=False).complaint(2)
    assert "holds until 2027-06-01" in kept.run("done", "1=2027-06-01").stdout
    assert round_of(kept) == ([], [])


def test_a_document_is_told_of_before_its_end_and_after(kept: Keeper) -> None:
    add(kept, "2026-06-01")
    assert round_of(kept) == ([], [])
    kept.pass_days(30)
    assert round_of(kept) == (["see to the permit 12-3 before it ends"], [])
    kept.pass_days(60)
    assert round_of(kept) == ([], ["papers.ended"])
    kept.run("papers", "change", 1, "--until", "2027-06-01")
    assert round_of(kept) == ([], [])


@pytest.mark.parametrize("gone", ["depart EMB --how sold", "record died EMB"])
def test_of_an_animal_that_is_gone_nothing_is_asked(kept: Keeper, gone: str) -> None:
    add(kept, "2026-03-20")
    kept.run(*gone.split())
    assert round_of(kept) == ([], [])
    kept.pass_days(60)
    assert round_of(kept) == ([], [])


def test_what_was_put_aside_stays_listed_and_is_quiet(kept: Keeper) -> None:
    add(kept, "2026-03-20")
    kept.run("papers", "end", 1, "--note", "given back")
    assert round_of(kept) == ([], [])
    (row,) = kept.json("papers", "list")["documents"]
    assert row["state"] == "put aside on 2026-03-05" and row["note"] == "given back"


days = st.none() | st.dates(DAY, DAY + timedelta(days=900))


@given(days, days, st.integers(0, 800), st.integers(0, 1000))
def test_there_is_a_task_or_a_finding_but_never_both(
    issued: date | None, until: date | None, notice: int, later: int
) -> None:
    on = DAY + timedelta(days=later)
    document = Document(1, None, "permit", issued=issued, until=until)
    task, finding = see_to(document, notice, on), ended(document, on)
    assert not (task and finding)
    assert bool(finding) is (until is not None and on > until)
    first = notice_from(document, notice)
    assert bool(task) is (until is not None and first is not None and first <= on <= until)
    assert first is None or issued is None or first >= issued


def test_marks_stand_on_labels_and_sheets(kept: Keeper) -> None:
    kept.run("papers", "mark", "EMB", "276 0981 0012 3456", "--place", "left side")
    kept.run("papers", "mark", "EMB", "ring 17", "--kind", "ring")
    said = "transponder 276098100123456, left side; ring ring 17"
    assert kept.json("sheet", "vet", "EMB")["identifiers"] == said
    sections = kept.json("sheet", "emergency")["sections"]
    rows = next(s["animals"] for s in sections if s["title"] == "Who is where")
    assert [row.get("identifiers") for row in rows] == [said, None]
    (mark, ring) = kept.json("papers", "list", "EMB")["marks"]
    assert mark["by"] == "Germany" and ring["by"] is None


def test_the_list_for_insurance_tells_marks_papers_origin_and_value(kept: Keeper) -> None:
    kept.run("papers", "mark", "EMB", "276098100123456")
    receipt = ("receipt", "--animal", "EMB", "--by", "Ann", "--value", "120 euros")
    kept.run("papers", "add", *receipt)
    kept.run("papers", "add", "insurance", "--number", "P 5", "--until", "2027-01-01")
    found = kept.json("papers", "inventory")
    ember = next(row for row in found["animals"] if row["animal"] == "Ember (EMB)")
    assert ember["room"] == "Attic" and ember["value"] == "120 euros"
    assert ember["marks"] == "transponder 276098100123456"
    assert "receipt" in ember["papers"] and "here already" in ember["came"]
    (policy,) = found["documents"]
    assert policy["animal"] == "the keeper" and policy["state"] == "holds until 2027-01-01"


def test_an_emergency_sheet_says_where_the_papers_lie(kept: Keeper) -> None:
    add(kept, "2027-01-01")
    assert "green folder" in kept.run("sheet", "emergency").stdout


@pytest.mark.parametrize(
    ("typed", "code", "told"),
    [
        ("mark EMB 27609810012345", 2, "has 14 digits; by ISO 11784 it has 15"),
        ("mark EMB 27609810012345A", 2, "has a sign that is no digit; by ISO 11784 all 15 are"),
        ("mark EMB 276274877906944", 2, "its last twelve digits are at most 274877906943"),
        ("mark EMB 999000000000001", 4, "999 at its head is for tests"),
        ("mark EMB 7 --kind rnig", 2, "there is no mark rnig (did you mean 'ring'?)"),
        ("mark EMB 276098100123456 --since 2026-04-01", 2, "since 2026-04-01 is to come"),
        ("add permti", 2, "there is no document permti (did you mean 'permit'?)"),
        ("add permit --issued 2026-01-01 --until 2025-01-01", 2, "before it began on 2026-01-01"),
        ("add permit --issued 2026-04-01", 2, "which is to come"),
        ("add permit --until 2226-04-01", 2, "is more than 100 years ahead"),
        ("change 7 --until 2027-01-01", 3, "there is no document 7"),
        ("unmark 7", 3, "there is no mark 7"),
    ],
)
def test_bad_input_is_told_in_a_line_and_writes_nothing(
    kept: Keeper, typed: str, code: int, told: str
) -> None:
    assert told in kept.run("papers", *typed.split(), ok=False).complaint(code)
    found = kept.json("papers", "list")
    assert found["marks"] == [] and found["documents"] == []


def test_a_transponder_is_that_of_one_animal(kept: Keeper) -> None:
    kept.run("papers", "mark", "EMB", "276098100123456")
    told = kept.run("papers", "mark", "MOS", "276.0981.00123456", ok=False).complaint(2)
    assert "is that of Ember (EMB) on record, as mark 1" in told
    kept.run("undo")
    kept.run("papers", "mark", "MOS", "276098100123456")
