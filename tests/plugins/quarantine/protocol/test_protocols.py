"""Protocols: reading, editing, refusing."""

from __future__ import annotations

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from warmside.core.values.basis import Mark
from warmside.core.values.errors import BadInput
from warmside.plugins.quarantine.protocol.flat import values, with_overrides
from warmside.plugins.quarantine.protocol.mites import cycle_of_mites
from warmside.plugins.quarantine.protocol.parsing import parse_protocols, shipped_protocols
from warmside.plugins.quarantine.protocol.sources import KEEPERS_OWN
from warmside.plugins.quarantine.protocol.terms import Cause, cautions

GENERAL = shipped_protocols()["general"]
OWN = """
[attic]
title = "attic"
group = "attic"
tools = "own tongs"
warning = ""
days = 60
result_wait_days = 14
[attic.tests.faecal]
title = "faecal examination"
methods = ["flotation"]
negatives = 2
spacing_days = 10
[attic.checks.mites]
title = "mite check"
every_days = 5
[attic.restarts]
newcomer_in_room = true
positive_test = true
mite_sighted = false
return = true
[attic.ends]
checks_up_to_date = false
"""


def own(text: str = OWN):
    return parse_protocols(tomllib.loads(text), KEEPERS_OWN)["attic"]


def test_a_keepers_own_file_is_read():
    protocol = own()
    assert (protocol.days, protocol.test("faecal").negatives) == (60, 2)
    assert protocol.restarts_on(Cause.NEWCOMER) and not protocol.restarts_on(Cause.MITES)
    assert protocol.sources["days"].mark is Mark.KEEPERS_OWN


def test_recheck_days_come_from_the_mites_unless_given():
    assert own().rechecks == cycle_of_mites()[0]
    given_days = own(OWN + "[attic.rechecks]\nfrom_day = 10\n").rechecks
    assert (given_days.from_day, given_days.to_day) == (10, cycle_of_mites()[0].to_day)


def test_a_value_without_source_is_refused_where_none_is_given():
    with pytest.raises(BadInput, match="protocol attic: title has no source"):
        parse_protocols(tomllib.loads(OWN))


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("days = 60", "dayz = 60", "no dayz .did you mean 'days'"),
        ("every_days = 5", "every_day = 5", "did you mean 'checks.mites.every_days'"),
        ("return = true", "returned = true", "did you mean 'restarts.return'"),
        ("days = 60", "", "days is missing"),
        ("negatives = 2", "", "tests.faecal.negatives is missing"),
        ("days = 60", "days = 0", "days is from 1 to"),
        ("days = 60", "days = -5", "days is from 1 to"),
        ("days = 60", "days = 9999", "days is from 1 to"),
        ("days = 60", "days = 60.5", "whole number"),
        ("days = 60", "days = true", "whole number"),
        ("spacing_days = 10", "spacing_days = 0", "spacing_days is from 1"),
        ('methods = ["flotation"]', "methods = [3]", "list of names"),
        ('methods = ["flotation"]', 'methods = ["<b>"]', "cannot have <b>"),
        ("mite_sighted = false", 'mite_sighted = "maybe"', "yes or no"),
        ('title = "attic"', f'title = "{"x" * 300}"', "300 characters"),
        ("[attic.tests.faecal]", "[attic.tests.FAECAL]", "no tests.FAECAL"),
    ],
)
def test_a_wrong_file_is_refused_naming_the_key(old, new, said):
    with pytest.raises(BadInput, match=f"protocol attic: .*{said}"):
        own(OWN.replace(old, new, 1))


def test_a_wrong_protocol_name_is_refused():
    with pytest.raises(BadInput, match="a name is lower-case"):
        parse_protocols({"The One": {}})
    with pytest.raises(BadInput, match="it is a table"):
        parse_protocols({"one": 3})


def test_edits_change_a_value_and_whose_it_is():
    edited = with_overrides(
        GENERAL,
        {"days": "120", "tests.faecal.negatives": "4", "checks.mites.every_days": 3},
    )
    assert edited.days == 120
    assert edited.test("faecal").negatives == 4
    assert edited.checks[0].every_days == 3
    assert edited.sources["days"].mark is Mark.KEEPERS_OWN
    assert edited.sources["result_wait_days"] == GENERAL.sources["result_wait_days"]
    assert GENERAL.days == 90


def test_typed_words_are_read():
    edited = with_overrides(
        GENERAL, {"restarts.mite_sighted": "no", "tests.faecal.methods": "smear, flotation"}
    )
    assert not edited.restarts_on(Cause.MITES)
    assert edited.test("faecal").methods == ("smear", "flotation")


@pytest.mark.parametrize(
    ("edit", "said"),
    [
        ({"tests.fecal.negatives": 4}, "did you mean 'tests.faecal.negatives'"),
        ({"dasy": 1}, "did you mean 'days'"),
        ({"zzz": 1}, "its keys: title"),
        ({"days": "-3"}, "from 1 to 1095, not -3"),
        ({"days": "soon"}, "whole number"),
        ({"days": "\x1b[31m"}, "whole number"),
        ({"rechecks.from_day": 60}, "is after"),
    ],
)
def test_wrong_edits_are_refused(edit, said):
    with pytest.raises(BadInput, match=said) as caught:
        with_overrides(GENERAL, edit)
    assert str(caught.value).isprintable()


@given(st.sampled_from(["general", "short", "long"]))
def test_editing_every_value_to_itself_changes_only_the_source(name):
    protocol = shipped_protocols()[name]
    edited = with_overrides(protocol, values(protocol))
    assert values(edited) == values(protocol)
    assert with_overrides(protocol, {}) == protocol


def test_short_quarantines_come_with_a_warning():
    assert cautions(shipped_protocols()["short"])
    assert cautions(GENERAL) == ()
    assert "below the floor" in cautions(with_overrides(GENERAL, {"days": 20}))[0]


def test_no_shipped_word_calls_an_animal_healthy():
    for protocol in shipped_protocols().values():
        words = " ".join(str(v) for v in values(protocol).values())
        assert "healthy" not in words
