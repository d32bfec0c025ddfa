"""What all code may take for granted of a value: it never changes, and its fields are all it is."""

from __future__ import annotations

import copy
import pickle
from concurrent.futures import ThreadPoolExecutor

import pytest
from msgspec.structs import replace

from warmside.core.values.about import About, Pair
from warmside.core.values.basis import Basis, Estimate, Mark, Source
from warmside.core.values.units import Unit

GUESS = Source("a guess", Mark.INVENTED)
SIZE = Estimate(400.0, 380.0, 420.0, Unit.MASS, Basis("the newest weighing", GUESS, (7, 8)))


def test_values_are_equal_and_hashed_by_their_fields() -> None:
    same = Estimate(400.0, 380.0, 420.0, SIZE.unit, Basis("the newest weighing", GUESS, (7, 8)))
    assert same == SIZE and hash(same) == hash(SIZE) and len({same, SIZE}) == 1
    assert replace(SIZE, low=379.0) != SIZE
    assert About(1, 2) != Pair(1, 2)  # of another class, so never equal


def test_a_value_never_changes_and_takes_no_new_field() -> None:
    for name in ("low", "colour"):
        with pytest.raises(AttributeError):
            setattr(SIZE, name, 1.0)
    with pytest.raises(AttributeError):
        del SIZE.low
    with pytest.raises(TypeError, match="unit"):
        Estimate(1.0, 1.0, 1.0)


def test_a_changed_copy_leaves_the_first_as_it_was() -> None:
    assert replace(About(1, 2), animal_id=3) == About(3, 2)
    with pytest.raises(TypeError, match="keeper"):
        replace(About(1, 2), keeper=3)
    assert copy.copy(GUESS) == GUESS == copy.deepcopy(GUESS)
    assert pickle.loads(pickle.dumps(GUESS)) == GUESS


def test_a_value_names_its_fields_and_can_be_matched() -> None:
    assert repr(About(1)) == "About(animal_id=1, enclosure_id=None)"
    match About(1, 2):
        case About(animal, enclosure):
            assert (animal, enclosure) == (1, 2)


def test_threads_may_share_values() -> None:
    with ThreadPoolExecutor(4) as pool:
        made = list(pool.map(lambda n: replace(SIZE, value=float(n % 5)), range(400)))
    assert len(set(made)) == 5
