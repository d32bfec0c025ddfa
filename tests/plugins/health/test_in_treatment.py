"""How cases begin, and what other plugins make of an animal in treatment (all invented)."""

from __future__ import annotations

from pathlib import Path

import pytest

from invented_pictures import jpeg
from warmside.api import About
from warmside.testing import Keeper, copy_of, new_keeper

ORDER = (
    *("health", "order", "EMB", "medicine A", "--dose", "0.1 ml", "--by", "Dr. Reed"),
    *("--every", "daily", "--doses", "7"),
)
VISIT = ("health", "visit", "EMB", "--told", "come back in a week", "--by", "Dr. Reed")


@pytest.fixture(scope="session")
def all_hungry(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """What `hungry` copies, made once."""
    keeper = new_keeper(tmp_path_factory.mktemp("hungry"), plugins=["health", "feeding"])
    keeper.run("plugin", "enable", "quarantine")
    for name in ("Shelf", "Hutch"):
        keeper.run("enclosure", "add", name, "--room", name)
    for name, home in (("Ember", "SHE"), ("Moss", "HUT")):
        about = ("--species", "corn snake", "--enclosure", home, "--since", "2025-11-01")
        keeper.run("animal", "add", name, *about)
        keeper.run("record", "weighed", f"{name}=500g", "--at", "2026-03-01")
        keeper.run("record", "fed", name, "--item", "adult mouse", "--at", "2026-01-20")
    return keeper


@pytest.fixture
def hungry(all_hungry: Keeper, tmp_path: Path) -> Keeper:
    """Ember and Moss are both due for a meal."""
    return copy_of(all_hungry, tmp_path)


def fed_today(keeper: Keeper) -> set[str]:
    return {t["animal"] for t in keeper.json("today")["tasks"] if t["what"].startswith("feed")}


def codes(keeper: Keeper, animal: str = "EMB") -> list[str]:
    with keeper.ask() as ask:
        about = About(ask.book.animal(animal).id)
        return [f.code for f in ask.findings(ask.book.today, about)]


def entries(keeper: Keeper) -> list[str]:
    return [e["what"] for e in keeper.json("health", "cases", "EMB")["cases"]]


def test_no_meal_is_planned_until_the_vets_word_is_known_and_then_as_it_says(
    hungry: Keeper,
) -> None:
    assert fed_today(hungry) == {"EMB", "MOS"}
    hungry.run(*ORDER)
    assert fed_today(hungry) == {"MOS"}
    assert codes(hungry) == ["health.food"]
    said = " ".join(hungry.run("feeding", "plan", "EMB").stdout.split())
    assert "what the vet said of its food is not on record; no meal is planned for it" in said
    row = next(r for r in hungry.json("feeding", "plan", "--all")["plans"] if r["animal"] == "EMB")
    assert (row["due_from"], row["feed"], row["waits"]) == (None, "–", ["in-treatment"])
    hungry.run("health", "food", "EMB", "as usual", "--by", "Dr. Reed")
    assert fed_today(hungry) == {"EMB", "MOS"} and codes(hungry) == []
    hungry.run("health", "food", "EMB", "no food", "--until", "2026-03-06")
    assert fed_today(hungry) == {"MOS"} and codes(hungry) == ["health.food"]
    hungry.pass_days(2)
    assert "EMB" in fed_today(hungry), "the vet's word held until the day before"


def test_a_word_on_food_that_ends_before_it_was_said_is_refused(hungry: Keeper) -> None:
    over = hungry.run("health", "food", "EMB", "no food", "--until", "2026-03-01", ok=False)
    assert over.code == 2 and "the last day for the food, 2026-03-01, is before" in over.stderr


def test_the_plan_stands_again_when_the_course_is_over(hungry: Keeper) -> None:
    hungry.run(*ORDER, "--feeding", "no food")
    assert fed_today(hungry) == {"MOS"}
    hungry.run("health", "stop", "EMB", "medicine A", "--by", "Dr. Reed")
    assert fed_today(hungry) == {"EMB", "MOS"}


def test_a_quarantine_is_not_ready_while_its_animal_is_in_treatment(hungry: Keeper) -> None:
    hungry.run("quarantine", "start", "EMB")
    before = len(hungry.json("quarantine", "show", "EMB")["missing"])
    hungry.run("record", "health.case", "EMB", "--state", "open", "--what", "crusts")
    (first, *others) = hungry.json("quarantine", "show", "EMB")["missing"]
    assert "in treatment since 2026-03-05: open case: crusts" in str(first)
    assert len(others) == before
    refused = hungry.run("quarantine", "release", "EMB", "--to", "SHE", ok=False)
    assert refused.code == 4 and "in treatment since 2026-03-05" in refused.stderr


def test_a_sign_begins_a_case_and_its_end_ends_it_while_no_vet_saw_it(hungry: Keeper) -> None:
    hungry.run("record", "sign", "EMB=wheezing", "--at", "2026-03-02")
    assert (codes(hungry), entries(hungry)) == (["health.case"], ["noisy breathing seen"])
    hungry.run("record", "sign", "EMB=limp", "--at", "2026-03-03")
    assert len(entries(hungry)) == 1, "one case, however many signs"
    hungry.run("record", "sign", "EMB=wheezing", "--state", "gone")
    assert codes(hungry) == ["health.case"]
    hungry.run("record", "sign", "EMB=limp", "--state", "gone")
    assert codes(hungry) == [] and entries(hungry)[-1] == "limp is gone"
    hungry.run("undo")
    assert codes(hungry) == ["health.case"]


def test_after_a_visit_a_sign_that_is_gone_leaves_the_case_open(hungry: Keeper) -> None:
    hungry.run("record", "sign", "EMB=wheezing", "--at", "2026-03-02")
    hungry.run(*VISIT, "--recheck", "2026-03-12")
    hungry.run("record", "sign", "EMB=wheezing", "--state", "gone")
    assert codes(hungry) == ["health.case"]


@pytest.mark.parametrize("mild", ["tick", "bad smell", "always at the heat", "not itself"])
def test_a_mild_sign_begins_a_case_only_at_a_vets(hungry: Keeper, mild: str) -> None:
    hungry.run("record", "sign", f"EMB={mild}", "--at", "2026-03-02")
    assert entries(hungry) == []
    hungry.run(*VISIT)
    assert entries(hungry) == [f"at a vet with {mild}; told: come back in a week"]


def test_a_check_of_a_healthy_animal_begins_no_case_unless_it_is_wanted(hungry: Keeper) -> None:
    hungry.run(*VISIT)
    assert entries(hungry) == [] and codes(hungry) == []
    hungry.run(*VISIT, "--case")
    assert entries(hungry) == ["come back in a week"]


def test_where_the_signs_are_told_of_the_case_is_not_told_a_second_time(hungry: Keeper) -> None:
    hungry.run("plugin", "enable", "signs")
    hungry.run("record", "sign", "EMB=wheezing", "--at", "2026-03-02")
    assert codes(hungry) == ["signs.seen"]
    hungry.run(*VISIT)
    assert codes(hungry) == ["health.case"]
    (one,) = hungry.json("today")["findings"]
    assert "the vet said: come back in a week" in one["words"]


def test_everything_recorded_meanwhile_hangs_on_the_case(hungry: Keeper, tmp_path: Path) -> None:
    hungry.run("record", "sign", "EMB=wheezing", "--at", "2026-03-02")
    hungry.run("record", "observed", "EMB", "--what", "drinks much")
    hungry.run(*ORDER, "--feeding", "as usual")
    case = hungry.json("health", "case", "EMB")
    courses, meanwhile = case["sections"]
    kinds = [row["kind"] for row in meanwhile["meanwhile"]]
    assert kinds == ["sign", "observed", "health.course", "health.food"]
    assert courses["courses"][0]["what"] == "medicine A"
    photo = tmp_path / "wound.jpg"
    photo.write_bytes(jpeg())
    hungry.run("picture", "add", "EMB", str(photo), "--on", "2026-03-04")
    shown = hungry.json("health", "case", "EMB")["sections"][-1]
    assert (shown["title"], len(shown["pictures"])) == ("Pictures meanwhile", 1)
    none = hungry.run("health", "case", "MOS", ok=False)
    assert none.code == 3 and "has no case by 2026-03-05" in none.stderr
