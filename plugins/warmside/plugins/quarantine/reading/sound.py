"""What is wrong in the plugin's own data, a line each, for the check of the file."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

import tomli

from warmside.api import Ask, Book, WarmsideError
from warmside.plugins.quarantine.entry.refusing import refuse_result
from warmside.plugins.quarantine.kinds import RESULTED, STARTED
from warmside.plugins.quarantine.odds.methods import laboratory, method
from warmside.plugins.quarantine.protocol.flat import with_overrides
from warmside.plugins.quarantine.protocol.terms import Protocol, named_protocol
from warmside.plugins.quarantine.reading.events import current
from warmside.plugins.quarantine.reading.standing import quarantines_of
from warmside.plugins.quarantine.reading.stored import (
    default_protocol,
    edits_of,
    laboratory_rows,
    originals,
    own_texts,
    read_own,
)


def own_problems(book: Book, ask: Ask) -> Iterator[str]:
    """Protocols, figures, results and quarantines that cannot be counted on.

    Quarantines are computed only where every protocol can be read.
    """
    unread = list(_protocol_problems(book))
    yield from unread
    yield from _laboratory_problems(book)
    yield from _result_problems(book)
    if not unread:
        yield from _said("usual protocol", default_protocol, ask)
        yield from _quarantine_problems(book, ask)


def _said(what: str, attempt: Callable[..., object], *given: object) -> Iterator[str]:
    """What went wrong with it, if anything did."""
    try:
        attempt(*given)
    except WarmsideError as error:
        yield f"{what}: {error}"
    except (tomli.TOMLDecodeError, KeyError) as error:
        yield f"{what}: it holds no such protocol ({error})"


def _protocol_problems(book: Book) -> Iterator[str]:
    own = own_texts(book).items()
    unread = [line for n, text in own for line in _said(f"stored protocol {n}", read_own, n, text)]
    yield from unread
    if not unread:
        for name, edits in edits_of(book).items():
            what = f"changed values of protocol {name}"
            yield from _said(what, _changed, originals(book), name, edits)


def _changed(known: Mapping[str, Protocol], name: str, edits: Mapping[str, str]) -> Protocol:
    return with_overrides(named_protocol(known, name), edits)


def _laboratory_problems(book: Book) -> Iterator[str]:
    for key, low, high, specificity in laboratory_rows(book):
        what = f"laboratory figures of {key}"
        yield from _said(what, method, key)
        yield from _said(what, laboratory, low, high, specificity)


def _result_problems(book: Book) -> Iterator[str]:
    for result in book.events(RESULTED):
        label = book.animals[result.animal_id or 0].label
        sample = current(book, result.data["sample"])
        yield from _said(f"result {result.id} of {label}", refuse_result, result, sample)


def _quarantine_problems(book: Book, ask: Ask) -> Iterator[str]:
    for animal_id in book.latest(STARTED)[STARTED]:
        what = f"quarantine of {book.animals[animal_id].label}"
        yield from _said(what, quarantines_of, ask, animal_id, book.today)
