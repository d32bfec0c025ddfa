"""Tasks, findings, the expected mass, label lines and the report section."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from warmside.api import About, Finding, LabelLine, Subject, Task, Unit
from warmside.plugins.weight.hooks import warmside_event_kinds
from warmside.testing import Keeper

TUP, BEX, MOTH = About(1), About(2), About(3)


def _findings(keeper: Keeper, about: About | None = None) -> list[Finding]:
    with keeper.ask() as ask:
        return ask.findings(ask.book.today, about)


def _codes(keeper: Keeper) -> list[tuple[str, str]]:
    with keeper.ask() as ask:
        found = ask.findings(ask.book.today)
        return [(f.code, ask.book.animals[f.about.animal_id or 0].code) for f in found]


def _tasks(keeper: Keeper, ahead: int = 0) -> list[Task]:
    with keeper.ask() as ask:
        return [task for _, task in ask.tasks(ask.book.today + timedelta(days=ahead))]


def _weigh(keeper: Keeper, *typed: str) -> None:
    keeper.run("record", "weighed", *typed, "--confirm")


def _grow_to_600_g(keeper: Keeper) -> None:
    """As the keeper says of these boas; at 300 g they are none yet."""
    keeper.run("species", "set", "Kenyan sand boa", "adult_mass", "600g")


def test_the_plugin_adds_one_kind() -> None:
    """About an animal."""
    (kind,) = warmside_event_kinds()
    assert (kind.name, kind.subject) == ("weight.checked", Subject.ANIMAL)


def test_weighing_is_due_by_life_stage(weigher: Keeper) -> None:
    """A subadult after two weeks, an animal that was never weighed at once; never too early."""
    _grow_to_600_g(weigher)
    (task,) = _tasks(weigher)
    assert (task.what, task.settles, task.about) == ("weigh", "weighed", MOTH)
    assert "none on record" in task.basis.rule
    later = _tasks(weigher, 10)
    assert {t.about for t in later} == {TUP, BEX, MOTH}
    (never,) = (t for t in later if t.about == MOTH)
    assert never.by and never.by > never.due  # asked for each day, never called late
    assert "every 14 days as a subadult" in later[0].basis.rule
    assert later[0].basis.events


@pytest.mark.parametrize(
    ("hatched", "every", "whom"),
    [("2025-11-20", 7, "in its first months"), ("2025-06-20", 14, "as a juvenile")],
)
def test_one_in_its_first_months_is_weighed_weekly_whatever_it_weighs(
    weigher: Keeper, hatched: str, every: int, whom: str
) -> None:
    """It is no hatchling by its mass, but a stall of growth must show within a month."""
    about = ("--species", "corn snake", "--enclosure", "SHE", "--hatched", hatched)
    weigher.run("animal", "add", "Nib", *about, "--since", "2025-12-01")
    weigher.run("record", "weighed", "NIB=30g")
    (task,) = [t for t in _tasks(weigher, 14) if t.about == About(4)]
    assert (task.every_days, f"every {every} days {whom}" in task.basis.rule) == (every, True)


def test_the_latest_weighing_counts_for_the_task(weigher: Keeper) -> None:
    """Not the earliest, and not the last that was typed."""
    _grow_to_600_g(weigher)
    _weigh(weigher, "TUP=280g", "--at", "2025-09-10")
    (tup,) = [t for t in _tasks(weigher, 10) if t.about == TUP]
    assert (tup.due, tup.every_days) == (date(2026, 3, 15), 14)


def test_the_rhythm_is_a_setting_and_zero_asks_for_none(weigher: Keeper) -> None:
    """For the whole collection."""
    _grow_to_600_g(weigher)
    weigher.run("plugin", "set", "weight", "juvenile_every", "3")
    weigher.run("plugin", "set", "weight", "adult_every", "0")
    assert {t.about for t in _tasks(weigher)} == {TUP, BEX}


def test_winter_cooling_has_its_own_rhythm(weigher: Keeper) -> None:
    """While it lasts."""
    _weigh(weigher, "MOT=45g")
    weigher.run("record", "cooling", "MOT", "--state", "begun")
    weigher.pass_days(14)
    mine = [t for t in _tasks(weigher) if t.about == MOTH]
    assert ["in winter cooling" in t.basis.rule for t in mine] == [True]


def test_steady_growth_gives_no_finding(weigher: Keeper) -> None:
    """Nothing to say of an animal that grows as it did."""
    assert _codes(weigher) == []


def test_acute_loss_is_found_with_its_weighings(weigher: Keeper) -> None:
    """Both the peak and the last one are named; it clears when the mass is back."""
    _weigh(weigher, "TUP=255g")
    (found,) = _findings(weigher, TUP)
    with weigher.book() as book:
        masses = [book.event(e).data["mass_g"] for e in found.basis.events]
        assert found.code == "weight.loss"
        assert masses[-1] == 255 and masses[0] > 280
        assert "10 %" in found.basis.rule
    weigher.pass_days(3)
    _weigh(weigher, "TUP=290g")
    assert _codes(weigher) == []


def test_the_threshold_is_a_setting(weigher: Keeper) -> None:
    """Twelve percent are no finding where the keeper asks for more."""
    weigher.run("plugin", "set", "weight", "acute_loss", "15")
    weigher.run("plugin", "set", "weight", "low_loss", "8")
    _weigh(weigher, "TUP=255g")
    assert _codes(weigher) == []


def test_a_meal_in_the_gut_is_taken_off(weigher: Keeper) -> None:
    """A weight soon after a large meal hides no loss: half a day from the end of the meal's day."""
    meal = ("record", "fed", "TUP", "--item", "rat", "--mass", "45g")
    weigher.run(*meal, "--at", "2026-03-04")
    _weigh(weigher, "TUP=290g")
    assert _codes(weigher) == [("weight.loss", "TUP")]
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
    assert ("weight.loss", "TUP") in _codes(weigher)


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


def test_the_mass_is_answered_for_today_and_for_days_gone(weigher: Keeper) -> None:
    """Between low and high, from the weighings up to that day; nothing where none is known."""
    with weigher.ask() as ask:
        today, past = ask.book.today, ask.book.today - timedelta(days=200)
        (answer,) = ask.answers("mass", TUP, today)
        (then,) = (a.estimate for a in ask.answers("mass", TUP, past))
        now = answer.estimate
        assert (answer.plugin, now.unit) == ("weight", Unit.MASS)
        assert now.low < now.value < now.high  # type: ignore[operator]
        assert now.value == pytest.approx(290, rel=0.03)
        assert then.value < 0.75 * now.value  # type: ignore[operator]
        assert all(ask.book.event(e).day <= past for e in then.basis.events)
        assert ask.answers("mass", MOTH, today) == []
        assert ask.answers("mass", About(enclosure_id=1), today) == []
        assert ask.answers("length", TUP, today) == []


def test_the_loss_is_answered_for_who_would_else_judge_it(weigher: Keeper) -> None:
    """In percent of what it usually weighs, 0 for one that grows; nothing of one never weighed."""
    with weigher.ask() as ask:
        (none,) = (a.estimate for a in ask.answers("weight_loss", TUP, ask.book.today))
        assert (none.value, none.unit) == (0.0, Unit.PERCENT)
        assert ask.answers("weight_loss", MOTH, ask.book.today) == []
    _weigh(weigher, "TUP=240g")
    with weigher.ask() as ask:
        (lost,) = (a.estimate for a in ask.answers("weight_loss", TUP, ask.book.today))
        assert lost.low < lost.value < lost.high  # type: ignore[operator]
        assert lost.value == pytest.approx(12, abs=5)
        assert lost.basis.events


def test_the_adult_mass_is_answered_where_growth_shows_its_end(weigher: Keeper) -> None:
    """The same that the growth curve tells; nothing of an animal whose end is not in sight."""
    tup = weigher.json("weight", "growth", "TUP")
    with weigher.ask() as ask:
        answers = ask.answers("adult mass", TUP, ask.book.today)
        assert ask.answers("adult mass", MOTH, ask.book.today) == []
    told = tup["adult_mass_g"]
    assert [a.estimate.value for a in answers] == ([told] if told else [])


def test_findings_of_one_animal_are_those_of_the_round(weigher: Keeper) -> None:
    """Also where another animal must be looked at for a mix-up."""
    weigher.run("plugin", "disable", "weight")
    for code, mass in (("TUP", "165g"), ("BEX", "277g")):
        weigher.run("record", "weighed", f"{code}={mass}", "--confirm", "--at", "2026-02-05")
    weigher.run("plugin", "enable", "weight")
    everyone = _findings(weigher)
    assert {f.about for f in everyone} == {TUP, BEX}
    for about in (TUP, BEX):
        assert _findings(weigher, about) == [f for f in everyone if f.about == about]


def test_label_lines_tell_weight_and_centile(weigher: Keeper) -> None:
    """In the units of the collection; none for an animal without a weight, nor for its home."""
    with weigher.ask() as ask:
        lines = ask.label_lines(TUP, ask.book.today)
        assert [line.key for line in lines] == ["weight.mass"]
        assert isinstance(lines[0], LabelLine) and lines[0].text.endswith("on 2026-03-01")
        for none in (MOTH, About(enclosure_id=1)):
            assert ask.label_lines(none, ask.book.today) == []


def test_the_report_section_holds_the_chart(weigher: Keeper) -> None:
    """The same that the command draws; none without a weight."""
    with weigher.ask() as ask:
        (section,) = ask.sections(TUP, ask.book.today)
        assert section.title == "Weight"
        assert ask.sections(MOTH, ask.book.today) == []
    drawn = weigher.json("weight", "chart", "TUP")["chart"]
    (of_report,) = [s for s in weigher.json("report", "TUP")["sections"] if s["title"] == "Weight"]
    assert of_report["chart"] == drawn


def test_the_report_of_an_enclosure_has_a_line_for_each_that_was_weighed(weigher: Keeper) -> None:
    """Nothing for an empty one."""
    weigher.run("enclosure", "add", "Rock")
    (of_shelf,) = [s for s in weigher.json("report", "SHE")["sections"] if s["title"] == "Weight"]
    assert [a["code"] for a in of_shelf["animals"]] == ["BEX", "TUP"]
    assert "Weight" not in [s["title"] for s in weigher.json("report", "ROC")["sections"]]


def test_findings_are_values_with_codes_of_the_manifest(weigher: Keeper) -> None:
    """What any plugin's findings must be."""
    from warmside.plugins.weight import MANIFEST

    _weigh(weigher, "TUP=200g", "BEX=90g")
    found = _findings(weigher)
    assert found
    assert {f.code for f in found} <= {code for code, _ in MANIFEST.findings}


def test_the_round_imports_no_heavy_library(weigher: Keeper) -> None:
    """In a process of its own: tasks, findings and the expected mass for all animals."""
    code = (
        "import sys\n"
        "from warmside.cli.entry import main\n"
        "main(['today'])\n"
        "heavy = ('sqlalchemy', 'numpy', 'scipy', 'reportlab')\n"
        "print('HEAVY', [m for m in heavy if m in sys.modules])\n"
    )
    done = weigher.run_apart(program=("-c", code))
    assert "HEAVY []" in done.stdout, done.stdout + done.stderr
    assert "weigh" in done.stdout
