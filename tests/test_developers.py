"""DEVELOPERS.md lists what is there, all of it; WARMSIDE_WRITE_DOCS=1 rewrites the lists."""

from __future__ import annotations

import inspect
import os
from collections.abc import Iterator
from pathlib import Path

from warmside.core.plugins.discovery import BUILT_IN, manifest_of
from warmside.core.plugins.hookspecs import Hooks
from warmside.core.plugins.host import Host
from warmside.core.plugins.manifest import HOOK_LEVEL, Manifest
from warmside.core.values import errors
from warmside.core.values.units import Unit

DEVELOPERS = Path(__file__).parent.parent / "DEVELOPERS.md"
START, END = "<!-- reference -->\n", "<!-- end of reference -->"


def reference() -> str:
    """Everything that plugin authors and scripts rely on by name."""
    manifests = [manifest_of(name) for name in sorted(BUILT_IN)]
    parts = [_hooks(), _kinds(manifests), _settings(manifests), _findings(manifests), _codes()]
    return "\n".join("\n".join(part) + "\n" for part in parts)


def _hooks() -> Iterator[str]:
    yield f"### Hooks (level {HOOK_LEVEL[0]}.{HOOK_LEVEL[1]})\n"
    yield "| hook | arguments | gives | when |"
    yield "| --- | --- | --- | --- |"
    for name, spec in vars(Hooks).items():
        if name.startswith("warmside_"):
            signature = inspect.signature(spec)
            arguments = ", ".join(p for p in signature.parameters if p != "self")
            gives = str(signature.return_annotation).removeprefix("Iterable[").removesuffix("]")
            said = " ".join((spec.__doc__ or "").split())
            yield f"| `{name}` | {arguments or '–'} | {gives} | {said} |"


def _kinds(manifests: list[Manifest]) -> Iterator[str]:
    yield "### Event kinds\n"
    yield "| kind | about | fields |"
    yield "| --- | --- | --- |"
    host = Host(manifests)
    assert host.failures == []
    for kind in host.kinds.values():
        fields = ", ".join(f"{s.name}{'' if s.required else '?'}" for s in kind.fields)
        yield f"| `{kind.name}` | {kind.subject.value} | {fields or '–'} |"


def _settings(manifests: list[Manifest]) -> Iterator[str]:
    yield "### Settings of the plugins that ship\n"
    yield "| plugin | setting | default | what it means |"
    yield "| --- | --- | --- | --- |"
    for manifest in manifests:
        for s in manifest.settings:
            named = "%" if s.unit is Unit.PERCENT else s.unit.code if s.unit else ""
            unit = f" {named}" if s.unit and s.unit.suffix else ""
            default = f"`{s.default}`{unit}" if s.default != "" else "–"
            yield f"| {manifest.name} | `{s.name}` | {default} | {s.help} |"


def _findings(manifests: list[Manifest]) -> Iterator[str]:
    yield "### Finding codes\n"
    yield "| code | meaning |"
    yield "| --- | --- |"
    for manifest in manifests:
        for code, meaning in manifest.findings:
            yield f"| `{code}` | {meaning} |"


def _codes() -> Iterator[str]:
    yield "### Exit codes\n"
    yield "| code | when |"
    yield "| --- | --- |"
    yield "| 0 | done |"
    known = [e for _, e in inspect.getmembers(errors, inspect.isclass) if hasattr(e, "exit_code")]
    for error in sorted(known, key=lambda e: e.exit_code):
        yield f"| {error.exit_code} | {(error.__doc__ or '').splitlines()[0]} |"
    yield "| 130 | Interrupted. |"


def test_the_reference_lists_what_the_code_has() -> None:
    text = DEVELOPERS.read_text(encoding="utf-8")
    before, rest = text.split(START)
    after = rest.split(END)[1]
    now = f"{before}{START}{reference()}{END}{after}"
    if os.environ.get("WARMSIDE_WRITE_DOCS"):
        DEVELOPERS.write_text(now, encoding="utf-8")
    assert now == DEVELOPERS.read_text(encoding="utf-8")


def test_readme_tells_the_exit_codes() -> None:
    text = DEVELOPERS.with_name("README.md").read_text(encoding="utf-8")
    line = next(x for x in text.splitlines() if x.startswith("Exit codes:"))
    told = {int(word) for word in line.replace(":", "").split() if word.isdigit()}
    known = [e for _, e in inspect.getmembers(errors, inspect.isclass) if hasattr(e, "exit_code")]
    assert told == {0, 130} | {e.exit_code for e in known}
