"""The questions of the page and their forms: found under their plugin, short, in its own words."""

from __future__ import annotations

import re

import pytest

from page.phones import Phone, words_of
from warmside.page.app import Page
from warmside.page.pieces.page_words import in_page_words, sentence
from warmside.testing import Keeper


def test_options_and_commands_are_said_as_fields_and_questions() -> None:
    told = "give --own-prior or --to; see: warmside health cases EMB"
    assert in_page_words(told) == "give “Own prior” or “To”; see: health cases EMB"
    assert (
        in_page_words("a well--kept one, kept by warmside") == "a well--kept one, kept by warmside"
    )
    typed = "none yet: warmside clutch add --dam CODE"
    assert in_page_words(typed) == typed  # at the desk
    assert sentence("not so.") == "Not so." and sentence("") == "."


def test_questions_are_folded_under_the_name_of_their_plugin(phone: Phone) -> None:
    groups = re.findall(r'<details class="group">.*?</details>', phone.get("/tell").text)
    (feeding,) = [g for g in groups if "<span>Feeding" in g]
    assert "plan, balance" in feeding  # seen before it is unfolded
    assert ">Plan</a>" in feeding and "ask=feeding+plan" in feeding and "rhythm" not in feeding


def test_a_field_is_called_as_messages_call_it(phone: Phone) -> None:
    """Where an option has another name than its parameter."""
    answer = phone.get("/tell?ask=feeding+plan&go=1")
    assert "or use “All”" in words_of(answer) and "All: All animals here" in words_of(answer)


def test_no_help_is_cut_where_a_command_line_would_save(keeper: Keeper, phone: Phone) -> None:
    keeper.run("plugin", "enable", "lineage")
    said = words_of(phone.get("/tell?ask=lineage+draw"))
    assert "The pedigree as a drawing." in said


def test_no_form_speaks_of_the_command_line(keeper: Keeper, page: Page, phone: Phone) -> None:
    keeper.run("plugin", "enable", "quarantine", "labels")
    session = page.live.session()
    for command in page.commands.all(session):
        answer = phone.get("/tell", query_string={"ask": command.words, "go": ""})
        form = answer.text.partition("</form>")[0] if command.blanks else command.help
        assert "--" not in form and "warmside " not in form, command.words


@pytest.mark.parametrize(("given", "unfolded"), [("", False), ("&p.prevalence=0.1", True)])
def test_of_many_fields_the_first_are_seen_and_what_is_filled_in(
    keeper: Keeper, phone: Phone, given: str, unfolded: bool
) -> None:
    keeper.run("plugin", "enable", "quarantine")
    answer = phone.get(f"/tell?ask=quarantine+odds&go=1{given}")
    first, _, folded = answer.text.partition("<details")
    assert 'name="p.negatives"' in first and 'name="p.prevalence"' in folded
    assert folded.startswith(" open") == unfolded
    assert "“Sensitivity”" in words_of(answer) or unfolded  # what is missing, by its field
