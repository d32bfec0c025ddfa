"""One way to state a value: a scale, with an exact factor to the stored unit."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple


class Scale(NamedTuple):
    """A way to state a value: stored = (number - zero) * times / over.

    `names` are what may be typed, the plainest first; `symbol` is what is shown, `one` what is
    shown after the number 1 where that differs. Scales of one `chain` may follow each other in one
    quantity, as in `1 lb 3 oz`.
    """

    symbol: str
    names: tuple[str, ...]
    times: Decimal
    over: Decimal = Decimal(1)
    zero: Decimal = Decimal(0)
    chain: str = ""
    one: str = ""

    def to_stored(self, number: Decimal) -> Decimal:
        """The stored value of a number on this scale."""
        return (number - self.zero) * self.times / self.over

    def from_stored(self, value: Decimal) -> Decimal:
        """The number on this scale of a stored value."""
        return value * self.over / self.times + self.zero

    def holds(self, smaller: Scale) -> Decimal:
        """How many of a smaller scale make one of this."""
        return self.times * smaller.over / (self.over * smaller.times)

    def unit_of(self, number: Decimal) -> str:
        """What is shown behind the number."""
        return self.one if self.one and number == 1 else self.symbol


def scale(
    symbol: str,
    names: str,
    times: str = "1",
    *,
    over: str = "1",
    zero: str = "0",
    chain: str = "",
    one: str = "",
) -> Scale:
    """A scale of a measure: its symbol, and the names that may be typed, separated by commas.

    One of it is `times / over` of the stored unit, counted from `zero`; exact, so given as texts.
    """
    typed = tuple(names.split(", "))
    return Scale(symbol, typed, Decimal(times), Decimal(over), Decimal(zero), chain, one)
