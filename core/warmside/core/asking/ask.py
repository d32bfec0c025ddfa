"""The book and the plugins together: what a hook or a front end may ask beyond the record."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from warmside.core.answers.parts import Section
from warmside.core.asking.answered import Answered, Given, declaring, narrowest_first
from warmside.core.asking.own_values import with_own
from warmside.core.asking.pairs import pairs_of
from warmside.core.asking.rounds.round import Stop, ordered
from warmside.core.asking.staging import stage_of
from warmside.core.asking.subjects import event_telling
from warmside.core.asking.valued import all_settings, valued
from warmside.core.kinds.kind import EventKind
from warmside.core.kinds.known import Kinds
from warmside.core.plugins.collecting import Collects
from warmside.core.plugins.hook_values import CareRank, Finding, LabelLine, Task
from warmside.core.plugins.sheets import Sheet
from warmside.core.record.book import Book
from warmside.core.record.entities import Event, Species
from warmside.core.record.species.figures import SpeciesFigures, species_figures
from warmside.core.record.species.staged import Staged
from warmside.core.values.about import NOBODY, About, Pair, Whom
from warmside.core.values.basis import Estimate
from warmside.core.values.errors import UnknownWord
from warmside.core.values.estimates import DayRange, Distribution, Valued


class Ask:
    """Questions at one moment; what several ask is worked out once."""

    def __init__(self, book: Book, host: Collects) -> None:
        self.book = book
        self.host = host

    @property
    def kinds(self) -> Kinds:
        """Every kind of event that is known here."""
        return self.host.kinds

    def kind(self, name: str) -> EventKind:
        """The kind of event of that name; near misses are suggested."""
        return self.host.kinds.named(name)

    def value(self, plugin: str, name: str, about: About = NOBODY) -> Valued:
        """A setting's value for a subject: the narrowest that is set, with its basis and scope."""
        return valued(self.book, with_own(self.host.manifests), plugin, name, about)

    def setting(self, plugin: str, name: str, about: About = NOBODY) -> Any:
        """As `value`, the bare value."""
        return self.value(plugin, name, about).value

    def settings(self, plugin: str) -> Mapping[str, Any]:
        """All settings of a plugin for the whole collection, by name."""
        make = lambda: all_settings(self.book, self.host.manifests, plugin)  # noqa: E731
        return self.book.once((self.host, "settings", plugin), make)

    def figures(self, species: Species) -> SpeciesFigures | None:
        """What is shipped about a species: sizes, stages, climate, safe limits; None if nothing."""
        return species_figures(species.scientific)

    def stage(self, animal_id: int, on: date) -> Staged:
        """The life stage of an animal on a day, or which are possible, and why."""
        animal = self.book.animals[animal_id]
        make = lambda: stage_of(self.book, self.value, animal, on)  # noqa: E731
        return self.book.once(("core", "stage", animal_id, on), make)

    def pairs(self, on: date) -> tuple[Pair, ...]:
        """Dam and sire of each pair that may have young: planned, mated, grown and together."""
        return self.book.once(("core", "pairs", on), lambda: pairs_of(self.book, self.stage, on))

    def answers(self, what: str, about: Whom, on: date) -> list[Answered]:
        """What plugins that declare a quantity answer for a day, the narrowest first.

        Raises LookupError for a quantity that nobody has declared: a slip in the asker's code.
        """
        manifests = self.host.manifests
        able = self.book.once((self.host, "answers", what), lambda: declaring(what, manifests))
        asked = {"what": what, "about": about, "on": on}
        kinds: tuple[type[Given], ...] = (Estimate, DayRange, Distribution)
        hook = "warmside_answer"
        found = self.host.collect(hook, *kinds, of=able, book=self.book, ask=self, **asked)
        return narrowest_first(Answered(plugin, given) for plugin, given in found)

    def tasks(self, on: date) -> list[tuple[str, Task]]:
        """What plugins ask for up to a day, with the plugin that asks."""
        return self._all("warmside_tasks", Task, on=on)

    def round(self, on: date) -> list[Stop]:
        """The tasks of a day in the order of care, those that one event settles made one."""
        return self.book.once((self.host, "round", on), lambda: self._round(on))

    def _round(self, on: date) -> list[Stop]:
        here = self.book.animals_here(on)
        places = {a: w.enclosure_id for a, w in here.items() if w.enclosure_id is not None}
        rooms = {e.id: e.room for e in self.book.enclosures.values()}
        return ordered(self.tasks(on), places, rooms, self.care_ranks(on), on)

    def care_ranks(self, on: date) -> list[CareRank]:
        """Enclosures that are cared for later than others."""
        return [rank for _, rank in self.ranks_given(on)]

    def ranks_given(self, on: date) -> list[tuple[str, CareRank]]:
        """As `care_ranks`, with the plugin that gives each."""
        return self._all("warmside_care_order", CareRank, on=on)

    def findings(self, on: date, about: About | None = None) -> list[Finding]:
        """What plugins found on a day, of all, or of one animal or enclosure.

        What was found about an animal's home concerns the animal, too; what was found about those
        inside concerns the enclosure.
        """
        if about is None:
            return [f for _, f in self._all("warmside_findings", Finding, on=on, about=None)]
        found: list[Finding] = []
        for one in related(self.book, about, on):
            mine = self._all("warmside_findings", Finding, on=on, about=one)
            found += [f for _, f in mine if concerns(f.about, one) and f not in found]
        return found

    def unknown_words(self, words: Mapping[str, Mapping[str, int]]) -> list[UnknownWord]:
        """The words of a sheet, by field, of which a plugin knows no meaning."""
        asked = {"book": self.book, "ask": self, "words": words}
        return [u for _, u in self.host.collect("warmside_unknown_words", UnknownWord, **asked)]

    def label_lines(self, about: About, on: date) -> list[LabelLine]:
        """The lines about an animal or an enclosure, in their order."""
        found = self._all("warmside_label_lines", LabelLine, about=about, on=on)
        return sorted((line for _, line in found), key=lambda x: x.order)

    def sections(self, about: About, on: date) -> list[Section]:
        """The sections of a report, in their order."""
        found = self._all("warmside_report_sections", Section, about=about, on=on)
        return sorted((s for _, s in found), key=lambda s: (s.order, s.title))

    def sheet_sections(
        self, sheet: Sheet, on: date, until: date, about: About = NOBODY
    ) -> list[Section]:
        """What plugins add to a sheet for somebody else, in its order."""
        asked = {"sheet": sheet, "about": about, "on": on, "until": until}
        found = self._all("warmside_sheet_sections", Section, **asked)
        return sorted((s for _, s in found), key=lambda s: (s.order, s.title))

    def event_words(self, event: Event) -> str:
        """What happened, in the keeper's words: `fed: weaned mouse, 16 g, thawed, taken`."""
        return event_telling.event_words(self.book, self.kinds, event)

    def subject_words(self, event: Event) -> str:
        """Whom an event was about: the animal's label, the enclosure's code, or both."""
        return event_telling.subject_words(self.book, event)

    def when_words(self, event: Event) -> str:
        """The day of an event, and the local time where it is known."""
        return event_telling.when_words(self.book, event)

    def _all(self, hook: str, of: type[Any], **asked: Any) -> list[tuple[str, Any]]:
        def make() -> list[tuple[str, Any]]:
            return self.host.collect(hook, of, book=self.book, ask=self, **asked)

        return self.book.once((self.host, hook, *asked.items()), make)


def related(book: Book, about: About, on: date) -> list[About]:
    """The subject itself; an animal's home, too, or those who live in an enclosure."""
    if about.animal_id is not None:
        home = book.whereabouts(on)[about.animal_id].enclosure_id
        return [about, *([About(enclosure_id=home)] if home is not None else [])]
    inside = book.occupants(on).get(about.enclosure_id or 0, ())
    return [about, *(About(a) for a in inside)]


def concerns(found: About, about: About) -> bool:
    """Whether something is about that animal, or about that enclosure and no one animal."""
    if about.animal_id is not None:
        return found.animal_id == about.animal_id
    return found.animal_id is None and found.enclosure_id == about.enclosure_id
