"""Who shares the air with whom, and when that began."""

from __future__ import annotations

import random
from datetime import datetime, timedelta

from warmside.plugins.quarantine.clock.events import Newcomer
from warmside.plugins.quarantine.contact.newcomers import Stay, newcomers

DAY0 = datetime(2026, 3, 1, 9)


def at(days: int) -> datetime:
    return DAY0 + timedelta(days=days)


def stay(animal, air, since, until, event):
    return Stay(animal, air, at(since), None if until is None else at(until), event)


def test_whoever_comes_into_the_room_is_a_newcomer():
    stays = [stay("A", "attic", 0, None, 1), stay("B", "attic", 5, None, 2)]
    assert newcomers(stays, "A") == (Newcomer(2, at(5), "B"),)


def test_moving_in_with_others_meets_them_too():
    stays = [
        stay("A", "attic", 0, 5, 1),
        stay("A", "hall", 5, None, 4),
        stay("C", "hall", 0, None, 3),
        stay("B", "hall", 0, None, 2),
    ]
    assert newcomers(stays, "A") == (Newcomer(4, at(5), "B, C"),)


def test_another_room_and_another_time_share_no_air():
    stays = [
        stay("A", "attic", 10, None, 1),
        stay("B", "hall", 12, None, 2),
        stay("C", "attic", 0, 10, 3),
    ]
    assert newcomers(stays, "A") == ()


def test_changing_the_enclosure_in_one_room_is_nothing_new():
    stays = [
        stay("A", "attic", 0, None, 1),
        stay("B", "attic", 0, 7, 2),
        stay("B", "attic", 7, None, 3),
    ]
    assert [n.id for n in newcomers(stays, "A")] == [2]


def test_leaving_and_coming_back_is_new():
    stays = [
        stay("A", "attic", 0, None, 1),
        stay("B", "attic", 0, 7, 2),
        stay("B", "attic", 9, None, 3),
    ]
    assert [n.id for n in newcomers(stays, "A")] == [2, 3]


def test_the_order_of_the_stays_does_not_matter():
    stays = [
        stay("A", "attic", 0, 8, 1),
        stay("A", "hall", 8, None, 5),
        stay("B", "attic", 2, None, 2),
        stay("C", "hall", 3, None, 3),
        stay("D", "hall", 8, None, 4),
    ]
    expected = newcomers(stays, "A")
    for seed in range(20):
        random.Random(seed).shuffle(stays)
        assert newcomers(stays, "A") == expected
