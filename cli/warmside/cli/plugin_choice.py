"""Which plugins a command starts without; light, since help asks too."""

from __future__ import annotations

from msgspec import Struct

from warmside.core.values.errors import NotFound
from warmside.core.values.hints import near_miss


class PluginChoice(Struct, frozen=True):
    """Which enabled plugins to start without."""

    none: bool = False
    without: tuple[str, ...] = ()

    def check(self, known: tuple[str, ...]) -> None:
        """Raise NotFound for a plugin that the file has never enabled: a slip of the finger."""
        for name in self.without:
            if name not in known:
                raise NotFound(
                    f"--without {name}: this collection has no such plugin{near_miss(name, known)}"
                    "; see: warmside plugin list"
                )

    def of(self, enabled: tuple[str, ...]) -> list[str]:
        """The names of the plugins to start with."""
        return [] if self.none else [n for n in enabled if n not in self.without]
