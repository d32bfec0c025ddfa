"""A sitter sees and does what the keeper allowed, on every route, until the day is over."""

from __future__ import annotations

import re

import pytest

from page.phones import Clock, Phone, words_of
from warmside.core.values.errors import BadInput, NotFound
from warmside.page.app import Page
from warmside.page.phones.inviting import sitters_rights
from warmside.page.phones.people import Rights
from warmside.testing import Keeper


@pytest.fixture
def rights(keeper: Keeper) -> Rights:
    """Until 7 March, one enclosure."""
    with keeper.book() as book:
        return sitters_rights(
            book, "2026-03-07", ("low",), (), "Ann 0000 0000", "open the lid of HIGH"
        )


@pytest.fixture
def sitter(page: Page, rights: Rights) -> Phone:
    return Phone(page).pair(rights, "Ada")


def test_the_round_of_a_sitter_has_one_enclosure_and_the_keepers_words(sitter: Phone) -> None:
    text = sitter.get("/").text
    assert "fresh water, Low shelf" in text
    assert "Moss" not in text and "High shelf" not in text and "weigh" not in text
    assert 'Ann <a href="tel:00000000" class="call">0000 0000</a>' in text
    assert "open the lid of HIGH" in text and "to the end of <time>2026-03-07" in text
    assert "do not treat it" in text


def test_a_sitter_reads_which_vet_to_call(sitter: Phone, keeper: Keeper) -> None:
    keeper.run("plugin", "enable", "health")
    keeper.run("health", "vet", "Green practice", "--telephone", "01 234", "--reptiles", "yes")
    text = re.sub(r"</?(a|strong)[^>]*>", "", sitter.get("/").text)
    assert "vet: Green practice; treats reptiles; telephone 01 234" in text


def test_a_sitter_records_what_is_allowed_in_the_own_name(sitter: Phone, keeper: Keeper) -> None:
    assert sitter.fill("/", "fresh water, Low shelf").status_code == 303
    assert sitter.fill("/WS.E.LOW", "As last time", f_outcome="taken").status_code == 303
    assert [s["by"] for s in keeper.json("undo", "--list")["steps"]][:2] == ["Ada", "Ada"]


def test_other_enclosures_and_stories_are_shut(sitter: Phone) -> None:
    for path in ("/WS.E.HIGH", "/WS.A.MOS", "/report/EMB", "/events", "/history/EMB", "/log/EMB"):
        answer = sitter.get(path)
        assert answer.status_code in (404, 409), path
        assert "Moss" not in answer.text and "1.2 kg" not in answer.text


def test_what_is_for_keepers_is_shut(sitter: Phone) -> None:
    for path in (
        "/people",
        "/tell",
        "/tell.pdf?ask=sheet+vet&p.animal=EMB",
        "/log/EMB/weighed",
        "/events",
    ):
        assert sitter.get(path).status_code == 409, path


def test_posts_beyond_the_limits_are_refused(sitter: Phone, keeper: Keeper, phone: Phone) -> None:
    token = {"token": sitter.form("/WS.E.LOW", 'value="watered"')["token"]}
    before = keeper.json("undo", "--list")
    high = phone.form("/", "fresh water, High shelf")
    weigh = phone.form("/", "Save: weigh, Ember")
    for path, sent in (
        ("/record", {"kind": "weighed", "subject": "EMB", "f.mass_g": "1200"}),
        ("/record", {"kind": "watered", "subject": "HIGH"}),
        ("/record", {"kind": "watered", "subject": "MOS"}),
        ("/record", {"kind": "observed", "subject": "MOS", "f.what": "calm"}),
        ("/record", {"kind": "observed", "subject": "EMB,MOS", "f.what": "calm"}),
        ("/settle", {"task": high["task"].replace("&quot;", '"')}),
        ("/settle", {"task": weigh["task"], "value": "1200g"}),
        ("/settle", {"task": "rhythm||2|watered|fresh water"}),
        ("/redo", {}),
        ("/steps", {"subject": "LOW", "steps": "open all doors"}),
        ("/paper", {"ask": "labels print"}),
        ("/people/pair", {"name": "Eve"}),
        ("/people/sitter", {"name": "Eve", "until": "2027-01-01"}),
        ("/people/forget", {"name": "Ann"}),
    ):
        assert sitter.send(path, token | sent).status_code in (404, 409), (path, sent)
    assert keeper.json("undo", "--list") == before
    assert phone.get("/").status_code == 200


def test_a_sitter_takes_back_only_the_own_entries(
    sitter: Phone, phone: Phone, keeper: Keeper
) -> None:
    phone.fill("/WS.E.LOW", 'value="watered"')
    (theirs,) = [s["step"] for s in keeper.json("undo", "--list")["steps"] if s["by"] == "Ann"]
    sitter.fill("/WS.E.LOW", 'value="cleaned"')
    text = sitter.get("/history").text
    assert "cleaned" in text and "watered" not in text
    token = {"token": sitter.form("/history", "/undo")["token"]}
    assert sitter.send("/undo", token | {"step": str(theirs)}).status_code == 409
    assert sitter.fill("/history", "Undo step").status_code == 303


def test_it_is_over_by_itself_at_the_end_of_the_day_in_home_time(
    sitter: Phone, page: Page, clock: Clock
) -> None:
    # the last day ends at midnight in Vienna, which is 23:00 in UTC in winter (IANA tzdata)
    clock.now = clock.now.replace(day=7, hour=22, minute=59)
    assert sitter.get("/").status_code == 200
    clock.pass_time(minutes=1)
    assert sitter.get("/").status_code == 401
    assert sitter.send("/record", {"kind": "watered", "subject": "LOW"}).status_code == 401


def test_it_opens_by_itself_on_the_first_day_in_home_time(
    page: Page, keeper: Keeper, clock: Clock
) -> None:
    with keeper.book() as book:
        rights = sitters_rights(book, "2026-03-09", first="2026-03-07")
    early = Phone(page).pair(rights, "Ada")
    for answer in (early.get("/"), early.send("/record", {"kind": "watered", "subject": "LOW"})):
        assert answer.status_code == 403
    assert "from 2026-03-07 on" in early.get("/WS.E.LOW").text
    assert "Ember" not in early.get("/WS.E.LOW").text
    clock.now = clock.now.replace(day=6, hour=23, minute=1)  # 00:01 in Vienna, in winter
    assert "Ember" in early.get("/WS.E.LOW").text


def test_a_keeper_ticks_where_and_what_a_sitter_may(phone: Phone, page: Page) -> None:
    form = phone.form("/people", "sitter&#x27;s code")
    told = {"name": "Cleo", "until": "2026-03-09", "first": "2026-03-06", "may": "weighed"}
    assert phone.send(form.pop(""), form | told | {"only": "LOW"}).status_code == 200
    with page.devices._open() as connection:
        (text,) = connection.execute("SELECT rights FROM invitation").fetchone()
    assert '"kinds":["weighed"]' in text and '"enclosures":["LOW"]' in text
    assert '"begins":"2026-03-06T00:00:00+01:00"' in text
    refused = phone.send("/people/sitter", form | told | {"first": "2026-03-10"})
    assert refused.status_code == 400 and "is before 2026-03-10" in words_of(refused)


def test_people_says_what_each_did_last(phone: Phone, sitter: Phone) -> None:
    sitter.fill("/WS.E.LOW", 'value="watered"')
    assert "last: Low shelf (LOW): watered, 2026-03-05 " in phone.get("/people").text


def test_a_sitters_name_is_told_apart_from_that_of_another(page: Page, rights: Rights) -> None:
    for _ in range(2):
        Phone(page).pair(rights, "Ada")
    assert [d.name for d in page.devices.all()] == ["Ada", "Ada 2"]


def test_a_keeper_invites_a_sitter_on_the_page(phone: Phone, page: Page) -> None:
    shown = phone.fill(
        "/people", "sitter&#x27;s code", name="Cleo", until="2026-03-06", only="LOW, HIGH"
    )
    assert shown.status_code == 200 and "<svg" in shown.text
    code = shown.text.split("and type <code>")[1][:10]
    other = Phone(page)
    assert other.send("/pair", {"code": code}).status_code == 303
    assert "Cleo, sitter" in other.get("/").text


def test_a_sitter_of_the_past_or_of_no_enclosure_is_refused(keeper: Keeper) -> None:
    with keeper.book() as book:
        with pytest.raises(BadInput, match="is over"):
            sitters_rights(book, "2026-03-04")
        with pytest.raises(NotFound):
            sitters_rights(book, "tomorrow", ("NONE",))
