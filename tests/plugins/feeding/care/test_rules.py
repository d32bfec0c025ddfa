"""The settings of the plugin."""

from __future__ import annotations

import pytest

from warmside.core.values.basis import Mark
from warmside.core.values.errors import BadInput
from warmside.core.values.quantities import Display
from warmside.plugins.feeding.care.rules import Rules, rule_rows, rules_with


def test_every_rule_has_a_row_and_every_row_a_rule() -> None:
    assert list(Rules.__struct_fields__) == ["display", *rule_rows()]


@pytest.mark.parametrize("name", rule_rows())
def test_defaults_lie_within_their_limits(name: str) -> None:
    rule = rule_rows()[name]
    assert rule.least is not None and rule.most is not None
    assert rule.least <= float(rule.default) <= rule.most
    basis = rules_with({}, Display.METRIC).basis(name)
    assert basis.rule.startswith(rule.help) and basis.source.text


def test_a_changed_rule_is_the_keepers_own() -> None:
    changed = rules_with({"arrival_days": 10}, Display.METRIC)
    assert changed.arrival_days == 10
    assert changed.basis("arrival_days").source.mark is Mark.KEEPERS_OWN
    assert rules_with({}, Display.METRIC).basis("arrival_days").source.mark is Mark.COMMON_PRACTICE


def test_a_value_outside_the_limits_is_refused() -> None:
    with pytest.raises(BadInput, match="arrival_days 600 is outside 0 to 60"):
        rules_with({"arrival_days": 600}, Display.METRIC)


def test_an_unknown_rule_is_refused() -> None:
    with pytest.raises(BadInput, match="no feeding rule 'arival_days'"):
        rules_with({"arival_days": 3}, Display.METRIC)
