"""What keepers type: words of the trade, letters, several plugins at once."""

from __future__ import annotations

from pathlib import Path
from zoneinfo import available_timezones

import pytest

from warmside.cli.creating import in_the_us
from warmside.testing import Keeper, copy_of, new_keeper


@pytest.fixture(scope="module")
def ready(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """Dot in a shelf, and an enclosure that nobody lives in; made once."""
    keeper = new_keeper(tmp_path_factory.mktemp("typing"))
    for name in ("Low shelf", "Spare"):
        keeper.run("enclosure", "add", name)
    keeper.run("animal", "add", "Dot", "--species", "leopard gecko", "--enclosure", "LOW")
    return keeper


@pytest.fixture
def dot(ready: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(ready, tmp_path / "copy")


@pytest.mark.parametrize(
    ("typed", "kind", "field", "value"),
    [
        (("shedding", "DOT=blue"), "shedding", "stage", "opaque"),
        (("shedding", "dot=Opaque"), "shedding", "stage", "opaque"),
        (("blue", "DOT"), "shedding", "stage", "opaque"),
        (("Cleared", "dot"), "shedding", "stage", "clear"),
        (("blue", "DOT", "--stage", "dull"), "shedding", "stage", "dull"),
        (("refused", "DOT=cricket"), "fed", "outcome", "refused"),
        (("poop", "DOT=loose"), "defecated", "looks", "loose"),
        (("weight", "DOT=66"), "weighed", "mass_g", 66.0),
        (("climate", "LOW", "--warm", "31"), "climate", "warm_c", 31.0),
        (("examined", "DOT=a mild cold"), "examined", "told", "a mild cold"),
        (("treated", "DOT=eye drops"), "treated", "what", "eye drops"),
    ],
)
def test_a_word_of_the_trade_is_recorded_as_what_it_means(
    dot: Keeper, typed: tuple[str, ...], kind: str, field: str, value: object
) -> None:
    dot.run("record", *typed)
    with dot.book() as book:
        (event,) = book.events(kind)
    assert event.data[field] == value


@pytest.mark.parametrize(("typed", "sex"), [("f", "female"), ("M", "male"), ("Female", "female")])
def test_a_letter_says_the_sex(dot: Keeper, typed: str, sex: str) -> None:
    dot.run("animal", "change", "DOT", "--sex", typed)
    assert dot.json("animal", "show", "DOT")["sex"].startswith(sex)


def test_all_enclosures_are_those_that_are_lived_in(dot: Keeper) -> None:
    recorded = dot.json("record", "watered", "--all")["recorded"]
    assert [r["enclosure"] for r in recorded] == ["LOW"]
    dot.run("move", "DOT", "--to", "SPA")
    assert [r["enclosure"] for r in dot.json("record", "watered", "--all")["recorded"]] == ["SPA"]


def test_several_plugins_are_enabled_in_one_go(dot: Keeper) -> None:
    said = dot.run("plugin", "enable", "rhythm", "shed").stdout
    assert "enabled rhythm" in said and "enabled shed" in said
    more = dot.run("plugin", "enable", "rhythm", "papers").stdout
    assert "enabled papers" in more and "rhythm was enabled already" in more
    slip = dot.run("plugin", "enable", "weight", "shedd", ok=False)
    assert slip.code == 3 and "shedd" in slip.stderr
    dot.run("plugin", "enable", "weight")  # the slip had enabled nothing


def test_a_day_of_two_readings_is_never_guessed(dot: Keeper) -> None:
    refused = dot.run("record", "shed", "DOT", "--at", "3/4/2026", ok=False)
    assert "--dates 'day first' or 'month first'" in refused.complaint(2)
    dot.run("record", "shed", "DOT", "--at", "25/2/2026 21:15")  # which only one order allows
    dot.run("file", "change", "--dates", "Month-first")
    dot.run("record", "shed", "DOT", "--at", "3/4/26")
    assert "typed month first here" in dot.run(
        *("record", "shed", "DOT", "--at", "25/2/2026"), ok=False
    ).complaint(2)
    assert "month first already" in dot.run("file", "change", "--dates", "m", ok=False).complaint(4)
    with dot.book() as book:
        days = [e.day.isoformat() for e in book.events("shed")]
    assert days == ["2026-02-25", "2026-03-04"]
    dot.run("file", "check")
    dot.run("undo", "--yes")
    dot.run("undo", "--yes")
    with dot.book() as book:
        assert book.home.dates == ""


@pytest.mark.parametrize(
    ("typed", "hatched"),
    [("2020-03", "2020-03"), ("3/2020", "2020-03"), ("2020", "2020"), ("yesterday", "2026-03-04")],
)
def test_of_a_hatching_the_month_or_year_will_do(dot: Keeper, typed: str, hatched: str) -> None:
    dot.run("animal", "add", "Moss", "--species", "leopard gecko", "--hatched", typed)
    assert dot.json("animal", "show", "MOS")["hatched"] == hatched


def test_the_zones_of_the_us_are_known_by_the_iana_database() -> None:
    """Those whose country is US in zone.tab of the tzdata package: each of them, no other."""
    import importlib.resources

    table = (importlib.resources.files("tzdata") / "zoneinfo" / "zone.tab").read_text("utf-8")
    rows = [line.split("\t") for line in table.splitlines() if not line.startswith("#")]
    american = {row[2] for row in rows if row[0] == "US"}
    foreign = {row[2] for row in rows} - american
    assert american and all(in_the_us(zone) for zone in american)
    assert not any(in_the_us(zone) for zone in foreign)
    assert {"US/Eastern", "US/Pacific"} <= available_timezones() and in_the_us("US/Eastern")


def test_history_takes_a_month_or_a_year_for_the_ends_of_a_span(dot: Keeper) -> None:
    for day in ("2025-02-28", "2025-03-01", "2025-03-31", "2025-04-01"):
        dot.run("record", "observed", f"DOT={day}", "--at", day, "--confirm")

    def days(*typed: str) -> list[str]:
        return [
            e["day"] for e in dot.json("history", "DOT", "--kind", "observed", *typed)["events"]
        ]

    assert days("--since", "2025-03", "--until", "3/2025") == ["2025-03-01", "2025-03-31"]
    assert len(days("--until", "2025")) == 4 and days("--until", "2024") == []


def test_who_is_here_since_some_month_is_here_from_its_first_day_with_a_note(dot: Keeper) -> None:
    dot.run("animal", "add", "Fern", "--species", "leopard gecko", "--since", "2021-05")
    (kept,) = dot.json("history", "FER")["events"]
    assert (kept["day"], kept["note"]) == ("2021-05-01", "since some day of 2021-05")


@pytest.mark.parametrize(("at", "said"), [("2025-03", "a whole month"), ("2025", "a whole year")])
def test_what_happened_on_one_day_wants_the_day(dot: Keeper, at: str, said: str) -> None:
    result = dot.run("record", "weighed", "DOT=60", "--at", at, ok=False)
    assert result.code == 2 and said in result.stderr and "write it as 2026-03-05" in result.stderr


def test_one_event_is_told_in_a_sentence_and_several_share_their_time(dot: Keeper) -> None:
    dot.run("animal", "add", "Fern", "--species", "leopard gecko", "--enclosure", "LOW")
    one = dot.run("record", "weighed", "DOT=60").stdout
    assert "Dot (DOT), weighed: 60 g" in one and "---" not in one
    two = dot.run("record", "weighed", "DOT=61", "FER=55", "--at", "today").stdout
    assert two.count("2026-03-05") == 1
    assert {e["when"] for e in dot.json("record", "observed", "DOT=a", "FER=b")["recorded"]}
