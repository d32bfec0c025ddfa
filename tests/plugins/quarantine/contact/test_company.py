"""Who shares an enclosure or a room with animals in quarantine."""

from __future__ import annotations

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from warmside.api import Enclosure
from warmside.plugins.quarantine.contact.company import Company, Place, air_of, companies

ROOMS = ("Main", " main ", "Attic", "")


def enclosure(id: int, room: str) -> Enclosure:
    return Enclosure(id, f"E{id}", f"E{id}", room, None, None, None, "", retired=False)


def place(animal: int, home: int, room: str) -> Place:
    return Place(animal, f"A{animal}", enclosure(home, room), 100 + animal, date(2026, 3, 1))


def seen(found: list[Company]) -> list[tuple[int, list[int], list[int], list[int]]]:
    return [
        (
            c.enclosure.id,
            *([p.animal_id for p in group] for group in (c.quarantined, c.inside, c.in_room)),
        )
        for c in found
    ]


def test_residents_inside_and_in_the_room_are_told_apart() -> None:
    places = [place(1, 1, "Main"), place(2, 1, "Main"), place(3, 2, "MAIN "), place(4, 3, "Attic")]
    assert seen(companies(places, {1})) == [(1, [1], [2], [3])]


def test_two_in_quarantine_in_one_enclosure_are_one_company() -> None:
    places = [place(1, 1, "Main"), place(2, 1, "Main"), place(3, 2, "Main")]
    assert seen(companies(places, {1, 2})) == [(1, [1, 2], [], [3])]


def test_an_enclosure_without_room_shares_its_air_with_none() -> None:
    places = [place(1, 1, ""), place(2, 2, ""), place(3, 1, " ")]
    assert seen(companies(places, {1})) == [(1, [1], [3], [])]


HOMES = st.integers(1, 4)


@given(st.lists(st.tuples(HOMES, st.booleans()), max_size=8), st.data())
def test_everyone_is_where_it_lives_and_nobody_is_left_out(
    animals: list[tuple[int, bool]], data: st.DataObject
) -> None:
    rooms = {home: data.draw(st.sampled_from(ROOMS)) for home in range(1, 5)}
    places = [place(n, home, rooms[home]) for n, (home, _) in enumerate(animals)]
    held = {n for n, (_, quarantined) in enumerate(animals) if quarantined}
    found = companies(places, held)
    assert sorted(p.animal_id for c in found for p in c.quarantined) == sorted(held)
    for company in found:
        near = {*company.inside, *company.in_room}
        for other in places:
            same_air = air_of(other.enclosure) == air_of(company.enclosure)
            assert (other in near) == (same_air and other.animal_id not in held)
        assert {p.enclosure.id for p in company.inside} <= {company.enclosure.id}
        assert company.enclosure.id not in {p.enclosure.id for p in company.in_room}
