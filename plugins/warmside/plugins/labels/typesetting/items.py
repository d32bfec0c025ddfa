"""What a label says made items ready to be set: drawable, measured, with how each is set."""

from __future__ import annotations

from itertools import accumulate

from warmside.api import quoted
from warmside.plugins.labels.content.label import Label, Style, group_of
from warmside.plugins.labels.typesetting.fonts import Face, metrics
from warmside.plugins.labels.typesetting.rows import SMALLEST_PT, Item, Setting
from warmside.plugins.labels.typesetting.wording import ELLIPSIS, Drawable, drawable

CODE_KEY = "code"
SETTINGS: dict[Style, Setting] = {
    Style.LARGE: Setting(Face.BOLD, 2.4, 8.0, True),
    Style.NAME: Setting(Face.BOLD, 1.5, SMALLEST_PT, False, folds=2),
    Style.LATIN: Setting(Face.OBLIQUE, 1.1, SMALLEST_PT, False, folds=2),
    Style.PLAIN: Setting(Face.REGULAR, 1.0, SMALLEST_PT, True),
    Style.CAUTION: Setting(Face.BOLD, 1.1, SMALLEST_PT, True),
    Style.BLANK: Setting(Face.REGULAR, 1.0, SMALLEST_PT, False, 1.9, 1.6, writing=True),
}


def items_of(label: Label) -> tuple[list[Item], list[str]]:
    """The code and the lines ready to be set: the code first, on signs last."""
    code = drawable(label.code_text, Face.BOLD)
    lines = [(line, drawable(line.text, SETTINGS[line.style].face)) for line in label.lines]
    top = [_item(code, CODE_KEY, None, _code_setting(label), True)] if code.text else []
    rest = [
        _item(ready, line.key, line.style, SETTINGS[line.style], line.needed)
        for line, ready in lines
        if ready.text
    ]
    name = quoted(label.code_text)
    said = _said(code, name, CODE_KEY)
    said += [warning for line, ready in lines for warning in _said(ready, name, line.key)]
    return rest + top if label.kind.is_sign else top + rest, list(dict.fromkeys(said))


def _code_setting(label: Label) -> Setting:
    """A sign's code is tight: capitals and figures need no room for accents or tails.

    On other labels it stands where neighbours have a name, and is set like one.
    """
    if not label.kind.is_sign:
        return Setting(Face.BOLD, 1.5, SMALLEST_PT, False)
    rise = 0.78 if label.code_text.isascii() else 0.93
    fall = 0.24 if any(c in "gjpqy_,;()[]{}|@$Q/\\" for c in label.code_text) else 0.1
    fall = fall if label.code_text.isascii() else 0.24
    return Setting(Face.BOLD, 4.0, SMALLEST_PT, False, rise + fall + 0.05, rise)


def _item(ready: Drawable, key: str, style: Style | None, setting: Setting, needed: bool) -> Item:
    known = metrics(ready.face)
    edges = tuple(accumulate(known.advances(ready.text), initial=0.0))
    word = max(known.width(word) for word in ready.text.split(" "))
    mark = known.width(ELLIPSIS)
    return Item(
        *(ready.text, key, style, ready.face, setting, needed, edges),
        longest_word=max(word, 0.01),
        group=group_of(key),
        ellipsis_width=mark,
    )


def _said(ready: Drawable, name: str, key: str) -> list[str]:
    said = []
    if ready.lost:
        more = f" and {len(ready.lost) - 5} more" if len(ready.lost) > 5 else ""
        said.append(
            f"label {name}: {key} has characters that cannot be drawn:"
            f" {', '.join(ready.lost[:5])}{more}"
        )
    if ready.hidden:
        said.append(f"label {name}: {key} had control or direction characters, taken out")
    if ready.cut:
        said.append(f"label {name}: {key} is far too long and was shortened")
    return said
