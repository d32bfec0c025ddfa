"""Writing references: kept, assigned, dropped; all through the step writer, so undo works."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence

from msgspec.structs import replace

from warmside.api import Animal, BadInput, Refused, StepWriter, quoted
from warmside.plugins.weight import tables
from warmside.plugins.weight.lms.held import Ranges, Stored
from warmside.plugins.weight.lms.lms import LmsCurve
from warmside.plugins.weight.lms.reference_table import Reference
from warmside.plugins.weight.reading.references import assignments, curve_keys, references

_NAME = re.compile(r"[^\W_][\w .+-]{0,59}")


def checked_name(writer: StepWriter, name: str) -> str:
    """The name if a new reference may have it."""
    name = " ".join(name.split())
    if not _NAME.fullmatch(name):
        raise BadInput(
            f"a reference cannot be named {quoted(name)}; use letters, digits, spaces and . + -, "
            "60 at most"
        )
    taken = {one.name.casefold() for one in references(writer.book).values()}
    if name.casefold() in taken:
        raise Refused(
            f"there is a reference {name} already; give another --name, or drop it first: "
            f"warmside weight reference drop {shell(name)}"
        )
    return name


def keep(
    writer: StepWriter,
    name: str,
    reference: Reference,
    made_from: str,
    ranges: Mapping[tuple[str, str], Ranges] | None = None,
) -> None:
    """Store a reference with all its curves."""
    id = writer.insert(
        tables.reference,
        name=name,
        species=reference.species,
        source=reference.source.text,
        mark=reference.source.mark.value,
        licence=reference.licence,
        made_from=made_from,
    )
    for (sex, line), curve in reference.curves.items():
        spread = (ranges or {}).get((sex, line), {})
        writer.insert(
            tables.curve,
            reference_id=id,
            sex=sex,
            line=line,
            points=_points(curve),
            ranges=json.dumps({f"{centile:g}": pairs for centile, pairs in spread.items()}),
        )


def assign(writer: StepWriter, stored: Stored | None, animals: Sequence[Animal], line: str) -> None:
    """Hold animals to a reference, or to none at all; BadInput for one of another species."""
    known = assignments(writer.book)
    for animal in animals:
        if stored is not None:
            stored.reference.curve(animal.sex, line, animal.species.scientific)
        values = {"reference_id": stored.id if stored else None, "line": line}
        if animal.id in known:
            writer.change(tables.assigned, {"animal_id": animal.id}, **values)
        else:
            writer.insert(tables.assigned, animal_id=animal.id, **values)


def drop(writer: StepWriter, stored: Stored) -> int:
    """Remove a reference with its curves; how many animals were assigned to it."""
    for sex, line in curve_keys(writer.book, stored.id):
        writer.remove(tables.curve, {"reference_id": stored.id, "sex": sex, "line": line})
    mine = [a for a, (id, _) in assignments(writer.book).items() if id == stored.id]
    for animal_id in mine:
        writer.remove(tables.assigned, {"animal_id": animal_id})
    writer.remove(tables.reference, {"id": stored.id})
    return len(mine)


def _points(curve: LmsCurve) -> str:
    return json.dumps(list(zip(curve.ages_days, curve.l, curve.m_g, curve.s, strict=True)))


def of_species(reference: Reference, scientific: str) -> Reference:
    """The reference under the scientific name by which the collection knows its species."""
    return replace(reference, species=scientific)


def shell(name: str) -> str:
    """The name as it is typed in a command."""
    return f"'{name}'" if " " in name else name
