"""The task that no event settles: to hold a probe beside a thermometer."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date

from warmside.api import About, Basis, Mark, Source, Task, days_ago_words
from warmside_climatelog.climate.limits import probe_due
from warmside_climatelog.climate.sensors import Sensor

OWN = Source("what was noted of the sensor", Mark.KEEPERS_OWN)


def probes(sensors: Iterable[Sensor], every_days: int, on: date) -> Iterator[Task]:
    """The probes that are due on a day; none where the keeper asks for none."""
    for sensor in sensors if every_days else ():
        due = probe_due(sensor, every_days)
        if due <= on:
            yield probe(sensor, every_days, due, on)


def probe(sensor: Sensor, every_days: int, due: date, on: date) -> Task:
    """The task for one probe."""
    last = days_ago_words(sensor.checked, on) if sensor.checked else "never"
    return Task(
        f"check the probe {sensor.name}",
        due,
        Basis(f"every {every_days} days; checked {last}", OWN),
        About(enclosure_id=sensor.enclosure_id),
        data={"sensor": sensor.name},
        note="hold it beside a thermometer you trust; done with =0.4C adds that to its readings",
        every_days=every_days,
        key=f"probe {sensor.id}",
    )
