"""A new file of all that can still be read of a damaged collection and of its copies."""

from __future__ import annotations

from contextlib import suppress
from datetime import datetime
from pathlib import Path

from warmside.core.answers.parts import Answer, Cell, Column, Kind, Part, Table, Words, paragraphs
from warmside.core.answers.words import Tone
from warmside.core.file.checks.values import IDENTITY
from warmside.core.file.copies.found import of_collection
from warmside.core.file.copies.pictures import bring_back, lost_words
from warmside.core.file.recovery import whole
from warmside.core.file.recovery.whole import MakeTables, Recovered
from warmside.core.file.state import identity_in
from warmside.core.session.session import Session
from warmside.core.values.counts import counted
from warmside.core.values.moments import parse_instant
from warmside.core.values.units import Unit


def recover(session: Session, target: Path, make_tables: MakeTables) -> Answer:
    """Read what can be read into a new file; the damaged one stays as it is."""
    copies = [c for c in of_collection(session.path, session.now) if not c.problem]
    own = _identity(session.path) or next((c.identity for c in copies), "")
    mine = [c.path for c in copies if c.identity in ("", own)]
    found = whole.recover(session.path, target, mine, make_tables)
    carried = bring_back(target, [session.path])
    text = (
        f"made {target} of what could be read; "
        f"{counted(sum(found.from_copies.values()), 'row was', 'rows were')} missing in the file "
        f"and came from {counted(len(found.copies), 'copy', 'copies')}; rows left out refer to "
        "what is gone"
    )
    if brought := len(carried.brought):
        text += f"; {counted(brought, 'picture')} came along"
    hints = paragraphs(f"warmside --collection {target} file check", tone=Tone.HINT)
    parts: tuple[Part, ...] = (Words(text), *_lost(found), _rows(found), *hints)
    return Answer("", parts, warnings=tuple(lost_words(carried)))


def _identity(path: Path) -> str:
    """Whose file it is; empty where that is lost, and the newest copy is to say it."""
    said = identity_in(path) if path.exists() else ""
    return said if IDENTITY.fullmatch(said) else ""


def _rows(found: Recovered) -> Table:
    """How many rows of each table came from where."""
    columns = (
        Column("table", "table"),
        Column("from_file", "from the file", Unit.COUNT),
        Column("from_copies", "from copies", Unit.COUNT),
        Column("by_steps", "by later steps", Unit.COUNT),
        Column("left_out", "left out", Unit.COUNT),
    )
    counts = (found.from_file, found.from_copies, found.by_steps, found.left_out)
    names = sorted({name for each in counts for name, rows in each.items() if rows})
    rows: list[tuple[Cell, ...]] = [(name, *(c[name] for c in counts)) for name in names]
    return Table("recovered", columns, tuple(rows))


def _lost(found: Recovered) -> tuple[Part, ...]:
    """What the keeper has to record anew: the steps of which something is nowhere."""
    if not found.not_whole:
        return _species(found)
    number = counted(len(found.not_whole), "step is", "steps are")
    text = (
        f"{number} not whole any more: something of what was recorded then could be read nowhere; "
        "look at each, and record again what is missing"
    )
    columns = (
        Column("step", "step"),
        Column("at", "recorded at", Kind.MOMENT),
        Column("words", "what was done"),
        Column("lost", "what is known of it"),
    )
    rows = tuple((s.id, _instant(s.at), s.words, s.lost) for s in found.not_whole)
    return (Words(text, tone=Tone.CAUTION), Table("not_whole", columns, rows), *_species(found))


def _species(found: Recovered) -> tuple[Part, ...]:
    """That animals are left whose species is not; none is guessed."""
    if not found.lost_species:
        return ()
    lost = counted(found.lost_species, "species has", "species have")
    text = (
        f"{lost} lost its name; give each animal of it a species again before you rely on the "
        "round: warmside animal change CODE --species NAME"
    )
    return (Words(text, tone=Tone.CAUTION),)


def _instant(text: str) -> datetime | None:
    with suppress(ValueError):
        return parse_instant(text)
    return None
