"""What is asked after a death, and until when."""

from __future__ import annotations

from datetime import date, timedelta

from msgspec.structs import replace

from warmside.plugins.health.deaths.death import Death, Said, known, open_questions

DAY = date(2026, 3, 1)
DEATH = Death(1, 1, "Ember (EMB)", DAY, 1, ("Moss (MOS)",), ("adult mouse on 2026-02-20",))
ALL = ["necropsy", "contacts", "equipment", "prey"]


def asked(said: list[Said], days: int = 0, death: Death = DEATH) -> list[str]:
    return list(open_questions(death, said, DAY + timedelta(days)))


def test_each_question_is_asked_until_it_is_answered() -> None:
    assert asked([]) == ALL
    assert asked([Said(2, necropsy="no")]) == ALL[1:]
    answered = [Said(2, necropsy="no", contacts="weighed"), Said(3, equipment="dried", prey="gone")]
    assert asked(answered) == []


def test_a_necropsy_is_asked_about_while_the_body_keeps() -> None:
    assert "necropsy" in asked([], 3) and "necropsy" not in asked([], 4)
    assert asked([], 20) == ALL[1:]


def test_of_one_that_was_alone_and_ate_no_frozen_prey_less_is_asked() -> None:
    assert asked([], death=replace(DEATH, contacts=(), meals=())) == ["necropsy", "equipment"]


def test_the_newest_word_on_a_thing_stands() -> None:
    said = [Said(3, necropsy="done"), Said(2, necropsy="asked for", found="thin")]
    assert known(said) == {"necropsy": "done", "found": "thin"}
