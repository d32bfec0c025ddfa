"""What the plugin gives to reports, labels, `done` and other plugins."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from warmside.api import sheets
from warmside.core.answers.parts import Section, Table, Words
from warmside.core.plugins.hook_values import Finding
from warmside.core.plugins.manifest import Answers
from warmside.core.values.about import About
from warmside.core.values.basis import Basis, Estimate
from warmside.core.values.estimates import DayRange
from warmside.core.values.units import Unit
from warmside.testing import Keeper, throw_away_plugin

EMB, KES, BAS, MOS = 1, 2, 3, 4


@pytest.fixture
def ill_room(room: Keeper) -> Keeper:
    """Ember refuses and loses mass, Kestrel regurgitates; there is old prey in stock."""
    for day, outcome in (("2026-01-05", "taken"), ("2026-01-20", "refused")):
        room.run("record", "fed", "EMB", "--item", "small rat", "--outcome", outcome, "--at", day)
    room.run("record", "weighed", "EMB=1100g", "--at", "2026-03-04")
    for day in ("2026-01-10", "2026-02-20"):
        words = ("--item", "small rat", "--outcome", "regurgitated", "--at", day)
        room.run("record", "fed", "KES", *words)
    room.run("feeding", "stock", "add", "small rat", "5", "--frozen", "2025-06-01")
    return room


def findings(keeper: Keeper, about: About | None) -> list[Finding]:
    with keeper.ask() as ask:
        return ask.findings(ask.book.today, about)


@pytest.mark.parametrize("animal_id", [EMB, KES, BAS, MOS])
def test_the_findings_of_one_animal_are_those_of_the_round(
    ill_room: Keeper, animal_id: int
) -> None:
    of_all = [f for f in findings(ill_room, None) if f.about == About(animal_id)]
    assert findings(ill_room, About(animal_id)) == of_all
    assert of_all or animal_id == BAS


def test_the_findings_of_one_animal_read_nothing_of_the_others(
    ill_room: Keeper, monkeypatch: pytest.MonkeyPatch
) -> None:
    read: list[int] = []
    with ill_room.ask() as ask:
        events = ask.book.events

        def watched(*kinds: str, **narrowed: Any) -> Any:
            read.append(narrowed["animal"])
            return events(*kinds, **narrowed)

        monkeypatch.setattr(ask.book, "events", watched)
        asked = {"on": ask.book.today, "about": About(EMB)}
        assert ask.host.collect("warmside_findings", Finding, book=ask.book, ask=ask, **asked)
    assert set(read) == {EMB}


def test_an_animal_that_left_has_no_findings(ill_room: Keeper) -> None:
    ill_room.run("depart", "EMB", "--how", "given away")
    assert findings(ill_room, About(EMB)) == []


def sections(keeper: Keeper, about: About) -> dict[str, Section]:
    with keeper.ask() as ask:
        return {s.title: s for s in ask.sections(about, ask.book.today)}


def tables(section: Section) -> dict[str, Table]:
    return {p.key: p for p in section.parts if isinstance(p, Table)}


def test_the_report_of_an_enclosure_has_the_plans_of_those_inside(room: Keeper) -> None:
    room.run("move", "BAS", "--to", "MOS")
    with room.ask() as ask:
        place = ask.book.enclosure("MOS").id
        lived_in, empty = About(None, place), About(None, ask.book.enclosure("BAS").id)
    found = sections(room, lived_in)
    assert list(found) == ["Feeding"] and list(tables(found["Feeding"])) == ["plans"]
    rows = [r for r in tables(found["Feeding"])["plans"].rows if isinstance(r, tuple)]
    assert {row[0] for row in rows} == {"MOS", "BAS"}
    assert sections(room, empty) == {}


def label(keeper: Keeper, about: About) -> list[str]:
    with keeper.ask() as ask:
        return [x.text for x in ask.label_lines(about, ask.book.today)]


def test_the_label_of_an_enclosure_tells_the_diet_of_each_inside(room: Keeper) -> None:
    with room.ask() as ask:
        ember, basil = (About(None, ask.book.enclosure(c).id) for c in ("EMB", "BAS"))
    alone = label(room, About(EMB))
    told = ["1 × small rat every 14 to 28 days", "handle it for 48 hours after a meal"]
    assert label(room, ember) == alone == told
    room.run("move", "BAS", "--to", "EMB")
    both, _ = label(room, ember)
    assert both.startswith("Basil (BAS): ") and "; Ember (EMB): 1 × small rat every" in both
    assert label(room, basil) == []


def diet_for_vet(keeper: Keeper, about: About) -> str:
    with keeper.ask() as ask:
        found = ask.sheet_sections(sheets.Sheet.VET, ask.book.today, ask.book.today, about)
    (told,) = (p for s in found if s.title == "Diet as planned" for p in s.parts)
    assert isinstance(told, Words)
    return told.text


def test_labels_and_a_vets_sheet_name_the_food_of_the_plan(room: Keeper) -> None:
    """Kestrel weighs more by now, as another plugin expects; Basil eats what is in stock."""
    room.run("feeding", "stock", "add", "roach nymph", "50")
    heavy = Estimate(2500, 2400, 2600, Unit.MASS, Basis("expected"))
    manifest = {"answers": (Answers("mass", Unit.MASS),)}

    def expected(about: About) -> list[Estimate]:
        return [heavy] if about == About(KES) else []

    with throw_away_plugin("grows", manifest=manifest, warmside_answer=expected):
        room.run("plugin", "enable", "grows")
        for animal, code in ((KES, "KES"), (BAS, "BAS")):
            first = room.json("feeding", "plan", code)["fits"][0]["name"]
            line, *_ = label(room, About(animal))
            assert first in line and diet_for_vet(room, About(animal)) == line
    assert first == "roach nymph"


def test_nothing_is_due_for_an_animal_that_died_or_is_lent_out(room: Keeper) -> None:
    room.run("record", "fed", "EMB", "--item", "small rat", "--at", "2026-02-01")
    room.run("record", "died", "EMB", "--at", "2026-03-01")
    room.run("lend", "KES", "--to", "a friend", "--at", "2026-03-01")
    dead, lent = (room.run("report", code).stdout for code in ("EMB", "KES"))
    assert "not here (dead): no meal is planned" in dead
    assert "last meal: 2026-02-01" in " ".join(dead.split())
    assert "not here (lent out)" in lent and "rodents" in lent
    assert not [text for text in (dead, lent) if "due" in text.partition("Feeding")[2]]
    assert next_meals(room, EMB) == next_meals(room, KES) == []


def next_meals(keeper: Keeper, animal_id: int) -> list[DayRange]:
    with keeper.ask() as ask:
        found = ask.answers("next meal", About(animal_id), ask.book.today)
        assert ask.host.failures == []
    return [f.given for f in found if isinstance(f.given, DayRange)]


def test_other_plugins_may_ask_when_the_next_meal_is_due(room: Keeper) -> None:
    room.run("record", "fed", "EMB", "--item", "small rat", "--at", "2026-03-01")
    (told,) = next_meals(room, EMB)
    assert (told.earliest, told.latest) == (date(2026, 3, 15), date(2026, 3, 29))
    assert told.basis.rule == "every 14 to 28 days as adult"
    room.run("record", "cooling", "EMB", "--state", "begun")
    assert next_meals(room, EMB) == [], "no day can be said while it is cooled"


def thawing(keeper: Keeper) -> list[Any]:
    return [t for t in keeper.json("today")["tasks"] if t["what"] == "thaw prey for tomorrow"]


def test_done_settles_the_list_to_thaw_as_its_command_does(evening: Keeper) -> None:
    room = evening
    (task,) = thawing(room)
    done = room.run("done", task["number"])
    assert "prey for 2026-03-06 taken out of the freezer" in done.stdout
    assert thawing(room) == []
    again = room.run("feeding", "thaw", "--done", ok=False)
    assert "thawed already" in again.complaint(4)
    room.run("undo")
    assert thawing(room) == [task]


def test_a_meal_and_the_list_to_thaw_are_settled_in_one_step(evening: Keeper) -> None:
    room = evening
    numbers = [t["number"] for t in room.json("today")["tasks"] if t["animal"] in (None, "BAS")]
    room.run("done", *numbers)
    assert thawing(room) == [] and "BAS" not in {t["animal"] for t in room.json("today")["tasks"]}
    room.run("undo")
    assert len(thawing(room)) == 1


def test_a_regurgitation_that_was_written_as_a_sign_rests_and_shrinks_the_meal(
    room: Keeper,
) -> None:
    room.run("record", "fed", "EMB", "--item", "small rat", "--at", "2026-03-01")
    room.run("record", "sign", "EMB=vomited", "--at", "2026-03-03")
    (wait,) = (
        w for w in room.json("feeding", "plan", "EMB")["waits"] if w["code"] == "regurgitated"
    )
    assert "regurgitated on 2026-03-03: rest until" in wait["words"]
    assert room.json("feeding", "plan", "EMB")["due_from"] > "2026-03-08"
    room.run("record", "sign", "EMB=regurgitated", "--state", "not so")
    codes = [w["code"] for w in room.json("feeding", "plan", "EMB").get("waits", [])]
    assert "regurgitated" not in codes
