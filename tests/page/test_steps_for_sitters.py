"""The keeper says how a sitter does it, step by step, and the sitter reads it with its pictures."""

from __future__ import annotations

import re

import pytest

from invented_pictures import jpeg, picture
from page.phones import Phone
from page.test_camera import send
from warmside.page.app import Page
from warmside.page.phones.inviting import sitters_rights
from warmside.testing import Keeper

STEPS = "Warm the rat\r\nOffer it with long tongs\r\n\r\nNever put in a live rat"


@pytest.fixture
def sitter(page: Page, keeper: Keeper) -> Phone:
    """Who looks after LOW until 7 March."""
    with keeper.book() as book:
        rights = sitters_rights(book, "2026-03-07", ("low",), (), "Ann 0000 111", "")
    return Phone(page).pair(rights, "Ada")


def said(phone: Phone, path: str) -> str:
    """The words of a screen, its markup left out."""
    return re.sub(r"<[^>]+>", " ", phone.get(path).text)


def test_steps_are_set_on_the_page_and_read_by_the_sitter(phone: Phone, sitter: Phone) -> None:
    assert phone.fill("/steps/EMB", 'action="/steps"', steps=STEPS).status_code == 303
    for path in ("/WS.E.LOW", "/WS.A.EMB"):
        text = sitter.get(path).text
        assert "How: Ember" in text
        assert "<li><span>Warm the rat</span></li><li><span>Offer it with long tongs</span>" in text
        assert '<p class="caution">Never put in a live rat</p>' in text
        assert "Ann" in text and 'href="tel:0000111"' in text
    assert "How: Ember" not in phone.get("/WS.E.LOW").text


def test_the_desk_and_the_page_set_the_same_steps(phone: Phone, keeper: Keeper) -> None:
    keeper.run("enclosure", "set", "LOW", "sitter_steps", "lift the bowl; never leave it open")
    assert "lift the bowl\nnever leave it open" in phone.get("/steps/LOW").text
    phone.fill("/steps/LOW", 'action="/steps"', steps="")
    assert "lift the bowl" not in phone.get("/steps/LOW").text
    assert "sitter_steps = default for LOW" in keeper.run("undo", "--list").stdout
    assert phone.fill("/steps/LOW", 'action="/steps"', steps=" ").status_code == 303


def test_a_picture_named_after_a_step_stands_beside_it(phone: Phone, sitter: Phone) -> None:
    phone.fill("/steps/EMB", 'action="/steps"', steps=STEPS)
    for number, view in ((40, "step 2"), (50, "Step 2"), (60, "left side")):
        send(phone, "/WS.A.EMB", (f"{number}.jpg", jpeg(picture(number, 30))), view=view)
    listed = sitter.get("/WS.E.LOW").text.partition("How: Ember")[2].partition("</ol>")[0]
    assert re.findall(r'src="/picture/(\d)', listed) == ["2"]  # the newest of that view
    assert listed.index("long tongs") < listed.index("/picture/2")
    send(phone, "/WS.A.EMB", ("70.jpg", jpeg(picture(70, 30))), view="step 1")
    lives_here = phone.get("/WS.E.LOW").text.partition("<h2>Pictures</h2>")[2]
    assert re.findall(r'src="/picture/(\d)', lives_here) == ["3"]  # who it is, not a step


def test_a_sitter_reads_cautions_of_those_alone_whom_he_looks_after(
    sitter: Phone, keeper: Keeper
) -> None:
    keeper.run("species", "add", "Bothrops fictus", "--common", "paper viper", "--group", "viper")
    for enclosure, name in (("LOW", "Ada"), ("HIGH", "Cob")):
        viper = ("--species", "paper viper", "--enclosure", enclosure, "--code", name[:2].upper())
        keeper.run("animal", "add", name, *viper, "--note", f"{name} spits")
    text = said(sitter, "/WS.E.LOW")
    danger = "Ada: venomous. Nobody opens this enclosure but a person trained"
    assert 0 < text.index(danger) < text.index(" Due ")  # before anything is done
    assert "Ada spits" in text and "Cob" not in text
    assert "Cob" not in said(sitter, "/help")


def test_help_says_what_to_do_and_whom_to_call(sitter: Phone, keeper: Keeper) -> None:
    keeper.run("plugin", "enable", "labels")
    keeper.run("plugin", "set", "labels", "vet", "Dr. Reed, 0000 222 333")
    text = sitter.get("/help").text
    assert 'href="tel:0000222333"' in text and 'href="tel:0000111"' in text
    for words in ("What if", "An animal is not there", "Call when an animal", "Thawing", "Never"):
        assert words in text
    assert "a vet says" in text
    assert "Live insects" not in text  # those eat insects who are not this sitter's
    assert '<a href="/help"' in sitter.get("/").text


def test_the_round_unfolds_how_it_is_done(phone: Phone, sitter: Phone) -> None:
    phone.fill("/steps/LOW", 'action="/steps"', steps="Lift the bowl out")
    card = sitter.get("/").text.partition("fresh water, Low shelf")[0].rpartition("<article")[2]
    assert "<summary>How</summary>" in card and "Lift the bowl out" in card


def test_the_sheet_on_paper_has_the_steps(keeper: Keeper) -> None:
    keeper.run("animal", "set", "EMB", "sitter_steps", "warm the rat; offer it; never by hand")
    told = keeper.json("sheet", "sitter", "--until", "2026-03-07")
    parts = {s["title"]: str(s) for s in told["sections"]}
    assert "Ember:\\n1. warm the rat\\n2. offer it" in parts["How"]
    assert "Ember: never by hand" in parts["Never"]
