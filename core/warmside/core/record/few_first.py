"""What is known of each subject, read for a few of them one by one before it is read for all."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import TypeVar

T = TypeVar("T")
FEW = 3
"""So many are read one by one: a question about one animal meets its home and little else."""


class FewFirst(Mapping[int, T]):
    """Values by id, as `whole` gives them.

    The first few that are asked for are read by `one` (None where there is none); who asks for
    more, or walks through them, has all of them read.
    """

    def __init__(
        self, one: Callable[[int], T | None], whole: Callable[[], Mapping[int, T]]
    ) -> None:
        self._one, self._read = one, whole
        self._asked: dict[int, T | None] = {}
        self._whole: Mapping[int, T] | None = None

    @property
    def settled(self) -> Mapping[int, T]:
        """The plain values once all are read, before that this."""
        return self if self._whole is None else self._whole

    def __getitem__(self, id: int) -> T:
        """The value of an id; KeyError where there is none."""
        if self._whole is None and id not in self._asked:
            if len(self._asked) >= FEW:
                self._all()
            else:
                self._asked[id] = self._one(id)
        if self._whole is not None:
            return self._whole[id]
        found = self._asked[id]
        if found is None:
            raise KeyError(id)
        return found

    def __iter__(self) -> Iterator[int]:
        return iter(self._all())

    def __len__(self) -> int:
        return len(self._all())

    def _all(self) -> Mapping[int, T]:
        if self._whole is None:
            self._whole = self._read()
        return self._whole
