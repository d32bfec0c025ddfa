"""How a species is fed: diet, life stages, growth, temperatures to reckon with, width rule."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cache

from msgspec import Struct
from msgspec.structs import replace

from warmside.api import OWN_RECORDS, BadInput, Source, SourcedRow, sourced_rows
from warmside.plugins.feeding.care.diets import (
    PACKAGE,
    ByStage,
    Diet,
    Part,
    Stage,
    by_stage,
    diet_of,
    hull,
    named_diets,
)
from warmside.plugins.feeding.energy.rates import Day, Span, mixed_day

FILES = ("snakes", "boas_and_pythons", "geckos", "lizards", "chelonians")


class Species(Struct, frozen=True):
    """A row of a species, or what is known of a group (`is_default`), which has no diet.

    `from_g` are the masses from which it counts as juvenile, subadult and adult; none where nothing
    is known of its kind: then no mass tells its stage, and no energy is reckoned.

    `part` is the one that a plan is about: the staple, unless `with_part` says otherwise. `growth`
    in percent a week by stage. Temperatures of the body in °C, to reckon energy with;
    `width_ratio` of prey to body. `young_note` is for hatchlings alone; `fast` is what is usual for
    the species.
    """

    latin: str
    common: str
    group: str
    diet: Diet
    part: Part
    from_g: tuple[float, ...]
    growth: ByStage
    day_c: Span
    night_c: Span
    day_hours: float
    width_ratio: Span
    note: str
    young_note: str
    fast: str
    source: Source
    temperature_source: Source
    is_default: bool

    @property
    def prey(self) -> tuple[str, ...]:
        """Kinds or classes of food of the part."""
        return self.part.foods

    @property
    def meal_percent(self) -> ByStage:
        """The part in percent of body mass on a day of it."""
        return self.part.percent

    @property
    def interval_days(self) -> ByStage:
        """Days from one day of the part to the next."""
        return self.part.days

    @property
    def meal_source(self) -> Source:
        """Where the shares come from."""
        return self.part.percent_source

    @property
    def interval_source(self) -> Source:
        """Where the intervals come from."""
        return self.part.days_source

    @property
    def starts_g(self) -> tuple[tuple[Stage, float], ...]:
        """The stages with the mass from which each counts."""
        return tuple(zip(Stage, (0.0, *self.from_g), strict=True)) if self.has_stages else ()

    @property
    def has_stages(self) -> bool:
        """Its life stages are known by mass."""
        return bool(self.from_g)

    @property
    def usual_day(self) -> Day:
        """The temperatures to reckon with where the animal's own are not known."""
        return mixed_day(self.day_c, self.night_c, self.day_hours)

    def interval(self, stages: Sequence[Stage]) -> Span:
        """Days between meals over some stages; over all where it has none at these."""
        spans = [days for s in stages if (days := self.part.every(s))]
        found = hull(spans) if spans else self.part.every(None)
        assert found is not None
        return found

    def with_part(self, part: Part) -> Species:
        """The species, looked at for one part of its diet."""
        return replace(self, part=part)

    def for_sex(self, sex: str) -> Species:
        """The species as a male or a female of it is fed."""
        if not any(part.of_sex for part in self.diet.parts):
            return self
        parts = tuple(part.for_sex(sex) for part in self.diet.parts)
        return replace(self, diet=replace(self.diet, parts=parts), part=self.part.for_sex(sex))

    def words_at(self, stages: Sequence[Stage]) -> str:
        """What is to be known of its meals; plainly where only the intervals of a group are."""
        if self.is_default and not self.diet.parts:
            return NO_DIET.format(self.common)
        young = self.young_note if Stage.HATCHLING in stages else ""
        return "; ".join(filter(None, (young, self.note)))


NO_DIET = (
    "what it eats is not known here: only how often is said, for {}; ask its breeder or a vet, "
    "then set it: warmside feeding diet set"
)


@cache
def species_rows() -> Mapping[str, Species]:
    """The species by scientific name; a name of one word stands for a genus."""
    groups = {row["group"]: row for row in sourced_rows(PACKAGE, "groups", "group")}
    rows = (row for file in FILES for row in sourced_rows(PACKAGE, file, "species"))
    return {
        row["latin"]: _species(SourcedRow({**groups[row["group"]], **row}), _diet(row))
        for row in rows
    }


@cache
def group_rows() -> Mapping[str, Species]:
    """What is known of groups, by the collection's groups that they stand for."""
    return {
        family: _species(row, None)
        for row in sourced_rows(PACKAGE, "groups", "group")
        for family in row["families"]
    }


def species_for(latin: str, group: str) -> Species | None:
    """The row of a subspecies, of its species or of its genus, or what is known of its group.

    `group` is the collection's (python, gecko). None where neither is known: then nothing can be
    said.
    """
    known = species_rows()
    found = next((known[name] for name in _names(latin) if name in known), None)
    if found is not None:
        return found if " " in found.latin else replace(found, latin=latin)
    default = group_rows().get(group.strip().lower())
    return replace(default, latin=latin) if default else None


def unknown_kind(latin: str, common: str) -> Species:
    """A species of which neither it nor its group is known, for a diet that the keeper sets."""
    row = next(r for r in sourced_rows(PACKAGE, "groups", "group") if r["group"] == "other")
    return replace(_species(row, None), latin=latin, common=common)


def _names(latin: str) -> Iterator[str]:
    words = latin.capitalize().split()
    for count in (3, 2, 1):
        yield " ".join(words[:count])


def with_diet(species: Species, diet: Diet) -> Species:
    """The species on another diet, its staple in view."""
    return replace(species, diet=diet, part=diet.parts[0])


def with_own(
    species: Species,
    *,
    interval_days: Span | None = None,
    meal_percent: Span | None = None,
    prey: tuple[str, ...] | None = None,
) -> Species:
    """The species as the keeper feeds this animal: own values of its main food, marked so.

    `prey` are kinds (mouse) or class codes (mouse-adult).
    """
    parts = species.diet.parts
    if not parts and not prey:
        return replace(species, part=own_part(species.part, interval_days, meal_percent))
    place = species.diet.main
    told = own_part(parts[place] if parts else species.part, interval_days, meal_percent, prey)
    diet = replace(species.diet, parts=(*parts[:place], told, *parts[place + 1 :]))
    return with_diet(species, diet)


def own_part(
    part: Part,
    interval_days: Span | None = None,
    meal_percent: Span | None = None,
    foods: tuple[str, ...] | None = None,
) -> Part:
    """A part with the keeper's values for all stages in the place of the row's."""
    if interval_days:
        days = _checked(interval_days, 1.0, 180.0, "interval", "days")
        part = replace(part, days=dict.fromkeys(Stage, days), days_source=OWN_RECORDS)
    if meal_percent:
        share = _checked(meal_percent, 0.5, 60.0, "meal size", "percent of body mass")
        part = replace(part, percent=dict.fromkeys(Stage, share), percent_source=OWN_RECORDS)
    return replace(part, foods=foods) if foods else part


def _checked(pair: Span, least: float, most: float, what: str, unit: str) -> Span:
    low, high = sorted(pair)
    if not least <= low <= high <= most:
        raise BadInput(f"{what} {low:g} to {high:g} {unit}; give {least:g} to {most:g}")
    return low, high


def _diet(row: SourcedRow) -> Diet:
    named = named_diets()[row["diet"]]
    told = SourcedRow({**row, "name": named.name, "words": named.words})
    return diet_of(told, {part.key: part for part in reversed(named.parts)})


def _species(row: SourcedRow, diet: Diet | None) -> Species:
    unknown = Diet("", "", (), row.source)
    return Species(
        row.get("latin", ""),
        row["common"],
        row["group"],
        diet or unknown,
        diet.parts[0] if diet else _meal(row),
        tuple(float(g) for g in row["from_g"]),
        by_stage(row["growth"]),
        row.span("day_c"),
        row.span("night_c"),
        float(row["day_hours"]),
        row.span("width_ratio"),
        row.get("note", ""),
        row.get("young_note", ""),
        row.get("fast", ""),
        row.source,
        row.source_of("temperature"),
        diet is None,
    )


def _meal(row: SourcedRow) -> Part:
    """What is known of a group: how often, not what nor how much."""
    of = row.source
    return Part("meal", "meal", (), by_stage(row["days"]), {}, {}, "", of, of, of)
