"""Meals that are being recorded: what to ask the keeper before they are."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from warmside.api import Ask, BadInput, Doubtful, Event, UnknownWord, counted, quoted
from warmside.plugins.feeding.care.diets import named_diets
from warmside.plugins.feeding.meals.dishes import outcome_word
from warmside.plugins.feeding.meals.doubts import MAP_IT, Meal, fed_cold, questions
from warmside.plugins.feeding.prey.classes import classes_meant, known_prey, prey_classes
from warmside.plugins.feeding.prey.words import plain
from warmside.plugins.feeding.reading.animals import Reading
from warmside.plugins.feeding.reading.grown import stage_of
from warmside.plugins.feeding.reading.noted import food_said, own_words

# Of a longer import only the words are looked at: an old meal's size is past asking.
MOST_CHECKED = 60
MOST_TOLD = 6


def ask_about_meals(ask: Ask, events: Sequence[Event], *, confirmed: bool) -> None:
    """Raise Doubtful for odd meals unless confirmed; BadInput where a word is no food at all."""
    fed = [e for e in events if e.kind == "fed"]
    for event in fed:
        _refuse_outcome(ask, event)
    if confirmed:
        return
    asked = _of_each(ask, fed) if len(fed) <= MOST_CHECKED else _of_words(ask, fed)
    doubts = list(asked)
    if doubts:
        more = f"; and {len(doubts) - MOST_TOLD} more" if len(doubts) > MOST_TOLD else ""
        raise Doubtful("; ".join(doubts[:MOST_TOLD]) + more, doubts)


def strange_food(ask: Ask, items: Mapping[str, int]) -> Iterator[UnknownWord]:
    """Words for food that are no one class and were not mapped, each with what it may be."""
    every = tuple(p.name for p in prey_classes().values())
    parts = {w for d in named_diets().values() for p in d.parts for w in (p.name, p.key)}
    for word in unknown_words(ask, iter(items)):
        if word.strip().lower() in parts:
            continue
        known = tuple(p.name for p in classes_meant(word)) or every
        yield UnknownWord("fed.item", word, items[word], known)


def _refuse_outcome(ask: Ask, event: Event) -> None:
    item = event.data["item"]
    if outcome_word(item) and known_prey(food_said(ask.book, item)) is None:
        code = ask.book.animals[event.animal_id or 0].code
        raise BadInput(
            f"{quoted(item)!r} says what came of the meal and not what it was; name the food: "
            f"warmside record fed {code} --item FOOD --outcome taken"
        )


def _of_each(ask: Ask, fed: Sequence[Event]) -> Iterator[str]:
    """Each question once, with the animals that it is about."""
    readings, whom = dict[date, Reading](), dict[str, dict[str, None]]()
    for event in fed:
        reading = readings.setdefault(event.day, Reading(ask, event.day, alone=True))
        id = event.animal_id or 0
        word = event.data["item"]
        if own_words(ask.book).get(plain(word)) == "":
            continue
        meal = Meal(food_said(ask.book, word), event.data["count"], event.data["mass_g"])
        weighing = reading.weighing(id)
        mass = weighing.mass_g if weighing else None
        about = (reading.species(id), reading.girth_mm(id), reading.rules)
        asked = questions(meal, mass, *about, stage_of(ask, id, event.day))
        for question in (*asked, *_while_cold(reading, event)):
            whom.setdefault(question, {})[ask.book.animals[id].label] = None
    for question, labels in whom.items():
        yield f"{' and '.join(labels)}: {question}"


def _while_cold(reading: Reading, event: Event) -> tuple[str, ...]:
    """What to ask of a meal of one that is cooled for winter."""
    cooling = reading.last(event.animal_id or 0).get("cooling")
    if cooling is None or cooling.data["state"] != "begun":
        return ()
    return fed_cold(cooling.day, event.data["outcome"] != "refused")


def _of_words(ask: Ask, fed: Sequence[Event]) -> Iterator[str]:
    """Each unknown word once, with how many meals it stands for."""
    for word, count in _words(ask, fed).items():
        yield f"{quoted(word)!r} ({counted(count, 'meal')}) is no food that is known here: {MAP_IT}"


def _words(ask: Ask, fed: Sequence[Event]) -> Counter[str]:
    return unknown_words(ask, (e.data["item"] for e in fed))


def unknown_words(ask: Ask, items: Iterator[str]) -> Counter[str]:
    """The words that are no known food and were not mapped, the most used first."""
    known = own_words(ask.book)
    found = Counter(i for i in items if known_prey(i) is None and plain(i) not in known)
    return Counter(dict(found.most_common()))
