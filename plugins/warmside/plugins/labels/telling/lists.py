"""What printing can choose from, and what the keeper noted, as tables."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from warmside.api import Answer, Book, Column, Kind, Table, Unit
from warmside.plugins.labels.content.hazards import Hazard
from warmside.plugins.labels.content.label import LINE_KEYS
from warmside.plugins.labels.content.slots import NOTED, USED_ON, note_key, slot_of
from warmside.plugins.labels.paper.stock import Stock
from warmside.plugins.labels.reading.notes import Note

NOTE_COLUMNS = (
    Column("subject", "of", Kind.CODE),
    Column("name", "name"),
    Column("note", "note"),
    Column("text", "text"),
    Column("key", "line", Kind.CODE, text=False),
)
CAN_NOTE_COLUMNS = (Column("note", "note"), Column("meaning", "what for"))
STOCK_COLUMNS = (
    Column("name", "stock", Kind.CODE),
    Column("labels", "labels", Unit.COUNT),
    Column("width", "width", Unit.LENGTH),
    Column("height", "height", Unit.LENGTH),
    Column("page_width", "page width", Unit.LENGTH),
    Column("page_height", "page height", Unit.LENGTH),
    Column("mark", "figures"),
    Column("columns", "columns", Unit.COUNT, text=False),
    Column("rows", "rows", Unit.COUNT, text=False),
    Column("pitch_x", "pitch across", Unit.LENGTH, text=False),
    Column("pitch_y", "pitch down", Unit.LENGTH, text=False),
    Column("margin_left", "left margin", Unit.LENGTH, text=False),
    Column("margin_top", "top margin", Unit.LENGTH, text=False),
    Column("corner_radius", "corner radius", Unit.LENGTH, text=False),
    Column("source", "source", text=False),
)
LINE_COLUMNS = (
    Column("key", "line", Kind.CODE),
    Column("kinds", "printed unasked on", Kind.LIST),
    Column("example", "now, for one of them"),
)
HAZARD_COLUMNS = (
    Column("name", "danger", Kind.CODE),
    Column("sign", "large words"),
    Column("first", "what to do first"),
    Column("mark", "mark"),
    Column("source", "source", text=False),
)


def told_stocks(known: Iterable[Stock], default: str) -> Answer:
    """The label stocks."""
    rows = tuple(
        (
            s.name,
            s.places,
            s.label_width_mm,
            s.label_height_mm,
            s.page_width_mm,
            s.page_height_mm,
            s.source.mark.value,
            s.columns,
            s.rows,
            s.pitch_x_mm,
            s.pitch_y_mm,
            s.margin_left_mm,
            s.margin_top_mm,
            s.corner_radius_mm,
            s.source.text,
        )
        for s in known
    )
    title = f"Label stocks; in use unless another is named: {default}"
    return Answer(title, (Table("stocks", STOCK_COLUMNS, rows),))


def told_lines(given: Mapping[str, str]) -> Answer:
    """The lines that labels have, and those that plugins give, with an example of each."""
    keys = dict.fromkeys(key for keys in LINE_KEYS.values() for key in keys)
    own = [(k, tuple(kind for kind in LINE_KEYS if k in LINE_KEYS[kind]), None) for k in keys]
    plugins = [
        (key, tuple(USED_ON.get(slot_of(key) or "", ())), text)
        for key, text in sorted(given.items())
    ]
    return Answer("Lines of labels", (Table("lines", LINE_COLUMNS, (*own, *plugins)),))


def told_hazards(hazards: Iterable[Hazard]) -> Answer:
    """The dangers that hazard signs have words for."""
    rows = tuple(
        (h.name, h.sign, " ".join(h.first), h.source.mark.value, h.source.text) for h in hazards
    )
    return Answer("Dangers", (Table("hazards", HAZARD_COLUMNS, rows),))


def told_notes(book: Book, notes: Iterable[Note]) -> Answer:
    """The keeper's notes, and what can be noted."""
    rows = tuple(_note_row(book, note) for note in notes)
    empty = "no note yet; keep one: warmside labels note CODE genes WORDS"
    can = Table("can_note", CAN_NOTE_COLUMNS, tuple(NOTED.items()))
    return Answer("Notes for labels", (Table("label_notes", NOTE_COLUMNS, rows, empty=empty), can))


def _note_row(book: Book, note: Note) -> tuple[str, ...]:
    animal, place = note.about.animal_id, note.about.enclosure_id
    of = book.animals[animal] if animal is not None else book.enclosures[place or 0]
    return (of.code, of.name, note.slot, note.text, note_key(note.slot))
