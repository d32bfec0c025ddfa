"""The round: what to know, then a card for each task in the order of care."""

from __future__ import annotations

from warmside.core.answers.parts import Answer
from warmside.core.asking.ask import Ask
from warmside.core.asking.rounds.away import away_table
from warmside.core.asking.rounds.round import before_each, paces
from warmside.core.asking.rounds.said_once import back_asked_for, findings_of_round
from warmside.faces.web.html import render_html
from warmside.faces.web.markup import Child, Markup, element, joined, unbroken
from warmside.page.pieces.finding_list import finding_list
from warmside.page.pieces.page_words import sentence
from warmside.page.pieces.sitters_words import sitters_words
from warmside.page.pieces.task_cards import task_card
from warmside.page.visits.seen import stops_seen
from warmside.page.visits.visit import Visit, links_of, look_of


def round_screen(visit: Visit) -> Markup:
    """The round of today, as far as this phone may see it."""
    return visit.screen("round", lambda: _made(visit))


def _made(visit: Visit) -> Markup:
    with visit.ask() as ask:
        today = ask.book.today
        stops = stops_seen(ask, visit.rights, today)
        cards: list[Child] = []
        sitter = not visit.rights.is_keeper
        breaks, heads = dict(before_each(stops)), dict(paces(stops, today))
        for number, stop in enumerate(stops):
            if number in breaks:
                cards.append(element("p", unbroken(sentence(breaks[number])), class_="caution"))
            if number in heads:
                cards.append(element("h2", heads[number].capitalize()))
            cards.append(task_card(ask, stop, today, "/", sitter=sitter))
        return joined([element("h1", f"The round of {today}"), _told(visit, ask), cards or _none()])


def _told(visit: Visit, ask: Ask) -> Child:
    """What to know: for a keeper the findings, for a sitter what the keeper said."""
    rights, book = visit.rights, ask.book
    if not rights.is_keeper:
        return sitters_words(ask, rights)
    found, _ = findings_of_round(ask, book.today)
    told = back_asked_for(ask.round(book.today), found)
    away = Answer("", (away_table(book, book.today, told),))
    return [finding_list(book, found), render_html(away, look_of(book), link=links_of(book))]


def _none() -> Markup:
    return element("p", "Nothing is due. Have a look at them all the same.")
