"""The labels that name animals: an enclosure's, and an animal's own card."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct

from warmside.plugins.labels.content.codes import Subject, payload
from warmside.plugins.labels.content.label import (
    Label,
    LabelKind,
    LabelText,
    Style,
    fill_in,
    lines_of,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

MOST_NAME_LINES = 3  # more animals than this share one line


class Sex(StrEnum):
    """The sex of an animal as a sign; the value is what is printed."""

    FEMALE = "♀"
    MALE = "♂"
    UNKNOWN = "?"

    @property
    def word(self) -> str:
        """The sex in a word."""
        return self.name.lower()

    @property
    def told(self) -> str:
        """The sign and the word; without a sign where the sex is not known."""
        return "sex unknown" if self is Sex.UNKNOWN else f"{self.value} {self.word}"


class Occupant(Struct, frozen=True):
    """What a label may say about an animal; empty texts are left out. Dates are ready to print."""

    code: str
    name: str = ""
    species: str = ""
    latin: str = ""
    sex: Sex = Sex.UNKNOWN
    hatched: str = ""
    genes: str = ""
    origin: str = ""
    feeding: str = ""

    @property
    def called(self) -> str:
        """Name, or code where there is none, with the sign of the sex where it is known."""
        sign = "" if self.sex is Sex.UNKNOWN else f" {self.sex.value}"
        return f"{self.name.strip() or self.code}{sign}"


def enclosure_label(
    code: str,
    occupants: Sequence[Occupant],
    *,
    room: str = "",
    prefix: str = "",
    extra: Iterable[LabelText] = (),
) -> Label:
    """An enclosure's identity: who lives in it, species, genes, hatch dates, room, then `extra`."""
    one = occupants[0] if len(occupants) == 1 else Occupant("")
    hatched = " / ".join(o.hatched for o in occupants if o.hatched)
    lines = lines_of(
        *names(occupants),
        LabelText(one.species, Style.PLAIN, "species"),
        LabelText(one.genes, Style.PLAIN, "genes"),
        LabelText(f"hatched {hatched}" if hatched else "", Style.PLAIN, "hatched"),
        LabelText(room, Style.PLAIN, "room"),
        *extra,
    )
    return Label(
        LabelKind.ENCLOSURE, code, payload(Subject.ENCLOSURE, code, prefix, who(occupants)), lines
    )


def names(occupants: Sequence[Occupant]) -> tuple[LabelText, ...]:
    """The animals' names, each species in italics after the last of its animals."""
    if len(occupants) > MOST_NAME_LINES:
        called = ", ".join(o.called for o in occupants)
        together = LabelText(f"{len(occupants)}: {called}", Style.PLAIN, "names")
        latin = dict.fromkeys(o.latin for o in occupants)
        return (together, *(LabelText(text, Style.LATIN, "latin") for text in latin))
    lines: list[LabelText] = []
    for species in dict.fromkeys(o.latin for o in occupants):
        same = [o for o in occupants if o.latin == species]
        lines += [LabelText(o.called, Style.NAME, "names") for o in same]
        lines.append(LabelText(species, Style.LATIN, "latin"))
    return tuple(lines)


def who(occupants: Sequence[Occupant]) -> tuple[str, ...]:
    """What the QR says in words: the names, then the species where all are of one."""
    called = " + ".join(o.name.strip() for o in occupants if o.name.strip())
    species = dict.fromkeys(o.species.strip() for o in occupants)
    return (called, *species) if len(species) == 1 else (called,)


def residents(occupants: Sequence[Occupant]) -> tuple[LabelText, ...]:
    """The animals for signs: their names in a plain line, each species in italics below its own."""
    lines: list[LabelText] = []
    for latin in dict.fromkeys(o.latin for o in occupants):
        called = ", ".join(o.called for o in occupants if o.latin == latin)
        lines += [LabelText(called, Style.PLAIN, "names"), LabelText(latin, Style.LATIN, "latin")]
    return tuple(lines)


def animal_card(
    animal: Occupant,
    *,
    contact: str = "",
    vet: str = "",
    prefix: str = "",
    extra: Iterable[LabelText] = (),
) -> Label:
    """An animal's card: who it is, its food, whom to call.

    An empty contact or vet is a line to fill in by hand.
    """
    lines = lines_of(
        LabelText(animal.name, Style.NAME, "name"),
        LabelText(animal.latin, Style.LATIN, "latin"),
        LabelText(animal.species, Style.PLAIN, "species"),
        LabelText(animal.sex.told, Style.PLAIN, "sex"),
        *(
            LabelText(f"{word} {text}" if text else "", Style.PLAIN, key)
            for key, word, text in (
                ("hatched", "hatched", animal.hatched),
                ("genes", "genes:", animal.genes),
                ("origin", "origin:", animal.origin),
            )
        ),
        *extra,
        LabelText(f"feeding: {animal.feeding}" if animal.feeding else "", Style.PLAIN, "feeding"),
        fill_in("emergency contact:", contact, "contact"),
        fill_in("vet:", vet, "vet"),
    )
    said = payload(Subject.ANIMAL, animal.code, prefix, who([animal]))
    return Label(LabelKind.ANIMAL, animal.code, said, lines)
