"""The remaining risk over the published range of figures."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from warmside.plugins.quarantine.clock.events import Outcome, Resulted, Sampled, Started
from warmside.plugins.quarantine.clock.timeline import quarantines
from warmside.plugins.quarantine.odds.freedom import Range, probability_free
from warmside.plugins.quarantine.odds.methods import laboratory, performance
from warmside.plugins.quarantine.odds.risk import negatives_by_method, remaining_risk
from warmside.plugins.quarantine.protocol.parsing import shipped_protocols

PRIOR = Range(0.05, 0.20)


def test_the_range_runs_from_the_worst_to_the_best_figures():
    swab = performance("cloacal-swab-qpcr")
    found = remaining_risk(PRIOR, [swab.negatives(2)], swab)
    assert found.free.low == pytest.approx(probability_free(0.20, 0.4468, 1.0, 2))
    assert found.free.high == pytest.approx(probability_free(0.05, 0.8437, 1.0, 2))
    assert found.negatives == 2


def test_more_negatives_bring_the_worst_case_to_the_target():
    swab = performance("cloacal-swab-qpcr")
    more = remaining_risk(PRIOR, [swab.negatives(1)], swab).more
    assert [m.target for m in more] == [0.95, 0.99]
    for m in more:
        assert m.fewest <= m.most
        assert remaining_risk(PRIOR, [swab.negatives(1 + m.most)], swab).free.low >= m.target


def test_a_target_that_is_never_reached_is_none():
    useless = laboratory(0.3, 0.9, 0.5)
    more = remaining_risk(Range(0.5, 0.5), [], useless).more
    assert more[0].most is None and more[0].fewest is not None


def test_only_counted_negatives_that_look_for_the_agent_are_used():
    day = datetime(2026, 3, 1)
    events = [Started(1, day, "general", edits=(("tests.cryptosporidium.negatives", "3"),))]
    for i, (after, test, method) in enumerate(
        [
            (1, "cryptosporidium", "cloacal-swab-qpcr"),
            (3, "cryptosporidium", "cloacal-swab-qpcr"),
            (40, "cryptosporidium", "cloacal-acid-fast-smear"),
            (5, "faecal", "flotation"),
            (70, "cryptosporidium", ""),
        ]
    ):
        taken = day + timedelta(days=after)
        events.append(Sampled(10 * i + 10, taken, test, method))
        events.append(Resulted(10 * i + 11, taken, 10 * i + 10, Outcome.NEGATIVE))
    state = quarantines(events, shipped_protocols(), (day + timedelta(days=80)).date())[0]
    assert dict(negatives_by_method(state, "cryptosporidium-serpentis")) == {
        "cloacal-swab-qpcr": 1,
        "cloacal-acid-fast-smear": 1,
    }
    assert dict(negatives_by_method(state, "serpentovirus")) == {}
