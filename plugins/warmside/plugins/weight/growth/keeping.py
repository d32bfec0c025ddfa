"""A growth curve as JSON values and back, so that it can be kept from one run to the next."""

from __future__ import annotations

from typing import Any

from warmside.api import figures
from warmside.plugins.weight.course.series import Weighings
from warmside.plugins.weight.growth.fit import CurveFit
from warmside.plugins.weight.growth.growth import Growth, put_together
from warmside.plugins.weight.growth.shapes import SHAPES

_BY_NAME = {shape.name: shape for shape in SHAPES}


def to_keep(growth: Growth) -> dict[str, Any]:
    """The plausible fits, and which weighings were used and set aside, by event."""
    return {
        "fits": [_fit_to_keep(one) for one in growth.plausible],
        "used": growth.used.events,
        "aside": growth.set_aside,
    }


def from_kept(kept: dict[str, Any], those: Weighings) -> Growth:
    """The growth curve of the weighings that it was made from."""
    used = those.only(kept["used"])
    return put_together(tuple(map(_fit, kept["fits"])), used, tuple(kept["aside"]))


def _fit_to_keep(one: CurveFit) -> list[Any]:
    found = one.fit
    fit = [found.parameters, found.rss, found.spread, found.converged]
    return [one.shape.name, fit, one.origin, one.points, one.sigma, one.aicc]


def _fit(kept: list[Any]) -> CurveFit:
    name, (parameters, rss, spread, converged), *rest = kept
    rows = None if spread is None else tuple(map(tuple, spread))
    return CurveFit(
        _BY_NAME[name], figures.LeastSquares(tuple(parameters), rss, rows, converged), *rest
    )
