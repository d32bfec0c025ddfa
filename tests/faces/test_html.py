"""Any answer becomes a fragment of HTML: escaped, without styles, its drawings within it."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from faces.specimen import DRAWING, GROWTH, HOURS, LOOK, SPECIMEN, WEIGHTS, zones
from faces.whole import check_html
from warmside.core.answers.parts import Answer, Column, Fact, Kind, Section, Table, Tone, Words
from warmside.core.values.basis import Basis
from warmside.core.values.units import Unit
from warmside.faces.web.html import render_html
from warmside.faces.web.markup import Markup, element, joined, unbroken


def html(*parts: object, **more: object) -> str:
    return render_html(Answer(parts=parts), LOOK, **more)  # type: ignore[arg-type]


def test_text_is_escaped_and_markup_is_not_escaped_twice() -> None:
    assert element("p", "a < b & c", title='"x"') == (
        '<p title="&quot;x&quot;">a &lt; b &amp; c</p>'
    )
    assert joined([Markup("<br>"), "<br>", None]) == "<br>&lt;br&gt;"
    assert element("input", required=True, disabled=False, name_=None) == "<input required>"


def test_a_code_is_a_link_where_there_is_an_address_for_it() -> None:
    fact = Fact("code", "code", "EMB", Kind.CODE)
    linked = html(fact, link=lambda code: f"/animal/{code}?a=1&b=2")
    assert '<a href="/animal/EMB?a=1&amp;b=2">EMB</a>' in linked
    assert "<dd>EMB</dd>" in html(fact)


def test_what_a_fact_rests_on_has_a_line_of_its_own() -> None:
    fact = Fact("mass", "mass", 431.0, Unit.MASS, Basis("weighed"))
    shown = html(fact)
    assert '<dd><span class="one">431 g</span></dd><dd class="basis">weighed; ' in shown


def test_what_is_not_known_takes_no_line_under_a_row() -> None:
    columns = (Column("a", "a"), Column("b", "note", below=True))
    shown = html(Table("t", columns, (("one", None), ("two", "said"))))
    assert "<div>note: said</div>" in shown and shown.count("note: ") == 1


def test_no_end_of_a_line_parts_a_day_a_unit_or_a_code() -> None:
    said = "C1 4 (C1-4): weighed 431 g on 2026-03-05, 30.5 °C; eaten 40 %; at 13:00, by Ann"
    shown = unbroken(said)
    assert shown == (
        'C1 4 <span class="one">(C1-4)</span>: weighed <span class="one">431 g</span> on '
        '<time>2026-03-05</time>, <span class="one">30.5 °C</span>; eaten '
        '<span class="one">40 %</span>; at 13:00, by Ann'
    )


def test_a_caution_says_so_in_words() -> None:
    assert html(Words("ask a vet", Tone.CAUTION)) == (
        '<p class="caution"><strong>caution:</strong> ask a vet</p>'
    )


def test_preformatted_words_keep_their_columns() -> None:
    shown = html(Words("a   b\n  c", pre=True))
    assert shown.startswith('<div class="plain"><pre tabindex="0" ')  # reached by a keyboard
    assert shown.endswith(">a   b\n  c</pre></div>")


def test_a_table_has_a_head_numbers_to_the_right_and_what_goes_under_a_row() -> None:
    shown = html(WEIGHTS)
    assert '<th class="number" scope="col">mass</th>' in shown
    assert (
        '<tr class="under"><td colspan="4"><div>note: ate in the evening</div></td></tr>' in shown
    )
    assert shown.index("wash hands") < shown.index("Moss")
    assert html(Table("t", WEIGHTS.columns, (), empty="none")) == "<p>none</p>"


def test_drawings_scale_to_their_place_and_are_told_in_words() -> None:
    shown = html(DRAWING)
    assert 'width="100%"' in shown
    assert 'role="img" aria-label="Three made-up generations &lt;&amp;&gt;"' in shown
    assert "[ ]---( )     Ash   Briar" in shown
    assert "07:30 20 %" in html(HOURS)
    assert "weighings: 2025-03-01 99 g; 2025-03-21 112 g" in html(GROWTH)
    assert "basking: 2025-03-29 00:00 " in html(zones())


def test_a_drawing_for_a_phone_is_set_narrower_not_shrunk() -> None:
    narrow = html(GROWTH, drawing_width=350.0)
    assert 'viewBox="0 0 350 ' in narrow
    assert 'font-size="8"' in narrow


def test_a_drawing_that_keeps_its_size_is_named_and_scrolled_by_a_keyboard() -> None:
    shown = html(replace(DRAWING, title="A tree", whole=True))
    assert '<figure class="whole" tabindex="0" aria-label="A tree"><svg' in shown


def test_a_page_with_two_drawings_names_nothing_twice() -> None:
    assert " id=" not in render_html(SPECIMEN, LOOK)


TEXT = st.text(st.characters(codec=None), max_size=40)


@settings(deadline=None, max_examples=40)
@given(TEXT, TEXT)
def test_any_text_is_said_and_every_element_closed(title: str, words: str) -> None:
    parts = (Words(words), Fact("f", title, words), Words(words, pre=True))
    rows = replace(WEIGHTS, rows=((words, None, 1.0, None, "x", title),), breaks=(), title=title)
    answer = Answer(title, (*parts, rows), (Section(words, parts),), (words,))
    check_html(render_html(answer, LOOK), answer, LOOK)
