"""What is written for labels, within a step: notes, sheets begun, labels printed, printers."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from warmside.api import About, NotFound, StepWriter
from warmside.plugins.labels.content.label import Label, fingerprint
from warmside.plugins.labels.paper.places import used_text
from warmside.plugins.labels.paper.profile import PrinterProfile
from warmside.plugins.labels.paper.stock import Stock
from warmside.plugins.labels.reading.memory import (
    NO_PROFILE,
    fingerprints,
    profile_named,
    profiles,
    sheets,
)
from warmside.plugins.labels.reading.notes import note_of
from warmside.plugins.labels.tables import note, printed, profile, sheet


def store_note(writer: StepWriter, about: About, slot: str, text: str) -> None:
    """Set or replace the note for a slot of an animal's or an enclosure's labels."""
    known = note_of(writer.book, about, slot)
    if known is not None:
        writer.change(note, {"id": known.id}, text=text)
    else:
        whom = {"animal_id": about.animal_id, "enclosure_id": about.enclosure_id}
        writer.insert(note, slot=slot, text=text, **whom)


def drop_note(writer: StepWriter, about: About, slot: str, code: str) -> None:
    """Remove a note; NotFound where there is none."""
    known = note_of(writer.book, about, slot)
    if known is None:
        raise NotFound(f"{code} has no note {slot}; see: warmside labels notes")
    writer.remove(note, {"id": known.id})


def remember_sheet(writer: StepWriter, stock: Stock, used: frozenset[int]) -> None:
    """Note which places of the last sheet are gone; a page of one label needs no memory."""
    if stock.places == 1:
        return
    if stock.name in sheets(writer.book):
        writer.change(sheet, {"stock": stock.name}, used=used_text(used))
    else:
        writer.insert(sheet, stock=stock.name, used=used_text(used))


def remember_printed(writer: StepWriter, labels: Iterable[Label], on: date) -> None:
    """Note what each label says now."""
    known = fingerprints(writer.book)
    for label in labels:
        key = {"kind": label.kind.value, "code": label.code_text}
        values = {"fingerprint": fingerprint(label), "day": on.isoformat()}
        if (label.kind.value, label.code_text) in known:
            writer.change(printed, key, **values)
        else:
            writer.insert(printed, **key, **values)


def store_profile(writer: StepWriter, name: str, found: PrinterProfile) -> None:
    """Set or replace the correction of that name."""
    values = {
        "offset_x_mm": found.offset_x_mm,
        "offset_y_mm": found.offset_y_mm,
        "scale_x": found.scale_x,
        "scale_y": found.scale_y,
        "rotation_deg": found.rotation_deg,
        "day": writer.book.today.isoformat(),
    }
    if name in profiles(writer.book):
        writer.change(profile, {"name": name}, **values)
    else:
        writer.insert(profile, name=name, **values)


def drop_profile(writer: StepWriter, name: str) -> None:
    """Remove the correction of that name; NotFound where there is none."""
    if name == NO_PROFILE or not name:
        raise NotFound("that is no printer profile; see: warmside labels calibrate list")
    profile_named(writer.book, name)
    writer.remove(profile, {"name": name})
