"""The animal or enclosure behind a scanned or typed code."""

from __future__ import annotations

from warmside.api import About, Animal, BadInput, Book, Enclosure, NotFound, near_miss, quoted
from warmside.plugins.labels.content import codes

Subject = Animal | Enclosure


def subject_of(book: Book, text: str) -> Subject:
    """What a label's code, or a code or name that was typed, stands for.

    A label's code is looked up as a code only. BadInput where several things have the typed code
    or name, NotFound where none has.
    """
    scanned = codes.parse_scanned(text)
    if scanned.subject is not None:
        return _by_code(book, scanned.subject, scanned.code)
    found = _called(book, scanned.code)
    if len(found) > 1:
        ways = ", ".join(label_code(subject) for subject in found)
        raise BadInput(f"{quoted(scanned.code)!r} may be any of several; type one of {ways}")
    if not found:
        near = near_miss(scanned.code, [word for t in _all(book) for word in (t.code, t.name)])
        raise NotFound(
            f"there is no animal or enclosure {quoted(scanned.code)!r}{near}; "
            "list them with: warmside animal list, warmside enclosure list"
        )
    return found[0]


def label_code(subject: Subject) -> str:
    """What the label of an animal or enclosure carries, without a web address."""
    letter = codes.Subject.ANIMAL if isinstance(subject, Animal) else codes.Subject.ENCLOSURE
    return codes.payload(letter, subject.code)


def about_of(subject: Subject) -> About:
    """The subject by its id."""
    return About(subject.id) if isinstance(subject, Animal) else About(enclosure_id=subject.id)


def _all(book: Book) -> tuple[Subject, ...]:
    return (*book.animals.values(), *book.enclosures.values())


def _by_code(book: Book, letter: codes.Subject, code: str) -> Subject:
    of_animal = letter is codes.Subject.ANIMAL
    for subject in _all(book):
        if isinstance(subject, Animal) is of_animal and subject.code.casefold() == code.casefold():
            return subject
    word = "animal" if of_animal else "enclosure"
    raise NotFound(
        f"this label names {word} {quoted(code)!r}, which this collection does not hold; "
        f"list them with: warmside {word} list"
    )


def _called(book: Book, text: str) -> list[Subject]:
    """The animals and enclosures of a code, else those of a name."""
    wanted = text.casefold()
    coded = [t for t in _all(book) if t.code.casefold() == wanted]
    return coded or [t for t in _all(book) if t.name.casefold() == wanted]
