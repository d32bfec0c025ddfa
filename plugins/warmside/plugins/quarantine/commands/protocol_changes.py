"""`warmside quarantine protocol edit|add|drop`: changes for the whole collection."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Annotated

import tomli
import typer

from warmside.api import (
    Answer,
    BadInput,
    Book,
    NotFound,
    Refused,
    StepWriter,
    Tone,
    paragraphs,
    said,
    session_of,
)
from warmside.plugins.quarantine.commands.protocols import Name
from warmside.plugins.quarantine.protocol.flat import values, with_overrides
from warmside.plugins.quarantine.protocol.parsing import parse_protocols, shipped_protocols
from warmside.plugins.quarantine.protocol.sources import KEEPERS_OWN
from warmside.plugins.quarantine.protocol.terms import Protocol, cautions, named_protocol
from warmside.plugins.quarantine.protocol.typed import typed_edits
from warmside.plugins.quarantine.protocol.values import unknown_key
from warmside.plugins.quarantine.reading.stored import edits_of, originals, protocols, was_used
from warmside.plugins.quarantine.tables import edit as edit_table
from warmside.plugins.quarantine.tables import protocol as protocol_table
from warmside.plugins.quarantine.telling.protocols import told
from warmside.plugins.quarantine.telling.wording import DEFER

LARGEST_FILE = 100_000


def edit_protocol(
    context: typer.Context,
    name: Name,
    changes: Annotated[
        list[str], typer.Argument(help="days=120 tests.faecal.negatives=4; KEY=default takes back.")
    ],
) -> Answer:
    """Change values of a protocol for the whole collection; running quarantines follow."""
    session = session_of(context)
    edits = dict(typed_edits(changes))
    with session.step(f"protocol {name}: {', '.join(changes)}") as writer:
        original = named_protocol(originals(writer.book), name)
        new = {k: v for k, v in edits.items() if v != "default"}
        _check_keys(original, edits)
        with_overrides(original, {**edits_of(writer.book).get(name, {}), **new})
        _store(writer, name, edits)
        changed = named_protocol(protocols(session.asking(writer.reread())), name)
    answer = told(changed, original)
    parts = (*said(f"protocol {name} is changed").parts, *answer.parts)
    return Answer(
        answer.title, (*parts, *paragraphs("warmside undo (take it back)", tone=Tone.HINT))
    )


def _check_keys(protocol: Protocol, edits: Mapping[str, str]) -> None:
    known = list(values(protocol))
    for key in edits:
        if key not in known:
            raise unknown_key(key, known)


def _store(writer: StepWriter, name: str, edits: Mapping[str, str]) -> None:
    stored = edits_of(writer.book).get(name, {})
    for key, value in edits.items():
        row = {"protocol": name, "key": key}
        if value == "default":
            if key in stored:
                writer.remove(edit_table, row)
        elif key in stored:
            writer.change(edit_table, row, value=value)
        else:
            writer.insert(edit_table, **row, value=value)


def add_protocols(
    context: typer.Context,
    file: Annotated[Path, typer.Argument(help="TOML file, a table for each protocol.")],
) -> Answer:
    """Add protocols of your own from a TOML file."""
    session = session_of(context)
    text = _text_of(file)
    added = parse_protocols(_document(file, text), KEEPERS_OWN)
    if not added:
        raise BadInput(f"{file.name} holds no protocol; write a table such as [own]")
    with session.step(f"added protocols: {', '.join(added)}") as writer:
        known = originals(writer.book)
        for name in added:
            if name in known:
                raise Refused(f"there is a protocol {name} already; give yours another name")
            writer.insert(protocol_table, name=name, text=text)
    warned = tuple(c for p in added.values() for c in cautions(p))
    done = said(f"added {', '.join(added)}", hints=["warmside quarantine protocols"])
    return Answer(parts=(*done.parts, *paragraphs(*warned, DEFER, tone=Tone.CAUTION)))


def _text_of(file: Path) -> str:
    try:
        if file.stat().st_size > LARGEST_FILE:
            raise BadInput(f"{file.name} is larger than 100 kB; a protocol is a short file")
        return file.read_text(encoding="utf-8-sig")
    except OSError as error:
        raise BadInput(f"cannot read {file}: {error.strerror}") from error
    except UnicodeDecodeError as error:
        raise BadInput(f"{file.name} is not UTF-8 text; save it as UTF-8") from error


def _document(file: Path, text: str) -> dict[str, object]:
    try:
        return tomli.loads(text)
    except tomli.TOMLDecodeError as error:
        raise BadInput(f"{file.name} is not TOML: {error}") from error


def drop_protocol(context: typer.Context, name: Name) -> Answer:
    """Drop a protocol of your own that no quarantine used."""
    session = session_of(context)
    with session.step(f"dropped protocol {name}") as writer:
        book = writer.book
        named_protocol(originals(book), name)
        if name in shipped_protocols():
            raise Refused(f"{name} is shipped with the plugin; only own protocols can be dropped")
        if was_used(book, name):
            raise Refused(f"a quarantine was begun under {name}; it stays, so that its days count")
        _forget(writer, book, name)
    return said(f"dropped protocol {name}", hints=["warmside undo (take it back)"])


def _forget(writer: StepWriter, book: Book, name: str) -> None:
    for key in edits_of(book).get(name, {}):
        writer.remove(edit_table, {"protocol": name, "key": key})
    try:
        writer.remove(protocol_table, {"name": name})
    except NotFound as error:
        raise NotFound(f"there is no own protocol {name}") from error
