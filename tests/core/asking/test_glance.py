"""An animal or an enclosure at a glance: its part of the round, its and its home's findings."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

import pytest

from warmside.api import About, Answer, Basis, CareRank, Finding, Level, Task, at_a_glance
from warmside.core.answers.parts import Fact, Table, Tone, Words
from warmside.testing import Keeper, throw_away_plugin

WHY = Basis("because it is so")


@pytest.fixture
def house(keeper: Keeper) -> Iterator[Keeper]:
    """Ember and Moss in V-01, nobody in V-02; a plugin with something to say of each."""

    def tasks(book, on):
        yield Task("weigh Ember", on, WHY, About(book.animal("Ember").id))
        yield Task("weigh Moss", on, WHY, About(book.animal("Moss").id))
        for code in ("V-01", "V-02"):
            yield Task(f"mist {code}", on, WHY, About(enclosure_id=book.enclosure(code).id))
        yield Task("next year", date(2027, 1, 1), WHY, About(book.animal("Ember").id))

    def findings(book, on):
        yield Finding("chores.thin", Level.NOTE, "thin", WHY, About(book.animal("Ember").id))
        home = About(enclosure_id=book.enclosure("V-01").id)
        yield Finding("chores.cold", Level.ACT_NOW, "cold", WHY, home)

    def ranks(book, on):
        yield CareRank(book.enclosure("V-01").id, 5, "comes last", before="wash hands")
        yield CareRank(book.enclosure("V-02").id, 0, "first as always")

    for code in ("V-01", "V-02"):
        keeper.run("enclosure", "add", f"Tub {code}", "--code", code)
    for name in ("Ember", "Moss"):
        keeper.run("animal", "add", name, "--species", "crested gecko", "--enclosure", "V-01")
    plugin = throw_away_plugin(
        "chores",
        manifest={"findings": (("chores.thin", "thin"), ("chores.cold", "cold"))},
        warmside_tasks=tasks,
        warmside_findings=findings,
        warmside_care_order=ranks,
    )
    with plugin:
        keeper.run("plugin", "enable", "chores")
        yield keeper


def _table(answer: Answer, key: str, column: str) -> list[object]:
    (table,) = (p for p in answer.parts if isinstance(p, Table) and p.key == key)
    index = [c.key for c in table.columns].index(column)
    return [row[index] for row in table.rows]


def _glance(house: Keeper, code: str) -> Answer:
    with house.ask() as ask:
        places = {e.code: About(enclosure_id=e.id) for e in ask.book.enclosures.values()}
        about = places.get(code) or About(ask.book.animal(code).id)
        return at_a_glance(ask, about, ask.book.today)


def test_an_animal_is_shown_with_what_is_due_for_it_and_in_its_home(house: Keeper) -> None:
    answer = _glance(house, "Ember")
    assert _table(answer, "tasks", "what") == ["mist V-01", "weigh Ember"]
    assert _table(answer, "findings", "words") == ["cold", "thin"]
    assert [p.text for p in answer.parts if isinstance(p, Words)] == ["comes last", "wash hands"]
    assert all(p.tone is Tone.CAUTION for p in answer.parts if isinstance(p, Words))


def test_an_enclosure_is_shown_with_what_is_due_for_those_inside(house: Keeper) -> None:
    answer = _glance(house, "V-01")
    assert _table(answer, "tasks", "what") == ["mist V-01", "weigh Ember", "weigh Moss"]
    assert _table(answer, "findings", "words") == ["cold", "thin"]
    assert _table(answer, "animals", "name") == ["Ember", "Moss"]


def test_an_empty_enclosure_has_its_own_tasks_and_nobody_elses(house: Keeper) -> None:
    answer = _glance(house, "V-02")
    assert _table(answer, "tasks", "what") == ["mist V-02"]
    assert _table(answer, "findings", "words") == [] == _table(answer, "animals", "code")
    assert not any(isinstance(p, Words) for p in answer.parts)  # nothing to mind before it


def test_an_animal_without_a_home_is_shown_too(house: Keeper) -> None:
    house.run("depart", "Moss", "--how", "given away", "--to", "a friend")
    answer = _glance(house, "Moss")
    facts = {p.key: p.value for p in answer.parts if isinstance(p, Fact)}
    assert facts["kind"] == "animal" and "enclosure" not in facts
    assert _table(answer, "tasks", "what") == ["weigh Moss"]
