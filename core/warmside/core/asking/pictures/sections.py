"""What a report and a card show of pictures: series of a view, the others, the papers."""

from __future__ import annotations

from collections.abc import Sequence

from warmside.core.answers.parts import Part, Section
from warmside.core.asking.pictures.parts import by_view, series_of, strip_of
from warmside.core.asking.pictures.told import pictures_table
from warmside.core.record.book import Book
from warmside.core.record.pictures import Picture

ORDER = 700
IN_SERIES = 6  # of a report: the first, and the newest
OTHERS = 6
ON_CARD = 3


def pictures_section(book: Book, pictures: Sequence[Picture]) -> tuple[Section, ...]:
    """The section of a report; none where there is no picture and no paper."""
    views = by_view(pictures)
    series = {view: shown for view, shown in views.items() if view and len(shown) > 1}
    single = [p for view, shown in views.items() if view not in series for p in shown]
    papers = [p for p in pictures if p.is_paper]
    parts: list[Part] = [
        series_of(book, _ends(shown), _title(view, shown), f"series_{number}")
        for number, (view, shown) in enumerate(series.items(), 1)
    ]
    if single:
        newest = sorted(single, key=lambda p: (p.day, p.id))[-OTHERS:]
        parts.append(strip_of(newest, "Others" if series else ""))
    if papers:
        parts.append(pictures_table(book, papers, "Papers", "papers"))
    return (Section("Pictures and papers", tuple(parts), ORDER),) if parts else ()


def _ends(shown: Sequence[Picture]) -> list[Picture]:
    """The first and the newest, where they are too many."""
    return [*shown] if len(shown) <= IN_SERIES else [shown[0], *shown[-IN_SERIES + 1 :]]


def _title(view: str, shown: Sequence[Picture]) -> str:
    few = f" (the first and the newest of {len(shown)})" if len(shown) > IN_SERIES else ""
    return f"{view}{few}"


def newest_pictures(pictures: Sequence[Picture]) -> tuple[Part, ...]:
    """What a card shows: the newest photos, if there are any."""
    photos = [p for p in pictures if not p.is_paper][-ON_CARD:]
    return (strip_of(photos, "Newest pictures"),) if photos else ()
