"""The shed plugin in a collection: kinds, round, findings, refusals, labels, report."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import pytest

from warmside.core.hookspecs import Finding, LabelLine, Task
from warmside.testing import Keeper, new_keeper


@pytest.fixture
def keeper(tmp_path: Path) -> Keeper:
    made = new_keeper(tmp_path, plugins=["shed"])
    made.run("enclosure", "add", "Shelf")
    made.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "SHE")
    return made


def shed(keeper: Keeper, at: str, *more: str, animal: str = "EMB") -> None:
    keeper.run("record", "shed", animal, "--at", at, *more)


def stage(keeper: Keeper, at: str, stage: str, animal: str = "EMB") -> None:
    keeper.run("record", "shedding", animal, "--at", at, "--stage", stage)


def round_(keeper: Keeper) -> list[dict[str, Any]]:
    tasks: list[dict[str, Any]] = keeper.json("today")["tasks"]
    return tasks


def codes(keeper: Keeper) -> list[str]:
    return [f["code"] for f in keeper.json("today").get("findings", [])]


def events(keeper: Keeper) -> int:
    with keeper.book() as book:
        return len(book.events(corrected=True))


def refused(keeper: Keeper, *arguments: str) -> str:
    """The one line with which a command is refused; nothing is written."""
    before = events(keeper)
    result = keeper.run(*arguments, ok=False)
    assert result.code == 4
    assert len(result.stderr.splitlines()) == 1
    assert events(keeper) == before
    return result.stderr


def test_opaque_asks_for_a_humid_hide_and_done_records_it(keeper: Keeper) -> None:
    stage(keeper, "yesterday", "opaque")
    (task,) = round_(keeper)
    assert task["settles"] == "shed.prepared"
    keeper.run("done", "1")
    assert round_(keeper) == []


def test_the_check_after_a_shed_wants_an_answer(keeper: Keeper) -> None:
    shed(keeper, "yesterday")
    (task,) = round_(keeper)
    assert task["settles"] == "shed.checked"
    missing = keeper.run("done", "1", ok=False)
    assert missing.code == 2
    assert "clean" in missing.stderr
    keeper.run("done", "1=clean")
    assert round_(keeper) == []


def test_a_check_that_finds_skin_leads_to_looks_until_it_is_off(keeper: Keeper) -> None:
    shed(keeper, "yesterday")
    keeper.run("record", "shed.checked", "EMB", "--found", "retained", "--where", "spectacle")
    assert codes(keeper) == ["shed.spectacle"]
    assert round_(keeper) == []
    keeper.pass_days(3)
    (task,) = round_(keeper)
    assert "spectacle" in task["what"]
    keeper.run("done", "1=clean")
    assert round_(keeper) == []
    assert codes(keeper) == []


def test_the_second_shed_with_a_spectacle_left_on_is_for_the_vet_until_seen(
    keeper: Keeper,
) -> None:
    for at in ("2026-01-20", "2026-03-03"):
        shed(keeper, at, "--outcome", "pieces", "--retained", "spectacle")
    findings = keeper.json("today")["findings"]
    assert (findings[0]["code"], findings[0]["level"]) == ("shed.again", "act now")
    assert findings[0]["events"]
    keeper.run("record", "examined", "EMB", "--told", "mites treated")
    assert codes(keeper) == ["shed.spectacle"]


def test_an_animal_that_left_is_not_asked_for(keeper: Keeper) -> None:
    shed(keeper, "yesterday")
    keeper.run("depart", "EMB", "--how", "sold")
    assert round_(keeper) == []
    assert codes(keeper) == []


def test_overdue_is_noted_but_not_in_winter_cooling_nor_for_a_slough_eater(keeper: Keeper) -> None:
    keeper.run("animal", "add", "Moss", "--species", "crested gecko", "--enclosure", "SHE")
    for at in ("2025-05-01", "2025-06-10", "2025-07-20", "2025-08-30", "2025-10-10"):
        shed(keeper, at)
        shed(keeper, at, animal="MOS")
    found = keeper.json("today")["findings"]
    assert [(f["code"], f["subject"], f["level"]) for f in found] == [
        ("shed.overdue", "Ember (EMB)", "note")
    ]
    keeper.run("record", "cooling", "EMB", "--state", "begun", "--at", "2025-12-01")
    assert codes(keeper) == []


def test_a_shed_dated_twice_is_refused_unless_confirmed(keeper: Keeper) -> None:
    shed(keeper, "2026-02-01")
    said = refused(keeper, "record", "shed", "EMB", "--at", "2026-02-02")
    assert "shed on 2026-02-02 is dated twice" in said
    assert "Ember (EMB)" in said
    assert "--confirm" in said
    refused(keeper, "record", "shed", "EMB", "--at", "2026-02-01")
    keeper.run("record", "shed", "EMB", "--at", "2026-02-02", "--confirm")
    assert "shed.twice" in codes(keeper)
    keeper.run("undo", "--yes")
    assert "shed.twice" not in codes(keeper)


def test_a_stage_out_of_order_is_refused_unless_confirmed(keeper: Keeper) -> None:
    stage(keeper, "2026-03-01", "clear")
    said = refused(keeper, "record", "shedding", "EMB", "--at", "2026-03-03", "--stage", "dull")
    assert "dull on 2026-03-03 is out of order after clear on 2026-03-01" in said
    keeper.run("record", "shedding", "EMB", "--at", "2026-03-03", "--stage", "dull", "--confirm")
    assert "shed.order" in codes(keeper)


def test_a_correction_that_puts_stages_right_is_not_refused(keeper: Keeper) -> None:
    stage(keeper, "2026-03-01", "clear")
    keeper.run("record", "shedding", "EMB", "--at", "2026-03-03", "--stage", "dull", "--confirm")
    with keeper.book() as book:
        wrong = book.events("shedding")[-1]
    keeper.run("correct", str(wrong.id), "--at", "2026-02-25")
    assert codes(keeper) == []


def test_another_animal_s_shed_on_that_day_is_no_second_one(keeper: Keeper) -> None:
    keeper.run("animal", "add", "Juno", "--species", "carpet python", "--enclosure", "SHE")
    keeper.run("record", "shed", "EMB", "JUN", "--at", "2026-02-01")
    assert codes(keeper) == []


def test_a_calendar_lists_the_coming_looks(keeper: Keeper) -> None:
    stage(keeper, "today", "opaque")
    keeper.run("record", "shed.prepared", "EMB")
    with keeper.book() as book:
        day = date(2026, 3, 12)
        found = book.host.collect("warmside_tasks", Task, book=book, on=day)
    assert [t.what for _, t in found] == ["has it shed? record how"]


def test_one_read_serves_the_whole_round(keeper: Keeper) -> None:
    shed(keeper, "2026-02-01")
    with keeper.book() as book:
        asked: list[tuple[str, ...]] = []
        plain = book.events

        def counted(*kinds: str, **how: Any) -> Any:
            asked.append(kinds)
            return plain(*kinds, **how)

        book.events = counted  # type: ignore[method-assign]
        for day in (book.today, book.today, date(2026, 3, 20)):
            book.host.collect("warmside_tasks", Task, book=book, on=day)
            book.host.collect("warmside_findings", Finding, book=book, on=day)
    assert len(asked) == 1
    assert not book.host.failures


def test_label_lines_say_last_stage_and_next(keeper: Keeper) -> None:
    shed(keeper, "2026-01-20", "--retained", "toes")
    stage(keeper, "2026-03-03", "opaque")
    with keeper.book() as book:
        animal = book.animal("EMB").id
        found = book.host.collect(
            "warmside_label_lines", LabelLine, book=book, animal_id=animal, on=book.today
        )
    assert {line.key: line.text for _, line in found} == {
        "shed.last": "last shed 2026-01-20, one piece, toes left on",
        "shed.stage": "opaque since 2026-03-03",
        "shed.next": "next shed 2026-03-07 to 2026-03-11 (usual days after opaque)",
    }


def test_a_report_has_the_sheds_only_where_there_are_any(keeper: Keeper) -> None:
    assert "Sheds" not in [s["title"] for s in keeper.json("report", "EMB")["sections"]]
    shed(keeper, "2026-01-20")
    (section,) = [s for s in keeper.json("report", "EMB")["sections"] if s["title"] == "Sheds"]
    assert section["cycles"][0]["shed"] == "2026-01-20"
    assert section["timeline"]["today"] == "2026-03-05"


def test_every_finding_is_in_the_manifest_and_has_events(keeper: Keeper) -> None:
    from warmside.plugins.shed import MANIFEST
    from warmside.plugins.shed.cycle import DoubtCode

    known = {code for code, _ in MANIFEST.findings}
    assert {f"shed.{code}" for code in DoubtCode} <= known
    shed(keeper, "2025-05-01", "--retained", "toes")
    shed(keeper, "2025-06-10", "--retained", "spectacle")
    found = keeper.json("today")["findings"]
    assert {f["code"] for f in found} <= known
    assert all(f["events"] for f in found)


def test_other_plugins_may_ask_for_the_days_to_the_next_slough(tmp_path: Path) -> None:
    """Feeding asks; the range is that of 50 %, counted from the day that is asked for."""
    keeper = new_keeper(tmp_path, plugins=["shed"])
    keeper.run("animal", "add", "Ember", "--species", "ball python", "--since", "2024-01-01")
    for ago in (160, 120, 80, 40):
        keeper.run("record", "shed", "EMB", "--at", f"{ago} days ago")
    with keeper.book() as book:
        animal = book.animal("EMB").id
        ((plugin, asked),) = book.expected("days to slough", animal, book.today)
        assert book.expected("mass", animal, book.today) == []
    told = keeper.json("shed", "forecast", "EMB")
    assert plugin == "shed"
    assert asked.low <= told["low_50_days"] - 40 <= asked.low + 1
    assert asked.high - 1 <= told["high_50_days"] - 40 <= asked.high
