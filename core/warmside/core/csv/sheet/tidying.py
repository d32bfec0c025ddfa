"""Rows of a long table as rows that the record reads: each cell tidied for its field."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping

from msgspec import Struct, field

from warmside.core.csv.events import PRESENT, split_field
from warmside.core.csv.mapping import SKIP, CsvMapping
from warmside.core.csv.rows import CsvRow
from warmside.core.csv.sheet.cells import chosen, read_cell
from warmside.core.csv.sheet.days import DayReader
from warmside.core.csv.sheet.grid import Flat, Row
from warmside.core.csv.sheet.headings import ANIMAL, DATE, KIND, NOTE, PLACE, TIME, VALUE
from warmside.core.csv.sheet.roles import Role
from warmside.core.csv.sheet.usual_words import KINDS, folded, is_ditto, is_nothing
from warmside.core.kinds.fields import FieldSpec
from warmside.core.kinds.known import Kinds
from warmside.core.values.errors import BadInput

SIZE = "fed.size"


class Unknown(Struct, frozen=True):
    """Words that mean nothing here, each with how many rows have it; by field, animal or kind."""

    words: dict[str, dict[str, int]] = field(default_factory=lambda: defaultdict(dict))

    def add(self, what: str, word: str) -> None:
        """Count a word."""
        self.words[what][word] = self.words[what].get(word, 0) + 1


class Tidier:
    """Tidies the rows of one table; collects the words that it does not know."""

    def __init__(
        self,
        kinds: Kinds,
        roles: Mapping[str, Role],
        mapping: CsvMapping,
        days: DayReader,
        mark: str,
    ) -> None:
        self._kinds = kinds
        self._roles = roles
        self._mapping = mapping
        self._days = days
        self._mark = mark
        self._words = {folded(k): v for k, v in mapping.words.items()}
        self._kind_words = {folded(k): v for k, v in mapping.kinds.items()}
        self.fields: dict[str, None] = {}
        self.unknown = Unknown()
        self.left_out: list[int] = []

    def rows(self, flat: Flat) -> Iterator[CsvRow]:
        """The tidy rows; ditto marks repeat the cell above."""
        above: tuple[str, ...] = ()
        for row in flat.rows:
            cells = tuple(
                above[n] if is_ditto(row.cell(n)) and n < len(above) else row.cell(n)
                for n in range(len(flat.columns))
            )
            above = tuple(c or (above[n] if n < len(above) else "") for n, c in enumerate(cells))
            if all(map(is_nothing, cells)):
                continue
            try:
                tidy = self._row(Row(row.line, cells), flat.columns)
            except BadInput as error:
                yield CsvRow(row.line, {}, str(error))
                continue
            if tidy is None:
                self.left_out.append(row.line)
            else:
                yield CsvRow(row.line, tidy)

    def _row(self, row: Row, columns: tuple[str, ...]) -> dict[str, str] | None:
        """The fields of a row by canonical names; None where the keeper leaves it out."""
        tidy = dict[str, str]()
        notes, by_role = list[str](), dict[str, str]()
        for place, column in enumerate(columns):
            role, text = self._roles.get(column), row.cell(place)
            if role is not None and not is_nothing(text):
                by_role.setdefault(role.name, text)
                if role.name == NOTE:
                    notes.append(text)
                elif "." in role.name and role.name != SIZE:
                    self._fill(tidy, notes, role.name, role, text)
        if KIND in by_role and not self._kind_of(by_role, tidy, notes):
            return None
        self._sized(tidy, by_role.get(SIZE, ""))
        if self._mapping.kind and not self._field_roles():
            self._put(tidy, f"{self._mapping.kind}.", PRESENT)
        if not any("." in name for name in tidy):
            return self._nothing(by_role, notes)
        return self._who_and_when(tidy, by_role, notes)

    def _nothing(self, by_role: Mapping[str, str], notes: list[str]) -> dict[str, str] | None:
        """A row of which only a note is left is an observation; else it holds no event."""
        if not notes or KIND in by_role:
            return {}
        tidy = dict[str, str]()
        self._put(tidy, "observed.what", "; ".join(notes))
        return self._who_and_when(tidy, by_role, [])

    def _who_and_when(
        self, tidy: dict[str, str], by_role: Mapping[str, str], notes: list[str]
    ) -> dict[str, str] | None:
        if DATE not in by_role:
            raise BadInput("no date")
        clock = by_role.get(TIME, "")
        day, time = self._days.read(f"{by_role[DATE]} {clock}".strip())
        who = self._meant(by_role.get(ANIMAL, ""))
        if who == SKIP:
            return None
        tidy[DATE] = day.isoformat() + (f" {time.isoformat('minutes')}" if time else "")
        tidy[ANIMAL], tidy[PLACE], tidy[NOTE] = who, by_role.get(PLACE, ""), "; ".join(notes)
        return tidy

    def _meant(self, word: str) -> str:
        return self._mapping.animals.get(word, self._words.get(folded(word), word))

    def _field_roles(self) -> bool:
        return any("." in role.name for role in self._roles.values())

    def _kind_of(self, by_role: Mapping[str, str], tidy: dict[str, str], notes: list[str]) -> bool:
        """Fill what the row's own kind and its value say; False where it is to be left out."""
        word = folded(by_role[KIND])
        name = self._kind_words.get(word) or self._words.get(word) or KINDS.get(word) or word
        if name == SKIP:
            return False
        if name not in self._kinds:
            self.unknown.add(KIND, by_role[KIND])
            return False
        kind, text = self._kinds[name], by_role.get(VALUE, "")
        if not text and name == "observed" and notes:
            text, notes[:] = "; ".join(notes), []
        if not text and kind.fields and kind.fields[0].choices:
            itself = chosen(f"{name}.{kind.fields[0].key}", kind.fields[0], word)
            text = "" if itself in (None, PRESENT) else itself or ""
        if text and kind.fields:
            unit = next((r.unit for r in self._roles.values() if r.name == VALUE), "")
            role = Role(VALUE, unit or "")
            self._fill(tidy, notes, f"{name}.{kind.fields[0].key}", role, text)
        elif not any(split_field(f)[0] == name for f in tidy):
            self._put(tidy, f"{name}.", PRESENT)
        return True

    def _fill(
        self, tidy: dict[str, str], notes: list[str], field: str, role: Role, text: str
    ) -> None:
        kind, key = split_field(field)
        spec = self._kinds.named(kind).field(key) if key else None
        values = {folded(k): v for k, v in role.values.items()}
        meant = values.get(folded(text), self._words.get(folded(text), text))
        if meant == SKIP:
            return
        read = read_cell(kind, spec, meant, role.unit, self._mark)
        for name, value in read.fields.items():
            self._put(tidy, name, self._known(name, value))
        if read.note:
            notes.append(read.note)

    def _put(self, tidy: dict[str, str], field: str, value: str) -> None:
        self.fields[field] = None
        tidy.setdefault(field, value)

    def _known(self, field: str, value: str) -> str:
        """The value, a word of it translated; a choice that is none is collected."""
        value = self._words.get(folded(value), value)
        kind, key = split_field(field)
        spec: FieldSpec | None = self._kinds[kind].field(key) if key else None
        if spec is not None and spec.choices and value != PRESENT:
            also = dict(spec.also)
            parts = value.split(",") if key == "retained" else [value]
            if any(p.strip() not in spec.choices and p.strip() not in also for p in parts):
                self.unknown.add(field, value)
                return PRESENT
        return value

    def _sized(self, tidy: dict[str, str], size: str) -> None:
        """The size of the food, where it has a column of its own, before its name."""
        item = tidy.get("fed.item", "")
        if size and item and folded(size) not in folded(item):
            tidy["fed.item"] = f"{size} {item}"
