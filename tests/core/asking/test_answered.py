"""Quantities that plugins answer each other: declared, the narrowest first, and no circles."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from warmside.core.asking.ask import Ask
from warmside.core.plugins.host import Host
from warmside.core.plugins.manifest import Answers
from warmside.core.values.about import About
from warmside.core.values.basis import Basis, Estimate
from warmside.core.values.estimates import DayRange, Distribution
from warmside.core.values.units import Unit
from warmside.testing import Keeper, throw_away_plugin

DAY = date(2026, 3, 5)
RULE = Basis("a rule of the test")
EMBER = About(1)


def answers(*what: str) -> dict[str, Any]:
    return {"answers": tuple(Answers(w, Unit.MASS) for w in what)}


def mass(low: float, high: float) -> Estimate:
    return Estimate(None, low, high, Unit.MASS, RULE)


def test_the_narrowest_answer_comes_first_whatever_the_plugins_are_called(keeper: Keeper) -> None:
    with (
        throw_away_plugin(
            "alder", manifest=answers("mass"), warmside_answer=lambda: [mass(300, 500)]
        ) as wide,
        throw_away_plugin(
            "birch", manifest=answers("mass"), warmside_answer=lambda: [mass(400, 420)]
        ) as narrow,
        throw_away_plugin(
            "cedar", manifest=answers("mass"), warmside_answer=lambda: [mass(390, 430)]
        ) as middle,
        keeper.book() as book,
    ):
        found = Ask(book, Host([wide, narrow, middle])).answers("mass", EMBER, DAY)
    assert [(a.plugin, a.estimate.low) for a in found] == [
        ("birch", 400),
        ("cedar", 390),
        ("alder", 300),
    ]


def test_an_answer_may_be_days_or_a_distribution(keeper: Keeper) -> None:
    days = DayRange(DAY, date(2026, 3, 9), RULE)
    spread = Distribution(((1.0, 0.5), (2.0, 0.5)), Unit.COUNT, RULE)
    with (
        throw_away_plugin(
            "alder", manifest=answers("next meal"), warmside_answer=lambda: [days, spread]
        ) as plugin,
        keeper.book() as book,
    ):
        found = Ask(book, Host([plugin])).answers("next meal", EMBER, DAY)
    assert [a.given for a in found] == [spread, days]
    with pytest.raises(TypeError, match="alder answered DayRange, not an Estimate"):
        _ = found[1].estimate


def test_a_quantity_that_nobody_declares_is_a_slip(keeper: Keeper) -> None:
    own = {"answers": (Answers("alder.bulk", Unit.MASS),)}
    with throw_away_plugin("alder", manifest=own) as plugin, keeper.book() as book:
        ask = Ask(book, Host([plugin]))
        assert ask.answers("alder.bulk", EMBER, DAY) == []
        assert ask.answers("birch.bulk", EMBER, DAY) == [], "its plugin is not at work"
        with pytest.raises(LookupError, match="'masss' \\(did you mean 'mass'\\?\\)"):
            ask.answers("masss", EMBER, DAY)
        with pytest.raises(LookupError, match=r"'alder\.bulks'"):
            ask.answers("alder.bulks", EMBER, DAY)


def test_a_plugin_is_asked_for_what_it_declares_and_nothing_else(keeper: Keeper) -> None:
    heard: list[str] = []

    def hook(what: str) -> list[Estimate]:
        heard.append(what)
        return [mass(1, 2)]

    with (
        throw_away_plugin("alder", manifest=answers("mass"), warmside_answer=hook) as plugin,
        keeper.book() as book,
    ):
        ask = Ask(book, Host([plugin]))
        assert ask.answers("adult mass", EMBER, DAY) == []
        assert len(ask.answers("mass", EMBER, DAY)) == 1
    assert heard == ["mass"]


def test_two_plugins_that_ask_each_other_are_both_named_and_the_rest_goes_on(
    keeper: Keeper,
) -> None:
    def asks(other: str, own: str) -> Any:
        def hook(ask: Ask, what: str, about: About, on: date) -> list[Estimate]:
            if what != own:
                return []
            heard = ask.answers(other, about, on)
            return [Estimate(float(len(heard)), 0, 9, Unit.MASS, RULE)]

        return hook

    with (
        throw_away_plugin(
            "alder", manifest=answers("mass", "length"), warmside_answer=asks("length", "mass")
        ) as one,
        throw_away_plugin(
            "birch", manifest=answers("mass", "length"), warmside_answer=asks("mass", "length")
        ) as two,
        throw_away_plugin(
            "cedar", manifest=answers("mass"), warmside_answer=lambda: [mass(1, 2)]
        ) as last,
        keeper.book() as book,
    ):
        host = Host([one, two, last])
        found = Ask(book, host).answers("mass", EMBER, DAY)
    assert [a.plugin for a in found] == ["cedar", "alder"]
    told = [str(f) for f in host.failures]
    assert len(told) == 1
    assert "alder asks birch asks alder the same (answer)" in told[0]


def test_a_question_about_another_animal_is_no_circle(keeper: Keeper) -> None:
    def hook(ask: Ask, what: str, about: About, on: date) -> list[Estimate]:
        if about.animal_id == 1:
            return [a.estimate for a in ask.answers(what, About(2), on)]
        return [mass(1, 2)]

    with (
        throw_away_plugin("alder", manifest=answers("mass"), warmside_answer=hook) as plugin,
        keeper.book() as book,
    ):
        host = Host([plugin])
        assert len(Ask(book, host).answers("mass", EMBER, DAY)) == 1
    assert host.failures == []
