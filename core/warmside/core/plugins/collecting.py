"""What one may want of the enabled plugins, whoever hosts them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Protocol, TypeVar

from msgspec import Struct

from warmside.core.kinds.known import Kinds
from warmside.core.plugins.manifest import Manifest

T = TypeVar("T")


class Failure(Struct, frozen=True):
    """A plugin that could not take part: where, and why."""

    plugin: str
    where: str
    error: str

    def __str__(self) -> str:
        return f"plugin {self.plugin} failed in {self.where}: {self.error}"


class Collects(Protocol):
    """The plugins of a collection, as those who ask them see them."""

    @property
    def kinds(self) -> Kinds:
        """Every kind of event that is known."""
        ...

    @property
    def manifests(self) -> Mapping[str, Manifest]:
        """The manifests of the plugins at work."""
        ...

    @property
    def failures(self) -> Sequence[Failure]:
        """Plugins that could not take part, and why."""
        ...

    @property
    def seconds(self) -> Mapping[tuple[str, str], float]:
        """The time that each plugin took in each hook."""
        ...

    def collect(self, hook: str, *of: type[T], **arguments: Any) -> list[tuple[str, T]]:
        """(plugin, item) of every implementation of an observer hook."""
        ...

    def require(
        self, hook: str, *of: type[T], only: str | None = None, **arguments: Any
    ) -> list[tuple[str, T]]:
        """As `collect`, for an integral hook: the first failure is raised."""
        ...

    def takes(self, plugin: str, hook: str, argument: str) -> bool:
        """Whether a plugin's implementation of a hook names an argument."""
        ...
