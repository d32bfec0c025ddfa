"""What an enclosure says of the quarantines inside: label lines, report, findings, place."""

from __future__ import annotations

import pytest

from warmside.api import About
from warmside.testing import Keeper

GECKO = ("--species", "leopard gecko")


def arrive(keeper: Keeper, name: str, place: str, *more: str) -> None:
    keeper.run("arrive", name, *GECKO, "--enclosure", place, *more)


def lines(keeper: Keeper, enclosure: str) -> dict[str, str]:
    with keeper.ask() as ask:
        about = About(enclosure_id=ask.book.enclosure(enclosure).id)
        return {line.key: line.text for line in ask.label_lines(about, ask.book.today)}


def section(keeper: Keeper, subject: str) -> dict | None:
    found = keeper.json("report", subject)["sections"]
    return next((s for s in found if s["title"] == "Quarantine"), None)


def reported(keeper: Keeper, subject: str) -> list[str]:
    sections = keeper.json("report", subject)["sections"]
    return [f["code"] for s in sections for f in s.get("findings", [])]


def test_an_enclosure_has_the_lines_of_those_inside(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB")
    house.pass_days(10)
    arrive(house, "Sand", "TUB")
    house.run("quarantine", "edit", "SAN", "--protocol", "long")
    found = lines(house, "TUB")
    assert found["quarantine.sign"] == "QUARANTINE, do last"
    assert found["quarantine.since"] == "quarantine since 2026-03-15"
    assert found["quarantine.end"] == "earliest end 2026-09-11"
    assert found["quarantine.group"] == "tool group general and long of 2026-03-05"


def test_of_two_inside_the_first_day_and_the_last_end_count(house: Keeper) -> None:
    """Two that came apart in time and were put together only by their records' days."""
    house.run("quarantine", "protocol", "edit", "general", "restarts.newcomer_in_room=no")
    arrive(house, "Pebble", "TUB")
    house.pass_days(10)
    arrive(house, "Sand", "TUB")
    found = lines(house, "TUB")
    assert found["quarantine.since"] == "quarantine since 2026-03-05"
    assert found["quarantine.end"] == "earliest end 2026-06-13"
    assert found["quarantine.group"] == "tool group general of 2026-03-05"


@pytest.mark.parametrize("enclosure", ["SHE", "BOX"])
def test_an_enclosure_of_residents_and_an_empty_one_have_none(
    house: Keeper, enclosure: str
) -> None:
    arrive(house, "Pebble", "TUB")
    assert lines(house, enclosure) == {}
    assert section(house, enclosure) is None


def test_the_report_of_an_enclosure_tells_the_quarantines_inside(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB")
    arrive(house, "Fern", "ATT")
    house.pass_days(4)
    found = section(house, "TUB")
    assert found is not None
    assert [(r["animal"], r["day"]) for r in found["quarantines"]] == [("PEB", 4)]
    assert [r["title"] for r in found["timeline"]["rows"]] == ["PEB"]


def test_a_shared_enclosure_concerns_all_that_live_in_it(house: Keeper) -> None:
    """The resident's report says it too: else a vet reads that nothing is wrong."""
    arrive(house, "Pebble", "SHE")
    for subject in ("SHE", "PEB", "EMB"):
        assert "quarantine.shared_enclosure" in reported(house, subject), subject
    assert "quarantine.shared_enclosure" not in reported(house, "MOS")


def test_a_shared_enclosure_is_found_once_with_all_in_quarantine(house: Keeper) -> None:
    arrive(house, "Pebble", "SHE")
    arrive(house, "Sand", "SHE")
    findings = house.json("today")["findings"]
    (found,) = (f for f in findings if f["code"] == "quarantine.shared_enclosure")
    assert found["words"] == (
        "Pebble (PEB), Sand (SAN) are in quarantine, but in SHE with Ember (EMB)"
    )


def test_two_in_quarantine_together_share_with_nobody(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB")
    arrive(house, "Sand", "TUB")
    assert "quarantine.shared_enclosure" not in reported(house, "TUB")


def test_an_enclosure_of_two_protocols_is_one_tool_group(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB")
    arrive(house, "Sand", "TUB")
    house.run("quarantine", "edit", "SAN", "--protocol", "long")
    with house.ask() as ask:
        (rank,) = ask.care_ranks(ask.book.today)
    assert (rank.group, rank.rank) == ("general and long of 2026-03-05", 900)
    assert "day 0 of 180" in rank.reason


def test_an_enclosure_left_by_the_long_group_is_done_with_the_general_one(house: Keeper) -> None:
    arrive(house, "Pebble", "TUB")
    arrive(house, "Sand", "TUB")
    house.run("quarantine", "edit", "SAN", "--protocol", "long")
    house.run("move", "SAN", "--to", "ATT")
    with house.ask() as ask:
        found = ask.care_ranks(ask.book.today)
        ranks = {ask.book.enclosures[r.enclosure_id].code: r for r in found}
    assert {code: r.group for code, r in ranks.items()} == {
        "TUB": "general of 2026-03-05",
        "ATT": "long of 2026-03-05",
    }
    assert ranks["TUB"].rank < ranks["ATT"].rank


def test_findings_of_one_are_those_of_all_that_concern_it(house: Keeper) -> None:
    """Asked about one animal, less is computed and nothing else is found."""
    arrive(house, "Pebble", "SHE", "--at", "2026-03-01")
    arrive(house, "Coil", "ATT", "--at", "2026-03-02")
    house.run("plugin", "disable", "quarantine")
    arrive(house, "Stray", "BOX", "--at", "2026-03-03")
    house.run("plugin", "enable", "quarantine")
    house.run("quarantine", "sample", "PEB", "faecal")
    house.run("quarantine", "result", "PEB", "positive")
    house.run("record", "weighed", "PEB=40g", "--at", "09:00")
    house.run("record", "weighed", "EMB=50g", "--at", "10:00")
    house.pass_days(3)
    with house.ask() as ask:
        on = ask.book.today
        whole = ask.findings(on)
        assert len({f.code for f in whole}) >= 5
        for animal_id in ask.book.animals:
            home = ask.book.animals_here(on)[animal_id].enclosure_id
            mine = [f for f in whole if f.about.animal_id == animal_id]
            mine += [f for f in whole if f.about == About(enclosure_id=home)]
            assert set(map(key, ask.findings(on, About(animal_id)))) == set(map(key, mine))


def key(finding) -> tuple:
    return (finding.code, finding.words, finding.about)


def test_the_standing_is_computed_once_for_round_findings_and_order(
    house: Keeper, monkeypatch: pytest.MonkeyPatch
) -> None:
    from warmside.plugins.quarantine.reading import standing

    arrive(house, "Pebble", "TUB")
    arrive(house, "Sand", "ATT")
    house.run("animal", "add", "Drift", *GECKO)
    counted = []
    compute = standing.quarantines

    def counting(*given):
        counted.append(given)
        return compute(*given)

    monkeypatch.setattr(standing, "quarantines", counting)
    house.run("today")
    assert len(counted) == 2
