"""The plugin's tables: prey in stock, packs, how single animals are fed, rounds made ready."""

from __future__ import annotations

from sqlalchemy import (
    CheckConstraint,
    Column,
    ForeignKey,
    Integer,
    Named,
    String,
    Table,
    Text,
    TypedColumns,
)

from warmside.api import metadata


class LotCols(TypedColumns):
    """So many items of a prey class; meals take from it from the day `since`."""

    id: Named[int] = Column(Integer, primary_key=True)
    prey: Named[str] = Column(String(40))
    count: Named[int]
    since: Named[str] = Column(String(10))
    frozen: Named[str] = Column(String(10))
    each_g: Named[float | None]
    price: Named[float | None]


class ThrownCols(TypedColumns):
    """Items of a lot that were thrown away, lost or miscounted."""

    id: Named[int] = Column(Integer, primary_key=True)
    lot: Named[int] = Column(Integer, index=True)
    day: Named[str] = Column(String(10))
    count: Named[int]
    reason: Named[str] = Column(Text)


class SettledCols(TypedColumns):
    """What was left of each lot at the end of a day (JSON), so that no older meal is read again.

    Lots up to `newest` are meant; one of them that `left` does not name was used up.
    """

    id: Named[int] = Column(Integer, primary_key=True)
    day: Named[str] = Column(String(10))
    newest: Named[int]
    left: Named[str] = Column(Text)


class PackCols(TypedColumns):
    """A pack in which a prey class is sold."""

    prey: Named[str] = Column(String(40), primary_key=True)
    size: Named[int] = Column(Integer, primary_key=True, autoincrement=False)
    price: Named[float | None]


class OwnCols(TypedColumns):
    """How one animal is fed, where it differs from its species; null where it does not."""

    animal_id: Named[int] = Column(
        ForeignKey("animal.id", ondelete="CASCADE"), primary_key=True, autoincrement=False
    )
    interval_low: Named[float | None]
    interval_high: Named[float | None]
    percent_low: Named[float | None]
    percent_high: Named[float | None]
    prey: Named[str] = Column(Text)
    warm_hours: Named[float | None]


class PartCols(TypedColumns):
    """A part of the diet that the keeper gave an animal or all of a species.

    `diet` is the named diet that it came from, empty where it is the species' own; null and empty
    is as there.
    """

    id: Named[int] = Column(Integer, primary_key=True)
    animal_id: Named[int | None] = Column(ForeignKey("animal.id", ondelete="CASCADE"), index=True)
    species_id: Named[int | None] = Column(ForeignKey("species.id", ondelete="CASCADE"), index=True)
    diet: Named[str] = Column(String(40))
    part: Named[str] = Column(String(40))
    foods: Named[str] = Column(Text)
    days_low: Named[float | None]
    days_high: Named[float | None]
    percent_low: Named[float | None]
    percent_high: Named[float | None]


class WordCols(TypedColumns):
    """A word of the keeper's for a class of food; `prey` is empty for what is no class."""

    word: Named[str] = Column(String(80), primary_key=True)
    prey: Named[str] = Column(String(40))


class ThawedCols(TypedColumns):
    """A round for which the prey was taken out of the freezer."""

    day: Named[str] = Column(String(10), primary_key=True)


class GutLoadedCols(TypedColumns):
    """A round for which the live feeders were fed well the day before."""

    day: Named[str] = Column(String(10), primary_key=True)


# Numbers of lots are never used again: what was settled or thrown away refers to them.
lot = Table(
    "feeding_lot",
    metadata,
    LotCols,
    CheckConstraint("count >= 0", name="count"),
    sqlite_autoincrement=True,
)
thrown = Table("feeding_thrown", metadata, ThrownCols, CheckConstraint("count >= 1", name="count"))
settled = Table("feeding_settled", metadata, SettledCols)
pack = Table("feeding_pack", metadata, PackCols, CheckConstraint("size >= 1", name="size"))
own = Table("feeding_own", metadata, OwnCols)
part = Table(
    "feeding_part",
    metadata,
    PartCols,
    CheckConstraint("(animal_id IS NULL) <> (species_id IS NULL)", name="of"),
)
word = Table("feeding_word", metadata, WordCols)
thawed = Table("feeding_thawed", metadata, ThawedCols)
gut_loaded = Table("feeding_gut_loaded", metadata, GutLoadedCols)
