"""The post of a sitter's steps."""

from __future__ import annotations

from werkzeug.utils import redirect
from werkzeug.wrappers import Response

from warmside.core.asking.own_values import CORE, SITTER_STEPS
from warmside.core.asking.sheets.steps import steps_of, typed_steps
from warmside.core.doing.setting import NewValue, set_value
from warmside.core.record.entities import Animal
from warmside.page.posts.done import done
from warmside.page.screens.steps_screen import subject_named
from warmside.page.visits.visit import Visit


def post_steps(visit: Visit) -> Response:
    """Keep the steps; an empty field takes them away."""
    with visit.ask() as ask:
        subject = subject_named(ask.book, visit.typed("subject"))
        known = steps_of(ask, subject) is not None
    text = "; ".join(typed_steps(visit.typed("steps")))
    if not text and not known:
        return redirect(visit.back, 303)
    of = {"animal" if isinstance(subject, Animal) else "enclosure": subject.code}
    wanted = NewValue(CORE.name, SITTER_STEPS, text or "default", **of)
    return done(visit, lambda session: set_value(session, wanted, CORE))
