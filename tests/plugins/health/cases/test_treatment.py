"""When an animal is in treatment, and how it is fed meanwhile."""

from __future__ import annotations

from datetime import date, time, timedelta

from msgspec.structs import replace

from warmside.plugins.health.cases.course_of_case import Case, Entry
from warmside.plugins.health.cases.food_words import AS_TOLD, AS_USUAL, NO_FOOD, food_data
from warmside.plugins.health.cases.treatment import FoodWord, fed_as_told, treatment
from warmside.plugins.health.courses.order import Order
from warmside.plugins.health.courses.schedule import course

DAY = date(2026, 3, 5)
CASE = Case((Entry(1, DAY - timedelta(3), False, "noisy breathing seen"),))
ORDER = Order(2, "medicine A", "0.1 ml", 24, DAY, time(8), count=7, by="Dr. Reed")
COURSE = course(ORDER, [], DAY + timedelta(20), None)


def test_a_course_is_a_treatment_from_its_order_to_its_last_dose() -> None:
    ordered = DAY - timedelta(1)
    found = treatment(None, [COURSE], [ordered], DAY + timedelta(2))
    assert found is not None
    assert (found.since, found.last) == (ordered, DAY + timedelta(6))
    assert treatment(None, [COURSE], [ordered], DAY + timedelta(7)) is None


def test_an_open_case_is_one_without_a_known_end() -> None:
    found = treatment(CASE, [COURSE], [DAY], DAY)
    assert found is not None
    assert (found.since, found.last) == (CASE.begun, None)
    assert treatment(None, [], [], DAY) is None


def test_the_newest_word_of_this_treatment_counts_until_its_day() -> None:
    found = treatment(None, [COURSE], [DAY], DAY)
    before = FoodWord(3, DAY - timedelta(40), AS_USUAL)
    nothing = FoodWord(4, DAY, NO_FOOD, by="Dr. Reed", until=DAY + timedelta(2))
    told = fed_as_told(found, [before, nothing], DAY)
    assert told is not None and not told.asked
    assert told.words == "no food until 2026-03-07, as Dr. Reed said on 2026-03-05"
    assert fed_as_told(found, [nothing], DAY + timedelta(3)) is None
    assert fed_as_told(found, [nothing, FoodWord(5, DAY, AS_USUAL)], DAY) is None
    in_words = fed_as_told(found, [FoodWord(6, DAY, AS_TOLD, "half a mouse")], DAY)
    assert in_words is not None and in_words.words.endswith("said on 2026-03-05: half a mouse")


def test_a_course_without_a_word_is_asked_about_and_a_case_alone_leaves_the_plan() -> None:
    asked = fed_as_told(treatment(None, [COURSE], [DAY], DAY), [], DAY)
    assert asked is not None and asked.asked
    assert fed_as_told(treatment(CASE, [], [], DAY), [], DAY) is None
    healthy = fed_as_told(None, [FoodWord(4, DAY, NO_FOOD)], DAY)
    assert healthy is None, "a word outlives no treatment"


def test_what_is_typed_is_one_of_two_words_or_the_vets_own() -> None:
    assert food_data("No  food", "Dr. Reed", None)["says"] == NO_FOOD
    assert food_data("as usual", "", None)["says"] == AS_USUAL
    own = food_data("half a mouse", "", DAY)
    assert (own["says"], own["words"], own["until"]) == (AS_TOLD, "half a mouse", DAY)


def test_a_course_that_was_stopped_is_no_treatment() -> None:
    replaced = replace(COURSE, replaced=DAY + timedelta(1))
    assert treatment(None, [replaced], [DAY], DAY + timedelta(1)) is None
