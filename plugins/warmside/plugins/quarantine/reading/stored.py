"""Protocols and laboratory figures of one collection: shipped ones, and what the keeper changed."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping

import tomli

from warmside.api import About, Ask, Book, NotFound, near_miss, quoted
from warmside.plugins.quarantine.kinds import STARTED
from warmside.plugins.quarantine.odds.methods import Performance, laboratory
from warmside.plugins.quarantine.protocol.flat import with_overrides
from warmside.plugins.quarantine.protocol.parsing import parse_protocol, shipped_protocols
from warmside.plugins.quarantine.protocol.sources import KEEPERS_OWN
from warmside.plugins.quarantine.protocol.terms import Protocol

NAME = "quarantine"
GENERAL = "general"


def own_texts(book: Book) -> dict[str, str]:
    """The TOML file of each protocol that the keeper added, by the protocol's name."""
    return dict(book.rows("SELECT name, text FROM quarantine_protocol ORDER BY name"))


def read_own(name: str, text: str) -> Protocol:
    """A protocol that the keeper added, from its file as it is stored."""
    return parse_protocol(name, tomli.loads(text)[name], KEEPERS_OWN)


def originals(book: Book) -> dict[str, Protocol]:
    """Every protocol by name as it was shipped or added, without changed values."""

    def make() -> dict[str, Protocol]:
        own = {name: read_own(name, text) for name, text in own_texts(book).items()}
        return {**shipped_protocols(), **own}

    return book.once((NAME, "originals"), make)


def protocols(ask: Ask) -> dict[str, Protocol]:
    """Every protocol by name with the collection's values."""
    return ask.book.once((NAME, "protocols"), lambda: _protocols(ask))


def _protocols(ask: Ask) -> dict[str, Protocol]:
    edits, found = edits_of(ask.book), originals(ask.book)
    days = ask.settings(NAME)["days"]
    if days != found[GENERAL].days:
        edits = {**edits, GENERAL: {"days": str(days)} | dict(edits.get(GENERAL, {}))}
    return {n: with_overrides(p, edits[n]) if n in edits else p for n, p in found.items()}


def edits_of(book: Book) -> Mapping[str, Mapping[str, str]]:
    """The values changed for the collection, by protocol and dotted key."""
    found: dict[str, dict[str, str]] = defaultdict(dict)
    rows = book.rows("SELECT protocol, key, value FROM quarantine_edit ORDER BY protocol, key")
    for protocol, key, value in rows:
        found[protocol][key] = value
    return found


def default_protocol(ask: Ask, about: About | None = None) -> str:
    """The protocol of the setting; raises NotFound that names the setting where it is unknown."""
    name = str(ask.setting(NAME, "protocol", about or About()))
    known = protocols(ask)
    if name not in known:
        raise NotFound(
            f"the setting protocol names {quoted(name)}, which there is not"
            f"{near_miss(name, known)}; change it: warmside plugin set quarantine protocol general"
        )
    return name


def was_used(book: Book, protocol: str) -> bool:
    """Whether a quarantine was ever begun under the protocol, also one corrected since."""
    return any(e.data["protocol"] == protocol for e in book.events(STARTED, corrected=True))


def laboratory_rows(book: Book) -> list[tuple[str, float, float, float]]:
    """Method, lowest and highest sensitivity, specificity: as the keeper's laboratory said."""
    sql = "SELECT method, sensitivity_low, sensitivity_high, specificity FROM quarantine_laboratory"
    return [(m, low, high, specificity) for m, low, high, specificity in book.rows(sql)]


def laboratory_figures(book: Book) -> dict[str, Performance]:
    """The figures of the keeper's laboratory, by method."""
    return {m: laboratory(low, high, sp) for m, low, high, sp in laboratory_rows(book)}
