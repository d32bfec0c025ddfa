"""What an animal eats: the parts of a diet, each with its own rhythm and size."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from enum import StrEnum
from functools import cache

from msgspec import Struct, field
from msgspec.structs import replace

from warmside.api import BadInput, Source, SourcedRow, near_miss, quoted, sourced_rows
from warmside.plugins.feeding.energy.rates import Span
from warmside.plugins.feeding.prey.classes import Prey, known_prey, prey_of_kinds

PACKAGE = "warmside.plugins.feeding"
WEEK = 7.0
SEXES = ("female", "male")
# Up to so many days a rhythm is said in days, longer ones in times a week.
MOST_DAYS, TWICE = 4.0, (3.0, 4.0)


class Stage(StrEnum):
    """How far an animal has grown up."""

    HATCHLING = "hatchling"
    JUVENILE = "juvenile"
    SUBADULT = "subadult"
    ADULT = "adult"


ByStage = Mapping[Stage, Span]
"""A span for each stage that has one."""


class Part(Struct, frozen=True):
    """A part of a diet: what of, how often, how much.

    `foods` are kinds or classes of food, the most usual first. By stage, where a stage has any of
    it: `days` from one day of it to the next; `percent` of body mass on such a day, all its feeds
    together; `feeds` on such a day, where more than one. `portion` says how much where no share is
    known. `of_sex` are the days and the percent of one sex, where they are not those of the other.
    """

    key: str
    name: str
    foods: tuple[str, ...]
    days: ByStage
    percent: ByStage
    feeds: ByStage
    portion: str
    source: Source
    days_source: Source
    percent_source: Source
    of_sex: Mapping[str, tuple[ByStage, ByStage]] = field(default_factory=dict)

    def for_sex(self, sex: str) -> Part:
        """The part as a male or a female is fed; as it is where that makes no difference."""
        if sex not in self.of_sex:
            return self
        days, percent = self.of_sex[sex]
        return replace(self, days={**self.days, **days}, percent={**self.percent, **percent})

    def every(self, stage: Stage | None) -> Span | None:
        """Days from one to the next; for an unknown stage over all stages; None where not fed."""
        if stage is not None:
            return self.days.get(stage)
        return hull(self.days.values()) if self.days else None

    def share(self, stage: Stage | None) -> Span | None:
        """Percent of body mass; for an unknown stage over all stages; None where none is known."""
        if stage is not None:
            return self.percent.get(stage)
        return hull(self.percent.values()) if self.percent else None

    def classes(self) -> tuple[Prey, ...]:
        """The classes of food that it is made of."""
        return prey_of_kinds(self.foods)

    def words(self, stage: Stage | None) -> str:
        """`greens daily`, `insects once or twice a week`."""
        days = self.every(stage)
        return f"{self.name} {rhythm_words(days, self.feeds_at(stage))}" if days else self.name

    def feeds_at(self, stage: Stage | None) -> Span:
        """Feeds on a day of it."""
        return self.feeds.get(stage, (1.0, 1.0)) if stage else (1.0, 1.0)


class Diet(Struct, frozen=True):
    """The parts that an animal is fed, the staple first; none where it is not known.

    Parts of one key stand for each other, such as fish and mice.
    """

    name: str
    words: str
    parts: tuple[Part, ...]
    source: Source

    def at(self, stage: Stage | None, eaten: Sequence[str] = ()) -> tuple[Part, ...]:
        """The parts for a stage; of those that stand for each other the one eaten last.

        `eaten` are codes of food, newest last.
        """
        chosen = dict[str, Part]()
        for part in self.parts:
            if part.every(stage) is None:
                continue
            before = chosen.get(part.key)
            if before is None or _newest(part, eaten) > _newest(before, eaten):
                chosen[part.key] = part
        return tuple(chosen.values())

    def key_of(self, item: str) -> str:
        """The key of the part that a meal was of: by its class, its nature, or the part's name.

        What fits no part counts as the main food.
        """
        prey = known_prey(item)
        if prey is None:
            word = item.strip().lower()
            fits = [p.key for p in self.parts if word in (p.name, p.key)]
        else:
            same = [p.key for p in self.parts if prey.code in codes_of(p.foods)]
            fits = same or [p.key for p in self.parts if prey.nature in _natures(p.foods)]
        return fits[0] if fits else self.parts[self.main].key

    @property
    def main(self) -> int:
        """The place of the main food: the first part that is not greens alone."""
        animal = (i for i, p in enumerate(self.parts) if _natures(p.foods) - {"plant"})
        return next(animal, 0)

    def said(self, stage: Stage | None, eaten: Sequence[str] = ()) -> str:
        """The whole diet: `greens daily, insects once or twice a week`."""
        return ", ".join(part.words(stage) for part in self.at(stage, eaten))

    def has(self, *natures: str) -> bool:
        """Some part of it is of such food."""
        return any(_natures(part.foods).intersection(natures) for part in self.parts)


def hull(spans: Iterable[Span]) -> Span:
    """From the least to the most of all."""
    lows, highs = zip(*spans, strict=True)
    return min(lows), max(highs)


def rhythm_words(days: Span, feeds: Span = (1.0, 1.0)) -> str:
    """How often, in a keeper's words: `daily`, `every 2 days`, `twice a week`, `every 10 days`."""
    if days == (1.0, 1.0):
        return _daily(feeds)
    low, high = days
    if days == (WEEK, WEEK):
        return "once a week"
    if low == high or high > WEEK or low > MOST_DAYS or (high <= MOST_DAYS and days != TWICE):
        return f"every {_from_to(low, high)} days"
    often, seldom = round(WEEK / low), max(1, round(WEEK / high))
    if often == seldom:
        return f"{_TIMES.get(often, f'{often} times')} a week"
    return f"{seldom} to {often} times a week"


_TIMES = {1: "once", 2: "twice"}


def _daily(feeds: Span) -> str:
    if feeds[1] <= 1:
        return "daily"
    return f"daily in {_from_to(*feeds)} feeds"


def _from_to(low: float, high: float) -> str:
    return f"{low:g}" if low == high else f"{low:g} to {high:g}"


@cache
def codes_of(foods: tuple[str, ...]) -> frozenset[str]:
    """The codes of the classes of some foods."""
    return frozenset(p.code for p in prey_of_kinds(foods))


@cache
def _natures(foods: tuple[str, ...]) -> frozenset[str]:
    return frozenset(p.nature for p in prey_of_kinds(foods))


def _newest(part: Part, eaten: Sequence[str]) -> int:
    codes = codes_of(part.foods)
    return max((place for place, code in enumerate(eaten) if code in codes), default=-1)


@cache
def named_diets() -> Mapping[str, Diet]:
    """The diets to start from, by name."""
    return {row["name"]: diet_of(row, {}) for row in sourced_rows(PACKAGE, "diets", "diet")}


def diet_named(text: str) -> Diet:
    """The named diet; BadInput lists them."""
    wanted = " ".join(text.lower().replace("-", " ").replace("_", " ").split())
    found = named_diets().get(wanted)
    if found is None:
        names = ", ".join(named_diets())
        hint = near_miss(wanted, named_diets())
        raise BadInput(f"there is no diet {quoted(text)!r}{hint}; one of: {names}")
    return found


def diet_of(row: SourcedRow, base: Mapping[str, Part]) -> Diet:
    """The diet of a row; a part takes what it does not say from that of its key in `base`."""
    parts = tuple(_parts(row, base))
    return Diet(row["name"], row.get("words", ""), parts, row.source)


def _parts(row: SourcedRow, base: Mapping[str, Part]) -> Iterator[Part]:
    for told in row["part"]:
        whole = SourcedRow({"source": row["source"], "mark": row["mark"], **told})
        yield _part(whole, base.get(told["key"]))


def _part(row: SourcedRow, base: Part | None) -> Part:
    return Part(
        row["key"],
        row.get("name", base.name if base else row["key"]),
        tuple(row.get("foods", base.foods if base else ())),
        by_stage(row["days"]),
        by_stage(row.get("percent", [])),
        by_stage(row.get("feeds", [])),
        row.get("portion", base.portion if base else ""),
        row.source,
        row.source_of("days"),
        row.source_of("percent"),
        {sex: _of_sex(row, sex) for sex in SEXES if _of_sex(row, sex) != ({}, {})},
    )


def _of_sex(row: SourcedRow, sex: str) -> tuple[ByStage, ByStage]:
    """What a row says of one sex alone: days and percent of the stages that differ."""
    return by_stage(row.get(f"days_{sex}", [])), by_stage(row.get(f"percent_{sex}", []))


def by_stage(spans: Sequence[Sequence[float]]) -> ByStage:
    """Spans for hatchling, juvenile, subadult and adult; an empty one where a stage has none."""
    return {s: (float(p[0]), float(p[1])) for s, p in zip(Stage, spans, strict=False) if p}
