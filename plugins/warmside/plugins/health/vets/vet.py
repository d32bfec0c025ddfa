"""A vet of the keeper's address book: how to reach them, when, and whether they treat reptiles."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import Struct

from warmside.api import BadInput, near_miss, quoted

YES, NO, NOT_KNOWN = "yes", "no", "not known"
REPTILES = (YES, NO, NOT_KNOWN)
LONGEST = {"hours": 120, "address": 120}
LONGEST_ELSE = 80
ASK_FIRST = "ask first whether they treat reptiles"


class Vet(Struct, frozen=True):
    """A practice or clinic, in the keeper's words; empty is what is not known."""

    id: int
    name: str
    telephone: str = ""
    emergency: str = ""
    hours: str = ""
    reptiles: str = NOT_KNOWN
    address: str = ""
    note: str = ""

    @property
    def words(self) -> str:
        """`vet: Dr. Reed; treats reptiles; telephone 0000; in an emergency 0001; open Mon 9-12`."""
        treats = {YES: "treats reptiles", NO: "treats no reptiles", NOT_KNOWN: ASK_FIRST}
        said = (
            f"vet: {self.name}",
            treats[self.reptiles],
            f"telephone {self.telephone}" if self.telephone else "",
            f"in an emergency {self.emergency}" if self.emergency else "",
            f"open {self.hours}" if self.hours else "",
            self.address,
        )
        return "; ".join(part for part in said if part)


def to_call(vets: Iterable[Vet]) -> list[Vet]:
    """Whom to call about a reptile: who is known to treat them first, nobody who does not."""
    meant = [v for v in vets if v.reptiles != NO]
    return sorted(meant, key=lambda v: (v.reptiles != YES, not v.emergency, v.id))


def check(vet: Vet) -> None:
    """BadInput for a vet without a name or a number, or a text that is too long for its place."""
    if not vet.name:
        raise BadInput("a vet needs a name: the practice, or who is asked for there")
    if not (vet.telephone or vet.emergency):
        raise BadInput(f"{vet.name} needs a number to call: --telephone, --emergency, or both")
    if vet.reptiles not in REPTILES:
        raise BadInput(
            f"--reptiles cannot be {quoted(vet.reptiles)}{near_miss(vet.reptiles, REPTILES)}; "
            f"it is one of: {', '.join(REPTILES)}"
        )
    for number in filter(None, (vet.telephone, vet.emergency)):
        if not any(letter.isdigit() for letter in number):
            raise BadInput(f"{quoted(number)} has no digit, so it is no telephone number")
    for name in ("name", "telephone", "emergency", "hours", "address"):
        text, most = getattr(vet, name), LONGEST.get(name, LONGEST_ELSE)
        if len(text) > most:
            raise BadInput(f"{quoted(text)} is longer than {most} letters; put the rest in --note")


def one_line(text: str) -> str:
    """What was typed, on one line and without outer blanks."""
    return " ".join(text.split())
