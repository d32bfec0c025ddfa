"""Stock end to end: what came, what the recorded meals took, what was discarded."""

from __future__ import annotations

from pathlib import Path

from warmside.plugins.feeding.reading.stock import settled
from warmside.testing import Keeper, new_keeper


def left(keeper: Keeper) -> dict[str, int]:
    return {lot["lot"]: lot["left"] for lot in keeper.json("feeding", "stock", "list")["lots"]}


def mice(keeper: Keeper, count: int, *more: str) -> None:
    keeper.run("record", "fed", "KES", "--item", "adult mouse", "--count", str(count), *more)


def test_a_recorded_meal_takes_from_the_oldest_lot(room: Keeper) -> None:
    room.run("feeding", "stock", "add", "mouse-adult", "5", "--price", "10")
    room.run("feeding", "stock", "add", "adult mouse", "5", "--frozen", "2025-12-01")
    mice(room, 6)
    assert left(room) == {"1": 4}
    (lot,) = room.json("feeding", "stock", "list")["lots"]
    assert (lot["price"], lot["age_days"], lot["frozen"]) == (2, 0, "2026-03-05")


def test_undo_and_correct_bring_the_prey_back(room: Keeper) -> None:
    room.run("feeding", "stock", "add", "mouse-adult", "5")
    mice(room, 2)
    assert left(room) == {"1": 3}
    with room.book() as book:
        (event,) = book.events("fed")
    room.run("correct", str(event.id), "count=1")
    assert left(room) == {"1": 4}
    room.run("undo")
    room.run("undo")
    assert left(room) == {"1": 5}
    room.run("redo")
    assert left(room) == {"1": 3}


def test_meals_before_the_stock_came_take_nothing(room: Keeper) -> None:
    mice(room, 2, "--at", "2026-03-01")
    room.run("feeding", "stock", "add", "mouse-adult", "5")
    assert left(room) == {"1": 5}
    room.run("feeding", "stock", "add", "mouse-adult", "5", "--on", "2026-02-28")
    assert left(room) == {"1": 5, "2": 3}


def test_refused_thawed_prey_is_gone_unless_the_keeper_says_otherwise(room: Keeper) -> None:
    room.run("feeding", "stock", "add", "mouse-adult", "5")
    mice(room, 1, "--outcome", "refused")
    assert left(room) == {"1": 4}
    room.run("plugin", "set", "feeding", "refused_is_used", "no")
    assert left(room) == {"1": 5}


def test_refused_insects_go_back_into_their_box(room: Keeper) -> None:
    room.run("feeding", "stock", "add", "adult cricket", "50")
    words = ("--item", "adult cricket", "--count", "5")
    room.run("record", "fed", "BAS", *words, "--outcome", "refused")
    assert left(room) == {"1": 50}
    room.run("record", "fed", "BAS", *words)
    assert left(room) == {"1": 45}


def test_a_regurgitation_takes_no_second_mouse(room: Keeper) -> None:
    room.run("feeding", "stock", "add", "mouse-adult", "5", "--on", "2026-03-01")
    mice(room, 1, "--at", "2026-03-02")
    mice(room, 1, "--at", "2026-03-04", "--outcome", "regurgitated")
    assert left(room) == {"1": 4}
    room.run("record", "fed", "EMB", "--item", "adult mouse", "--outcome", "regurgitated")
    assert left(room) == {"1": 3}


def test_discarding_takes_all_that_is_left_or_some(room: Keeper) -> None:
    room.run("feeding", "stock", "add", "mouse-adult", "5")
    room.run("feeding", "stock", "discard", "1", "--count", "2", "--reason", "freezer burn")
    assert left(room) == {"1": 3}
    room.run("feeding", "stock", "discard", "1")
    assert left(room) == {}
    room.run("undo")
    assert left(room) == {"1": 3}


def test_old_meals_are_settled_and_the_count_stays_the_same(room: Keeper) -> None:
    room.run("feeding", "stock", "add", "mouse-adult", "20", "--on", "2025-11-01")
    for day in ("2025-11-10", "2025-12-10", "2026-01-10", "2026-02-20"):
        mice(room, 2, "--at", day)
    room.run("feeding", "stock", "add", "rat-pup", "3")
    with room.book() as book:
        found = settled(book)
    assert found is not None and found.left == {1: 14} and found.day.isoformat() == "2026-02-03"
    assert left(room) == {"1": 12, "2": 3}
    room.pass_days(90)
    mice(room, 1)
    room.run("feeding", "stock", "add", "rat-pup", "4")
    assert left(room) == {"1": 11, "2": 3, "3": 4}
    room.run("undo")
    assert left(room) == {"1": 11, "2": 3}


def test_the_stock_of_an_earlier_day_can_be_seen(room: Keeper) -> None:
    room.run("feeding", "stock", "add", "mouse-adult", "5", "--on", "2026-02-01")
    mice(room, 2)
    rows = room.json("feeding", "stock", "list", "--on", "2026-03-04")["totals"]
    assert rows == [{"prey": "mouse-adult", "name": "adult mouse", "left": 5}]


def test_lots_of_long_ago_can_be_entered_until_the_stock_is_settled(room: Keeper) -> None:
    mice(room, 2, "--at", "2025-12-10")
    room.run("feeding", "stock", "add", "mouse-adult", "5", "--on", "2025-11-01")
    room.run("feeding", "stock", "add", "rat-pup", "5", "--on", "2025-11-01")
    assert left(room) == {"1": 3, "2": 5}
    room.run("feeding", "stock", "add", "rat-pup", "5")
    late = room.run("feeding", "stock", "add", "rat-pup", "5", "--on", "2025-11-01", ok=False)
    assert late.code == 2 and "settled" in late.stderr and left(room) == {"1": 3, "2": 5, "3": 5}


def test_the_number_of_a_lot_is_not_used_again(room: Keeper) -> None:
    room.run("feeding", "stock", "add", "mouse-adult", "5")
    room.run("feeding", "stock", "discard", "1", "--count", "2")
    room.run("undo")
    room.run("undo")
    room.run("feeding", "stock", "add", "mouse-adult", "7")
    assert left(room) == {"2": 7}


def test_an_order_moves_up_sizes_also_where_the_weight_plugin_knows_one_weighing(
    tmp_path: Path,
) -> None:
    keeper = new_keeper(tmp_path, plugins=["feeding", "weight"])
    keeper.run("enclosure", "add", "Shelf")
    young = ("--hatched", "2025-12-20", "--enclosure", "SHE")
    keeper.run("animal", "add", "Pip", "--species", "California kingsnake", *young)
    keeper.run("record", "weighed", "PIP=11g")
    (pip,) = keeper.json("feeding", "order", "--weeks", "52")["animals"]
    assert ", then " in pip["words"]
