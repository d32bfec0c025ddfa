"""What was made of one version of the file is shown again until somebody writes, then let go."""

from __future__ import annotations

import threading
from collections.abc import Callable, Hashable
from pathlib import Path
from typing import Any, TypeVar

from warmside.core.file.version import Seen, Version

MOST = 64
Made = TypeVar("Made")


class Cache:
    """Keeps the newest values; several who ask for one at once wait for one computation."""

    def __init__(self, path: Path) -> None:
        self._version = Version(path)
        self._lock = threading.Lock()
        self._kept: dict[Hashable, tuple[Seen, Any]] = {}
        self._making: dict[Hashable, threading.Lock] = {}

    def get(self, key: Hashable, make: Callable[[], Made]) -> Made:
        """The value of a key for the file as it is now."""
        version = self._version.now()  # before it is made: at worst it is made once more
        with self._lock:
            gate = self._making.setdefault(key, threading.Lock())
        with gate:
            with self._lock:
                kept = self._kept.get(key)
            if kept is not None and kept[0] == version:
                return kept[1]  # type: ignore[no-any-return]
            try:
                made = make()
            except BaseException:
                with self._lock:
                    self._making.pop(key, None)  # what is asked for in vain takes no room
                raise
            self._keep(key, version, made)
        return made

    def _keep(self, key: Hashable, version: Seen, made: object) -> None:
        with self._lock:
            self._kept.pop(key, None)
            self._kept[key] = (version, made)
            for old in [k for k, (seen, _) in self._kept.items() if seen != version]:
                self._let_go(old)
            while len(self._kept) > MOST:
                self._let_go(next(iter(self._kept)))

    def _let_go(self, key: Hashable) -> None:
        del self._kept[key]
        self._making.pop(key, None)
