"""The plan of one animal."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.living import staged_by_mass

from warmside.core.record.species.figures import Form, StageLimits
from warmside.core.record.species.life_stage import Life, Weight
from warmside.core.record.species.staged import staged
from warmside.core.values.basis import Basis, Estimate
from warmside.core.values.estimates import Valued
from warmside.core.values.quantities import Display
from warmside.core.values.units import Unit
from warmside.plugins.feeding.care.diets import Stage
from warmside.plugins.feeding.care.rules import rules_with
from warmside.plugins.feeding.care.species import species_rows
from warmside.plugins.feeding.meals.records import Offer, Weighing
from warmside.plugins.feeding.planning.next_meal import due, plan
from warmside.plugins.feeding.planning.subject import Subject
from warmside.plugins.feeding.planning.waits import Situation

DAY = date(2026, 5, 1)
RULES = rules_with({}, Display.METRIC)
KING = species_rows()["Lampropeltis californiae"]  # adult: every 10 to 14 days


def ago(days: int) -> date:
    return DAY - timedelta(days=days)


def king(*offers: Offer, mass_g: float = 600, situation: Situation | None = None) -> Subject:
    weighed = Weighing(ago(5), mass_g)
    life = staged_by_mass(KING, weighed, DAY)
    return Subject(KING, weighed, offers, situation=situation or Situation(), staged=life)


def eaten(days: int, prey: str = "rat-small") -> Offer:
    return Offer(ago(days), prey, 1, 1)


def refused(days: int) -> Offer:
    return Offer(ago(days), "rat-small", 1, 0)


def test_the_next_meal_is_due_an_interval_after_the_last() -> None:
    found = plan(king(eaten(3)), DAY, RULES)
    assert (found.due_from, found.due_by) == (ago(-7), ago(-11))
    assert not found.is_due(DAY) and found.is_due(ago(-7))


def test_an_animal_that_never_ate_here_is_due_today() -> None:
    found = plan(king(), DAY, RULES)
    assert (found.due_from, found.due_by) == (DAY, DAY)


def test_a_refused_meal_is_offered_again_after_some_days() -> None:
    """A grown snake after 7 to 14 days, a hatchling after 3 to 5: common practice, no source."""
    found = plan(king(eaten(20), refused(2)), DAY, RULES)
    assert found.due_from == ago(-5)
    assert plan(king(refused(2)), DAY, RULES).due_from == ago(-5)
    assert plan(king(refused(2), mass_g=9), DAY, RULES).due_from == ago(-1)


def test_a_retry_is_no_later_than_after_the_usual_interval() -> None:
    patient = rules_with({"retry_days": 20}, Display.METRIC)
    assert plan(king(eaten(20), refused(2)), DAY, patient).due_from == ago(2 - 10)
    assert plan(king(refused(2)), DAY, patient).due_from == ago(2 - 10)


def test_the_days_of_a_retry_set_for_the_animal_come_before_the_general_rule() -> None:
    own = Valued(3.0, Basis("set for it"), "animal")
    subject = replace(king(eaten(20), refused(2)), retry=own)
    assert plan(subject, DAY, RULES).due_from == ago(2 - 3)
    assert due(subject, DAY, RULES) == (ago(2 - 3), ago(2 - 3))


def test_the_plan_waits_and_says_why() -> None:
    found = plan(king(eaten(20), situation=Situation(opaque_since=ago(4))), DAY, RULES)
    assert found.due_from == ago(-10) and found.waits[0].code == "opaque"
    assert "eyes opaque" in found.words[0]


def test_an_open_wait_leaves_no_date() -> None:
    found = plan(king(eaten(20), situation=Situation(cooling=(ago(30), None))), DAY, RULES)
    assert (found.due_from, found.due_by) == (None, None) and not found.is_due(DAY)


def test_after_a_regurgitation_the_meal_is_half() -> None:
    usual = plan(king(eaten(30)), DAY, RULES)
    small = plan(king(eaten(30), situation=Situation(regurgitations=(ago(29),))), DAY, RULES)
    assert usual.meal and small.meal
    assert small.meal.high == usual.meal.high / 2


def test_without_a_weight_the_interval_is_known_and_the_meal_is_not() -> None:
    found = plan(Subject(KING, None, (eaten(3),)), DAY, RULES)
    assert found.meal is None and found.fits == () and found.mass is None
    assert (found.interval.low, found.interval.high) == (5, 14)
    assert (found.due_from, found.due_by) == (ago(-2), ago(-11))
    assert "no weight on record" in found.words[0]


def test_the_usual_prey_is_planned_again() -> None:
    found = plan(king(eaten(9, "mouse-large"), eaten(20, "rat-weaned"), refused(1)), DAY, RULES)
    assert found.fits[0].prey.code == "mouse-large"


def test_what_is_no_food_of_the_part_is_not_the_usual_prey() -> None:
    gecko = species_rows()["Eublepharis macularius"]
    meals = (eaten(2, "leafy-greens"), eaten(3, "cricket-adult"))
    assert next(iter(Subject(gecko, None, meals).eaten())) == "cricket-adult"


def test_a_prey_that_is_no_class_is_passed_over() -> None:
    assert next(iter(king(eaten(2, "leftovers"), eaten(3, "adult mice")).eaten())) == "mouse-adult"


def test_insect_eaters_have_a_powder_and_snakes_have_none() -> None:
    row = species_rows()["Eublepharis macularius"]
    gecko = Subject(row, Weighing(ago(1), 55), family="gecko")
    found = plan(gecko, DAY, RULES)
    assert found.dust and found.dust.code == "calcium"
    assert "space between its eyes, about 19 mm" in " ".join(found.words)
    assert plan(king(), DAY, RULES).dust is None


def test_a_width_is_always_spoken_of() -> None:
    assert "no girth on record" in " ".join(plan(king(), DAY, RULES).words)
    told = plan(replace(king(), girth_mm=130), DAY, RULES).words
    assert "times the body by its girth" in " ".join(told)


def test_the_mass_expected_by_another_plugin_is_used() -> None:
    expected = Estimate(900.0, 850.0, 950.0, Unit.MASS, Basis("its growth curve"))
    found = plan(replace(king(), expected=expected), DAY, RULES)
    assert found.mass and found.mass.mass is expected
    assert found.mass.mass.basis.rule == "its growth curve"


@given(st.lists(st.tuples(st.integers(0, 60), st.booleans()), max_size=12))
def test_the_order_of_the_records_does_not_matter(days: list[tuple[int, bool]]) -> None:
    offers = [eaten(d) if ate else refused(d) for d, ate in dict(days).items()]
    forward = plan(king(*offers), DAY, RULES)
    assert plan(king(*reversed(offers)), DAY, RULES) == forward
    assert forward.due_from is not None and forward.due_by is not None
    assert forward.due_from <= forward.due_by


@given(st.integers(13, 4000))
def test_old_meals_change_nothing(days: int) -> None:
    assert plan(king(eaten(3), eaten(days)), DAY, RULES) == plan(king(eaten(3)), DAY, RULES)


def test_a_forecast_slough_that_never_comes_does_not_hold_a_meal_back_for_ever() -> None:
    """The shed forecast moves on with each day that passes without a shed."""
    eaten = Offer(DAY, "mouse-adult", 1, 1)
    for passed in range(5, 40):
        day = DAY + timedelta(days=passed)
        soon = (day + timedelta(days=1), day + timedelta(days=7))
        found = plan(
            replace(king(), offers=(eaten,), situation=Situation(slough_expected=soon)), day, RULES
        )
        last = DAY + timedelta(days=int(found.interval.high))
        assert any(w.code == "before-slough" for w in found.waits)
        assert found.is_due(day) == (day >= last)


def test_a_stage_that_is_not_settled_widens_the_interval_over_those_that_are_possible() -> None:
    """Of 650 g and an unknown sex: a male would be grown from 600 g, a female from 1200 g."""
    row = species_rows()["Python regius"]
    weighed = Weighing(ago(1), 650)
    male, female = (StageLimits(150, 500, adult, None, None, None) for adult in (600, 1200))
    both = (("male", male), ("female", female))
    life = Life(row.latin, Form.SNAKE, both, (0, None), Weight(650, 1), Display.METRIC)
    found = plan(Subject(row, weighed, staged=staged(life)), DAY, RULES)
    assert found.mass and found.mass.stage is None
    assert found.mass.stages == (Stage.SUBADULT, Stage.ADULT)
    assert (found.interval.low, found.interval.high) == (10, 28)
    assert found.interval.basis.rule == "every 10 to 28 days as subadult or adult"
    of_a_male = replace(life, limits=(("male", male),))
    sure = plan(Subject(row, weighed, staged=staged(of_a_male)), DAY, RULES)
    assert (sure.interval.low, sure.interval.high) == (14, 28)
