"""Wrong pairing codes are slowed down, not banned: a ban could lock the owner out."""

from __future__ import annotations

import threading
from collections.abc import Callable

A_MINUTE = 60.0  # seconds
EACH = 5
ALL = 20


class Throttle:
    """Allows five wrong tries a minute to one address, and twenty to all together.

    `clock` gives seconds that never go back.
    """

    def __init__(self, clock: Callable[[], float]) -> None:
        self._clock = clock
        self._lock = threading.Lock()
        self._wrong: list[tuple[float, str]] = []

    def allows(self, address: str) -> bool:
        """Whether this address may try a code now."""
        with self._lock:
            since = self._clock() - A_MINUTE
            self._wrong = [(at, who) for at, who in self._wrong if at > since]
            mine = sum(who == address for _, who in self._wrong)
            return mine < EACH and len(self._wrong) < ALL

    def wrong(self, address: str) -> None:
        """Note a wrong code."""
        with self._lock:
            self._wrong.append((self._clock(), address))
