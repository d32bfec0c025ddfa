"""What only the keeper can know about a sheet, as questions with the option that answers each."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from contextlib import suppress

from msgspec.structs import replace

from warmside.core.csv.events import split_field
from warmside.core.csv.mapping import OWN_DATE, SKIP, CsvMapping, FieldColumn
from warmside.core.csv.sheet.usual_words import folded
from warmside.core.values.errors import BadInput
from warmside.core.values.hints import near_miss, quoted
from warmside.core.values.numbered_days import DAY_FIRST, ORDERS, parse_order
from warmside.core.values.questions import Question, Unanswered

MOST_LISTED = 12


class Open(Unanswered):
    """Questions about a sheet are open; a front end that can ask, asks the first."""

    def __init__(self, questions: tuple[Question, ...], believed: tuple[str, ...] = ()) -> None:
        super().__init__(questions[0])
        self.questions = questions
        self.believed = believed
        self.exit_code = 2
        self.args = (
            "; ".join(f"{q.words} (add {q.option})" for q in questions) + "; nothing was imported",
        )


def order_question(column: str, example: str, usual: str = "") -> Question:
    """Which of day and month comes first; `usual` is what the keeper types, and is proposed."""
    words = f"does the day or the month come first in {column!r}, such as {example!r}"
    return Question("date_format", words, "--date-format 'day first' or 'month first'", usual)


def year_question(example: str) -> Question:
    """The year of dates without one."""
    return Question("year", f"which year are dates such as {example!r} of", "--year YEAR")


def decimal_question(example: str) -> Question:
    """What stands before decimals."""
    words = f"{example!r} can be read in two ways: what stands before decimals, '.' or ','"
    return Question("decimal", words, "--decimal '.' or ','")


def subject_question(known: Iterable[str]) -> Question:
    """Which animal a card is about."""
    words = f"which animal is this sheet about; known are {', '.join(known) or 'none'}"
    return Question("subject", words, "--animal CODE")


def cells_question(example: str) -> Question:
    """What the cells of a grid hold."""
    words = (
        f"what do cells such as {quoted(example)!r} hold: weighed.mass:g, fed.item, fed.outcome, "
        "shed.outcome or another field"
    )
    return Question("cells", words, "--cells FIELD")


def column_question(column: str, values: list[str]) -> Question:
    """What an unknown column of Y, N and R holds."""
    shown = ", ".join(dict.fromkeys(v for v in values))
    words = (
        f"what does column {column!r} hold ({shown}): fed.outcome, shed.outcome, cleaned. … or skip"
    )
    option = f"--field fed.outcome='{column}' or --skip '{column}'"
    return Question(f"column:{column}", words, option)


def unit_question(column: str, field: str, example: str, default: str) -> Question:
    """The unit of a column of bare numbers."""
    words = f"in which unit is {example!r} in column {column!r}"
    return Question(
        f"unit:{field}={column}", words, f"--field '{field}={column}:{default}'", default
    )


def word_question(what: str, word: str, rows: int, known: Iterable[str]) -> Question:
    """What an unknown word means; `what` is animal, kind or a field."""
    count = "1 row" if rows == 1 else f"{rows} rows"
    names = list(known)
    few = "." in what and len(names) <= MOST_LISTED
    hint = "" if few else near_miss(word, names)
    listed = "" if hint or len(names) > MOST_LISTED else f"; known are {', '.join(names)}"
    words = f"what {_WHAT.get(what, what)} does {quoted(word)!r} ({count}) mean{hint}{listed}"
    key = f"{'animal' if what == 'animal' else 'word'}:{word}"
    return Question(key, words, f"--word '{word}=MEANING' or '{word}=skip'")


_WHAT = {"animal": "animal", "kind": "kind of event", "fed.item": "food"}


def unsaid_question(field: str, rows: str, what: str, choices: tuple[str, ...]) -> Question:
    """What came of it, where rows leave it unsaid; `what` says what the field is."""
    which = f": {', '.join(choices)} or skip" if choices else "; skip leaves them out"

    def check(typed: str) -> None:
        if choices and folded(typed) not in (*choices, SKIP):
            raise BadInput(f"it is one of {', '.join(choices)} or skip, not {quoted(typed)!r}")

    about = f" ({what})" if what else ""
    words = f"{rows}: {field} is not said{about}{which}"
    return Question(f"unsaid:{field}", words, f"--unsaid {field}=VALUE", check=check)


def with_answers(mapping: CsvMapping, answers: Mapping[str, str]) -> CsvMapping:
    """The mapping with what the keeper answered to questions, by their keys."""
    for key, answer in answers.items():
        mapping = _answered(mapping, key, answer.strip())
    return mapping


def _answered(mapping: CsvMapping, key: str, answer: str) -> CsvMapping:
    what, _, about = key.partition(":")
    if what == "date_format":
        with suppress(BadInput):  # a whole format, or nothing that is understood
            answer = parse_order(answer)
    if not about:
        return replace(mapping, **{what: answer})
    if what == "animal":
        return replace(mapping, animals={**mapping.animals, about: answer})
    if what == "word":
        return replace(mapping, words={**mapping.words, about: answer})
    if what == "unsaid":
        return replace(mapping, unsaid={**mapping.unsaid, about: answer})
    if what == "column" and answer == SKIP:
        return replace(mapping, skipped={**mapping.skipped, about: SKIP})
    if what == "column":
        field, _, unit = answer.partition(":")
        return replace(mapping, fields={**mapping.fields, field: FieldColumn(about, unit)})
    field, _, column = about.partition("=")
    old = mapping.fields.get(field, FieldColumn(column))
    return replace(mapping, fields={**mapping.fields, field: replace(old, unit=answer)})


def check_answers(mapping: CsvMapping) -> None:
    """Raise BadInput where a short answer is none of those that are understood."""
    if mapping.decimal not in ("", ".", ","):
        raise BadInput(f"the decimal mark is '.' or ',', not {mapping.decimal!r}")
    if mapping.year and not (mapping.year.isdigit() and len(mapping.year) == 4):
        raise BadInput(f"write the year as 2026, not {mapping.year!r}")
    order_stated(mapping.date_format)
    for field in (
        *filter(None, (mapping.cells,)),
        *(n for n in mapping.fields if not mapping.kind),
    ):
        if not split_field(field)[0]:
            raise BadInput(f"write a field with its kind, such as fed.outcome, not {field!r}")


def order_stated(date_format: str) -> str:
    """The order of day and month that a stated format has; raises BadInput for no format."""
    if date_format in (*ORDERS, OWN_DATE):
        return DAY_FIRST if date_format == OWN_DATE else date_format
    if "DD" not in date_format or "MM" not in date_format:
        raise BadInput(
            f"write the date format as day first, month first, or such as DD.MM.YYYY, not "
            f"{date_format!r}"
        )
    return ORDERS[date_format.index("DD") > date_format.index("MM")]
