"""What is wrong in the data of plugins, and with plugins themselves, for `file check`."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.core.asking.ask import Ask
from warmside.core.file.checks.whole import Checked


def plugin_checks(ask: Ask) -> Iterator[Checked]:
    """A line for each plugin: that it loads, and what it says of its own data."""
    said = ask.host.collect("warmside_check", str, book=ask.book, ask=ask)
    wrong = {f.plugin: f"{f.where}: {f.error}" for f in ask.host.failures}
    for name in sorted({*ask.host.manifests, *wrong}):
        problems = [text for plugin, text in said if plugin == name]
        told = "; ".join(([wrong[name]] if name in wrong else []) + problems)
        yield Checked(f"plugin {name}", told)
