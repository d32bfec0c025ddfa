"""`warmside labels print`: what was typed, made a request."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer
from msgspec.structs import replace

from warmside.api import Answer, session_of
from warmside.plugins.labels.commands.printing import NEXT, Printing, plan, printed
from warmside.plugins.labels.content.label import LabelKind
from warmside.plugins.labels.reading.choosing import SORTS, Choice

Several = list[str] | None
File = Annotated[Path, typer.Argument(metavar="FILE.pdf", help="The file to write.")]
Kind = Annotated[str, typer.Option(help=", ".join(LabelKind))]
Enclosures = Annotated[Several, typer.Option(help="Only this enclosure; may be given again.")]
Animals = Annotated[Several, typer.Option(help="Only this animal, or where it lives.")]
Room = Annotated[str | None, typer.Option(help="Only in this room.")]
State = Annotated[
    str | None, typer.Option(help="Only those a plugin sets apart, such as quarantined.")
]
Changed = Annotated[bool, typer.Option("--changed", help="Only what changed since it was printed.")]
Sort = Annotated[str, typer.Option(help=", ".join(SORTS))]
Lines = Annotated[str, typer.Option(help="Lines by key, in that order; see: warmside labels lines")]
Danger = Annotated[str, typer.Option(help="The danger, for hazard signs.")]
Copies = Annotated[int, typer.Option(help="How often each label is printed.")]
Paper = Annotated[str, typer.Option(help="See: warmside labels stocks")]
Stocks = Annotated[
    Path | None, typer.Option(metavar="FILE.toml", help="A file with stocks of your own.")
]
Start = Annotated[str | None, typer.Option(metavar="N", help="First free place, or: next")]
Used = Annotated[str, typer.Option(metavar="PLACES", help="Places already gone, such as 1-7,12.")]
Profile = Annotated[
    str | None, typer.Option(help="Printer profile, or none; see: warmside labels calibrate")
]
CutLines = Annotated[
    bool, typer.Option("--cut-lines", help="Outlines to cut along, for plain paper.")
]
CutMarks = Annotated[bool, typer.Option("--cut-marks", help="Short marks at the corners instead.")]
Preview = Annotated[
    bool, typer.Option("--preview", help="Cross out used places; nothing is noted.")
]
Pictures = Annotated[
    bool, typer.Option("--pictures", help="The newest photo of each, on animals' cards.")
]
Overwrite = Annotated[
    bool, typer.Option("--replace", help="Write over any file, not only over labels.")
]


def print_labels(
    context: typer.Context,
    target: File,
    kind: Kind = LabelKind.ENCLOSURE.value,
    enclosure: Enclosures = None,
    animal: Animals = None,
    room: Room = None,
    state: State = None,
    changed: Changed = False,
    sort: Sort = SORTS[0],
    lines: Lines = "",
    hazard: Danger = "",
    copies: Copies = 1,
    stock: Paper = "",
    stocks: Stocks = None,
    start: Start = None,
    used: Used = "",
    profile: Profile = None,
    cut_lines: CutLines = False,
    cut_marks: CutMarks = False,
    preview: Preview = False,
    overwrite: Overwrite = False,
    pictures: Pictures = False,
) -> Answer:
    """Write labels, cards or signs as a PDF.

    By default a label for each enclosure in use.
    """
    session = session_of(context)
    choice = Choice(tuple(enclosure or ()), tuple(animal or ()), room, state, sort)
    wanted = Printing(
        target, kind, choice, lines, hazard, changed, copies, stock, stocks, start, used, profile
    )
    wanted = replace(
        wanted,
        cut_lines=cut_lines,
        cut_marks=cut_marks,
        preview=preview,
        overwrite=overwrite,
        pictures=pictures,
    )
    planned = plan(session, wanted)
    if planned.offer and session.asks:
        go_on = typer.confirm(f"{planned.offer}; go on there?", default=True, err=True)
        planned = plan(session, replace(wanted, start=NEXT)) if go_on else planned
    return printed(session, planned)
