"""The round and its findings: quarantine last, what is due, who should not be together."""

from __future__ import annotations

from pathlib import Path

from warmside.api import About
from warmside.testing import Keeper

GECKO = ("--species", "leopard gecko")


def arrive(keeper: Keeper, name: str = "Pebble", place: str = "TUB", *more: str) -> None:
    keeper.run("arrive", name, *GECKO, "--enclosure", place, *more)


def tasks(keeper: Keeper, animal: str = "PEB") -> list[dict]:
    return [t for t in keeper.json("today")["tasks"] if t["animal"] == animal]


def findings(keeper: Keeper, code: str) -> list[dict]:
    return [f for f in keeper.json("today")["findings"] if f["code"] == f"quarantine.{code}"]


def with_rhythm(keeper: Keeper) -> None:
    keeper.run("plugin", "enable", "rhythm")
    keeper.run("rhythm", "set", "fed", "--every", "3")


def test_quarantined_enclosures_come_last_a_group_at_a_time(house: Keeper) -> None:
    with_rhythm(house)
    arrive(house, "Adder", "ATT")
    house.run("quarantine", "edit", "ADD", "--protocol", "long")
    arrive(house)
    in_order = [t["enclosure"] for t in house.json("today")["tasks"]]
    assert list(dict.fromkeys(in_order)) == ["SHE", "COR", "TUB", "ATT"]
    reasons = {t["enclosure"]: t["care_reason"] for t in house.json("today")["tasks"]}
    assert reasons["SHE"] is None
    assert reasons["TUB"] == "quarantine, day 0 of 90, residents come first"


def test_hand_wash_and_tools_stand_between_the_groups(house: Keeper) -> None:
    with_rhythm(house)
    arrive(house)
    arrive(house, "Adder", "ATT")
    house.run("quarantine", "edit", "ADD", "--protocol", "long")
    lines = house.run("today").stdout.splitlines()
    washes = [n for n, line in enumerate(lines) if line.startswith("* wash hands, change tools")]
    assert ["group general" in lines[n] for n in washes] == [True, False]
    first_resident = next(n for n, line in enumerate(lines) if " SHE " in line)
    first_general = next(n for n, line in enumerate(lines) if " TUB " in line)
    first_long = next(n for n, line in enumerate(lines) if " ATT " in line)
    assert first_resident < washes[0] < first_general < washes[1] < first_long


def test_a_day_without_quarantine_has_no_such_line(house: Keeper) -> None:
    with_rhythm(house)
    assert "wash hands" not in house.run("today").stdout


def test_the_first_round_asks_for_every_check_and_the_first_sample(house: Keeper) -> None:
    arrive(house)
    asked = {t["what"]: t for t in tasks(house)}
    assert set(asked) == {
        "mite check",
        "weighing",
        "look at the droppings",
        "look at mouth and breathing",
        "sample possible: faecal examination",
    }
    assert asked["weighing"]["settles"] == "weighed"
    assert asked["sample possible: faecal examination"]["command"] == (
        "warmside quarantine sample PEB faecal"
    )
    assert not any("tools" in t["why"] for t in asked.values())  # said once, before the group
    assert asked["mite check"]["mark"] == "common practice, no source"


def test_done_settles_the_checks(house: Keeper) -> None:
    arrive(house)
    typed = {"weighing": "=38g", "look at the droppings": "=none"}
    house.run("today")
    numbers = [f"{t['number']}{typed.get(t['what'], '')}" for t in tasks(house) if t["settles"]]
    house.run("done", *numbers)
    assert tasks(house) == []
    (taken,) = house.json("history", "PEB", "--kind", "quarantine.sampled")["events"]
    assert taken["data"]["test"] == "faecal"
    house.pass_days(7)
    assert {t["what"]: t["since"] for t in tasks(house)}["mite check"] == "today"


def test_a_sample_is_asked_for_again_when_it_can_count(house: Keeper) -> None:
    arrive(house)
    house.run("quarantine", "sample", "PEB", "faecal")
    house.pass_days(13)
    assert not [t for t in tasks(house) if t["what"].startswith("sample")]
    house.pass_days(1)
    again = [t for t in tasks(house) if t["what"].startswith("sample")]
    assert "0 of 3 negative, 1 awaited" in again[0]["why"]


def test_a_sample_of_blood_is_for_the_vet_to_take(house: Keeper) -> None:
    house.run("quarantine", "start", "EMB", "--protocol", "long")
    asked = [t["what"] for t in tasks(house, "EMB")]
    assert "sample possible by a vet: blood test for reptarenavirus" in asked
    assert "sample possible: faecal examination" in asked


def test_an_overdue_check_is_a_task_and_no_finding(house: Keeper) -> None:
    arrive(house)
    house.run("quarantine", "check", "PEB", "mites", "breathing", "droppings")
    house.pass_days(9)
    late = {t["what"]: t["since"] for t in tasks(house)}
    assert (late["mite check"], late["weighing"]) == ("2 days ago", "9 days ago")
    assert house.json("today")["findings"] == []


def test_a_sample_that_became_possible_is_never_late(house: Keeper) -> None:
    arrive(house)
    house.pass_days(9)
    (sample,) = [t for t in tasks(house) if t["what"].startswith("sample")]
    assert sample["since"] == "today"
    assert "counts since 2026-03-05" in sample["why"]


def test_a_missed_look_for_mites_is_a_task(house: Keeper) -> None:
    arrive(house)
    house.run("quarantine", "check", "PEB", "mites", "--found")
    house.pass_days(15)
    looks = [t for t in tasks(house) if "mites" in t["what"]]
    assert [t["since"] for t in looks] == ["2 days ago"]
    assert not [t for t in tasks(house) if t["what"] == "mite check"]


def test_a_positive_result_is_act_now_until_a_vet_visit(house: Keeper) -> None:
    arrive(house)
    house.run("quarantine", "sample", "PEB", "faecal")
    house.run("quarantine", "result", "PEB", "positive")
    house.pass_days(30)
    assert [f["level"] for f in findings(house, "positive")] == ["act now"]
    assert "earliest end" not in house.run("today").stdout
    with house.ask() as ask:
        lines = ask.label_lines(About(ask.book.animal("PEB").id), ask.book.today)
    assert "no end date: a positive result stands" in [line.text for line in lines]
    told = house.run("report", "PEB").stdout
    assert "earliest" not in told.split("Quarantine")[1].split("History")[0]
    row = house.json("quarantine", "show")["quarantines"][0]
    assert row["earliest_end"] is row["days_left"] is row["earliest_release"] is None
    house.run("record", "examined", "PEB", "--told", "sample again")
    assert findings(house, "positive") == []
    assert house.json("quarantine", "show")["quarantines"][0]["earliest_end"] is not None


def test_a_death_in_quarantine_is_act_now_with_contacts_and_restarts(house: Keeper) -> None:
    arrive(house)
    arrive(house, "Sand", "BOX")  # same room
    house.pass_days(20)
    house.run("record", "examined", "PEB", "--told", "well")  # this morning, before the death
    house.run("record", "died", "SAN")
    (found,) = findings(house, "death")
    assert (found["level"], found["subject"]) == ("act now", "Sand (SAN)")
    assert found["words"].startswith("died in quarantine on 2026-03-25: ask a reptile vet today")
    for said in ("necropsy", "never frozen", "shared its air: Pebble (PEB)", "clock started again"):
        assert said in found["words"]
    assert house.json("quarantine", "show", "PEB")["clock_start"] == "2026-03-25"
    house.pass_days(4)
    assert "never frozen" not in findings(house, "death")[0]["words"]
    house.run("record", "examined", "PEB", "--told", "well, droppings to test")
    assert findings(house, "death") == []


def test_a_death_without_company_wants_acting_while_its_body_can_be_looked_at(
    house: Keeper,
) -> None:
    arrive(house)
    house.pass_days(40)
    house.run("record", "died", "PEB")
    levels = []
    for _ in range(2):
        levels += [f["level"] for f in findings(house, "death")]
        house.pass_days(4)
    assert levels == ["act now", "look soon"]


def test_the_death_of_a_room_mate_concerns_the_one_in_quarantine(house: Keeper) -> None:
    arrive(house, "Pebble", "SHE")
    house.run("record", "died", "MOS")
    (found,) = findings(house, "death")
    assert found["words"].startswith("died beside an animal in quarantine")
    sections = house.json("report", "PEB")["sections"]
    told = {f["code"]: f["words"] for section in sections for f in section.get("findings", [])}
    assert told["quarantine.death"].startswith("Moss (MOS) died beside")


def test_a_death_far_from_any_quarantine_is_not_its_business(house: Keeper) -> None:
    arrive(house)
    house.run("record", "died", "MOS")
    assert findings(house, "death") == []


def test_newcomers_from_different_sources_have_tools_of_their_own(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB", "--from", "Fair")
    arrive(house, "Sand", "BOX", "--from", "Breeder")
    house.pass_days(2)
    arrive(house, "Fern", "ATT", "--from", "Fair")
    before = [line for line in house.run("today").stdout.splitlines() if line.startswith("* wash")]
    assert len(before) == 3
    with house.ask() as ask:
        ranks = sorted(ask.care_ranks(ask.book.today), key=lambda r: r.rank)
    assert [r.group for r in ranks] == [
        "general of 2026-03-05 from Breeder",
        "general of 2026-03-05 from Fair",
        "general of 2026-03-07 from Fair",
    ]


def test_sharing_an_enclosure_with_a_resident_is_found(house: Keeper) -> None:
    arrive(house, "Pebble", "SHE")
    found = findings(house, "shared_enclosure")
    assert [f["level"] for f in found] == ["act now"]
    assert "SHE with Ember (EMB)" in found[0]["words"]
    assert "Moss (MOS)" in findings(house, "shared_room")[0]["words"]


def test_two_in_quarantine_together_are_not_found(house: Keeper) -> None:
    arrive(house)
    arrive(house, "Sand", "TUB")
    assert findings(house, "shared_enclosure") == findings(house, "shared_room") == []


def test_an_enclosure_without_room_is_said(house: Keeper) -> None:
    house.run("enclosure", "add", "Crate")
    arrive(house, "Pebble", "CRA")
    assert "CRA has no room on record" in findings(house, "room_unknown")[0]["words"]
    house.pass_days(7)
    assert findings(house, "room_unknown") == []
    shown = " ".join(house.run("quarantine", "show", "PEB").stdout.split())
    assert "CRA has no room on record" in shown


def test_a_resident_handled_after_a_quarantined_one_is_found(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB", "--at", "2026-03-01")
    house.run("record", "weighed", "PEB=40g", "--at", "09:00")
    house.run("record", "weighed", "EMB=50g", "--at", "10:00")
    house.run("record", "weighed", "MOS=50g", "--at", "08:00")
    found = findings(house, "handled_after")
    assert [f["subject"] for f in found] == ["Ember (EMB)"]
    assert "10:00" in found[0]["words"]
    assert found[0]["level"] == "note"
    house.pass_days(2)
    assert findings(house, "handled_after") == []


def test_handling_after_one_with_a_positive_result_is_told_for_a_week(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB", "--at", "2026-03-01")
    house.run("quarantine", "sample", "PEB", "faecal", "--at", "2026-03-02")
    house.run("quarantine", "result", "PEB", "positive")
    house.run("record", "weighed", "PEB=40g", "--at", "09:00")
    house.run("record", "weighed", "EMB=50g", "--at", "10:00")
    house.pass_days(6)
    assert [f["level"] for f in findings(house, "handled_after")] == ["look soon"]


def test_droppings_are_looked_at_also_where_there_are_none(house: Keeper) -> None:
    arrive(house)
    house.run("today")
    (look,) = [t for t in tasks(house) if t["what"] == "look at the droppings"]
    refused = house.run("done", f"{look['number']}=loose", ok=False)
    assert refused.code == 2 and "record defecated PEB=loose" in refused.stderr
    house.run("done", f"{look['number']}=none there")
    assert "look at the droppings" not in {t["what"] for t in tasks(house)}
    house.pass_days(14)
    house.run("record", "defecated", "PEB=normal")
    assert "look at the droppings" not in {t["what"] for t in tasks(house)}


def test_what_was_seen_is_never_recorded_as_a_clean_check(house: Keeper) -> None:
    arrive(house)
    house.run("today")
    (look,) = [t for t in tasks(house) if t["what"] == "look at mouth and breathing"]
    refused = house.run("done", f"{look['number']}=bubbles", ok=False)
    assert refused.code == 2 and "check PEB breathing --found" in refused.stderr


def test_the_order_of_the_day_is_still_told_after_the_last_release(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB", "--at", "2026-03-01")
    house.run("record", "weighed", "PEB=40g", "--at", "09:00")
    house.run("record", "weighed", "EMB=50g", "--at", "10:00")
    house.run("quarantine", "release", "PEB", "--to", "ATT", "--override", "the vet says so")
    assert [f["subject"] for f in findings(house, "handled_after")] == ["Ember (EMB)"]


def test_cleaning_an_enclosure_counts_as_handling_those_in_it(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB", "--at", "2026-03-01")
    house.run("record", "cleaned", "TUB", "--at", "09:00")
    house.run("record", "watered", "SHE", "--at", "09:30")
    assert [f["subject"] for f in findings(house, "handled_after")] == ["Ember (EMB)"]


def test_records_without_a_time_of_day_tell_no_order(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB", "--at", "2026-03-01")
    house.run("record", "weighed", "PEB=40g", "--at", "today")
    house.run("record", "weighed", "EMB=50g", "--at", "10:00")
    assert findings(house, "handled_after") == []


def test_correcting_the_time_takes_the_finding_back(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB", "--at", "2026-03-01")
    house.run("record", "weighed", "PEB=40g", "--at", "09:00")
    told = house.json("record", "weighed", "EMB=50g", "--at", "10:00")
    house.run("correct", told["recorded"][0]["event"], "--at", "2026-03-05 08:00")
    assert findings(house, "handled_after") == []


def test_a_test_without_result_for_too_long_is_found(house: Keeper) -> None:
    arrive(house)
    house.run("quarantine", "sample", "PEB", "faecal")
    house.pass_days(21)
    assert findings(house, "result_awaited") == []
    house.pass_days(1)
    assert "no result for 22 days" in findings(house, "result_awaited")[0]["words"]
    house.run("quarantine", "result", "PEB", "negative")
    assert findings(house, "result_awaited") == []


def test_the_long_protocol_is_advised_for_a_boa_and_not_for_a_gecko(house: Keeper) -> None:
    house.run("arrive", "Coil", "--species", "common boa", "--enclosure", "ATT")
    arrive(house)
    found = findings(house, "longer_advised")
    assert [f["subject"] for f in found] == ["Coil (COI)"]
    assert "--protocol long" in found[0]["words"]
    house.run("quarantine", "edit", "COI", "--protocol", "long")
    assert findings(house, "longer_advised") == []
    house.run("undo")
    house.pass_days(7)
    assert findings(house, "longer_advised") == []
    assert "--protocol long" in " ".join(house.run("quarantine", "show", "COI").stdout.split())


def test_every_finding_code_is_declared(house: Keeper) -> None:
    declared = {f["code"] for f in house.json("plugin", "show", "quarantine")["findings"]}
    arrive(house, "Pebble", "SHE")
    house.pass_days(30)
    assert {f["code"] for f in house.json("today")["findings"]} <= declared


def test_a_protocol_that_vanished_is_named_and_costs_only_its_animal(house: Keeper) -> None:
    from sqlalchemy import delete

    from warmside.core.file import sqlite
    from warmside.plugins.quarantine.tables import protocol

    house.run("quarantine", "protocol", "add", str(Path(__file__).parent / "own_protocol.toml"))
    house.run("quarantine", "start", "EMB", "--protocol", "own")
    arrive(house)
    with sqlite.writing(sqlite.open_engine(house.path)) as connection:
        connection.execute(delete(protocol))
    found = findings(house, "not_computed")
    assert [(f["subject"], f["level"]) for f in found] == [("Ember (EMB)", "act now")]
    assert len(tasks(house)) == 5
