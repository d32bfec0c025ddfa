"""DEVELOPERS.md lists what is there, all of it; WARMSIDE_WRITE_DOCS=1 rewrites the lists."""

from __future__ import annotations

import ast
import inspect
import os
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

import pytest

import warmside.api as api
from warmside.core.plugins.discovery import BUILT_IN, manifest_of
from warmside.core.plugins.hookspecs import Hooks
from warmside.core.plugins.host import Host
from warmside.core.plugins.manifest import HOOK_LEVEL, Manifest
from warmside.core.plugins.quantities import QUANTITIES
from warmside.core.values import errors
from warmside.core.values.units import Unit

DEVELOPERS = Path(__file__).parent.parent / "DEVELOPERS.md"
START, END = "<!-- reference -->\n", "<!-- end of reference -->"


def reference() -> str:
    """Everything that plugin authors and scripts rely on by name."""
    manifests = [manifest_of(name) for name in sorted(BUILT_IN)]
    parts = [
        _names(),
        _hooks(),
        _quantities(manifests),
        _kinds(manifests),
        _settings(manifests),
        _findings(manifests),
        _codes(),
    ]
    return "\n".join("\n".join(part) + "\n" for part in parts)


def _names() -> Iterator[str]:
    yield "### Names of warmside.api\n"
    yield "| name | what it is |"
    yield "| --- | --- |"
    for name in sorted(api.__all__, key=str.casefold):
        yield f"| `{name}` | {_said(getattr(api, name))} |"


def _said(found: object) -> str:
    """The first sentence of what a name says of itself; of a value, what it holds."""
    if not (inspect.isclass(found) or inspect.isroutine(found)):
        told = getattr(found, "text", None)
        return str(told) if told else f"a {type(found).__name__} for tables or marks"
    lines = (inspect.getdoc(found) or "").splitlines()
    return lines[0].replace("|", "\\|") if lines else ""


def _quantities(manifests: list[Manifest]) -> Iterator[str]:
    yield "### Quantities that plugins ask each other about\n"
    yield "| quantity | unit | answered by |"
    yield "| --- | --- | --- |"
    answered = [(a.what, a.unit, m.name) for m in manifests for a in m.answers]
    units = {what: unit for what, unit, _ in answered} | QUANTITIES
    for what, unit in sorted(units.items()):
        by = ", ".join(name for known, _, name in answered if known == what)
        yield f"| `{what}` | {unit.words if unit else 'days'} | {by or '–'} |"


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


def test_every_name_of_the_api_is_there_and_says_what_it_is() -> None:
    for name in api.__all__:
        found = getattr(api, name)
        assert _said(found), f"{name} says nothing of itself"
    with pytest.raises(AttributeError, match="has no 'nothing'"):
        _ = api.nothing


def test_the_type_checker_knows_the_very_names_that_load() -> None:
    """The imports for the type checker and the table at run time are the same names."""
    tree = ast.parse(Path(str(api.__file__)).read_text(encoding="utf-8"))
    (block,) = (n for n in tree.body if isinstance(n, ast.If))
    typed = {
        (f"{n.module}", a.name)
        for n in block.body
        if isinstance(n, ast.ImportFrom)
        for a in n.names
    }
    names = [name for _, name in typed]
    assert sorted(names) == sorted(set(names)) == sorted(api.__all__)
    for module, name in typed:
        assert getattr(import_module(module), name) is getattr(api, name), name
