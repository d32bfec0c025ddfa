"""A protocol by its dotted keys (`tests.faecal.negatives`): taken apart, changed, built again."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, cast

from warmside.api import BadInput, Source
from warmside.plugins.quarantine.protocol.mites import Rechecks, cycle_of_mites
from warmside.plugins.quarantine.protocol.sources import KEEPERS_OWN
from warmside.plugins.quarantine.protocol.terms import (
    SWITCHED,
    CheckWanted,
    Protocol,
    TestWanted,
)
from warmside.plugins.quarantine.protocol.values import Value, checked, unknown_key

_PLAIN = ("title", "group", "tools", "warning", "days", "result_wait_days")
_TEST = ("title", "methods", "negatives", "spacing_days")
_CHECK = ("title", "every_days")
_RECHECK = ("from_day", "to_day", "every_days")


def values(protocol: Protocol) -> dict[str, Value]:
    """Every value of the protocol by dotted key, as `with_overrides` takes them."""
    found: dict[str, Value] = {key: getattr(protocol, key) for key in _PLAIN}
    for test in protocol.tests:
        found |= {f"tests.{test.name}.{key}": getattr(test, key) for key in _TEST}
    for check in protocol.checks:
        found |= {f"checks.{check.name}.{key}": getattr(check, key) for key in _CHECK}
    found |= {f"restarts.{cause}": cause in protocol.restarts for cause in SWITCHED}
    found["ends.checks_up_to_date"] = protocol.checks_up_to_date
    return found | {f"rechecks.{key}": getattr(protocol.rechecks, key) for key in _RECHECK}


def with_overrides(
    protocol: Protocol, edits: Mapping[str, object], source: Source = KEEPERS_OWN
) -> Protocol:
    """The protocol with some values changed by dotted key (`tests.faecal.negatives`: `4`).

    Values may be typed text. Raises BadInput for a key that the protocol does not have, with a
    near miss, and for absurd values. The changed values carry `source`.
    """
    known = values(protocol)
    for key in edits:
        if key not in known:
            raise unknown_key(key, list(known))
    sources = {**protocol.sources, **dict.fromkeys(edits, source)}
    return built(protocol.name, {**known, **edits}, sources)


def built(name: str, raw: Mapping[str, object], sources: Mapping[str, Source]) -> Protocol:
    """The protocol of these values; raises BadInput for an unknown, missing or absurd one."""
    known = _known_keys(raw)
    flat = {key: checked(key, value, known) for key, value in raw.items()}
    days, cycle_source = _rechecks(flat)
    given = {**dict.fromkeys((f"rechecks.{k}" for k in _RECHECK), cycle_source), **sources}
    return Protocol(
        name=name,
        **{key: cast(Any, _get(flat, key)) for key in _PLAIN},
        tests=tuple(
            TestWanted(n, *_fields(flat, f"tests.{n}", _TEST)) for n in _named(flat, "tests")
        ),
        checks=tuple(
            CheckWanted(n, *_fields(flat, f"checks.{n}", _CHECK)) for n in _named(flat, "checks")
        ),
        restarts=frozenset(c for c in SWITCHED if _get(flat, f"restarts.{c}")),
        checks_up_to_date=bool(_get(flat, "ends.checks_up_to_date")),
        rechecks=days,
        sources=given,
    )


def _rechecks(flat: Mapping[str, Value]) -> tuple[Rechecks, Source]:
    """The protocol's own recheck days, missing ones from the mites' cycle."""
    cycle, source = cycle_of_mites()
    own = [cast(int, flat.get(f"rechecks.{key}", getattr(cycle, key))) for key in _RECHECK]
    days = Rechecks(*own)
    if days.from_day > days.to_day:
        raise BadInput(
            f"rechecks.from_day {days.from_day} is after rechecks.to_day {days.to_day}; swap them"
        )
    return days, source


def _named(flat: Mapping[str, Value], table: str) -> list[str]:
    return list(dict.fromkeys(k.split(".")[1] for k in flat if k.startswith(f"{table}.")))


def _fields(flat: Mapping[str, Value], prefix: str, keys: tuple[str, ...]) -> list[Any]:
    return [_get(flat, f"{prefix}.{key}") for key in keys]


def _get(flat: Mapping[str, Value], key: str) -> Value:
    if key not in flat:
        raise BadInput(f"{key} is missing; give it a value")
    return flat[key]


def _known_keys(raw: Mapping[str, object]) -> list[str]:
    """Every key that a protocol with these tests and checks may have."""
    keys = [*_PLAIN, *(f"restarts.{c}" for c in SWITCHED), "ends.checks_up_to_date"]
    keys += [f"rechecks.{key}" for key in _RECHECK]
    for table, fields in (("tests", _TEST), ("checks", _CHECK)):
        names = dict.fromkeys(k.split(".")[1] for k in raw if k.startswith(f"{table}."))
        keys += [f"{table}.{n}.{f}" for n in names for f in fields]
    return keys
