"""The kinds of event that are known in a collection: the shared ones and those of its plugins."""

from __future__ import annotations

from warmside.core.kinds.kind import EventKind
from warmside.core.values.errors import NotFound
from warmside.core.values.hints import near_miss


class Kinds(dict[str, EventKind]):
    """Kinds by name."""

    def named(self, name: str) -> EventKind:
        """The kind of that name; near misses are suggested."""
        if name in self:
            return self[name]
        raise NotFound(
            f"there is no kind of event {name!r}{near_miss(name, self)}; "
            "list them with: warmside record --help"
        )
