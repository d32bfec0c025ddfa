"""What the page can be asked: answering commands by their words, and what was filled in."""

from __future__ import annotations

from collections.abc import Sequence
from urllib.parse import urlencode

from warmside.core.values.errors import NotFound
from warmside.page.visits.asked import Asked
from warmside.page.visits.visit import Visit

BLANK = "p."


def all_commands(visit: Visit) -> Sequence[Asked]:
    """The answering commands of the core and of the plugins at work."""
    return visit.cached("commands", lambda: visit.page.commands.all(visit.session))


def command_named(visit: Visit, words: str) -> Asked:
    """The command that is called by these words; NotFound where the page has none."""
    found = next((c for c in all_commands(visit) if c.words == words), None)
    if found is None:
        raise NotFound("the page has no such question; plugins may have been switched off")
    return found


def question_address(words: str, **given: str) -> str:
    """The address of a command's form, with blanks filled in."""
    return f"/tell?{urlencode({'ask': words, **{f'{BLANK}{n}': v for n, v in given.items()}})}"


def given_in(visit: Visit, command: Asked) -> dict[str, str]:
    """What stands in the address for each blank of a command."""
    return {b.name: visit.asked(f"{BLANK}{b.name}") for b in command.blanks}
