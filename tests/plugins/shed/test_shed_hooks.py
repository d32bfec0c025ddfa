"""The shed plugin in a collection: kinds, round, findings, refusals, labels, report."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest

from warmside.api import About, Unit
from warmside.plugins.shed.findings import findings
from warmside.plugins.shed.forecast.outlook import outlook
from warmside.plugins.shed.reading.ahead import meals_taken, prior_of
from warmside.plugins.shed.reading.events import KINDS, RECENT
from warmside.plugins.shed.reading.sheds import newest_here, sheds_here
from warmside.plugins.shed.tasks import tasks
from warmside.testing import Keeper, copy_of, new_keeper


@pytest.fixture(scope="module")
def one_snake(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """What `keeper` copies, made once."""
    made = new_keeper(tmp_path_factory.mktemp("keeper"), plugins=["shed"])
    made.run("enclosure", "add", "Shelf")
    made.run("animal", "add", "Ember", "--species", "ball python", "--enclosure", "SHE")
    return made


@pytest.fixture
def keeper(one_snake: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(one_snake, tmp_path)


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
    for at in ("2025-07-21", "2025-08-30", "2025-10-09", "2025-11-19", "2025-12-30"):
        shed(keeper, at)
        shed(keeper, at, animal="MOS")
    found = keeper.json("today")["findings"]
    assert [(f["code"], f["subject"], f["level"]) for f in found] == [
        ("shed.overdue", "Ember (EMB)", "note")
    ]
    keeper.run("record", "cooling", "EMB", "--state", "begun", "--at", "2026-02-01")
    assert codes(keeper) == []


def test_overdue_is_said_for_two_weeks_and_stays_in_the_list(keeper: Keeper) -> None:
    for at in ("2025-07-21", "2025-08-30", "2025-10-09", "2025-11-19", "2025-12-30"):
        shed(keeper, at)
    assert codes(keeper) == ["shed.overdue"]
    keeper.pass_days(14)
    assert codes(keeper) == []
    assert "overdue" in keeper.run("shed", "show").stdout


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
    with keeper.ask() as ask:
        found = ask.tasks(date(2026, 3, 12))
    assert [t.what for _, t in found] == ["has it shed? record how"]


def test_a_round_reads_the_newest_events_once_and_no_whole_history(keeper: Keeper) -> None:
    shed(keeper, "2026-02-01")
    with keeper.ask() as ask:
        book = ask.book
        whole, newest = [], []
        plain, rows = book.events, book.rows
        book.events = lambda *kinds, **how: whole.append(kinds) or plain(*kinds, **how)  # type: ignore[func-returns-value,method-assign]
        book.rows = lambda sql, asked=(): newest.append(asked) or rows(sql, asked)  # type: ignore[func-returns-value,method-assign]
        for _ in range(2):
            ask.tasks(book.today)
            ask.findings(book.today)
    assert whole == []
    assert sorted(asked[0] for asked in newest if RECENT in asked) == sorted(KINDS)
    assert not ask.host.failures


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
        with keeper.ask() as ask:
            book = ask.book
            (short,), (long,) = newest_here(book, book.today), sheds_here(book, book.today)
            assert len(short.sheds) < len(long.sheds)
            assert list(tasks(short, 3)) == list(tasks(long, 3))
            assert list(findings(short, None)) == list(findings(long, None))
            found = ask.findings(book.today)
            ahead = outlook(long.history, prior_of(ask, long.rows.animal_id, book.today))
            late = ahead.newly_overdue(book.today) if ahead else None
            assert [f.basis.events for f in found if f.code == "shed.overdue"] == (
                [late.basis.events] if late and short.now.stage is None else []
            )
        assert not ask.host.failures


def test_label_lines_say_last_stage_and_next(keeper: Keeper) -> None:
    shed(keeper, "2026-01-20", "--retained", "toes")
    stage(keeper, "2026-03-03", "opaque")
    with keeper.ask() as ask:
        found = ask.label_lines(About(ask.book.animal("EMB").id), ask.book.today)
        place = ask.label_lines(About(enclosure_id=1), ask.book.today)
    assert place == []
    assert {line.key: line.text for line in found} == {
        "shed.last": "last shed 2026-01-20, toes left on",
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
    from warmside.plugins.shed.cycles.cycle import DoubtCode

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
    with keeper.ask() as ask:
        ember, today = About(ask.book.animal("EMB").id), ask.book.today
        (found,) = ask.answers("days to slough", ember, today)
        assert ask.answers("days to slough", About(enclosure_id=1), today) == []
        assert ask.answers("mass", ember, today) == []
    told = keeper.json("shed", "forecast", "EMB")
    asked = found.estimate
    assert (found.plugin, asked.unit) == ("shed", Unit.DAYS)
    assert asked.low <= told["low_50_days"] - 40 <= asked.low + 1
    assert asked.high - 1 <= told["high_50_days"] - 40 <= asked.high


def test_within_a_cycle_or_of_a_slough_eater_no_days_are_told(keeper: Keeper) -> None:
    keeper.run("animal", "add", "Moss", "--species", "crested gecko", "--enclosure", "SHE")
    for animal in ("EMB", "MOS"):
        shed(keeper, "2026-01-20", animal=animal)
    stage(keeper, "2026-03-03", "opaque")
    with keeper.ask() as ask:
        for animal in (1, 2):
            assert ask.answers("days to slough", About(animal), ask.book.today) == []


def test_findings_of_one_animal_are_those_of_the_round(keeper: Keeper) -> None:
    keeper.run("animal", "add", "Moss", "--species", "ball python", "--enclosure", "SHE")
    for animal, where in (("EMB", "toes"), ("MOS", "spectacle")):
        shed(keeper, "2026-03-04", "--retained", where, animal=animal)
    with keeper.ask() as ask:
        today = ask.book.today
        moss = ask.findings(today, About(2))
        assert [f.code for f in moss] == ["shed.spectacle"]
        assert moss == [f for f in ask.findings(today) if f.about == About(2)]
        within = ask.findings(today, About(enclosure_id=1))
        assert [f.about for f in within] == [About(1), About(2)]


def test_the_findings_of_one_animal_read_no_other(keeper: Keeper) -> None:
    keeper.run("animal", "add", "Moss", "--species", "ball python", "--enclosure", "SHE")
    shed(keeper, "2026-03-04", "--retained", "toes", animal="MOS")
    with keeper.ask() as ask:
        (one,) = newest_here(ask.book, ask.book.today, About(2))
        assert newest_here(ask.book, ask.book.today, About(1)) == []
    assert one.rows.code == "MOS"


def test_meals_that_were_refused_are_no_meals_taken(keeper: Keeper) -> None:
    for n, outcome in enumerate(("taken", "refused", "part taken", "regurgitated"), 1):
        keeper.run(
            *("record", "fed", "EMB", "--item", "mouse", "--outcome", outcome),
            *("--at", f"2026-02-0{n}", "--confirm"),
        )
    with keeper.book() as book:
        assert meals_taken(book, 1, book.today) == [date(2026, 2, 1), date(2026, 2, 3)]
        assert meals_taken(book, 1, date(2026, 2, 2)) == [date(2026, 2, 1)]


def test_the_report_of_an_enclosure_has_a_line_for_each_that_lives_there(keeper: Keeper) -> None:
    keeper.run("animal", "add", "Moss", "--species", "ball python", "--enclosure", "SHE")
    titles = [s["title"] for s in keeper.json("report", "SHE")["sections"]]
    assert "Sheds" not in titles
    shed(keeper, "2026-01-20")
    (section,) = [s for s in keeper.json("report", "SHE")["sections"] if s["title"] == "Sheds"]
    assert [a["code"] for a in section["animals"]] == ["EMB"]
