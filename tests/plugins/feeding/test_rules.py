"""The settings of the plugin."""

from __future__ import annotations

from dataclasses import fields

import pytest

from warmside.core.values.basis import Mark
from warmside.core.values.errors import BadInput
from warmside.plugins.feeding.rules import Rules, default_rules, rule_rows, rules_with


def test_every_rule_has_a_row_and_every_row_a_rule() -> None:
    assert [f.name for f in fields(Rules)] == [*rule_rows(), "display"]


@pytest.mark.parametrize("name", rule_rows())
def test_defaults_lie_within_their_limits(name: str) -> None:
    rule = rule_rows()[name]
    assert rule.low <= rule.default <= rule.high
    assert rule.help and rule.source.text


def test_a_changed_rule_is_the_keepers_own() -> None:
    changed = rules_with({"arrival_days": 10})
    assert changed.arrival_days == 10
    assert changed.basis("arrival_days").source.mark is Mark.KEEPERS_OWN
    assert default_rules().basis("arrival_days").source.mark is Mark.COMMON_PRACTICE


def test_a_value_outside_the_limits_is_refused() -> None:
    with pytest.raises(BadInput, match="arrival_days 600 is outside 0 to 60"):
        rules_with({"arrival_days": 600})


def test_an_unknown_rule_is_refused() -> None:
    with pytest.raises(BadInput, match="no feeding rule 'arival_days'"):
        rules_with({"arival_days": 3})
