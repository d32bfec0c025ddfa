"""All that may stand in an answer."""

from __future__ import annotations

from warmside.core.answers.charts import Chart
from warmside.core.answers.drawings import Drawing
from warmside.core.answers.strips import Strip
from warmside.core.answers.tables import Fact, Table
from warmside.core.answers.timelines import Timeline
from warmside.core.answers.words import Words

Part = Words | Fact | Table | Chart | Timeline | Drawing | Strip
"""What an answer and a section hold.

A face that leaves one out fails the type check: all dispatch down to `assert_never`.
"""
