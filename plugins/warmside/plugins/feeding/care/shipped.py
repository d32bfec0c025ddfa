"""Settings whose value is known for single species, from the rows of the species table."""

from __future__ import annotations

from collections.abc import Iterator

from warmside.api import ShippedValue, sourced_rows
from warmside.plugins.feeding.care.species import PACKAGE


def values() -> Iterator[ShippedValue]:
    """After how many days a species is offered food again once it refused, where a row says so."""
    for row in sourced_rows(PACKAGE, "species", "species"):
        if "retry_days" in row:
            days = float(row["retry_days"])
            yield ShippedValue(row["latin"], "retry_days", days, row.source_of("retry"))
