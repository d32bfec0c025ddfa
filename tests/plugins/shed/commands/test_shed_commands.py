"""`warmside shed`, end to end."""

from __future__ import annotations

from pathlib import Path

import pytest

from warmside.testing import Keeper, copy_of, new_keeper

INTERVALS = ("--intervals", "34,41,38,40")


@pytest.fixture(scope="module")
def two_snakes(tmp_path_factory: pytest.TempPathFactory) -> Keeper:
    """What `keeper` copies, made once."""
    made = new_keeper(tmp_path_factory.mktemp("keeper"), plugins=["shed"])
    for name in ("Shelf", "Rock"):
        made.run("enclosure", "add", name)
    for name, hatched, place in (("Ember", "2021-06", "SHE"), ("Juno", "2025-08-01", "ROC")):
        made.run(
            *("animal", "add", name, "--species", "ball python"),
            *("--hatched", hatched, "--enclosure", place, "--since", "2024-01-01", "--confirm"),
        )
    return made


@pytest.fixture
def keeper(two_snakes: Keeper, tmp_path: Path) -> Keeper:
    return copy_of(two_snakes, tmp_path)


def shed(keeper: Keeper, *days: str, animal: str = "EMB", more: tuple[str, ...] = ()) -> None:
    for at in days:
        keeper.run("record", "shed", animal, "--at", at, *more)


FOUR = "2025-09-25", "2025-10-29", "2025-12-09", "2026-01-16"


def test_the_what_if_gives_the_four_ends_counted_from_the_last_shed(keeper: Keeper) -> None:
    found = keeper.json("shed", "forecast", *INTERVALS, "--elapsed", "20", "--stage", "adult")
    ends = [found[k] for k in ("low_90_days", "low_50_days", "high_50_days", "high_90_days")]
    assert ends == sorted(ends)
    assert 20 < ends[0] < 34
    assert 41 < ends[3] < 70
    assert found["life_stage"] == "adult"
    assert "adult prior" in found["middle_basis"]["rule"]


def test_the_stage_is_adult_unless_given_and_matters(keeper: Keeper) -> None:
    plain = keeper.json("shed", "forecast", *INTERVALS)
    assert (
        plain["low_90_days"]
        == keeper.json("shed", "forecast", *INTERVALS, "--stage", "adult")["low_90_days"]
    )
    young = keeper.json("shed", "forecast", *INTERVALS, "--stage", "juvenile")
    assert young["high_90_days"] < plain["high_90_days"]


def test_without_the_prior_only_the_intervals_speak(keeper: Keeper) -> None:
    found = keeper.json("shed", "forecast", *INTERVALS, "--no-prior")
    assert found["life_stage"] == "without a prior"
    assert found["middle_basis"]["mark"] == "keeper's own"


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((), "name an animal"),
        (("--intervals", "34,x"), "no number"),
        (("--intervals", "34,-2"), "below zero"),
        (("--intervals", "34,0"), "more than 0"),
        (("--intervals", "34,"), "intervals"),
        ((*INTERVALS, "--elapsed", "-3"), "below zero"),
        ((*INTERVALS, "--elapsed", "90000"), "cannot be"),
        ((*INTERVALS, "--stage", "old"), "juvenile, subadult, adult"),
        ((*INTERVALS, "--stage", "adult", "--no-prior"), "use one of them"),
        ((*INTERVALS, "--on", "today"), "there is no animal"),
        (("EMB", *INTERVALS), "an animal has its own"),
        (("EMB", "--elapsed", "3"), "an animal has its own"),
        (("--intervals", "30", "--no-prior"), "needs 2 intervals"),
        (("--intervals", "30,30", "--no-prior"), "all intervals are 30 days"),
    ],
)
def test_what_cannot_be_forecast_is_said_in_one_line(
    keeper: Keeper, arguments: tuple[str, ...], words: str
) -> None:
    result = keeper.run("shed", "forecast", *arguments, ok=False)
    assert result.code == 2
    assert words in result.stderr
    assert len(result.stderr.splitlines()) == 1
    assert result.stdout == ""


def test_an_animal_s_forecast_has_dates_and_days(keeper: Keeper) -> None:
    shed(keeper, *FOUR)
    found = keeper.json("shed", "forecast", "EMB")
    assert (found["last_shed"], found["elapsed_days"]) == ("2026-01-16", 48)
    what_if = keeper.json("shed", "forecast", "--intervals", "34,41,38", "--elapsed", "48")
    assert found["high_90_days"] == pytest.approx(what_if["high_90_days"])
    chances = {row["chance_percent"]: row for row in found["expected"]}
    assert set(chances) == {50, 90}
    assert chances[90]["low"] <= chances[50]["low"] < chances[50]["high"] < chances[90]["high"]
    assert len(chances[50]["events"]) == 4


def test_the_life_stage_follows_age_the_keepers_value_and_the_option(keeper: Keeper) -> None:
    shed(keeper, "2026-02-01", animal="JUN")
    assert keeper.json("shed", "forecast", "JUN")["life_stage"] == "juvenile"
    assert keeper.json("shed", "forecast", "JUN", "--stage", "adult")["life_stage"] == "adult"
    keeper.run("animal", "set", "JUN", "adult_age", "400d")
    assert keeper.json("shed", "forecast", "JUN")["life_stage"] == "subadult"


def test_an_animal_without_a_shed_is_told_what_to_record(keeper: Keeper) -> None:
    for command in ("show", "forecast"):
        result = keeper.run("shed", command, "EMB")
        assert "warmside record shed EMB" in " ".join(result.stdout.split())


def test_show_says_stage_window_and_what_to_do(keeper: Keeper) -> None:
    shed(keeper, *FOUR)
    keeper.run("record", "shedding", "EMB", "--stage", "opaque", "--at", "2026-03-03")
    found = keeper.json("shed", "show", "EMB")
    assert found["stage"] == "opaque since 2026-03-03"
    clear, by_stage = found["expected"][:2]
    assert (clear["what"], clear["low"], clear["high"]) == ("clear", "2026-03-05", "2026-03-07")
    assert (by_stage["what"], by_stage["low"]) == ("shed", "2026-03-07")
    advice = " ".join(row["do"] for row in found["advice"])
    assert "humid" in advice
    assert "Leave it alone" in advice
    assert "No food pressure" in advice
    assert {row["mark"] for row in found["advice"]} == {"common practice, no source"}


def test_a_script_that_says_nothing_of_a_shed_invents_no_good_one(keeper: Keeper) -> None:
    """It counts as a shed by its day, is looked after, and is in no comparison of bad sheds."""
    keeper.run("record", "climate", "SHE", "--humidity", "40", "--at", "2026-02-28")
    keeper.run("record", "shed", "EMB", "--at", "2026-03-04")
    with keeper.book() as book:
        (event,) = book.events("shed")
    assert event.data["outcome"] == "not said"
    assert keeper.json("history", "EMB")["events"][-1]["what"] == "shed"
    found = keeper.json("shed", "show", "EMB")
    assert (found["last_shed"], found["outcome"]) == ("2026-03-04", "not said")
    assert "old skin on eyes, tail tip, toes?" in {t["what"] for t in keeper.json("today")["tasks"]}
    why = keeper.json("shed", "why")
    assert [g["sheds"] for g in why["groups"]] == [0, 0, 0, 0]
    untold = "1 of 1 shed without a word on how it came off: warmside correct EVENT outcome=pieces"
    assert untold in {n["text"] for n in why["notes"]}
    keeper.run("correct", event.id, "outcome=pieces")
    assert keeper.json("shed", "why")["groups"][0]["wrong"] == 1


def test_show_as_of_a_day_knows_nothing_later(keeper: Keeper) -> None:
    shed(keeper, *FOUR)
    found = keeper.json("shed", "show", "EMB", "--on", "2025-11-01")
    assert found["last_shed"] == "2025-10-29"
    assert len(found["cycles"]) == 2


def test_a_retained_spectacle_comes_with_the_caution_never_to_pull(keeper: Keeper) -> None:
    shed(keeper, "2026-03-01", more=("--outcome", "pieces", "--retained", "spectacle"))
    told = " ".join(keeper.run("shed", "show", "EMB").stdout.split())
    assert "caution: Never pull a retained spectacle" in told
    keeper.run("record", "shed.checked", "EMB", "--found", "clean")
    found = keeper.json("shed", "show", "EMB")
    assert (found["retained"], found["still"]) == (["spectacle"], [])
    assert not any("spectacle" in row["do"] for row in found["advice"])


def test_show_without_a_name_lists_all_animals_with_sheds(keeper: Keeper) -> None:
    assert keeper.json("shed", "show")["animals"] == []
    shed(keeper, *FOUR)
    shed(keeper, "2026-03-01", animal="JUN", more=("--retained", "toes"))
    ember, juno = keeper.json("shed", "show")["animals"]
    assert (ember["code"], ember["rule"]) == ("EMB", "50 % chance")
    assert juno["note"] == "toes left on"


def test_a_doubt_stays_with_the_animal_after_it_left_the_round(keeper: Keeper) -> None:
    shed(keeper, "2025-06-01")
    shed(keeper, "2025-06-02", more=("--confirm",))
    findings = keeper.json("today").get("findings", [])
    assert "shed.twice" not in [f["code"] for f in findings]
    assert "is dated twice" in keeper.run("shed", "show", "EMB").stdout


def test_intervals_that_look_like_two_are_named(keeper: Keeper) -> None:
    days = "2025-05-01", "2025-06-10", "2025-07-20", "2025-08-29", "2025-11-17", "2025-12-27"
    shed(keeper, *days)
    told = " ".join(keeper.run("shed", "forecast", "EMB").stdout.split())
    assert "80 days from 2025-08-29 look like two intervals" in told


def test_cycles_draws_and_lists_them(keeper: Keeper) -> None:
    shed(keeper, *FOUR)
    found = keeper.json("shed", "cycles", "EMB")
    assert [c["interval_days"] for c in found["cycles"]] == [None, 34, 41, 38]
    assert found["timeline"]["start"] == "2025-03-05"
    rows = {r["title"]: r for r in found["timeline"]["rows"]}
    assert len(rows["shed"]["moments"]) == 4
    assert rows["next, 50 % in 90 %"]["spans"]
    since = keeper.json("shed", "cycles", "EMB", "--since", "2025-12-01")
    assert [c["interval_days"] for c in since["cycles"]] == [41, 38]


def test_cycles_from_the_future_are_refused(keeper: Keeper) -> None:
    result = keeper.run("shed", "cycles", "EMB", "--since", "tomorrow", ok=False)
    assert result.code == 2
    assert "give an earlier day" in result.stderr


def test_an_unknown_animal_is_not_found(keeper: Keeper) -> None:
    for command in ("show", "forecast", "cycles"):
        assert keeper.run("shed", command, "NIX", ok=False).code == 3


def test_why_says_not_enough_sheds_yet(keeper: Keeper) -> None:
    shed(keeper, *FOUR)
    found = keeper.json("shed", "why")
    assert [c["enough"] for c in found["comparisons"]] == [False, False]
    text = " ".join(keeper.run("shed", "why").stdout.split())
    assert "Not enough sheds yet" in text
    assert "4 of 4 sheds without humidity on record before" in text


def test_why_compares_dry_with_moist_air_where_the_animals_lived(keeper: Keeper) -> None:
    days = [f"2025-{m:02}-10" for m in range(3, 13)]
    for day in days:
        keeper.run("record", "climate", "SHE", "--humidity", "65%", "--at", day)
        keeper.run("record", "climate", "ROC", "--humidity", "35%", "--at", day)
    shed(keeper, *days, more=("--outcome", "one piece"))
    shed(keeper, *days[5:], animal="JUN", more=("--outcome", "pieces"))
    found = keeper.json("shed", "why")
    dry, moist = found["groups"][:2]
    assert (dry["wrong"], dry["sheds"], moist["wrong"], moist["sheds"]) == (5, 5, 0, 10)
    humidity = found["comparisons"][0]
    assert humidity["p_value"] < 0.01
    assert humidity["animals"] == 2
    assert "association, not a cause" in " ".join(keeper.run("shed", "why").stdout.split())
    other = keeper.json("shed", "why", "--humidity", "30%")
    assert other["groups"][0]["sheds"] == 0


@pytest.mark.parametrize("bad", [("--humidity", "120%"), ("--misted", "0")])
def test_why_refuses_what_parts_nothing(keeper: Keeper, bad: tuple[str, ...]) -> None:
    assert keeper.run("shed", "why", *bad, ok=False).code == 2


@pytest.mark.parametrize(
    "command", ["show EMB", "show", "forecast EMB", "cycles EMB", "why", "show JUN"]
)
@pytest.mark.parametrize("ending", ["pdf", "txt", "json"])
def test_every_answer_can_be_saved(
    keeper: Keeper, tmp_path: Path, command: str, ending: str
) -> None:
    shed(keeper, *FOUR)
    target = tmp_path / f"answer.{ending}"
    keeper.run("shed", *command.split(), "--save", str(target))
    assert target.stat().st_size > 100
