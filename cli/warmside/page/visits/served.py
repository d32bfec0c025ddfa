"""What a page serves and remembers while it runs: one live collection, its phones, its commands."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable
from datetime import datetime

from warmside.core.session.live import Live
from warmside.page.phones.devices import Devices
from warmside.page.phones.throttle import Throttle
from warmside.page.visits.asked import Commands
from warmside.page.visits.cached import Cache
from warmside.page.visits.said import Said


class Served:
    """What every request may use; `hosts` are the names under which the page may be asked."""

    def __init__(
        self,
        live: Live,
        devices: Devices,
        commands: Commands,
        hosts: Iterable[str],
        seconds: Callable[[], float] = time.monotonic,
    ) -> None:
        self.live = live
        self.devices = devices
        self.commands = commands
        self.hosts = frozenset(host.lower() for host in hosts)
        self.cache = Cache(live.path)
        self.said = Said()
        self.throttle = Throttle(seconds)

    def now(self) -> datetime:
        """The moment, as sessions have it."""
        return self.live.now()
