"""Who is let in, and what a request of others may not do."""

from __future__ import annotations

import stat
import sys

from page.phones import HOST, ORIGIN, Clock, Phone
from warmside.page.app import Page
from warmside.page.phones.doors import local
from warmside.page.phones.people import Rights
from warmside.page.serving import hosts_of, is_home_address
from warmside.testing import Keeper

EVERY_SCREEN = (
    "/",
    "/WS.E.LOW",
    "/WS.A.EMB",
    "/history",
    "/history/EMB",
    "/events",
    "/report/EMB",
    "/log/EMB",
    "/log/EMB/fed",
    "/find",
    "/tell",
    "/people",
    "/help",
    "/steps/LOW",
)
PAPER = "/tell.pdf?ask=shed+show"
EVERY_POST = (
    "/record",
    "/settle",
    "/undo",
    "/redo",
    "/picture",
    "/paper",
    "/steps",
    "/people/pair",
    "/people/sitter",
    "/people/forget",
)


def test_every_screen_opens_for_a_keeper_and_for_nobody_who_is_not_paired(
    phone: Phone, page: Page
) -> None:
    stranger = Phone(page)
    for path in (*EVERY_SCREEN, PAPER):
        assert phone.get(path).status_code == 200, path
        told = stranger.get(path)
        assert told.status_code == 401, path
        for secret in ("Ember", "EMB", "LOW", "python", "Test room", "Ann"):
            assert secret not in told.text, path


def test_no_post_is_taken_from_who_is_not_paired(page: Page) -> None:
    for path in EVERY_POST:
        assert Phone(page).send(path, {"name": "Eve"}).status_code == 401, path


def test_opening_an_address_writes_nothing(phone: Phone, keeper: Keeper) -> None:
    before = keeper.path.read_bytes()
    for path in EVERY_SCREEN:
        assert phone.get(path).status_code == 200, path
    for path in EVERY_POST:
        assert phone.get(path).status_code == 405, path
    assert keeper.path.read_bytes() == before


def test_another_name_for_this_machine_is_misdirected(phone: Phone) -> None:
    for host in ("evil.test", "evil.test:8420", "rack.test", f"evil-{HOST}", "127.0.0.1:8420"):
        answer = phone.client.get("/", base_url=f"http://{host}")
        assert answer.status_code == 421, host
        assert "Ember" not in answer.text


ELSEWHERE: tuple[tuple[str | None, dict[str, str]], ...] = (
    (None, {}),
    ("null", {}),
    ("http://evil.test", {}),
    ("http://evil.test:8420", {}),
    (f"{ORIGIN}.evil.test", {}),
    (f"ftp://{HOST}", {}),
    (ORIGIN, {"Sec-Fetch-Site": "cross-site"}),
    (ORIGIN, {"Sec-Fetch-Site": "same-site"}),
    (ORIGIN, {"Sec-Fetch-Site": "none"}),
)


def test_a_post_from_elsewhere_is_refused(phone: Phone, keeper: Keeper) -> None:
    form = phone.form("/WS.E.LOW", 'value="watered"')
    action, before = form.pop(""), keeper.path.read_bytes()
    for origin, more in ELSEWHERE:
        assert phone.send(action, form, origin=origin, **more).status_code == 403, (origin, more)
        assert phone.send("/pair", {"code": "X"}, origin=origin, **more).status_code == 403
    assert keeper.path.read_bytes() == before
    assert phone.send(action, form).status_code == 303


def test_a_post_needs_the_token_of_its_own_phone(phone: Phone, page: Page) -> None:
    form = phone.form("/WS.E.LOW", 'value="watered"')
    action = form.pop("")
    other = Phone(page).pair(name="Ben").form("/WS.E.LOW", 'value="watered"')
    for token in ("", "0" * 32, other["token"], "ü"):
        assert phone.send(action, form | {"token": token}).status_code == 403
    assert phone.send(action, form, **{"Sec-Fetch-Site": "same-origin"}).status_code == 303


def test_a_post_leads_back_to_this_page_only(phone: Phone) -> None:
    for back in ("//evil.test", "http://evil.test/", "/\\evil.test", "/a\nb", "javascript:x", ""):
        assert local(back) == "/", back
        form = phone.form("/WS.E.LOW", 'value="watered"')
        answer = phone.send(form.pop(""), form | {"back": back})
        assert answer.status_code == 303 and answer.location.startswith("/?step="), back


def test_a_browser_is_told_to_load_nothing_from_elsewhere(phone: Phone) -> None:
    for path in (*EVERY_SCREEN, "/style.css", "/pair", "/nothing-here"):
        headers = phone.get(path).headers
        policy = headers["Content-Security-Policy"]
        assert "default-src 'none'" in policy and "frame-ancestors 'none'" in policy
        assert "unsafe" not in policy
        assert headers["Referrer-Policy"] == "same-origin"
        assert headers["X-Content-Type-Options"] == "nosniff"
    text = "".join(phone.get(path).text for path in EVERY_SCREEN)
    assert " style=" not in text and "<style" not in text and " onclick" not in text
    assert "http://" not in text.replace("http://www.w3.org/2000/svg", "")


def test_a_code_pairs_one_phone_once(page: Page) -> None:
    code = page.devices.invite("Ann", Rights(), page.now()).code
    first = Phone(page)
    shown = first.get(f"/pair?c={code}")
    assert shown.status_code == 200 and "Set-Cookie" not in shown.headers  # a camera looks ahead
    paired = first.send("/pair", {"code": f"{code[:5].lower()}-{code[5:]}"})
    assert paired.status_code == 303
    cookie = paired.headers["Set-Cookie"]
    assert "HttpOnly" in cookie and "SameSite=Lax" in cookie and "Path=/" in cookie
    assert first.get("/").status_code == 200
    assert Phone(page).send("/pair", {"code": code}).status_code == 403


def test_a_code_is_good_for_ten_minutes(page: Page, clock: Clock) -> None:
    codes = [page.devices.invite("Ann", Rights(), page.now()).code for _ in range(2)]
    clock.pass_time(minutes=9, seconds=59)
    assert Phone(page).send("/pair", {"code": codes[0]}).status_code == 303
    clock.pass_time(seconds=1)
    assert Phone(page).send("/pair", {"code": codes[1]}).status_code == 403


def test_wrong_codes_are_slowed_down_and_nobody_is_locked_out(page: Page, clock: Clock) -> None:
    phone = Phone(page)
    answers = [phone.send("/pair", {"code": f"WRONG{n}"}).status_code for n in range(7)]
    assert answers == [403] * 5 + [429] * 2
    code = page.devices.invite("Ann", Rights(), page.now()).code
    clock.pass_time(seconds=61)
    assert phone.send("/pair", {"code": code}).status_code == 303


def test_wrong_codes_from_many_addresses_are_capped_together(page: Page) -> None:
    for n in range(20):
        address = f"192.168.1.{n}"
        assert page.throttle.allows(address)
        page.throttle.wrong(address)
    assert not page.throttle.allows("192.168.1.99")


def test_the_list_of_phones_holds_no_key_and_only_its_owner_may_read_it(
    phone: Phone, page: Page
) -> None:
    cookie = phone.client.get_cookie("warmside_page", domain="rack.test")
    assert cookie is not None
    text = page.devices.path.read_bytes()
    assert cookie.value.partition(".")[2].encode() not in text
    if sys.platform != "win32":
        assert stat.S_IMODE(page.devices.path.stat().st_mode) == 0o600
        assert stat.S_IMODE(page.devices.path.parent.stat().st_mode) == 0o700


def test_a_forgotten_phone_is_shut_out_at_its_next_request(phone: Phone, page: Page) -> None:
    other = Phone(page).pair(name="Ben")
    assert other.get("/").status_code == 200
    phone.fill("/people", "Forget Ben")
    assert other.get("/").status_code == 401
    assert phone.get("/").status_code == 200


def test_odd_posts_are_told_in_words_and_write_nothing(phone: Phone, keeper: Keeper) -> None:
    token = {"token": phone.form("/WS.E.LOW", 'value="watered"')["token"]}
    before = keeper.json("undo", "--list")
    for odd in (
        {},
        {"kind": "nonsense", "subject": "EMB"},
        {"kind": "weighed", "subject": "NOBODY", "f.mass_g": "5"},
        {"kind": "weighed", "subject": "EMB", "f.colour": "red"},
        {"kind": "weighed", "subject": "EMB", "f.mass_g": "nan"},
        {"kind": "weighed", "subject": "EMB", "f.mass_g": "\x00"},
        {"task": "no|such|task"},
        {"step": "-1"},
        {"step": "9" * 400},
        {"step": "77"},
    ):
        for path in ("/record", "/settle", "/undo"):
            answer = phone.send(path, token | odd)
            assert answer.status_code in (400, 404, 409), (path, odd, answer.text)
            assert "Traceback" not in answer.text and "fault" not in answer.text
    assert keeper.json("undo", "--list") == before


def test_more_than_a_form_holds_is_refused(phone: Phone) -> None:
    form = phone.form("/WS.E.LOW", 'value="watered"')
    assert phone.send(form.pop(""), form | {"note": "x" * 70_000}).status_code == 413


def test_only_home_networks_are_served() -> None:
    # RFC 1918 (section 3) and RFC 4193: private; 203.0.113.0/24 is public by use, RFC 5737 docs
    assert all(map(is_home_address, ("192.168.1.5", "10.0.0.7", "172.16.3.4", "fd00::1")))
    assert not any(map(is_home_address, ("8.8.8.8", "127.0.0.1", "0.0.0.0", "2001:4860::8888")))


def test_a_page_answers_under_the_names_that_browsers_send() -> None:
    assert hosts_of("127.0.0.1", 8420) == {"127.0.0.1:8420", "localhost:8420"}
    assert hosts_of("192.168.1.5", 80) == {"192.168.1.5:80", "192.168.1.5"}
    assert "rack.home" in hosts_of("192.168.1.5", 8420, ("rack.home",))
