"""Tasks, findings, the expected mass, label lines and the report section."""

from __future__ import annotations

from datetime import timedelta

import pytest

from warmside.core.kinds.kind import Subject
from warmside.core.plugins.hook_values import Finding, LabelLine
from warmside.plugins.weight.hooks import (
    warmside_event_kinds,
    warmside_expected_value,
    warmside_findings,
    warmside_label_lines,
    warmside_report_sections,
    warmside_tasks,
)
from warmside.testing import Keeper


def _codes(keeper: Keeper) -> list[tuple[str, str]]:
    with keeper.book() as book:
        found = list(warmside_findings(book, book.today))
        return [(str(f.code), book.animals[f.animal_id or 0].code) for f in found]


def _weigh(keeper: Keeper, *typed: str) -> None:
    keeper.run("record", "weighed", *typed, "--confirm")


def test_the_plugin_adds_one_kind() -> None:
    """About an animal."""
    (kind,) = warmside_event_kinds()
    assert (kind.name, kind.subject) == ("weight.checked", Subject.ANIMAL)


def test_weighing_is_due_by_life_stage(weigher: Keeper) -> None:
    """A juvenile after two weeks, an animal that was never weighed at once; never too early."""
    with weigher.book() as book:
        (task,) = warmside_tasks(book, book.today)
        assert (task.what, task.settles, task.animal_id) == ("weigh", "weighed", 3)
        assert "never yet" in task.basis.rule
        later = list(warmside_tasks(book, book.today + timedelta(days=10)))
        assert {t.animal_id for t in later} == {1, 2, 3}
        assert "every 14 days as a juvenile" in later[0].basis.rule
        assert later[0].basis.events


def test_the_rhythm_is_a_setting_and_zero_asks_for_none(weigher: Keeper) -> None:
    """For the whole collection."""
    weigher.run("plugin", "set", "weight", "juvenile_every", "3")
    weigher.run("plugin", "set", "weight", "adult_every", "0")
    with weigher.book() as book:
        assert {t.animal_id for t in warmside_tasks(book, book.today)} == {1, 2}


def test_winter_cooling_has_its_own_rhythm(weigher: Keeper) -> None:
    """While it lasts."""
    _weigh(weigher, "MOT=45g")
    weigher.run("record", "cooling", "MOT", "--state", "begun")
    weigher.pass_days(14)
    with weigher.book() as book:
        mine = [t for t in warmside_tasks(book, book.today) if t.animal_id == 3]
    assert ["in winter cooling" in t.basis.rule for t in mine] == [True]


def test_steady_growth_gives_no_finding(weigher: Keeper) -> None:
    """Nothing to say of an animal that grows as it did."""
    assert _codes(weigher) == []


def test_acute_loss_is_found_with_its_weighings(weigher: Keeper) -> None:
    """Both the peak and the last one are named; it clears when the mass is back."""
    _weigh(weigher, "TUP=255g")
    with weigher.book() as book:
        (found,) = [f for f in warmside_findings(book, book.today) if f.animal_id == 1]
        masses = [book.event(e).data["mass_g"] for e in found.basis.events]
        assert found.code == "weight.acute-loss"
        assert masses[-1] == 255 and masses[0] > 280
        assert "10 %" in found.basis.rule
    weigher.pass_days(3)
    _weigh(weigher, "TUP=290g")
    assert _codes(weigher) == []


def test_the_threshold_is_a_setting(weigher: Keeper) -> None:
    """Twelve percent are no finding where the keeper asks for fifteen."""
    weigher.run("plugin", "set", "weight", "acute_loss", "15")
    _weigh(weigher, "TUP=255g")
    assert _codes(weigher) == []


def test_a_meal_in_the_gut_is_taken_off(weigher: Keeper) -> None:
    """A weight soon after a large meal hides no loss: half a day from the end of the meal's day."""
    meal = ("record", "fed", "TUP", "--item", "rat", "--mass", "45g")
    weigher.run(*meal, "--at", "2026-03-04")
    _weigh(weigher, "TUP=290g")
    assert _codes(weigher) == [("weight.acute-loss", "TUP")]
    shown = weigher.json("weight", "show", "TUP")
    assert shown["mass_g"] == 290
    assert shown["mass_without_meal_g"] == pytest.approx(290 - 45 * (1 - 0.54 / 5), abs=0.2)


def test_a_slip_in_the_history_is_a_finding_and_no_check_rests_on_it(weigher: Keeper) -> None:
    """4120 g among 280 g: never dropped, never believed. Recorded before the plugin was there."""
    weigher.run("plugin", "disable", "weight")
    weigher.run("record", "weighed", "TUP=2850g", "--confirm", "--at", "2026-02-20")
    weigher.run("plugin", "enable", "weight")
    assert _codes(weigher) == [("weight.doubt", "TUP")]
    (doubt,) = weigher.json("weight", "doubts", "TUP")["doubts"]
    assert doubt["mass_g"] == 2850
    assert doubt["perhaps_g"] == pytest.approx(285)
    weigher.run("weight", "doubts", "--right", str(doubt["event"]))
    assert ("weight.doubt", "TUP") not in _codes(weigher)
    assert ("weight.acute-loss", "TUP") in _codes(weigher)


def test_swapped_animals_in_the_history_are_found(weigher: Keeper) -> None:
    """Both, each with the other's code."""
    weigher.run("plugin", "disable", "weight")
    for code, mass in (("TUP", "165g"), ("BEX", "277g")):
        weigher.run("record", "weighed", f"{code}={mass}", "--confirm", "--at", "2026-02-05")
    weigher.run("plugin", "enable", "weight")
    why = {d["animal"]: d["why"] for d in weigher.json("weight", "doubts")["doubts"]}
    assert "BEX" in why["TUP"] and "TUP" in why["BEX"]


def test_an_animal_that_is_not_weighed_for_long_is_not_judged(weigher: Keeper) -> None:
    """The task says it."""
    _weigh(weigher, "TUP=200g")
    assert _codes(weigher) != []
    weigher.pass_days(500)
    assert _codes(weigher) == []


def test_the_expected_mass_answers_for_today_and_for_days_gone(weigher: Keeper) -> None:
    """Between low and high, from the weighings up to that day; nothing of other values."""
    with weigher.book() as book:
        ((plugin, now),) = book.expected("mass", 1, book.today)
        assert plugin == "weight"
        assert now.low < now.value < now.high  # type: ignore[operator]
        assert now.value == pytest.approx(290, rel=0.03)
        past = book.today - timedelta(days=200)
        ((_, then),) = book.expected("mass", 1, past)
        assert then.value < 0.75 * now.value  # type: ignore[operator]
        assert all(book.event(e).day <= past for e in then.basis.events)
        assert list(warmside_expected_value(book, "length", 1, book.today)) == []
        assert list(warmside_expected_value(book, "mass", 3, book.today)) == []


def test_label_lines_tell_weight_and_centile(weigher: Keeper) -> None:
    """In the units of the collection; none for an animal without a weight."""
    with weigher.book() as book:
        lines = list(warmside_label_lines(book, 1, book.today))
        assert [line.key for line in lines] == ["weight.mass"]
        assert isinstance(lines[0], LabelLine) and lines[0].text.endswith("on 2026-03-01")
        assert list(warmside_label_lines(book, 3, book.today)) == []


def test_the_report_section_holds_the_chart(weigher: Keeper) -> None:
    """The same that the command draws; none without a weight."""
    with weigher.book() as book:
        (section,) = warmside_report_sections(book, 1, book.today)
        assert section.title == "Weight"
        assert list(warmside_report_sections(book, 3, book.today)) == []
    drawn = weigher.json("weight", "chart", "TUP")["chart"]
    (of_report,) = [s for s in weigher.json("report", "TUP")["sections"] if s["title"] == "Weight"]
    assert of_report["chart"] == drawn


def test_findings_are_values_with_codes_of_the_manifest(weigher: Keeper) -> None:
    """What any plugin's findings must be."""
    from warmside.plugins.weight import MANIFEST

    _weigh(weigher, "TUP=200g", "BEX=90g")
    with weigher.book() as book:
        found = list(warmside_findings(book, book.today))
    assert found and all(isinstance(f, Finding) for f in found)
    assert {f.code for f in found} <= {code for code, _ in MANIFEST.findings}


def test_the_round_imports_no_numpy(weigher: Keeper) -> None:
    """In a process of its own: tasks, findings and the expected mass for all animals."""
    code = (
        "import sys\n"
        "from warmside.cli.entry import main\n"
        "main(['today'])\n"
        "print('HEAVY', [m for m in ('numpy', 'scipy', 'reportlab') if m in sys.modules])\n"
    )
    done = weigher.run_apart(program=("-c", code))
    assert "HEAVY []" in done.stdout, done.stdout + done.stderr
    assert "weigh" in done.stdout
