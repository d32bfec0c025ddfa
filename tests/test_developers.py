"""DEVELOPERS.md lists what is there, all of it; WARMSIDE_WRITE_DOCS=1 rewrites the lists."""

from __future__ import annotations

import ast
import inspect
import os
from collections.abc import Callable, Iterator
from enum import Enum
from importlib import import_module
from itertools import pairwise
from pathlib import Path
from typing import TypeGuard

import pytest
from msgspec import Struct

import warmside.api as api
from warmside.core.plugins.discovery import BUILT_IN, manifest_of
from warmside.core.plugins.hookspecs import Hooks
from warmside.core.plugins.host import Host
from warmside.core.plugins.manifest import HOOK_LEVEL, Manifest
from warmside.core.plugins.quantities import QUANTITIES
from warmside.core.values import errors
from warmside.core.values.measures.measure import measure_of
from warmside.core.values.units import Unit, units

DEVELOPERS = Path(__file__).parent.parent / "DEVELOPERS.md"
START, END = "<!-- reference -->\n", "<!-- end of reference -->"


def reference() -> str:
    """Everything that plugin authors and scripts rely on by name."""
    manifests = [manifest_of(name) for name in sorted(BUILT_IN)]
    parts = [
        _names(),
        _methods(),
        _hooks(),
        _units(),
        _quantities(manifests),
        _kinds(manifests),
        _settings(manifests),
        _findings(manifests),
        _codes(),
    ]
    return "\n".join("\n".join(part) + "\n" for part in parts)


METHODS_OF = ("Ask", "Book", "Session", "StepWriter")


GROUPS = {  # where the names of a group come from; the first that fits
    "What a plugin declares, and what its hooks give": (
        "core.plugins",
        "core.kinds",
        "core.record.tables",
    ),
    "What is read, asked and written": ("core.record", "core.asking", "core.session"),
    "What is answered": ("core.answers", "faces"),
    "What is typed, refused and told": tuple(
        f"core.values.{room}" for room in ("counts", "errors", "hints", "questions")
    ),
    "Values, and where they come from": ("core.values", "core.figures"),
}


def _names() -> Iterator[str]:
    yield "### Names of warmside.api"
    named = sorted(set(api.__all__) - set(api.SPACES), key=str.casefold)
    for group in GROUPS:
        yield f"\n{group}:\n"
        yield "| name | what it is |"
        yield "| --- | --- |"
        for name in (n for n in named if _group(api._WHERE[n]) == group):
            found = getattr(api, name)
            yield f"| `{_use(name, found)}` | {_said(found, name, api._WHERE[name])} |"
    for space in sorted(api.SPACES):
        yield from _family(space)


def _group(place: str) -> str:
    """The group of a name that comes from a module."""
    rooms = place.removeprefix("warmside.")
    return next(g for g, starts in GROUPS.items() if rooms.startswith(starts))


def _family(space: str) -> Iterator[str]:
    """The names of a module that is given whole."""
    module = getattr(api, space)
    yield f"\n### Names of warmside.api.{space}\n"
    yield f"{_first(inspect.getdoc(module) or '')}\n"
    yield "| name | what it is |"
    yield "| --- | --- |"
    for name in sorted(module.__all__, key=str.casefold):
        found = getattr(module, name)
        yield f"| `{space}.{_use(name, found)}` | {_said(found, name, api.SPACES[space])} |"


def _methods() -> Iterator[str]:
    """What the four that plugins work with can do, in the order of their code."""
    for name in METHODS_OF:
        yield f"### What {name} has\n"
        yield f"| {name.lower()} | what it gives |"
        yield "| --- | --- |"
        for member, found in vars(getattr(api, name)).items():
            if member.startswith("_") or not (told := inspect.getdoc(found)):
                continue
            use = _use(member, found) if inspect.isroutine(found) else member
            yield f"| `{use}` | {_first(told)} |"
        yield ""


def _use(name: str, found: object) -> str:
    """How it is called, without types; the members of a list of words."""
    if inspect.isclass(found) and issubclass(found, Enum):
        return name
    if inspect.isclass(found) and not issubclass(found, Struct | tuple):
        return name
    if not callable(found) or not (inspect.isclass(found) or inspect.isroutine(found)):
        return name
    if inspect.isclass(found) and issubclass(found, Struct):
        return f"{name}({', '.join(_fields(found))})"
    return f"{name}({', '.join(_argument(p) for p in _parameters(found))})"


def _fields(found: type[Struct]) -> list[str]:
    """The fields of a value by name alone: its types load only where they are used."""
    names = found.__struct_fields__
    free = len(names) - len(found.__struct_defaults__)
    return [f"{name}{'?' if n >= free else ''}" for n, name in enumerate(names)]


def _parameters(found: Callable[..., object]) -> list[inspect.Parameter]:
    return [p for p in inspect.signature(found).parameters.values() if p.name != "self"]


def _argument(parameter: inspect.Parameter) -> str:
    """A parameter as it is written; what may be left out is marked."""
    stars = {inspect.Parameter.VAR_POSITIONAL: "*", inspect.Parameter.VAR_KEYWORD: "**"}
    free = "?" if parameter.default is not inspect.Parameter.empty else ""
    return f"{stars.get(parameter.kind, '')}{parameter.name}{free}"


def _said(found: object, name: str, place: str) -> str:
    """The first sentence of what a name says of itself, of its class or below its value."""
    if not (inspect.isclass(found) or inspect.isroutine(found)):
        return _first(_below(name, place))
    members = ", ".join(f"`{m}`" for m in found.__members__) if _is_enum(found) else ""
    return _first(inspect.getdoc(found) or "") + (f" {members}" if members else "")


def _is_enum(found: object) -> TypeGuard[type[Enum]]:
    return inspect.isclass(found) and issubclass(found, Enum)


def _first(told: str) -> str:
    """The first paragraph's first line, as a cell."""
    lines = told.splitlines()
    return lines[0].replace("|", "\\|") if lines else ""


def _below(name: str, place: str) -> str:
    """The words below the assignment of a value, in the module that it comes from."""
    module = import_module(place)
    body = ast.parse(Path(str(module.__file__)).read_text(encoding="utf-8")).body
    for statement, words in pairwise(body):
        named = isinstance(statement, ast.Assign) and ast.unparse(statement.targets[0]) == name
        if named and isinstance(words, ast.Expr) and isinstance(words.value, ast.Constant):
            return str(words.value.value)
        if isinstance(statement, ast.ImportFrom) and name in {a.name for a in statement.names}:
            return _below(name, str(statement.module))
    return ""


def _units() -> Iterator[str]:
    """The units of the core: how a name ends that holds one, and what a keeper may type."""
    yield "### Units\n"
    yield "| unit | a name ends in | stored in, typed as |"
    yield "| --- | --- | --- |"
    for unit in (u for u in units() if "." not in u.name):
        measure = measure_of(unit)
        typed = ", ".join(f"`{example}`" for example in measure.examples)
        ending = f"`{unit.suffix}`" if unit.suffix else "–"
        stored = measure.scales[0].symbol or "–"
        yield f"| `Unit.{unit.name.upper()}` | {ending} | {stored}; {typed} |"


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
    alone = [(n, getattr(api, n), place) for n, place in api._WHERE.items()]
    families = [
        (n, getattr(getattr(api, space), n), place)
        for space, place in api.SPACES.items()
        for n in getattr(api, space).__all__
    ]
    for name, found, place in alone + families:
        assert _said(found, name, place), f"{name} says nothing of itself"
    with pytest.raises(AttributeError, match="has no 'nothing'"):
        _ = api.nothing


def test_the_type_checker_knows_the_very_names_that_load() -> None:
    """The imports for the type checker and the table at run time are the same names."""
    tree = ast.parse(Path(str(api.__file__)).read_text(encoding="utf-8"))
    (block,) = (n for n in tree.body if isinstance(n, ast.If))
    imports = [
        (f"{n.module}", a.name, a.asname)
        for n in block.body
        if isinstance(n, ast.ImportFrom)
        for a in n.names
    ]
    families = {
        ast.unparse(n.targets[0]): ast.unparse(n.value)
        for n in block.body
        if isinstance(n, ast.Assign)
    }
    assert families == {space: f"_{space}" for space in api.SPACES}
    given = {f"_{space}": space for space in api.SPACES}
    names = [given.get(f"{to}", name) for _, name, to in imports]
    assert sorted(names) == sorted(set(names)) == sorted(api.__all__)
    for module, name, to in imports:
        whole = f"{to}" in given
        typed = import_module(f"{module}.{name}") if whole else getattr(import_module(module), name)
        assert typed is getattr(api, given.get(f"{to}", name)), name


NO_PLUGIN_THAT_SHIPS_NAMES = {
    "Answered",  # what ask.answers gives; who keeps one may name its type
    "live",  # for a face that runs for long; the page, which is no plugin, takes it from the core
}


def test_every_name_of_the_api_is_used_by_a_plugin_that_ships_or_the_example() -> None:
    root = DEVELOPERS.parent
    paths = (p for room in ("plugins", "examples") for p in (root / room).rglob("*.py"))
    trees = (ast.parse(p.read_text(encoding="utf-8")) for p in paths)
    used = {
        alias.name
        for tree in trees
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and node.module == "warmside.api"
        for alias in node.names
    }
    assert set(api.__all__) - used == NO_PLUGIN_THAT_SHIPS_NAMES
