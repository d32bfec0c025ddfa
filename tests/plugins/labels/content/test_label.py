"""What each kind of label says."""

from __future__ import annotations

import pytest

from warmside.core.values.errors import BadInput
from warmside.plugins.labels.content.animals import Occupant, Sex, animal_card, enclosure_label
from warmside.plugins.labels.content.codes import parse_scanned
from warmside.plugins.labels.content.hazards import find_hazard, hazards
from warmside.plugins.labels.content.label import (
    LINE_KEYS,
    Label,
    LabelKind,
    LabelText,
    Style,
    fingerprint,
)
from warmside.plugins.labels.content.picking import pick_lines
from warmside.plugins.labels.content.signs import door_sign, hazard_sign, sitter_strip


def _texts(label: Label, key: str) -> list[str]:
    return [line.text for line in label.lines if line.key == key]


def test_print_and_qr_come_from_one_code(invented) -> None:
    for label in invented.labels:
        assert parse_scanned(label.payload).code == label.code_text


def test_two_animals_of_a_species_share_its_name(invented) -> None:
    label = enclosure_label("E1", [invented.juniper, invented.moss])
    assert _texts(label, "names") == ["Juniper ♀", "Moss ♂"]
    assert _texts(label, "latin") == ["Lepidodactylus fictus"]
    assert _texts(label, "hatched") == ["hatched 2021-05-12 / 2020"]


def test_two_species_stand_each_below_its_animals(invented) -> None:
    other = Occupant("A020", latin="Varanus inventus")
    label = enclosure_label("E1", [invented.juniper, other])
    assert [line.text for line in label.lines[:4]] == [
        "Juniper ♀",
        "Lepidodactylus fictus",
        "A020",
        "Varanus inventus",
    ]
    assert label.lines[1].style is Style.LATIN


def test_a_group_shares_a_line() -> None:
    group = [Occupant(f"A{n}", f"N{n}", sex=Sex.MALE) for n in range(5)]
    assert _texts(enclosure_label("E1", group), "names") == ["5: N0 ♂, N1 ♂, N2 ♂, N3 ♂, N4 ♂"]


def test_an_empty_enclosure_has_a_label_of_its_code() -> None:
    assert enclosure_label("E1", []).lines == ()


def test_a_card_leaves_room_to_write_what_is_not_known() -> None:
    card = animal_card(Occupant("A1"), contact="555 0100")
    styles = {line.key: line.style for line in card.lines}
    assert styles["contact"] is Style.PLAIN and styles["vet"] is Style.BLANK


def test_a_door_sign_tells_order_dates_and_tools_but_no_verdict() -> None:
    sign = door_sign("Q1", since="2026-01-05", earliest_end="2026-04-05")
    words = " ".join(line.text for line in sign.lines)
    assert "last" in words and "since 2026-01-05" in words and "not before 2026-04-05" in words
    assert "healthy" not in words and "free of" not in words
    assert next(line for line in sign.lines if line.key == "tools").style is Style.BLANK
    assert _texts(door_sign("Q1", since="2026-01-05"), "end") == ["end still open"]


def test_every_hazard_sign_has_large_words_first_steps_blanks_and_the_law() -> None:
    for hazard in hazards():
        sign = hazard_sign("V-9", hazard)
        assert sign.lines[0].style is Style.LARGE
        assert _texts(sign, "first") and _texts(sign, "law") and hazard.source.text
        blanks = [line for line in sign.lines if line.key == "emergency"]
        assert len(blanks) == 3 and all(line.style is Style.BLANK for line in blanks)
        assert not any(c.isdigit() for line in sign.lines for c in line.text)  # no made-up number


def test_an_unknown_hazard_suggests_a_near_one() -> None:
    with pytest.raises(BadInput, match="did you mean 'venomous'"):
        find_hazard("venemous")


def test_a_strip_says_what_not_to_do_as_a_caution(invented) -> None:
    strip = sitter_strip("E1", [invented.juniper], meal="Thu", do_nots=["handle", " "])
    assert [line.text for line in strip.lines if line.style is Style.CAUTION] == ["Do not handle"]


def test_one_animal_has_its_common_name_and_genes_on_the_label(invented) -> None:
    label = enclosure_label("E1", [invented.juniper])
    assert [line.text for line in label.lines[:4]] == [
        "Juniper ♀",
        "Lepidodactylus fictus",
        "moss gecko",
        "het pale",
    ]
    assert _texts(enclosure_label("E1", [invented.juniper, invented.moss]), "genes") == []


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("do not feed live", "Do not feed live"),
        ("Don't open at night", "Do not open at night"),
        ("don’t open at night", "Do not open at night"),
        ("never do not handle", "Do not handle"),
        ("No live prey", "Do not allow live prey"),
        ("nod off", "Do not nod off"),
        ("notice it", "Do not notice it"),
    ],
)
def test_what_already_forbids_is_not_forbidden_twice(typed: str, printed: str) -> None:
    strip = sitter_strip("E1", [], do_nots=[typed, "never", " "])
    assert _texts(strip, "donot") == [printed]


def test_a_door_sign_tells_of_hands_and_own_tools_once(invented) -> None:
    sign = door_sign("Q1", tools="own tongs; wash hands before and after", since="2026-01-05")
    words = " ".join(line.text for line in sign.lines).lower()
    assert words.count("wash hands") == 1 and "own tools: tongs" in words
    assert _texts(door_sign("Q1", tools="blue set"), "hands")
    latin = [x for x in door_sign("Q1", occupants=[invented.moss]).lines if x.key == "latin"]
    assert [(x.text, x.style) for x in latin] == [("Lepidodactylus fictus", Style.LATIN)]


def test_line_keys_are_those_that_the_labels_use(invented) -> None:
    full = {
        LabelKind.HAZARD: hazard_sign(
            "V", find_hazard("large"), what="x", occupants=[invented.moss]
        ),
        LabelKind.DOOR: door_sign("Q", since="x", occupants=[invented.moss]),
        LabelKind.SITTER: sitter_strip("E", [invented.moss], meal="x", misting="x", do_nots=["x"]),
        LabelKind.ANIMAL: invented.labels[1],
        LabelKind.ENCLOSURE: enclosure_label("E", [invented.juniper], room="hall"),
    }
    for kind, label in full.items():
        assert {line.key for line in label.lines} == set(LINE_KEYS[kind])


def test_the_keeper_picks_lines_and_their_order() -> None:
    extra = [LabelText("31 °C", Style.PLAIN, "habitat.warm")]
    label = enclosure_label("E1", [Occupant("A1", "Moss", hatched="2020")], extra=extra)
    picked = pick_lines(label, ["habitat.warm", "names", "weight.last"])
    assert [line.key for line in picked.lines] == ["habitat.warm", "names"]
    with pytest.raises(BadInput, match="did you mean 'names'"):
        pick_lines(label, ["name"], LINE_KEYS[LabelKind.ENCLOSURE])


def test_a_fingerprint_changes_with_anything_a_label_says(invented) -> None:
    base = enclosure_label("E1", [invented.juniper])
    others = [
        enclosure_label("E2", [invented.juniper]),
        enclosure_label("E1", [invented.moss]),
        enclosure_label("E1", [invented.juniper], prefix="https://example.org/"),
        enclosure_label("E1", [invented.juniper], room="hall"),
    ]
    assert fingerprint(base) == fingerprint(enclosure_label("E1", [invented.juniper]))
    assert len({fingerprint(label) for label in (base, *others)}) == 5
    assert fingerprint(enclosure_label("E1", [Occupant("A", "\ud800")]))
