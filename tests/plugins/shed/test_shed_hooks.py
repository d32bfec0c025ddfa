"""The shed plugin in a collection: kinds, round, findings, refusals, labels, report."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest

from warmside.core.plugins.hook_values import Finding, LabelLine, Task
from warmside.plugins.shed.due import tasks
from warmside.plugins.shed.newest import RECENT
from warmside.plugins.shed.next_shed import overdue
from warmside.plugins.shed.notices import findings
from warmside.plugins.shed.reading import KINDS, newest_here, prior_of, sheds_here
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


def test_a_round_reads_the_newest_events_once_and_no_whole_history(keeper: Keeper) -> None:
    shed(keeper, "2026-02-01")
    with keeper.book() as book:
        whole, newest = [], []
        plain, rows = book.events, book.rows
        book.events = lambda *kinds, **how: whole.append(kinds) or plain(*kinds, **how)  # type: ignore[func-returns-value,method-assign]
        book.rows = lambda query: newest.append(query) or rows(query)  # type: ignore[func-returns-value,method-assign]
        for _ in range(2):
            book.host.collect("warmside_tasks", Task, book=book, on=book.today)
            book.host.collect("warmside_findings", Finding, book=book, on=book.today)
    assert (len(whole), len(newest)) == (0, len(KINDS))
    assert not book.host.failures


def test_the_newest_events_say_what_the_whole_record_says(keeper: Keeper) -> None:
    """More sheds than are read for a round; skin left on twice, a stage not followed by a shed."""
    day = date(2026, 2, 25) - timedelta(days=25 * (RECENT + 5))
    for n in range(RECENT + 6):
        left = ("--retained", "toes") if n > RECENT + 3 else ()
        stage(keeper, f"{day + timedelta(days=25 * n)}", "opaque")
        if n != RECENT + 4:
            shed(keeper, f"{day + timedelta(days=25 * n + 5)}", *left)
    for passed in (1, 20, 40):
        keeper.pass_days(passed)
        with keeper.book() as book:
            (short,), (long,) = newest_here(book, book.today), sheds_here(book, book.today)
            assert len(short.sheds) < len(long.sheds)
            assert list(tasks(short, 3)) == list(tasks(long, 3))
            assert list(findings(short, None)) == list(findings(long, None))
            found = book.host.collect("warmside_findings", Finding, book=book, on=book.today)
            late = overdue(long.history, book.today, prior_of(book, None, book.today))
            assert [f.basis.events for _, f in found if f.code == "shed.overdue"] == (
                [late.forecast.basis.events] if late and short.now.stage is None else []
            )
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
