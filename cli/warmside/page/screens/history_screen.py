"""What was done, by whom, each step with undo; and what happened, as on the command line."""

from __future__ import annotations

from warmside.core.answers.parts import Answer
from warmside.core.asking.subjects.histories import History, history
from warmside.core.asking.subjects.reports import Report, report
from warmside.core.record.book import Book
from warmside.core.record.entities import Step
from warmside.faces.web.html import render_html
from warmside.faces.web.markup import Child, Markup, element, joined, unbroken
from warmside.page.pieces.frame import hidden, post
from warmside.page.pieces.shown import PHONE, newest_first, on_a_phone
from warmside.page.visits.done_before import SEARCHED, taken_back_before, who_and_when
from warmside.page.visits.own_steps import may_undo
from warmside.page.visits.visit import Visit, links_of, look_of, picture_address

STEPS = 40
EVENTS = 60


def history_screen(visit: Visit) -> Markup:
    """The last steps, the newest first; a sitter sees what was done with this phone."""
    return visit.screen("history", lambda: _steps(visit))


def _steps(visit: Visit) -> Markup:
    with visit.ask() as ask:
        book = ask.book
        mine = [s for s in book.steps(SEARCHED) if may_undo(visit, s)][:STEPS]
        items = [_item(book, step) for step in mine]
        title = element("h1", "What was done")
        listed = element("ul", items, class_="steps") if items else element("p", "Nothing yet.")
        more = element("a", "What happened, by day", href="/events", class_="button")
        return joined([title, listed, more if visit.rights.is_keeper else None])


def _item(book: Book, step: Step) -> Markup:
    words = step.words if step.kind == "do" else f"{step.kind} of step {step.of}: {step.words}"
    done: Child = None
    if step.undone_by:
        done = element("small", taken_back_before(book, step))
    elif step.kind == "do":
        button = element("button", "Undo", class_="plain", aria_label=f"Undo step {step.id}")
        done = post("/undo", hidden("/history", step=str(step.id)), button)
    said = element("div", element("p", unbroken(words)), element("small", who_and_when(book, step)))
    return element("li", said, done)


def events_screen(visit: Visit, subject: str | None) -> Markup:
    """What happened, of all or of one subject."""
    key = ("events", (subject or "").upper())
    return visit.screen(key, lambda: _shown(visit, subject, whole=False))


def report_screen(visit: Visit, subject: str) -> Markup:
    """The whole story of an animal or an enclosure."""
    return visit.screen(("report", subject.upper()), lambda: _shown(visit, subject, whole=True))


def _shown(visit: Visit, subject: str | None, *, whole: bool) -> Markup:
    with visit.ask() as ask:
        answer: Answer
        if whole and subject:
            answer = report(ask, Report(subject, ask.book.today, EVENTS))
        else:
            answer = newest_first(history(ask, History(subject, last=EVENTS)))
        look, link = look_of(ask.book), links_of(ask.book)
        return render_html(
            on_a_phone(answer), look, link=link, drawing_width=PHONE, picture=picture_address
        )
