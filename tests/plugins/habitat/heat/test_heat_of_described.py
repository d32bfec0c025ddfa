"""Heat of a described enclosure: ranges that hold what a single estimate says."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from scipy.integrate import solve_ivp

from warmside.plugins.habitat.described.description_file import read_description
from warmside.plugins.habitat.described.enclosure import WALLS, Heat, Place
from warmside.plugins.habitat.described.presets import preset_text
from warmside.plugins.habitat.heat.by_zone import (
    watts_by_zone,
    watts_together,
    zone_conductance,
    zones_fill,
)
from warmside.plugins.habitat.heat.covered import coil_of, fits, floor_share
from warmside.plugins.habitat.heat.described import (
    conductance,
    held,
    reach,
    warm_after_cut,
)
from warmside.plugins.habitat.heat.materials import materials
from warmside.plugins.habitat.heat.metered import metered

INCH = 25.4
SNAKE = read_description(preset_text("snake").replace("# SAY ", ""), "snake.toml")
FOUR_FEET = replace(SNAKE, width=48 * INCH, depth=24 * INCH, height=12 * INCH)


def source(width_in: float, depth_in: float) -> Heat:
    place = Place(0, 0, 0, width_in * INCH, depth_in * INCH, 0)
    return Heat("panel", "warm side", 80, place, guard=True, thermostat=True, reach=False)


@pytest.mark.parametrize(("size", "percent"), [((18, 20), 31), ((8, 12), 8), ((6, 8), 4)])
def test_the_share_of_the_floor(size: tuple[float, float], percent: int) -> None:
    """Of 48 x 24 in (common practice, no source)."""
    assert round(100 * floor_share(FOUR_FEET, source(*size))) == percent


def test_only_the_panel_lets_a_four_foot_snake_coil_in_the_warmth_whole() -> None:
    """Common practice, no source; 13 cm of girth assumed."""
    coil = coil_of("", (48 * INCH, 48 * INCH), (130, 130))
    assert [fits(source(*size), coil) for size in ((18, 20), (8, 12), (6, 8))] == [
        True,
        False,
        False,
    ]


def test_a_coil_that_may_just_fit_is_neither_promised_nor_denied() -> None:
    """A square of 250 mm: of 1.2 m and 130 mm the disc is 251 mm; 5 % either way may fit."""
    square = source(250 / INCH, 250 / INCH)
    assert fits(square, coil_of("", (1140, 1260), (124, 136))) is None
    assert fits(square, coil_of("", (1300, 1400), (140, 150))) is False
    assert fits(square, coil_of("", (900, 1000), (90, 100))) is True


def test_the_loss_holds_what_boards_in_a_room_lose() -> None:
    """15 mm of wood, 0.13 to 0.18 W/mK (EN ISO 10077-2, as quoted), between films of ISO 6946
    (0.13, 0.10, 0.17), worked out by hand."""
    around, floor = 2 * (1.22 + 0.61) * 0.30, 1.22 * 0.61
    boards = (0.015 / 0.13, 0.015 / 0.18)
    less, more = (
        around / (board + 0.26) + floor / (board + 0.20) + floor / (board + 0.34)
        for board in boards
    )
    low, high = conductance(SNAKE)
    assert low == pytest.approx(0.75 * less + 0.34 * 0.5 * 1.22 * 0.61 * 0.30)
    assert high == pytest.approx(1.25 * more + 0.34 * 2.0 * 1.22 * 0.61 * 0.30)


def test_every_wall_that_may_be_described_has_its_figures() -> None:
    assert set(materials()) == set(WALLS)


def test_what_holds_it_ends_there_without_a_thermostat() -> None:
    needed = held(SNAKE, 31, 20)
    just = replace(SNAKE, heats=(replace(SNAKE.heats[0], watts=needed.high),))
    assert reach(just, 31, 20).warmest_c.low == pytest.approx(31)
    assert reach(just, 31, 20).warmest_c.high > 31


def test_a_cut_lasts_longer_with_more_water_and_less_in_a_colder_room() -> None:
    wet = tuple(
        replace(f, place=f.place._replace(height=90.0 * 2)) if f.kind == "water bowl" else f
        for f in SNAKE.fittings
    )
    plain, cold = (warm_after_cut(SNAKE, 31, room, 22) for room in (20, 10))
    more = warm_after_cut(replace(SNAKE, fittings=wet), 31, 20, 22)
    assert plain and cold and more
    assert cold.least < plain.least < more.least < more.most
    assert cold.most < plain.most < more.most
    assert warm_after_cut(SNAKE, 31, 23, 22) is None


def test_the_times_are_those_of_an_integrated_lump() -> None:
    """The longest time is that of all the mass and the least loss (SciPy's integrator)."""
    found = warm_after_cut(SNAKE, 31, 20, 22)
    assert found is not None
    low, _ = conductance(SNAKE)
    walls = (2 * (1.22 + 0.61) * 0.30 + 2 * 1.22 * 0.61) * 0.015 * 1.1e6
    water = 0.24 * 0.24 * 0.09 * 1000 * 0.5 * 4182
    lump = walls + water + 1206 * 1.22 * 0.61 * 0.30

    def cools(_: float, t: list[float]) -> list[float]:
        return [-low * (t[0] - 20) / lump]

    at_limit = lambda _, t: t[0] - 22  # noqa: E731
    solved = solve_ivp(cools, (0, 1e6), [31.0], events=at_limit, rtol=1e-8, max_step=5000)
    assert found.most == pytest.approx(solved.t_events[0][0] / 3600, rel=1e-3)


def test_the_zones_lose_together_what_the_whole_loses() -> None:
    """All at one temperature, zone by zone or as a whole: the same heat."""
    held_c = {zone.name: 30.0 for zone in SNAKE.zones}
    together = watts_together(SNAKE, watts_by_zone(SNAKE, held_c, 20.0))
    assert together == pytest.approx(held(SNAKE, 30.0, 20.0))


def test_a_gradient_needs_less_than_all_of_it_warm_and_more_than_its_warm_side() -> None:
    held_c = dict(zip((z.name for z in SNAKE.zones), (31.0, 28.0, 25.0), strict=True))
    by_zone = watts_by_zone(SNAKE, held_c, 20.0)
    together = watts_together(SNAKE, by_zone)
    assert together is not None
    assert by_zone["warm side"].high < together.high < held(SNAKE, 31.0, 20.0).high
    assert watts_together(SNAKE, {"warm side": by_zone["warm side"]}) is None


def test_heat_of_a_coupled_chain_of_zones_is_the_sum_of_their_losses() -> None:
    """Three nodes with any exchange of air between them, solved by NumPy: what the one source in
    the warm zone gives is what the three lose at the temperatures that come of it."""
    import numpy as np

    loss = np.array([zone_conductance(SNAKE, z).low for z in SNAKE.zones])
    room, watts = 20.0, 60.0
    for exchange in (0.1, 1.0, 10.0):
        matrix = np.diag(loss)
        for a, b in ((0, 1), (1, 2)):
            matrix[[a, b], [a, b]] += exchange
            matrix[[a, b], [b, a]] -= exchange
        inside = room + np.linalg.solve(matrix, [watts, 0.0, 0.0])
        held_c = {z.name: float(c) for z, c in zip(SNAKE.zones, inside, strict=True)}
        together = watts_together(SNAKE, watts_by_zone(SNAKE, held_c, room))
        assert together is not None and together.low == pytest.approx(watts)


def test_zones_with_a_gap_are_not_added_up() -> None:
    first, *rest = SNAKE.zones
    gap = replace(SNAKE, zones=(replace(first, width=first.width - 100), *rest))
    assert zones_fill(SNAKE) and not zones_fill(gap)
    assert watts_together(gap, watts_by_zone(gap, dict.fromkeys(["warm side"], 30.0), 20)) is None


@pytest.mark.parametrize(
    ("data", "watts"),
    [
        ({"used_kwh": 0.6, "over_hours": 24.0}, 25.0),
        ({"on_percent": 50.0}, 40.0),
        ({"used_kwh": 0.6, "over_hours": 24.0, "on_percent": 90.0}, 25.0),
        ({"used_kwh": 0.6}, None),
    ],
)
def test_what_was_metered(data: dict[str, float], watts: float | None) -> None:
    found = metered(data, described_w=80.0)
    assert (found.watts if found else None) == (None if watts is None else pytest.approx(watts))


def test_what_was_metered_tells_of_other_rooms_by_the_difference() -> None:
    found = metered({"used_kwh": 0.6, "over_hours": 24.0, "outside_c": 20.0, "inside_c": 30.0}, 0)
    assert found and found.at(30.0, 20.0) == pytest.approx(25.0)
    assert found.at(30.0, 15.0) == pytest.approx(37.5) and found.at(20.0, 22.0) == 0
    bare = metered({"on_percent": 50.0}, 80.0)
    assert bare is not None and bare.at(30.0, 15.0) is None
