"""What an animal between two sheds has ahead, by its history and age, whatever the day.

It changes with its sheds alone, so a round keeps it from one day to the next. Overdue is a note
and no alarm.
"""

from __future__ import annotations

from datetime import date, timedelta

from msgspec import Struct

from warmside.api import Estimate, Unit
from warmside.plugins.shed.cycles.cycle import History
from warmside.plugins.shed.forecast.drivers import drivers
from warmside.plugins.shed.forecast.forecast import Forecast, Prediction, on_days, predicted
from warmside.plugins.shed.forecast.intervals import Days, last_shed
from warmside.plugins.shed.forecast.predictive import Prior
from warmside.plugins.shed.forecast.season import intervals_of

SAID_DAYS = 14
"""The round says for so long that a shed is overdue; after that the report and the list do."""


class Outlook(Struct, frozen=True):
    """The first and the last day on which the last shed can have been, and what is to follow."""

    last: Days
    prediction: Prediction

    def overdue(self, on: date) -> Forecast | None:
        """The forecast where the next shed is overdue on a day, else None."""
        elapsed = float((on - self.last[1]).days)
        return self.prediction.after(elapsed) if self.prediction.is_overdue(elapsed) else None

    def newly_overdue(self, on: date) -> Forecast | None:
        """As `overdue`, for the first SAID_DAYS of it alone: a note says nothing new later."""
        elapsed = (on - timedelta(days=SAID_DAYS) - self.last[1]).days
        said = elapsed >= 0 and self.prediction.is_overdue(float(elapsed))
        return None if said else self.overdue(on)

    def days_to_slough(self, on: date) -> Estimate:
        """The days from a day to the next shed: half of the next sheds fall between them."""
        first, last = self.last
        low = self.prediction.exceeded(float((on - first).days), 0.75)
        high = self.prediction.exceeded(float((on - last).days), 0.25)
        days = on_days(first, low, low)[0], on_days(last, high, high)[1]
        soonest, latest = (max(0, (day - on).days) for day in days)
        return Estimate(None, soonest, latest, Unit.DAYS, self.prediction.basis)


def outlook(history: History, prior: Prior, hatched: date | None = None) -> Outlook | None:
    """What a history says of the next shed, meals left out to be quick; None before the first."""
    last = last_shed(history)
    if last is None:
        return None
    intervals = intervals_of(history)
    causes = drivers(intervals, last[1], hatched, ())
    return Outlook(last, predicted(intervals, prior, causes))
