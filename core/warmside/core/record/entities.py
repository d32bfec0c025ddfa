"""What the record holds, as plain values."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo

from msgspec import Struct

from warmside.core.values.moments import PartialDate
from warmside.core.values.quantities import Display

SEXES = ("female", "male", "unknown")
SEX_KNOWN_BY = (
    "not known",
    "observed at hatching",
    "probed",
    "everted",
    "DNA",
    "bred",
    "guessed",
)
CERTAINTIES = ("certain", "probable", "possible")
SEX_SYSTEMS = ("ZZ/ZW", "XX/XY", "temperature", "unknown")
_SEX_LETTERS = {"f": "female", "m": "male", "u": "unknown", "?": "unknown"}


def whole_sex(text: str) -> str:
    """The sex as it is stored, though `F` or `m` was typed; other text as it is."""
    typed = text.strip().casefold()
    return _SEX_LETTERS.get(typed, typed if typed in SEXES else text)


SEX_SIGNS = {"female": "♀", "male": "♂", "unknown": "?"}


class Home(Struct, frozen=True):
    """The collection: name, home zone, units, and the order of typed days (empty: not said)."""

    name: str
    zone: ZoneInfo
    display: Display
    dates: str = ""


class Species(Struct, frozen=True):
    """A species with its names, group and sex determination."""

    id: int
    scientific: str
    common: str
    group: str
    sex_system: str


class Animal(Struct, frozen=True):
    """An animal; `hatched` is None where nothing is known."""

    id: int
    code: str
    name: str
    species: Species
    sex: str
    sex_known_by: str
    hatched: PartialDate | None
    origin: str
    note: str
    clutch_id: int | None = None

    @property
    def sex_sign(self) -> str:
        """♀, ♂ or ?."""
        return SEX_SIGNS[self.sex]

    @property
    def label(self) -> str:
        """Name and code, as lists show an animal."""
        return f"{self.name} ({self.code})"


class Parent(Struct, frozen=True):
    """A dam or sire of a child, or one that may be.

    `weight` is the share of probability that it is; None where the keeper gave words alone. Of
    several candidates for one role the weights sum to at most 1; the rest is unknown.
    """

    child_id: int
    role: str
    parent_id: int
    certainty: str
    weight: float | None = None


class Sire(Struct, frozen=True):
    """A sire of a clutch, or one that may be; `weight` and `certainty` as of a Parent."""

    animal_id: int
    certainty: str
    weight: float | None = None


class Clutch(Struct, frozen=True):
    """Eggs laid, or young born, together; None is what is not known.

    Its young are the animals that name it. `hatched_last` is the day of the last to hatch, where
    it is another than the first.
    """

    id: int
    code: str
    dam_id: int | None
    sires: tuple[Sire, ...]
    laid: date | None
    hatched_first: date | None
    hatched_last: date | None
    eggs: int | None
    good: int | None
    note: str

    @property
    def name(self) -> str:
        """The code: a clutch has no other name."""
        return self.code

    @property
    def label(self) -> str:
        """What a keeper calls it."""
        return f"clutch {self.code}"


class Enclosure(Struct, frozen=True):
    """An enclosure; inner sizes in millimetres."""

    id: int
    code: str
    name: str
    room: str
    width_mm: float | None
    depth_mm: float | None
    height_mm: float | None
    note: str
    retired: bool


class Event(Struct, frozen=True):
    """An event; `at` is None where only the day is known."""

    id: int
    kind: str
    animal_id: int | None
    enclosure_id: int | None
    day: date
    at: datetime | None
    data: Mapping[str, Any]
    note: str
    step_id: int
    replaced_by: int | None

    @property
    def order(self) -> tuple[date, str, int]:
        """The place of the event in time; a day without a time comes before its times."""
        return (self.day, self.at.isoformat() if self.at else "", self.id)


class NewEvent(Struct, frozen=True):
    """An event to be recorded; `day` and `at` as in Event."""

    kind: str
    day: date
    data: Mapping[str, Any]
    animal_id: int | None = None
    enclosure_id: int | None = None
    at: datetime | None = None
    note: str = ""


class Step(Struct, frozen=True):
    """One command that wrote; `of` is the step that an undo or redo is about.

    `by` names who did it; None where that is not on record, as at the desk.
    """

    id: int
    at: datetime
    kind: str
    words: str
    of: int | None
    undone_by: int | None
    by: str | None = None


class Sender(Struct, frozen=True):
    """Who does a step, and what the sender calls it: a reference is written once, never twice."""

    by: str | None = None
    ref: str | None = None


AT_THE_DESK = Sender()


class RowChange(Struct, frozen=True):
    """A row of a table that a step wrote, by column; None where there was or is none."""

    table: str
    key: Mapping[str, Any]
    before: Mapping[str, Any] | None
    after: Mapping[str, Any] | None
