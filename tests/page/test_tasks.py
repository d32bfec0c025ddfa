"""What a keeper does at the rack: look, log, be asked back, take back."""

from __future__ import annotations

import io
import re
from datetime import date
from typing import Any

import pytest
from pypdf import PdfReader

from page.phones import Clock, Phone, words_of
from warmside.core.plugins.hook_values import Task
from warmside.core.record import tables
from warmside.core.values.about import About
from warmside.core.values.basis import Basis
from warmside.core.values.errors import Refused
from warmside.page.app import Page
from warmside.page.phones.people import Rights
from warmside.page.visits.asked import Asked, Blank
from warmside.testing import Keeper, throw_away_plugin


def last_event(keeper: Keeper) -> dict[str, Any]:
    event: dict[str, Any] = keeper.json("history", "--last", "1")["events"][-1]
    return event


def test_the_round_shows_each_task_with_its_reason_and_a_button(phone: Phone) -> None:
    text = phone.get("/").text
    assert "fresh water" in text and "weigh" in text
    assert text.count('action="/settle"') >= 3
    assert "LOW" in text and "Why" in text


def test_water_is_settled_by_one_post_and_leaves_the_round(phone: Phone, keeper: Keeper) -> None:
    answer = phone.fill("/", "fresh water, Low shelf")
    assert answer.status_code == 303 and answer.location.startswith("/?step=")
    after = phone.get(answer.location).text
    assert "Recorded: " in after and "fresh water, Low shelf" not in after
    event = last_event(keeper)
    assert (event["kind"], event["enclosure"]) == ("watered", "LOW")


def test_a_task_that_its_plugin_settles_has_a_line_for_what_it_asks(
    phone: Phone, keeper: Keeper
) -> None:
    def asked(book: Any, on: date) -> list[Task]:
        place = About(enclosure_id=book.enclosure("LOW").id)
        done = "hides" in book.enclosure("LOW").note
        asks = ("how many hides there are", "2")
        return [] if done else [Task("count the hides", on, Basis("r"), place, asks=asks)]

    def settled(writer: Any, task: Task, value: str) -> list[str]:
        writer.change(tables.enclosure, {"id": task.about.enclosure_id}, note=f"{value} hides")
        return [f"{value} hides"]

    with throw_away_plugin("alder", warmside_tasks=asked, warmside_settle=settled):
        keeper.run("plugin", "enable", "alder")
        assert "How many hides there are" in phone.get("/").text
        phone.fill("/", "count the hides", value="3")
        assert "count the hides" not in phone.get("/").text
    assert keeper.json("enclosure", "show", "LOW")["note"] == "3 hides"


def test_a_label_opens_its_enclosure_in_capitals_and_in_small_letters(phone: Phone) -> None:
    for path in ("/WS.E.LOW", "/ws.e.low", "/WS.E.low"):
        text = phone.get(path).text
        assert "Ember" in text and "fresh water" in text, path
        assert "Moss" not in text


def test_the_last_meal_is_logged_again_with_what_came_of_it(phone: Phone, keeper: Keeper) -> None:
    phone.fill("/WS.E.LOW", "As last time", f_outcome="refused")
    event = last_event(keeper)
    assert event["kind"] == "fed" and event["animal"] == "EMB"
    assert event["data"] == {
        "item": "rat",
        "count": 1,
        "mass_g": 40.0,
        "form": None,
        "outcome": "refused",
    }


@pytest.mark.parametrize(
    ("typed", "grams"), [("1250", 1250.0), ("1250,5", 1250.5), ("1250.5", 1250.5)]
)
def test_a_weight_is_understood_with_comma_and_with_point(
    phone: Phone, keeper: Keeper, typed: str, grams: float
) -> None:
    phone.fill("/WS.A.EMB", "Save: weigh, Ember", value=typed)
    assert last_event(keeper)["data"]["mass_g"] == grams


def test_a_doubt_is_asked_with_its_reason_and_confirmed(phone: Phone, keeper: Keeper) -> None:
    asked = phone.fill("/WS.A.EMB", "Save: weigh, Ember", value="12000")
    assert asked.status_code == 409
    assert "10 times the last weight" in asked.text and "It is right, record it" in asked.text
    assert last_event(keeper)["kind"] != "weighed"
    again = dict(re.findall(r'<input type="hidden" name="([^"]*)" value="([^"]*)">', asked.text))
    assert phone.send("/settle", again).status_code == 303
    assert last_event(keeper)["data"]["mass_g"] == 12_000.0


def test_a_value_that_cannot_be_used_is_told_and_nothing_is_written(
    phone: Phone, keeper: Keeper
) -> None:
    before = keeper.json("history")["events"]
    answer = phone.fill("/WS.A.EMB", "Save: weigh, Ember", value="heavy")
    assert answer.status_code == 400
    assert "heavy" in answer.text and "Nothing was written" in answer.text
    assert keeper.json("history")["events"] == before


def test_undo_takes_back_the_step_that_was_just_recorded(phone: Phone, keeper: Keeper) -> None:
    answer = phone.fill("/WS.E.LOW", 'value="watered"')
    where = answer.location
    undone = phone.fill(where, 'action="/undo"')
    assert undone.status_code == 303 and "undone=" in undone.location
    assert "Taken back" in phone.get(undone.location).text
    assert last_event(keeper)["kind"] != "watered" or last_event(keeper)["day"] != "2026-03-05"
    again = phone.fill(undone.location, 'action="/redo"')
    assert "Recorded: " in phone.get(again.location).text
    assert last_event(keeper)["day"] == "2026-03-05"


def test_history_says_who_did_each_step_and_takes_any_of_them_back(
    phone: Phone, page: Page, keeper: Keeper
) -> None:
    other = Phone(page).pair(name="Ben")
    other.fill("/WS.E.LOW", 'value="watered"')
    text = phone.get("/history").text
    assert "by Ben" in text and "at the desk" in text
    rows = keeper.json("undo", "--list")["steps"]
    assert rows[0]["by"] == "Ben"
    phone.fill("/history", f"Undo step {rows[0]['step']}")
    assert keeper.json("undo", "--list")["steps"][0]["by"] == "Ann"


def test_a_post_that_is_sent_twice_is_written_once(phone: Phone, keeper: Keeper) -> None:
    for path, having in (("/WS.E.LOW", 'value="watered"'), ("/", "fresh water, High shelf")):
        form = phone.form(path, having)
        action = form.pop("")
        before = len(keeper.json("history", "--last", "99")["events"])
        first, again = phone.send(action, form), phone.send(action, form)
        assert first.status_code == again.status_code == 303
        assert first.location == again.location
        assert len(keeper.json("history", "--last", "99")["events"]) == before + 1


def test_what_waited_in_the_phone_is_recorded_with_its_own_time(
    phone: Phone, keeper: Keeper
) -> None:
    form = phone.form("/WS.E.LOW", 'value="watered"')
    phone.send(form.pop(""), form | {"age": "7200"})
    assert last_event(keeper)["at"] == "2026-03-05T10:00:00Z"  # two hours before noon UTC


def test_an_age_that_is_no_number_is_refused(phone: Phone) -> None:
    form = phone.form("/WS.E.LOW", 'value="watered"')
    action = form.pop("")
    for age in ("-5", "1e9", "²", "9" * 14):
        assert phone.send(action, form | {"age": age}).status_code == 400


def test_search_leads_to_what_was_typed_from_a_label_or_by_name(phone: Phone) -> None:
    for typed, to in (
        ("low", "/WS.E.LOW"),
        ("WS.E.HIGH", "/WS.E.HIGH"),
        ("HTTP://X.TEST/WS.A.EMB", "/WS.A.EMB"),
        ("Moss", "/WS.A.MOS"),
    ):
        assert phone.get("/find", query_string={"q": typed}).location == to
    assert "leopard gecko" in phone.get("/find?q=gecko").text
    assert "Nothing is called" in phone.get("/find?q=xyz").text


def test_every_kind_of_a_plugin_has_a_form_without_code_of_its_own(
    phone: Phone, keeper: Keeper
) -> None:
    text = phone.get("/log/EMB").text
    assert "/log/EMB/feeding.dusted" in text and "/log/EMB/examined" in text
    phone.fill(
        "/log/EMB/examined", 'value="examined"', f_told="come again", note="", at="yesterday"
    )
    event = last_event(keeper)
    assert (event["kind"], event["day"]) == ("examined", "2026-03-04")


def test_what_was_recorded_before_is_offered_first(phone: Phone) -> None:
    first, others = phone.get("/log/EMB").text.split("<details>")
    assert [w for w in ("/fed", "/weighed", "/died") if f"/log/EMB{w}" in first] == [
        "/fed",
        "/weighed",
    ]
    assert "/log/EMB/died" in others and "/log/EMB/shed" in others
    assert "/log/LOW/watered" in phone.get("/log/LOW").text.split("<details>")[0]


def test_the_newest_that_happened_stands_first(phone: Phone) -> None:
    phone.fill("/WS.E.LOW", 'value="watered"')
    said = words_of(phone.get("/events"))
    assert said.index("2026-03-05") < said.index("2026-03-01") < said.index("2026-01-01")


def test_what_plugins_tell_is_a_form_and_shows_its_answer(phone: Phone) -> None:
    assert "ask=rhythm+list" in phone.get("/tell").text
    text = phone.get("/tell", query_string={"ask": "rhythm list", "go": "1"}).text
    assert "watered" in text


def test_commands_that_write_are_not_offered_and_would_be_refused(
    phone: Phone, page: Page, keeper: Keeper
) -> None:
    text = phone.get("/tell").text
    assert "ask=rhythm+list" in text and "ask=animal+list" in text
    for command in ("rhythm set", "feeding stock add", "animal add", "labels calibrate set"):
        assert f"ask={command.replace(' ', '+')}" not in text
    before = keeper.json("undo", "--list")["steps"]
    asked = Asked("rhythm set", "", (Blank("kind", ""), Blank("every", "")))
    given = {"kind": "watered", "every": "9"}
    with pytest.raises(Refused, match="the page only shows"):
        page.commands.answer(asked, given, page.live.session())
    assert keeper.json("undo", "--list")["steps"] == before


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ("ask=sheet+vet&p.animal=EMB&p.reason=wheezes", "wheezes"),
        ("ask=sheet+sitter&p.until=tomorrow&p.call=Ann+0000%0D%0ABen+1111", "Ben 1111"),
        ("ask=sheet+owner&p.animal=EMB&p.to=Cleo", "Cleo"),
        ("ask=sheet+emergency&p.call=Ann+0000", "Ann 0000"),
    ],
)
def test_a_sheet_is_shown_on_the_phone_and_printed_from_it(
    phone: Phone, asked: str, said: str
) -> None:
    shown = phone.get(f"/tell?{asked}&go=1").text
    assert "____" not in shown and "--save" not in shown  # for pen and command line
    assert said in shown and "As a PDF, to print" in shown and 'role="status"' not in shown
    printed = phone.get(f"/tell.pdf?{asked}&go=1")
    assert printed.mimetype == "application/pdf"
    words = " ".join(p.extract_text() for p in PdfReader(io.BytesIO(printed.data)).pages)
    assert said in words


def test_an_animal_leads_to_the_sheet_for_a_vet_with_its_code_filled_in(phone: Phone) -> None:
    assert 'href="/tell?ask=sheet+vet&amp;p.animal=EMB"' in phone.get("/WS.A.EMB").text
    assert 'name="p.animal" value="EMB"' in phone.get("/tell?ask=sheet+vet&p.animal=EMB").text


def test_an_animal_shows_what_plugins_tell_of_it(phone: Phone) -> None:
    text = phone.get("/WS.A.EMB").text
    assert "<summary>Feeding</summary>" in text and "next meal from" in text


def test_the_story_has_drawings_and_no_hints_for_a_command_line(phone: Phone) -> None:
    answer = phone.get("/report/EMB")
    assert "Ember" in answer.text and "weighed: 1.2 kg" in words_of(answer)
    assert 'class="hint"' not in answer.text


def test_text_of_a_keeper_is_never_markup(phone: Phone, keeper: Keeper) -> None:
    evil = '<img src=x onerror="alert(1)">'
    keeper.run("record", "observed", "EMB", "--what", evil)
    keeper.run("animal", "change", "EMB", "--note", evil)
    for path in ("/report/EMB", "/WS.A.EMB", "/history", "/events", f"/find?q={evil}"):
        text = phone.get(path).text
        assert "<img" not in text, path


def test_what_is_switched_or_recorded_at_the_desk_is_seen_by_the_next_request(
    phone: Phone, keeper: Keeper
) -> None:
    assert phone.get("/").text.count("fresh water, ") == 2
    keeper.run("record", "watered", "LOW")
    assert phone.get("/").text.count("fresh water, ") == 1
    keeper.run("plugin", "disable", "rhythm")
    assert "fresh water, " not in phone.get("/").text


def test_the_round_goes_on_with_the_clock(phone: Phone, keeper: Keeper, clock: Clock) -> None:
    keeper.run("record", "watered", "--all")
    assert "fresh water" not in phone.get("/").text
    clock.pass_time(days=3)
    text = phone.get("/").text
    assert "fresh water" in text and "2026-03-08" in text


def test_numbers_of_tasks_at_the_desk_stay_what_they_were(phone: Phone, keeper: Keeper) -> None:
    keeper.run("today")
    tasks = keeper.json("today")["tasks"]
    weigh = next(t["number"] for t in tasks if t["what"] == "weigh" and t["animal"] == "EMB")
    phone.fill("/", "fresh water, Low shelf")
    phone.get("/")
    keeper.run("done", f"{weigh}=1210g")
    assert last_event(keeper)["data"] == {"mass_g": 1210.0}


def test_values_are_shown_and_understood_in_the_units_of_the_collection(
    phone: Phone, keeper: Keeper
) -> None:
    keeper.run("file", "change", "--units", "imperial")
    text = phone.get("/WS.A.EMB").text
    assert "(oz)" in text
    phone.fill("/WS.A.EMB", "Save: weigh, Ember", value="42")
    assert last_event(keeper)["data"]["mass_g"] == pytest.approx(42 * 28.349523125)


def test_a_viewed_page_is_kept_until_somebody_writes(phone: Phone, page: Page) -> None:
    made: list[int] = []
    for _ in range(3):
        page.cache.get("seen", lambda: made.append(1))
    phone.fill("/WS.E.LOW", 'value="watered"')
    page.cache.get("seen", lambda: made.append(2))
    assert made == [1, 2]


def test_what_is_kept_is_of_the_file_as_it_is_and_bounded(phone: Phone, page: Page) -> None:
    for number in range(100):
        page.cache.get(number, lambda: "a screen")
    assert len(page.cache._kept) == 64
    phone.fill("/WS.E.LOW", 'value="watered"')
    for number in range(100):
        assert phone.get(f"/WS.E.NONE{number}").status_code == 404
    phone.get("/WS.E.LOW")
    whose = {key[0] for key in page.cache._kept}
    assert whose == {("E", "LOW")} and len(page.cache._making) == 1


def test_two_keepers_see_each_others_entries(page: Page) -> None:
    ann, ben = Phone(page).pair(Rights(), "Ann"), Phone(page).pair(Rights(), "Ben")
    form = ben.form("/", "fresh water, Low shelf")
    ann.fill("/", "fresh water, Low shelf")
    late = ben.send(form.pop(""), {n: v.replace("&quot;", '"') for n, v in form.items()})
    assert late.status_code == 409
    said = words_of(late)
    assert "That is done already: watered, 2026-03-05 " in said and "by Ann" in said


def test_who_takes_back_a_step_second_is_told_who_was_first(page: Page, keeper: Keeper) -> None:
    ann, ben = Phone(page).pair(Rights(), "Ann"), Phone(page).pair(Rights(), "Ben")
    ann.fill("/WS.E.LOW", 'value="watered"')
    form = ben.form("/history", "Undo step")
    assert ann.fill("/history", "Undo step").status_code == 303
    late = ben.send("/undo", form)
    assert late.status_code == 409
    assert "Taken back already: 2026-03-05 " in words_of(late) and "by Ann" in late.text
    assert "taken back already: 2026-03-05 " in words_of(ben.get("/history"))
