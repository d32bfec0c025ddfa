"""What a post had to say besides what it recorded stands on the screen after it."""

from __future__ import annotations

from typing import Any

from invented_pictures import jpeg
from page.phones import Phone, words_of
from page.test_camera import send
from warmside.api import Event, NewEvent
from warmside.page.app import Page
from warmside.testing import Keeper, throw_away_plugin


def noted(events: tuple[Event, ...]) -> list[NewEvent]:
    """An invented plugin's reaction: water is looked at by it."""
    return [
        NewEvent("cleaned", e.day, {"extent": "spot"}, None, e.enclosure_id, e.at)
        for e in events
        if e.kind == "watered"
    ]


def after(phone: Phone, answer: Any) -> str:
    assert answer.status_code == 303
    return phone.get(answer.headers["Location"]).text


def test_what_a_plugin_added_is_said_to_who_posted_it(
    phone: Phone, page: Page, keeper: Keeper
) -> None:
    with throw_away_plugin("tidy", warmside_events_recorded=noted):
        keeper.run("plugin", "enable", "tidy")
        answer = phone.fill("/WS.E.LOW", 'value="watered"')
        text = after(phone, answer)
        assert "Recorded: Low shelf (LOW): watered" in words_of(
            phone.get(answer.headers["Location"])
        )
        assert "Also recorded: Low shelf" in text
        other = Phone(page).pair(name="Ben")
        assert "Also recorded" not in other.get(answer.headers["Location"]).text


def test_a_plain_post_says_nothing_more(phone: Phone) -> None:
    answer = phone.fill("/WS.E.LOW", 'value="watered"')
    assert "said=" not in answer.headers["Location"]
    assert 'class="notice"' not in after(phone, answer)


def test_a_post_that_wrote_nothing_says_why(phone: Phone) -> None:
    assert "Recorded: took in 1 file" in after(phone, send(phone, "/WS.A.EMB", ("a.jpg", jpeg())))
    text = after(phone, send(phone, "/WS.A.EMB", ("a.jpg", jpeg())))
    assert 'class="notice"' in text and "on record" in text


def test_notices_are_kept_for_the_newest_posts_alone(page: Page) -> None:
    names = [page.said.keep("one", (f"line {n}",)) or "" for n in range(101)]
    assert page.said.of("one", names[0]) == ()
    assert page.said.of("one", names[-1]) == ("line 100",)
    assert page.said.of("two", names[-1]) == ()
