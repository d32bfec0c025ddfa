"""`warmside quarantine protocols` and `protocol show|edit|add|drop`: the protocols themselves."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Annotated

import typer

from warmside.api import (
    Answer,
    BadInput,
    Book,
    Column,
    Fact,
    Kind,
    NotFound,
    Refused,
    StepWriter,
    Table,
    Tone,
    Unit,
    paragraphs,
    said,
    session_of,
)
from warmside.core.values.errors import FileProblem
from warmside.plugins.quarantine.kinds import STARTED
from warmside.plugins.quarantine.protocol import Protocol, cautions
from warmside.plugins.quarantine.protocol_reading import (
    KEEPERS_OWN,
    parse_protocols,
    shipped_protocols,
    values,
    with_overrides,
)
from warmside.plugins.quarantine.protocol_values import unknown_key
from warmside.plugins.quarantine.stored import (
    default_protocol,
    edits_of,
    named_protocol,
    originals,
    protocols,
)
from warmside.plugins.quarantine.tables import edit as edit_table
from warmside.plugins.quarantine.tables import protocol as protocol_table
from warmside.plugins.quarantine.typed_edits import typed_edits, value_text
from warmside.plugins.quarantine.wording import DEFER

protocol_app = typer.Typer(help="Show, edit, add or drop a protocol.", no_args_is_help=True)
Name = Annotated[str, typer.Argument(help="Name of the protocol.")]
VALUE_COLUMNS = (
    Column("key", "value of"),
    Column("value", "value"),
    Column("source_number", "source", Unit.COUNT),
    Column("source", "source", text=False),
    Column("mark", "mark", text=False),
    Column("original", "as shipped or added", text=False),
)
SOURCE_COLUMNS = (
    Column("number", "no", Unit.COUNT),
    Column("source", "source"),
    Column("mark", "mark"),
)
LARGEST_FILE = 100_000


def list_protocols(context: typer.Context) -> Answer:
    """List the protocols."""
    columns = (
        Column("name", "protocol", Kind.CODE),
        Column("title", "what it is"),
        Column("days", "days", Unit.COUNT),
        Column("tests", "tests", Kind.LIST),
        Column("restarts", "started again by", Kind.LIST, text=False),
        Column("own", "own", Kind.YESNO),
        Column("usual", "usual", Kind.YESNO),
    )
    with session_of(context).read() as book:
        usual = default_protocol(book)
        changed = edits_of(book)
        rows = tuple(
            (
                p.name,
                p.title,
                p.days,
                tuple(f"{t.negatives} × {t.title}" for t in p.tests if t.negatives),
                tuple(sorted(c.value for c in p.restarts)),
                p.name not in shipped_protocols() or p.name in changed,
                p.name == usual,
            )
            for p in protocols(book).values()
        )
    hints = paragraphs("warmside quarantine protocol show general", tone=Tone.HINT)
    caution = paragraphs(DEFER, tone=Tone.CAUTION)
    return Answer("Protocols", (Table("protocols", columns, rows), *caution, *hints))


@protocol_app.command("show")
def show_protocol(context: typer.Context, name: Name) -> Answer:
    """Every value of a protocol, with its source."""
    with session_of(context).read() as book:
        found = named_protocol(protocols(book), name)
        return told(found, named_protocol(originals(book), name))


def told(protocol: Protocol, original: Protocol) -> Answer:
    """The protocol as an answer; sources are numbered, since many values share one."""
    before = values(original)
    sources = list(dict.fromkeys(protocol.sources[key] for key in before))
    rows = tuple(
        (
            key,
            value_text(value) or "–",
            sources.index(protocol.sources[key]) + 1,
            protocol.sources[key].text,
            protocol.sources[key].mark.value,
            value_text(before[key]),
        )
        for key, value in values(protocol).items()
    )
    listed = tuple((n, s.text, s.mark.value) for n, s in enumerate(sources, 1))
    hints = (
        f"warmside quarantine protocol edit {protocol.name} days=120 (for the whole collection)",
        "warmside quarantine edit ANIMAL --set days=120 (for one animal)",
    )
    return Answer(
        f"Protocol {protocol.name}",
        (
            Fact("name", "protocol", protocol.name, Kind.CODE),
            *paragraphs(*cautions(protocol), DEFER, tone=Tone.CAUTION),
            Table("values", VALUE_COLUMNS, rows),
            Table("sources", SOURCE_COLUMNS, listed, "Sources"),
            *paragraphs(*hints, tone=Tone.HINT),
        ),
    )


@protocol_app.command("edit")
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
        changed = named_protocol(protocols(writer.reread()), name)
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


@protocol_app.command("add")
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
        raise FileProblem(f"cannot read {file}: {error.strerror}") from error
    except UnicodeDecodeError as error:
        raise BadInput(f"{file.name} is not UTF-8 text; save it as UTF-8") from error


def _document(file: Path, text: str) -> dict[str, object]:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise BadInput(f"{file.name} is not TOML: {error}") from error


@protocol_app.command("drop")
def drop_protocol(context: typer.Context, name: Name) -> Answer:
    """Drop a protocol of your own that no quarantine used."""
    session = session_of(context)
    with session.step(f"dropped protocol {name}") as writer:
        book = writer.book
        named_protocol(originals(book), name)
        if name in shipped_protocols():
            raise Refused(f"{name} is shipped with the plugin; only own protocols can be dropped")
        if any(e.data["protocol"] == name for e in book.events(STARTED, corrected=True)):
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
