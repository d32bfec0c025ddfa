"""The shipped figures: every row can be read, has a source and a known mark."""

from __future__ import annotations

import pytest

from warmside.api import BadInput, Mark, sourced_rows
from warmside.plugins.quarantine.odds.methods import (
    PACKAGE,
    laboratory,
    method,
    methods,
    performance,
)
from warmside.plugins.quarantine.odds.prevalence import survey, surveys, surveys_of
from warmside.plugins.quarantine.protocol.flat import values
from warmside.plugins.quarantine.protocol.parsing import shipped_protocols
from warmside.plugins.quarantine.protocol.sources import source_of


def test_every_figure_has_a_source():
    for m in methods():
        assert m.source.text
        found = performance(m.key)
        assert found is None or all(s.text for s in found.sources)
    assert all(s.source.text for s in surveys())


def test_every_study_is_of_a_method_on_file():
    assert {s["method"] for s in sourced_rows(PACKAGE, "tests", "study")} <= {
        m.key for m in methods()
    }


def test_every_value_lies_in_its_interval():
    for s in surveys():
        assert 0 <= s.low <= s.value <= s.high <= 1
    for m in methods():
        found = performance(m.key)
        if found:
            assert 0 < found.sensitivity_low <= found.sensitivity_high <= 1


def test_every_value_of_a_protocol_has_a_source():
    for protocol in shipped_protocols().values():
        assert set(values(protocol)) == set(protocol.sources)


def test_every_method_that_a_protocol_accepts_is_on_file():
    for protocol in shipped_protocols().values():
        for test in protocol.tests:
            for key in test.methods:
                method(key)


def test_a_method_without_study_has_no_performance():
    assert performance("oral-swab-pcr") is None


def test_an_unprinted_specificity_is_said_to_be_assumed():
    assert performance("cloacal-acid-fast-smear").specificity_assumed
    assert not performance("cloacal-swab-qpcr").specificity_assumed


def test_the_laboratory_s_own_figures_are_the_keeper_s():
    found = laboratory(0.8, 0.9, 0.99)
    assert found.sources[0].mark is Mark.KEEPERS_OWN
    with pytest.raises(BadInput, match="sensitivity"):
        laboratory(0, 0.9)
    with pytest.raises(BadInput, match="specificity"):
        laboratory(0.8, 0.9, 0)


def test_unknown_names_suggest_a_near_miss():
    with pytest.raises(BadInput, match="did you mean 'oral-swab-pcr'"):
        method("oral-swap-pcr")
    with pytest.raises(BadInput, match="did you mean 'serpentovirus-boas'"):
        survey("serpentovirus-boa")


def test_surveys_are_found_by_agent():
    assert {s.agent for s in surveys_of("reptarenavirus", "boa")} == {"reptarenavirus"}
    assert surveys_of("nothing", "boa") == surveys_of("reptarenavirus", "gecko") == ()


def test_one_prior_does_not_mix_what_different_tests_measure():
    assert [s.key for s in surveys_of("reptarenavirus", "boa")] == ["reptarenavirus-boas-pcr"]


def test_no_figure_makes_one_negative_a_proof():
    found = [p for m in methods() if (p := performance(m.key)) is not None]
    assert found and all(p.sensitivity_high < 1 for p in found)
    assert performance("gastric-lavage-qpcr") is None  # 1.00 of nobody knows how many
    assert performance("gastric-biopsy-qpcr").sensitivity_high == pytest.approx(0.5 ** (1 / 8))


def test_a_method_is_for_the_animals_in_which_it_was_studied():
    assert method("gastric-swab-qpcr").applies_to("boa")
    assert not method("gastric-swab-qpcr").applies_to("gecko")
    assert method("flotation").applies_to("gecko")
    assert {m.agent for m in methods() if "cryptosporidium" in m.agent} == {
        "cryptosporidium-serpentis",
        "cryptosporidium-varanii",
    }


@pytest.mark.parametrize("row", [{}, {"source": " ", "mark": "published"}, {"source": "x"}])
def test_a_row_without_source_or_mark_is_refused(row):
    with pytest.raises(BadInput):
        source_of(row, "row")
