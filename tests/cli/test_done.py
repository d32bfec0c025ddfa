"""`warmside done` records what settles a task, under the number that the round showed."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from warmside.core.plugins.hook_values import Task
from warmside.core.values.about import About
from warmside.core.values.basis import Basis
from warmside.testing import Keeper, throw_away_plugin


@pytest.fixture
def fed(keeper: Keeper) -> Any:
    """A keeper whose plugin asks to feed and to weigh one animal until that is done."""
    keeper.run("enclosure", "add", "Low shelf")
    keeper.run("animal", "add", "Ember", "--species", "leopard gecko", "--enclosure", "LOW")

    def asked(book: Any, on: date) -> list[Task]:
        animal = book.animal("EMB").id
        done = book.latest("fed", "weighed", on=on)
        meal = {"item": "cricket", "count": 4}
        tasks = [
            Task("feed", on, Basis("r"), About(animal), settles="fed", data=meal),
            Task("weigh", on, Basis("r"), About(animal), settles="weighed"),
        ]
        return [t for t in tasks if animal not in done[t.settles]]

    with throw_away_plugin("asker", warmside_tasks=asked):
        keeper.run("plugin", "enable", "asker")
        keeper.run("today")
        yield keeper


def last(keeper: Keeper, kind: str) -> dict[str, Any]:
    with keeper.book() as book:
        return dict(book.events(kind)[-1].data)


@pytest.mark.parametrize(
    ("typed", "field", "value"),
    [
        ("1", "outcome", "taken"),
        ("1=refused", "outcome", "refused"),
        ("1=1.2g", "mass_g", 1.2),
        ("1=insect", "form", "insect"),
    ],
)
def test_a_value_goes_to_the_field_that_can_have_it(
    fed: Keeper, typed: str, field: str, value: object
) -> None:
    fed.run("done", typed)
    assert last(fed, "fed")[field] == value
    assert last(fed, "fed")["item"] == "cricket"


def test_a_number_keeps_its_task_after_another_is_done(fed: Keeper) -> None:
    fed.run("done", "1")
    fed.run("done", "2=41g")
    assert last(fed, "weighed") == {"mass_g": 41.0}
    again = fed.run("done", "1", ok=False)
    assert again.code == 4 and "done already" in again.stderr


@pytest.mark.parametrize(
    ("typed", "code", "said"),
    [
        ("2", 2, "write it behind the number, such as 2="),
        ("2=41s", 2, "no unit for mass"),
        ("1=banana", 2, "cannot have banana; it takes: mass, form, outcome"),
        ("9", 3, "no task '9'"),
        ("x", 3, "no task 'x'"),
    ],
)
def test_what_cannot_be_recorded_is_said(fed: Keeper, typed: str, code: int, said: str) -> None:
    result = fed.run("done", typed, ok=False)
    assert (result.code, result.stderr.count("\n")) == (code, 1)
    assert said in result.stderr
    with fed.book() as book:
        assert book.events("fed", "weighed") == []
