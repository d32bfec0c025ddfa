"""Classes of food: mass, energy, width and length of an item, each with its range."""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import cache, lru_cache

from msgspec import Struct

from warmside.api import BadInput, Source, SourcedRow, quoted, sourced_rows
from warmside.plugins.feeding.energy.rates import KJ_PER_KCAL, Span
from warmside.plugins.feeding.prey.words import plain, tokens

PACKAGE = "warmside.plugins.feeding"
FILES = ("rodents", "birds_and_eggs", "insects", "small_animals", "plants_and_prepared")
WARM = ("rodent", "bird")


class Prey(Struct, frozen=True):
    """A class of food: mass of an item in g, metabolizable energy as fed in kcal/g.

    `nature` is rodent, bird, egg, insect, worm, snail, fish, plant or prepared. `length_mm` is that
    of insects, None for the rest. `words` are what keepers write beside the name.
    """

    code: str
    name: str
    kind: str
    nature: str
    mass_g: Span
    typical_g: float
    length_mm: Span | None
    kcal_per_g: float
    kcal_range: Span
    length_to_width: float
    treat: bool
    words: tuple[str, ...]
    energy_source: Source
    mass_source: Source

    @property
    def insect(self) -> bool:
        """An insect, counted and dusted."""
        return self.nature == "insect"

    @property
    def plant(self) -> bool:
        """Greens or food from a bag or a tin."""
        return self.nature in ("plant", "prepared")

    @property
    def vertebrate(self) -> bool:
        """A whole mouse, rat or bird."""
        return self.nature in WARM

    @property
    def frozen(self) -> bool:
        """Kept in the freezer and thawed."""
        return self.vertebrate or self.nature == "fish"

    @property
    def weighed(self) -> bool:
        """Given as a portion by weight, not by the piece."""
        return self.plant or self.code.endswith("-piece")

    @property
    def form(self) -> str | None:
        """How it is usually offered: thawed, as insects, as plants, prepared; else None."""
        if self.frozen:
            return "thawed"
        return self.nature if self.nature in ("insect", "plant", "prepared") else None

    def kj(self, mass_g: float) -> float:
        """Metabolizable energy of so many g, in kJ."""
        return mass_g * self.kcal_per_g * KJ_PER_KCAL

    def kj_range(self, low_g: float, high_g: float) -> Span:
        """Least and most energy between two masses, in kJ."""
        return (
            low_g * self.kcal_range[0] * KJ_PER_KCAL,
            high_g * self.kcal_range[1] * KJ_PER_KCAL,
        )

    def width_mm(self, each_g: float) -> float:
        """Width of an item: a cylinder of 1 g/ml, `length_to_width` times as long as wide.

        Common practice, no source: geometry, good to about 15 %.
        """
        return float((4000.0 * each_g / (math.pi * self.length_to_width)) ** (1.0 / 3.0))

    def mass_at_width(self, width_mm: float) -> float:
        """Mass in g of an item that is so wide: the same geometry turned round."""
        return float(math.pi * self.length_to_width * width_mm**3 / 4000.0)


@cache
def prey_classes() -> Mapping[str, Prey]:
    """All classes by code, in the order of the files: of one kind the smallest first."""
    rows = (row for file in FILES for row in sourced_rows(PACKAGE, file, "food"))
    return {row["code"]: _prey(row) for row in rows}


@lru_cache(maxsize=4096)
def known_prey(text: str) -> Prey | None:
    """The class that a keeper's word means; None where it means none, or may mean several."""
    found = classes_meant(text)
    return found[0] if len(found) == 1 else None


@lru_cache(maxsize=4096)
def classes_meant(text: str) -> tuple[Prey, ...]:
    """The classes that a word may mean: `fuzzies` both mice and rats; none where it is unknown.

    By code, by name or by a word of the class; else all whose name holds every word of it.
    """
    exact = prey_classes().get("-".join(plain(text).replace("_", " ").split()))
    if exact:
        return (exact,)
    said = tokens(text)
    if said in _by_tokens():
        return (_by_tokens()[said],)
    return tuple(p for p in prey_classes().values() if said and said <= tokens(p.name))


def prey_named(text: str) -> Prey:
    """The class of that code, name or word; BadInput with those it may be, or the near misses."""
    found = classes_meant(text)
    if len(found) == 1:
        return found[0]
    if found:
        several = ", ".join(p.code for p in found)
        raise BadInput(f"{quoted(text)!r} may be several classes of food; write one of: {several}")
    from difflib import get_close_matches

    names = {plain(p.name): p.code for p in prey_classes().values()}
    near = get_close_matches(plain(text), [*prey_classes(), *names], n=3)
    codes = dict.fromkeys(names.get(n, n) for n in near)
    hint = f"did you mean {' or '.join(codes)}?" if codes else "list them: warmside feeding foods"
    raise BadInput(f"no prey class {quoted(text)!r}; {hint}")


@cache
def prey_of_kinds(kinds: tuple[str, ...]) -> tuple[Prey, ...]:
    """The classes of some kinds (or plant classes by code), in the order of the kinds."""
    found = prey_classes().values()
    return tuple(p for kind in kinds for p in found if kind in (p.kind, p.code))


@cache
def _by_tokens() -> Mapping[frozenset[str], Prey]:
    """Each name, code and word of a class; names come before words."""
    classes = tuple(prey_classes().values())
    told = {tokens(word): p for p in classes for word in p.words}
    return {**told, **{tokens(p.code): p for p in classes}, **{tokens(p.name): p for p in classes}}


def _prey(row: SourcedRow) -> Prey:
    kcal = _kcal_per_g(row)
    within = row.get("within_percent", 0) / 100.0
    around = (kcal * (1 - within), kcal * (1 + within))
    return Prey(
        row["code"],
        row["name"],
        row["kind"],
        row["nature"],
        row.span("mass_g"),
        float(row["typical_g"]),
        row.span("length_mm") if "length_mm" in row else None,
        kcal,
        row.span("kcal_range") if "kcal_range" in row else around,
        float(row["length_to_width"]),
        bool(row.get("treat")),
        tuple(row.get("words", ())),
        row.source,
        row.source_of("mass"),
    )


def _kcal_per_g(row: SourcedRow) -> float:
    if "kcal_per_g" in row:
        return float(row["kcal_per_g"])
    return float(row["kcal_per_g_dry"] * (1.0 - row["water_percent"] / 100.0))
