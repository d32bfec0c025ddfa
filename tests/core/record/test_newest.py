"""The newest events of each animal, whatever the order in which they were recorded."""

from __future__ import annotations

from datetime import date

from warmside.testing import Keeper


def test_the_newest_of_each_animal_up_to_a_day_without_corrected_ones(keeper: Keeper) -> None:
    for name in ("Ember", "Juno"):
        keeper.run("animal", "add", name, "--species", "leopard gecko", "--since", "2025-01-01")
    for day, grams in ((3, 43), (1, 41), (4, 44), (2, 42)):
        keeper.run("record", "weighed", f"EMB={grams}g", "--at", f"2026-02-0{day}")
    keeper.run("record", "weighed", "JUN=50g", "--at", "2026-02-01")
    with keeper.book() as book:
        slipped = next(e for e in book.events("weighed") if e.data["mass_g"] == 43)
    keeper.run("correct", slipped.id, "mass=43.5g")
    with keeper.book() as book:
        ids = [book.animal("EMB").id, book.animal("JUN").id]
        found = book.newest("weighed", ids, date(2026, 2, 3), 2)
        masses = sorted((animal, data["mass_g"]) for animal, _, data, _ in found)
    assert masses == [(ids[0], 42.0), (ids[0], 43.5), (ids[1], 50.0)]
