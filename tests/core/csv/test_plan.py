"""The plan of an import: each row is counted as often as it stands in the file."""

from __future__ import annotations

from collections import Counter
from datetime import date

from hypothesis import given, settings
from hypothesis import strategies as st

from warmside.core.csv.events import Outcome
from warmside.core.csv.plan import plan
from warmside.core.record.entities import NewEvent
from warmside.testing import Keeper, new_keeper

HEADER = "date,kind,animal,mass_g"


def weighed(day: int, grams: float) -> NewEvent:
    return NewEvent("weighed", date(2026, 1, day), {"mass_g": grams}, 1)


def test_two_equal_rows_are_two_events_and_importing_again_adds_none(keeper: Keeper) -> None:
    keeper.run("animal", "add", "Ember", "--species", "leopard gecko", "--since", "2025-01-01")
    rows = ["2026-01-05,weighed,EMB,40", "2026-01-05,weighed,EMB,40"]
    file = keeper.path.with_name("twice.csv")
    file.write_text("\n".join([HEADER, *rows]))
    assert keeper.json("import", str(file))["new"] == 2
    assert keeper.json("import", str(file))["new"] == 0
    file.write_text("\n".join([HEADER, *rows, rows[0]]))
    again = keeper.json("import", str(file))
    assert (again["new"], again["same"]) == (1, 2)


@settings(max_examples=30)
@given(
    st.lists(st.tuples(st.integers(1, 3), st.sampled_from([40.0, 41.0])), max_size=6),
    st.lists(st.tuples(st.integers(1, 3), st.sampled_from([40.0, 41.0])), max_size=6),
)
def test_what_is_new_is_what_the_file_has_more_often(
    tmp_path_factory: object, stored: list[tuple[int, float]], file: list[tuple[int, float]]
) -> None:
    keeper = new_keeper(tmp_path_factory.mktemp("plan"))  # type: ignore[attr-defined]
    keeper.run("animal", "add", "Ember", "--species", "leopard gecko", "--since", "2025-01-01")
    with keeper.open().step("weigh", keeper.now, confirmed=True) as writer:
        writer.record_checked([weighed(*row) for row in stored])
    outcomes = [Outcome(line, weighed(*row)) for line, row in enumerate(file, 2)]
    with keeper.ask() as ask:
        made = plan(ask, outcomes)
    new = Counter((e.day.day, e.data["mass_g"]) for e in made.new)
    assert new == Counter(file) - Counter(stored)
    assert len(made.same) + len(made.new) == len(file)
    assert not made.bad


def test_a_row_of_the_day_on_which_it_left_is_doubted_and_of_that_of_its_return_is_not(
    keeper: Keeper,
) -> None:
    keeper.run("animal", "add", "Ember", "--species", "leopard gecko", "--since", "2026-01-10")
    keeper.run("lend", "EMB", "--to", "Ada", "--at", "2026-01-20")
    keeper.run("return", "EMB", "--at", "2026-01-23")
    with keeper.ask() as ask:
        made = plan(ask, [Outcome(n, weighed(n, 40.0)) for n in range(9, 26)])
    assert [line for line, _ in made.doubtful] == [20, 21, 22]
