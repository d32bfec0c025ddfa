"""How long the weight computation takes, against the floors that it must keep to."""

from __future__ import annotations

import random
import sqlite3

import numpy as np
from tests.bench.measured import hold_ratio

from warmside.api import LifeStage
from warmside.plugins.weight.course.centile_checks import centile_sign
from warmside.plugins.weight.course.checks import signs
from warmside.plugins.weight.course.limits import CUSTOM
from warmside.plugins.weight.course.series import less_meals, weighings
from warmside.plugins.weight.course.sign import Course
from warmside.plugins.weight.lms.lms import LmsCurve
from warmside.plugins.weight.lms.many import z_of_lms, z_scores
from warmside.plugins.weight.slips.in_history import history_suspicions
from warmside.plugins.weight.slips.suspicion import slipped_events

CURVE = LmsCurve(
    tuple(float(d) for d in range(0, 3661, 30)),
    (-0.2,) * 123,
    tuple(30 + 600 * (1 - np.exp(-d / 400)) for d in range(0, 3661, 30)),
    (0.15,) * 123,
)
ANIMALS, WEIGHINGS = 300, 500
SCORES, JUDGED = 3.0, 5.0
RUNS = 5


def _plain(masses: np.ndarray, ages: np.ndarray) -> np.ndarray:
    """The same formula with the tail rule, in whole-array NumPy."""
    knots = CURVE.ages_days
    l, m, s = (np.interp(ages, knots, c) for c in (CURVE.l, CURVE.m_g, CURVE.s))  # noqa: E741
    z = ((masses / m) ** l - 1) / (l * s)
    side = np.sign(z)
    outer, inner = (m * (1 + l * s * k * side) ** (1 / l) for k in (3, 2))
    return np.asarray(
        np.where(np.abs(z) > 3, 3 * side + (masses - outer) / np.abs(outer - inner), z)
    )


def test_a_million_scores() -> None:
    """From ages, and with L, M and S given for each weighing."""
    rng = np.random.default_rng(1)
    ages = rng.uniform(0, 3650, 1_000_000)
    l, m, s = (np.interp(ages, CURVE.ages_days, c) for c in (CURVE.l, CURVE.m_g, CURVE.s))  # noqa: E741
    masses = m * np.exp(rng.normal(0, 0.2, len(ages)))
    assert np.allclose(z_scores(masses, ages, CURVE), _plain(masses, ages), atol=1e-9)

    def ours() -> object:
        return z_scores(masses, ages, CURVE)

    def given() -> object:
        return z_of_lms(masses, l, m, s)

    def bare() -> object:
        return ((masses / m) ** l - 1) / (l * s)

    name = "1,000,000 scores from ages, to NumPy"
    hold_ratio(name, ours, lambda: _plain(masses, ages), SCORES, RUNS)
    hold_ratio("1,000,000 scores, L, M, S given, to NumPy", given, bare, SCORES, RUNS)


def _filled() -> sqlite3.Connection:
    db = sqlite3.connect(":memory:")
    db.execute("create table w (id integer primary key, animal integer, day real, mass real)")
    rng = random.Random(1)
    rows = []
    for animal in range(ANIMALS):
        mass = rng.uniform(30, 300)
        for i in range(WEIGHINGS):
            mass *= 1 + rng.gauss(0.002, 0.01)
            rows.append((animal, 735_000 + 7.3 * i, mass))
    db.executemany("insert into w (animal, day, mass) values (?, ?, ?)", rows)
    db.execute("create index by_animal on w (animal, day)")
    return db


def _read(db: sqlite3.Connection) -> list[list[tuple[int, float, float]]]:
    ask = "select id, day, mass from w where animal = ? order by day"
    return [db.execute(ask, (animal,)).fetchall() for animal in range(ANIMALS)]


def _judge(rows: list[tuple[int, float, float]]) -> int:
    those = weighings(rows)
    sound = those.without(slipped_events(history_suspicions(those)))
    recent = sound.between(sound.days[-1] - 380, sound.days[-1])
    meals = [(recent.days[0] + 7 * i, 10.0) for i in range(50)]
    course = Course(less_meals(recent, meals, 5.0), LifeStage.ADULT)
    hatched = those.days[0] - 20
    return len(signs(course)) + (centile_sign(recent, hatched, CURVE, CUSTOM) is not None)


def test_the_findings_of_many_weighings() -> None:
    db = _filled()

    def judged() -> object:
        return [_judge(rows) for rows in _read(db)]

    hold_ratio("judging 300 x 500 weighings to reading", judged, lambda: _read(db), JUDGED, RUNS)
