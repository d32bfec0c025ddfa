"""A new file of all that can still be read of a damaged collection and of its copies."""

from __future__ import annotations

from pathlib import Path

from warmside.core.answers.parts import Answer, Column, Part, Table, Words, paragraphs
from warmside.core.answers.words import Tone
from warmside.core.file import recovering
from warmside.core.file.copies.found import of_collection
from warmside.core.file.copies.pictures import bring_back, lost_words
from warmside.core.file.recovering import MakeTables
from warmside.core.file.state import identity_in
from warmside.core.session.session import Session
from warmside.core.values.counts import counted
from warmside.core.values.units import Unit


def recover(session: Session, target: Path, make_tables: MakeTables) -> Answer:
    """Read what can be read into a new file; the damaged one stays as it is."""
    own = identity_in(session.path) if session.path.exists() else ""
    copies = of_collection(session.path, session.now)
    mine = [c.path for c in copies if not c.problem and (not own or c.identity in ("", own))]
    found = recovering.recover(session.path, target, mine, make_tables)
    carried = bring_back(target, [session.path])
    columns = (
        Column("table", "table"),
        Column("from_file", "from the file", Unit.COUNT),
        Column("from_copies", "from copies", Unit.COUNT),
        Column("left_out", "left out", Unit.COUNT),
    )
    counts = (found.from_file, found.from_copies, found.left_out)
    names = sorted({name for each in counts for name, rows in each.items() if rows})
    rows = tuple((name, counts[0][name], counts[1][name], counts[2][name]) for name in names)
    only = sum(found.from_copies.values())
    text = (
        f"made {target} of what could be read; {counted(only, 'row was', 'rows were')} missing in "
        f"the file and came from {counted(len(found.copies), 'copy', 'copies')}; rows left out "
        "refer to what is gone"
    )
    if brought := len(carried.brought):
        text += f"; {counted(brought, 'picture')} came along"
    hints = paragraphs(f"warmside --collection {target} file check", tone=Tone.HINT)
    parts: tuple[Part, ...] = (Words(text), Table("recovered", columns, rows), *hints)
    return Answer("", parts, warnings=tuple(lost_words(carried)))
