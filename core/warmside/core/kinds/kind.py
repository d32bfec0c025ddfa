"""Event kinds, each declared once as a typed record.

Command-line options, validation, CSV columns, JSON keys, history lines and help all derive from the
declaration.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from enum import StrEnum
from typing import Any

from msgspec import Struct

from warmside.core.kinds.fields import FieldSpec, Form, fields_of
from warmside.core.kinds.parsing import Readers, parse_field
from warmside.core.kinds.saying import Names, numbered, say_field
from warmside.core.kinds.validating import Data, check_field
from warmside.core.values.display import Display
from warmside.core.values.errors import BadInput
from warmside.core.values.hints import near_miss

_TIMES = re.compile(r"(\d+)\s*[x×*]\s*(\D.*)")
"""A count before what is counted, as typed: `2 x mouse`."""


class Subject(StrEnum):
    """What an event of a kind is about."""

    ANIMAL = "animal"
    ENCLOSURE = "enclosure"
    PLACING = "animal put into an enclosure"


class EventKind(Struct, frozen=True):
    """A kind of event: its name, its record (a class that declares fields), and whom it is about.

    A plugin's kinds are named `<plugin>.<word>`; shared kinds, declared by the core, have no dot.
    `todo` is what a task asks for ("weigh"), where the title will not do. Of the fields named in
    `one_of` at least one is needed; of a kind of optional measures, one is needed anyway. With
    `absent` it may be of an animal that is lent out or has left, too: what another keeper tells;
    with `dead` of one that has died: what a vet finds then.
    """

    name: str
    title: str
    record: type
    subject: Subject = Subject.ANIMAL
    help: str = ""
    todo: str = ""
    one_of: tuple[str, ...] = ()
    absent: bool = False
    dead: bool = False

    @property
    def fields(self) -> tuple[FieldSpec, ...]:
        """The fields in the order of the declaration."""
        return fields_of(self.record)

    @property
    def own(self) -> FieldSpec:
        """The field of a value typed behind a subject: the first that is needed, else the first."""
        return next((s for s in self.fields if s.required), self.fields[0])

    def field(self, name: str) -> FieldSpec:
        """The field of that name or option; near misses are suggested."""
        wanted = name.replace("-", "_")
        for spec in self.fields:
            if wanted in (spec.name, spec.key):
                return spec
        raise self._unknown(name)

    def _unknown(self, name: str) -> BadInput:
        known = [s.option for s in self.fields]
        return BadInput(
            f"{self.name} has no field {name!r}{near_miss(name, known)}; "
            f"its fields are: {', '.join(known) or 'none'}"
        )

    def parse(
        self, typed: Mapping[str, str], readers: Readers, bare: bool = False
    ) -> dict[str, Any]:
        """Valid data from what a keeper typed, by field name or option.

        With `bare`, a number without unit is in the stored unit (for columns that say their unit).
        """
        data: dict[str, Any] = {}
        for name, text in typed.items():
            spec = self.field(name)
            counted = self._counted(spec, text)
            if counted is not None:
                data.setdefault(counted[0].name, parse_field(*counted[:2], readers, bare))
                text = counted[2]
            data[spec.name] = parse_field(spec, text, readers, bare)
        return self.validate(data)

    def _counted(self, spec: FieldSpec, text: str) -> tuple[FieldSpec, str, str] | None:
        """`2 x mouse` as the field that counts these words, its number, and the words alone."""
        after = self.fields.index(spec) + 1
        counts = [s for s in self.fields[after : after + 1] if s.times]
        found = _TIMES.fullmatch(text.strip()) if counts and spec.form is Form.WORDS else None
        return (counts[0], found[1], found[2]) if found else None

    def validate(self, data: Data) -> dict[str, Any]:
        """The data with defaults filled in; BadInput names the first field that is wrong."""
        unknown = data.keys() - {s.name for s in self.fields}
        if unknown:
            raise self._unknown(min(unknown))
        whole_record = {s.name: check_field(self.name, s, data) for s in self.fields}
        needed = self._needs_one_of()
        if needed and all(whole_record[s.name] in (None, "") for s in needed):
            options = ", ".join(f"--{s.option}" for s in needed)
            raise BadInput(f"{self.name} needs one of: {options}")
        return whole_record

    def _needs_one_of(self) -> list[FieldSpec]:
        if self.one_of:
            return [s for s in self.fields if s.name in self.one_of]
        optional = all(s.form is Form.QUANTITY and not s.required for s in self.fields)
        return list(self.fields) if optional else []

    @property
    def options(self) -> tuple[str, ...]:
        """The options that a command offers for this kind."""
        return tuple(f"--{s.option}" for s in self.fields)

    def line(self, data: Data, display: Display, names: Names = numbered) -> str:
        """The event in the keeper's words, without day and subject: `fed: 2 × mouse, taken`."""
        several = sum(s.form is Form.QUANTITY for s in self.fields) > 1
        said: list[str] = []
        for spec in self.fields:
            words = say_field(spec, data.get(spec.name), display, names, named=several)
            if spec.times and words and said:
                said[-1] = f"{words} {said[-1]}"
            elif words:
                said.append(words)
        told = ", ".join(said)
        return f"{self.title}: {told}" if told else self.title
