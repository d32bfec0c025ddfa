"""Every screen defers to a vet and calls no animal healthy; labels, report, risk, odds."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from warmside.api import About
from warmside.plugins.quarantine.telling.wording import DEFER, INDEPENDENCE
from warmside.testing import Keeper, copy_of

GECKO = ("--species", "leopard gecko")
SCREENS = (
    ("show",),
    ("show", "PEB"),
    ("show", "--ended"),
    ("show", "EMB"),
    ("start", "EMB"),
    ("sample", "PEB", "faecal"),
    ("check", "PEB", "mites", "--found"),
    ("restart", "PEB", "--because", "x"),
    ("edit", "PEB", "--set", "days=95"),
    ("release", "PEB", "--to", "SHE", "--override", "x"),
    ("risk", "PEB"),
    ("figures",),
    ("laboratory", "flotation", "--sensitivity", "0.6"),
    ("protocols",),
    ("protocol", "show", "long"),
    ("protocol", "edit", "long", "days=200"),
    ("odds", "--prior", "0.1", "--sensitivity", "0.6", "--negatives", "2"),
    ("odds", "--prevalence", "0.1", "--sensitivity", "0.6", "--sampled", "2"),
    (
        *("odds", "--prevalence", "0.1", "--sensitivity", "0.6", "--specificity", "0.9"),
        *("--sampled", "9", "--negatives", "8", "--free-before", "0.5"),
    ),
)
GROUP = ("odds", "--prevalence", "0.1", "--sensitivity", "0.5")


@pytest.fixture
def pebble(house: Keeper) -> Keeper:
    house.run("arrive", "Pebble", *GECKO, "--enclosure", "TUB")
    return house


@pytest.mark.parametrize("screen", SCREENS, ids=" ".join)
def test_every_screen_defers_to_a_vet(pebble: Keeper, screen: tuple[str, ...]) -> None:
    said = " ".join(pebble.run("quarantine", *screen).stdout.split())
    assert DEFER in said
    assert not re.search(r"\bhealthy\b", said.replace(DEFER, ""))


@pytest.mark.parametrize("screen", SCREENS, ids=" ".join)
def test_every_screen_fits_the_width_and_is_json_and_pdf(
    pebble: Keeper, screen: tuple[str, ...], tmp_path: Path
) -> None:
    page = tmp_path / "page.pdf"
    again = copy_of(pebble, tmp_path / "again")
    lines = pebble.run("quarantine", *screen, "--save", str(page)).stdout.splitlines()
    assert max(map(len, lines)) <= 80
    assert page.read_bytes().startswith(b"%PDF")
    assert again.json("quarantine", *screen)["format"] == 1


def test_show_answers_one_line_an_animal(pebble: Keeper) -> None:
    pebble.run("arrive", "Fern", *GECKO, "--enclosure", "ATT")
    pebble.pass_days(3)
    answer = pebble.json("quarantine", "show")
    assert [r["title"] for r in answer["timeline"]["rows"]] == ["FER", "PEB"]
    row = answer["quarantines"][1]
    assert (row["animal"], row["day"], row["days"]) == ("PEB", 3, 90)
    assert row["earliest_end"] == "2026-06-03"
    assert row["missing"][0] == "87 more days, until 2026-06-03"


def test_missing_things_say_when_they_become_possible(pebble: Keeper) -> None:
    missing = {m["what"]: m for m in pebble.json("quarantine", "show", "PEB")["missing"]}
    assert missing["days"]["possible_on"] == "2026-06-03"
    assert missing["tests.faecal"]["next_on"] == "2026-03-05"
    assert missing["tests.faecal"]["possible_on"] == "2026-04-02"


def test_label_lines_are_those_of_a_running_quarantine(pebble: Keeper) -> None:
    def lines(animal: str) -> dict[str, str]:
        with pebble.ask() as ask:
            about = About(ask.book.animal(animal).id)
            return {line.key: line.text for line in ask.label_lines(about, ask.book.today)}

    assert lines("EMB") == {}
    assert lines("PEB")["quarantine.since"] == "quarantine since 2026-03-05"
    assert lines("PEB")["quarantine.end"] == "earliest end 2026-06-03"
    assert "own tongs" in lines("PEB")["quarantine.tools"]
    pebble.run("quarantine", "release", "PEB", "--to", "SHE", "--override", "x")
    assert lines("PEB") == {}


def test_the_report_has_the_timeline_and_what_is_missing(pebble: Keeper) -> None:
    section = next(
        s for s in pebble.json("report", "PEB")["sections"] if s["title"] == "Quarantine"
    )
    assert section["timeline"]["rows"][0]["title"] == "PEB"
    assert section["missing"][0]["what"] == "days"
    titles = [s["title"] for s in pebble.json("report", "EMB")["sections"]]
    assert "Quarantine" not in titles


@pytest.fixture
def adder(house: Keeper) -> Keeper:
    """A corn snake in quarantine, of which a cloacal swab came back negative."""
    house.run("arrive", "Adder", "--species", "corn snake", "--enclosure", "TUB")
    house.run("quarantine", "edit", "ADD", "--set", "tests.cryptosporidium.negatives=2")
    house.run("quarantine", "sample", "ADD", "cryptosporidium", "--method", "cloacal-swab-qpcr")
    house.run("quarantine", "result", "ADD", "negative")
    return house


def test_risk_is_a_range_with_the_caveat_in_words(adder: Keeper) -> None:
    answer = adder.json("quarantine", "risk", "ADD", "--prior", "0.1")
    assert INDEPENDENCE in [n["text"] for n in answer["notes"]]
    by_method = {r["method"]: r for r in answer["risks"]}
    row = by_method["cloacal-swab-qpcr"]
    assert (row["agent"], row["negatives"]) == ("cryptosporidium-serpentis", 1)
    assert row["probability_free"] is None
    assert 0.9 < row["probability_free_low"] < row["probability_free_high"] < 1


def test_a_positive_leaves_no_chance_to_be_free(adder: Keeper) -> None:
    """Also after a vet visit: the formula holds for negatives alone."""
    swab = ("sample", "ADD", "cryptosporidium", "--method", "gastric-swab-qpcr")
    adder.run("quarantine", *swab)
    adder.run("quarantine", "result", "ADD", "positive")
    adder.run("record", "examined", "ADD", "--told", "sample again")
    answer = adder.json("quarantine", "risk", "ADD", "--prior", "0.1")
    rows = [r for r in answer["risks"] if r["agent"] == "cryptosporidium-serpentis"]
    assert [(r["next_test"], r["probability_free"]) for r in rows] == [("was positive", None)]
    assert any("no negatives undo it" in n["text"] for n in answer["notes"])


def test_the_laboratorys_own_figures_hold_before_the_published_ones(adder: Keeper) -> None:
    """Prior 0.10, sensitivity 0.57, one negative: 0.95440 by Bayes' rule."""
    adder.run("quarantine", "laboratory", "cloacal-swab-qpcr", "--sensitivity", "0.57")
    risk = ("quarantine", "risk", "ADD", "--prior", "0.1", "--agent", "cryptosporidium-serpentis")
    row = next(r for r in adder.json(*risk)["risks"] if r["method"] == "cloacal-swab-qpcr")
    assert row["probability_free_low"] == pytest.approx(0.95440, abs=1e-5)
    assert row["probability_free_high"] == pytest.approx(0.95440, abs=1e-5)
    adder.run("quarantine", "laboratory", "cloacal-swab-qpcr", "--drop")
    row = next(r for r in adder.json(*risk)["risks"] if r["method"] == "cloacal-swab-qpcr")
    assert row["probability_free_low"] < row["probability_free_high"]


def test_an_assay_of_snakes_says_nothing_of_a_gecko(pebble: Keeper) -> None:
    swab = ("sample", "PEB", "cryptosporidium", "--method", "cloacal-swab-qpcr")
    assert "studied in snakes only" in pebble.run("quarantine", *swab).stderr
    rows = pebble.json("quarantine", "risk", "PEB", "--agent", "cryptosporidium")["risks"]
    assert [r["agent"] for r in rows] == ["cryptosporidium-serpentis", "cryptosporidium-varanii"]
    for row in rows:
        assert row["method"] is row["probability_free"] is row.get("probability_free_low") is None
        assert row["more_for_95_percent"] is None and row["next_test"] == "no figure"
    agents = {r["agent"] for r in pebble.json("quarantine", "risk", "PEB")["risks"]}
    assert not agents & {"serpentovirus", "reptarenavirus", "ophidiomyces"}


@pytest.mark.parametrize(
    ("typed", "code"),
    [
        (("odds", "--prior", "1.5", "--sensitivity", "0.5"), 2),
        (("odds", "--prior", "-0.1", "--sensitivity", "0.5"), 2),
        (("odds", "--prior", "0.1", "--sensitivity", "0"), 2),
        (("odds", "--prior", "0.1", "--sensitivity", "nan"), 2),
        (("odds", "--prior", "0.1", "--sensitivity", "0.5", "--specificity", "0"), 2),
        (("odds", "--prior", "0.1", "--sensitivity", "0.5", "--negatives", "-1"), 2),
        (("odds", "--prior", "0.1", "--sensitivity", "0.5", "--population", "5"), 2),
        (("odds", "--prior", "0.1"), 2),
        (("odds", "--sensitivity", "0.5"), 2),
        (("odds", "--prior", "0.1", "--prevalence", "0.1", "--sensitivity", "0.5"), 2),
        (("odds", "--prevalence", "0", "--sensitivity", "0.5", "--sampled", "3"), 2),
        (("odds", "--prevalence", "0.1", "--sensitivity", "0.5"), 2),
        (
            (
                *("odds", "--prevalence", "0.1", "--sensitivity", "0.5"),
                *("--population", "5", "--sampled", "6"),
            ),
            2,
        ),
        (("odds", "--prevalence", "0.1", "--sensitivity", "0.5", "--target", "1"), 2),
        ((*GROUP, "--sampled", "3", "--negatives", "4"), 2),
        ((*GROUP, "--target", "0.9", "--negatives", "4"), 2),
        ((*GROUP, "--sampled", "3", "--cut-point", "2"), 2),
        ((*GROUP, "--sampled", "3", "--specificity", "0.9", "--cut-point", "4"), 2),
        ((*GROUP, "--sampled", "0", "--specificity", "0.9"), 2),
        ((*GROUP, "--sampled", "3", "--introduced", "0.1"), 2),
        ((*GROUP, "--sampled", "3", "--free-before", "1.1"), 2),
        (("odds", "--prior", "0.1", "--sensitivity", "0.5", "--free-before", "0.5"), 2),
        (("risk", "EMB"), 4),
        (("risk", "PEB", "--agent", "cryptospridium"), 3),
        (("risk", "PEB", "--survey", "nothing"), 2),
        (("risk", "PEB", "--prior", "2"), 2),
        (("laboratory", "nothing", "--sensitivity", "0.5"), 2),
        (("laboratory", "flotation"), 2),
        (("laboratory", "flotation", "--sensitivity", "0"), 2),
        (("laboratory", "flotation", "--sensitivity", "0.9", "--up-to", "0.5"), 2),
        (("laboratory", "flotation", "--drop"), 3),
        (("show", "NOBODY"), 3),
    ],
)
def test_bad_figures_are_one_line(pebble: Keeper, typed: tuple[str, ...], code: int) -> None:
    refused = pebble.run("quarantine", *typed, ok=False)
    assert refused.code == code, refused.stderr
    assert refused.stdout == ""
    assert len(refused.stderr.strip().splitlines()) == 1


def test_where_no_number_of_negatives_is_enough_it_is_said(pebble: Keeper) -> None:
    odds = ("quarantine", "odds", "--prior", "0.5", "--sensitivity", "0.5", "--specificity", "0.5")
    assert pebble.json(*odds)["negatives_for_95_percent"] is None
    assert "no number of such negatives" in pebble.run(*odds).stdout


def test_disabling_keeps_all_and_enabling_finds_it(pebble: Keeper) -> None:
    pebble.run("quarantine", "protocol", "edit", "general", "days=100")
    pebble.run("plugin", "disable", "quarantine")
    assert "quarantine.started" in pebble.run("history", "PEB").stdout
    pebble.pass_days(2)
    pebble.run("plugin", "enable", "quarantine")
    state = pebble.json("quarantine", "show", "PEB")
    assert (state["day"], state["days"]) == (2, 100)


def test_names_of_any_script_and_markup_pass(house: Keeper) -> None:
    for n, name in enumerate(("<b>Rex</b>", "{{7*7}}", "שלום", "🦎 Zip", "x" * 300)):
        house.run("arrive", name, *GECKO, "--enclosure", "TUB", "--code", f"N{n}")
        assert house.json("quarantine", "show", f"N{n}")["animal"] == f"N{n}"
    markup = "<img src=http://x/y>"
    house.run("quarantine", "restart", "N0", "--because", markup)
    assert house.json("quarantine", "show", "N0")["restarts"][-1]["words"] == markup
    refused = house.run("quarantine", "restart", "N0", "--because", "red \x1b[31m", ok=False)
    assert refused.code == 2
    assert "\x1b" not in refused.stderr


def test_a_sample_size_says_what_was_known_before(house: Keeper) -> None:
    """0.8 times 0.9 left by an introduction; fewer animals than where nothing was known."""
    size = ("quarantine", *GROUP, "--population", "400", "--target", "0.95")
    known = ("--free-before", "0.8", "--introduced", "0.1")
    assert house.json(*size, *known)["sample_size"] < house.json(*size)["sample_size"]
    said = " ".join(house.run(*size, *known).stdout.split())
    assert "free before with 0.72, afterwards with 0.95" in said
