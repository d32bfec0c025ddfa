"""Who may use the page, with which phone, and how much of it."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from enum import StrEnum

from msgspec import Struct

SITTERS_KINDS = ("fed", "watered", "misted", "cleaned", "defecated", "observed", "sign")
"""What a sitter may record unless the keeper says otherwise."""


class Role(StrEnum):
    """How much of the page somebody sees."""

    KEEPER = "keeper"
    SITTER = "sitter"


class Rights(Struct, frozen=True):
    """What somebody may see and do; no enclosures named are all, no end is none, nor a beginning.

    `call` and `never` are the keeper's words for a sitter: whom to call, and what not to do.
    """

    role: Role = Role.KEEPER
    ends: datetime | None = None
    enclosures: tuple[str, ...] = ()
    kinds: tuple[str, ...] = SITTERS_KINDS
    call: str = ""
    never: str = ""
    begins: datetime | None = None

    @property
    def is_keeper(self) -> bool:
        """Whether everything may be seen and recorded."""
        return self.role is Role.KEEPER

    def may_see(self, enclosure: str | None) -> bool:
        """Whether an enclosure, by its code, and who lives there may be seen."""
        if self.is_keeper:
            return True
        if enclosure is None:
            return False
        return not self.enclosures or enclosure.upper() in self.enclosures

    def may_record(self, kind: str) -> bool:
        """Whether events of a kind may be recorded."""
        return self.is_keeper or kind in self.kinds

    @property
    def last_day(self) -> date | None:
        """The last whole day, in home time; None where there is no end."""
        return (self.ends - timedelta(seconds=1)).date() if self.ends is not None else None

    def early(self, now: datetime) -> bool:
        """Whether the time is still to come."""
        return self.begins is not None and now < self.begins

    def over(self, now: datetime) -> bool:
        """Whether the time is up."""
        return self.ends is not None and now >= self.ends


class Device(Struct, frozen=True):
    """A paired phone: its number, whose it is, and what that one may do."""

    id: str
    name: str
    rights: Rights
    digest: str
    paired: datetime


class Invitation(Struct, frozen=True):
    """A code that pairs one phone, once, until it expires."""

    code: str
    name: str
    rights: Rights
    expires: datetime
