"""The statistics that plugins are offered as `warmside.api.figures`: fits, quantiles, intervals."""

from warmside.core.figures.least_squares import LeastSquares as LeastSquares
from warmside.core.figures.least_squares import least_squares as least_squares
from warmside.core.figures.student_t import log_t_quantile as log_t_quantile
from warmside.core.figures.student_t import log_t_tail as log_t_tail
from warmside.core.figures.student_t import t_cdf as t_cdf
from warmside.core.figures.student_t import t_quantile as t_quantile
from warmside.core.figures.wilson import wilson_interval as wilson_interval

__all__ = (
    "LeastSquares",
    "least_squares",
    "log_t_quantile",
    "log_t_tail",
    "t_cdf",
    "t_quantile",
    "wilson_interval",
)
