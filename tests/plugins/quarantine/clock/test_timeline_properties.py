"""What holds for every record of a quarantine, however odd."""

from __future__ import annotations

from datetime import datetime, timedelta
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from warmside.plugins.quarantine.clock.events import (
    Checked,
    Died,
    DiedBeside,
    Edited,
    Examined,
    Newcomer,
    Outcome,
    Released,
    Restarted,
    Resulted,
    Returned,
    Sampled,
    Started,
)
from warmside.plugins.quarantine.clock.timeline import quarantines
from warmside.plugins.quarantine.protocol.flat import with_overrides
from warmside.plugins.quarantine.protocol.parsing import shipped_protocols

DAY0 = datetime(2026, 3, 1)
SMALL = {
    name: with_overrides(
        protocol,
        {"days": 12, "tests.faecal.negatives": 2, "tests.faecal.spacing_days": 4},
    )
    for name, protocol in shipped_protocols().items()
}
TODAY = (DAY0 + timedelta(days=40)).date()
moments = st.integers(0, 90).map(lambda half: DAY0 + timedelta(hours=12 * half))


@st.composite
def records(draw, releases: bool = True):
    """A start and up to twenty events on a few days, with small ids that samples share."""
    names = st.sampled_from(["general", "short"])
    kinds = [
        lambda i, at: Newcomer(i, at, "B"),
        lambda i, at: Returned(i, at, "show"),
        lambda i, at: Restarted(i, at, "why"),
        lambda i, at: Sampled(i, at, "faecal", draw(st.sampled_from(["", "smear", "other"]))),
        lambda i, at: Sampled(i, at, "blood"),
        lambda i, at: Resulted(i, at, draw(st.integers(2, 21)), draw(st.sampled_from(Outcome))),
        lambda i, at: Resulted(i, at, draw(st.integers(2, 21)), Outcome.NEGATIVE),
        lambda i, at: Checked(i, at, "mites", draw(st.booleans())),
        lambda i, at: Checked(i, at, "weight"),
        lambda i, at: Examined(i, at),
        lambda i, at: DiedBeside(i, at, "B"),
        lambda i, at: Edited(i, at, (("days", str(draw(st.integers(1, 30)))),)),
        lambda i, at: Started(i, at, draw(names)),
    ]
    if releases:
        kinds += [lambda i, at: Released(i, at, "reason"), lambda i, at: Died(i, at)]
    events = [Started(1, DAY0, draw(names))]
    for i in range(2, 2 + draw(st.integers(0, 20))):
        events.append(draw(st.sampled_from(kinds))(i, draw(moments)))
    return events


def states(events):
    return quarantines(events, SMALL, TODAY)


@given(records(), st.randoms(use_true_random=False))
@settings(max_examples=150)
def test_the_order_in_which_events_come_does_not_matter(events, random):
    shuffled = list(events)
    random.shuffle(shuffled)
    assert states(shuffled) == states(events)


@given(records())
@settings(max_examples=150)
def test_the_end_is_never_before_the_clock_and_its_days(events):
    for state in states(events):
        assert state.clock_start >= state.started
        assert (state.days_over - state.clock_start).days == state.protocol.days
        assert state.earliest_end == (None if state.positives else state.days_over)
        assert all(r.day <= state.clock_start for r in state.restarts)
        if state.positives:
            assert state.earliest_release is None and not state.ready
        else:
            assert state.earliest_release >= min(state.days_over, state.as_of)
        if state.ready:
            assert state.as_of >= state.days_over


@given(records(releases=False), moments)
@settings(max_examples=150)
def test_a_restart_never_makes_the_end_earlier_nor_anything_ready(events, when):
    before = states(events)[0]
    after = states([*events, Restarted(99, when, "why")])[0]
    assert after.days_over >= before.days_over
    assert before.ready or not after.ready


@given(records(releases=False), st.data())
@settings(max_examples=150)
def test_taking_a_negative_away_never_makes_it_ready(events, data):
    negatives = [e for e in events if isinstance(e, Resulted) and e.outcome is Outcome.NEGATIVE]
    if not negatives:
        return
    gone = data.draw(st.sampled_from(negatives))
    before, after = states(events)[0], states([e for e in events if e is not gone])[0]
    assert before.ready or not after.ready
    for b, a in zip(before.tests, after.tests, strict=True):
        assert len(a.counted) <= len(b.counted)


@given(records())
@settings(max_examples=150)
def test_counted_negatives_keep_their_spacing_and_lie_after_the_clock(events):
    for state in states(events):
        for progress in state.tests:
            days = [s.day for s in progress.counted]
            gaps = [(b - a).days for a, b in pairwise(days)]
            assert all(gap >= progress.test.spacing_days for gap in gaps)
            assert all(day >= state.clock_start for day in days)


@given(records())
@settings(max_examples=150)
def test_quarantines_follow_each_other_and_only_the_last_can_run(events):
    found = states(events)
    assert len(found) >= 1
    assert all(not s.running for s in found[:-1])
    for a, b in pairwise(found):
        assert (a.died or a.release.day) <= b.started
