"""`warmside record KIND`: one sub-command for each kind of event, made from its declaration."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from typer.core import TyperArgument, TyperCommand, TyperGroup, TyperOption

from warmside.cli.asking_back import prompted
from warmside.cli.completing import complete_words
from warmside.cli.lazy import with_faces
from warmside.core.answers.parts import Answer
from warmside.core.doing.asked_value import with_value
from warmside.core.doing.given_again import with_treatment
from warmside.core.doing.recording import Recording, record
from warmside.core.kinds.fields import FieldSpec, Form
from warmside.core.kinds.kind import EventKind, Subject
from warmside.core.kinds.known import ALSO, WITH_VALUE
from warmside.core.kinds.shared import SHARED_KINDS
from warmside.core.session.session import Session, session_of
from warmside.core.values.errors import WarmsideError
from warmside.core.values.questions import Unanswered

SHARED = {k.name: k for k in SHARED_KINDS}
MANY = 12
"""So many choices are too many for a line of help."""
COMMON = ("subjects", "everyone", "room", "at", "note", "confirm", "enclosure")


class KindGroup(TyperGroup):
    """The kinds as commands: shared ones from their table, plugins' once a file is open."""

    def list_commands(self, ctx: Any) -> list[str]:
        """Shared kinds in the order of their declaration, then those of plugins."""
        return [*SHARED, *sorted(set(self._all(ctx)) - set(SHARED))]

    def get_command(self, ctx: Any, cmd_name: str) -> Any:
        """The command that records that kind."""
        name, given = WITH_VALUE.get(cmd_name.casefold(), (cmd_name, {}))
        kind = SHARED.get(ALSO.get(name.casefold(), name)) or self._all(ctx).get(name)
        return None if kind is None else with_faces(KindCommand(kind, given))

    def _all(self, ctx: Any) -> dict[str, EventKind]:
        session = ctx.find_object(Session)
        if session is None:  # the shell is completing; no file is opened for that
            return SHARED
        try:
            return dict(session.open().host.kinds)
        except WarmsideError:  # no file yet, or a bad one: the shared kinds are all there is
            return SHARED


class KindCommand(TyperCommand):
    """Records events of one kind; `given` are fields that its name says already."""

    def __init__(self, kind: EventKind, given: Mapping[str, str] = MappingProxyType({})) -> None:
        doc = kind.help or (kind.record.__doc__ or "").strip()
        super().__init__(
            kind.name,
            params=parameters(kind),
            help=doc,
            short_help=doc.splitlines()[0] if doc else kind.title,
            callback=lambda **_: None,
            rich_markup_mode=None,
        )
        self.kind, self.given = kind, given

    def invoke(self, ctx: Any) -> Answer:
        """Record what was typed."""
        session, wanted = session_of(ctx), recording(self.kind, ctx.params, self.given)
        if session.asks:
            wanted = _told(session, _treated(session, wanted))
        return record(session, wanted)


def _treated(session: Session, wanted: Recording) -> Recording:
    """The request with a treatment, which is asked for and offered again where none was typed."""
    try:
        return with_treatment(session, wanted)
    except Unanswered as missing:
        return with_treatment(session, wanted, prompted(missing.question))


def _told(session: Session, wanted: Recording) -> Recording:
    """The request with its kind's own value, which is asked for where none was typed."""
    try:
        return with_value(session, wanted)
    except Unanswered as missing:
        return with_value(session, wanted, prompted(missing.question))


def parameters(kind: EventKind) -> list[Any]:
    """The arguments and options of a kind's command."""
    first = kind.own if kind.fields else None
    code = "L1" if kind.subject is Subject.ENCLOSURE else "EMB"
    value = f", also with a value: {code}={first.example}" if first else ""
    where = "enclosures (or animals that live in them)"
    whom = where if kind.subject is Subject.ENCLOSURE else "animals"
    common = [
        TyperArgument(
            param_decls=["subjects"],
            nargs=-1,
            metavar="[SUBJECT]...",
            help=f"Codes or names of {whom}{value}.",
        ),
        *[_option(spec) for spec in kind.fields],
        TyperOption(param_decls=["everyone", "--all"], is_flag=True, help=f"All {whom} here."),
        TyperOption(param_decls=["room", "--room"], help="All in that room."),
        TyperOption(
            param_decls=["at", "--at"], help="When: 2026-03-05, yesterday, 08:30, 3 days ago."
        ),
        TyperOption(param_decls=["note", "--note"], default="", help="A note."),
        TyperOption(
            param_decls=["confirm", "--confirm"],
            is_flag=True,
            help="It is right, though it looks odd.",
        ),
    ]
    if kind.subject is Subject.PLACING:
        common.append(TyperOption(param_decls=["enclosure", "--enclosure"], help="Where it goes."))
    return common


def _option(spec: FieldSpec) -> TyperOption:
    needed = "; needed" if spec.required else ""
    help = f"{spec.help[:1].upper()}{spec.help[1:]} ({spec.typing_help}{needed})."
    flag = f"--{spec.option}"
    if spec.form is Form.YESNO:
        return TyperOption(param_decls=[spec.name, flag], is_flag=True, help=help)
    if spec.form is Form.CHOICES:
        return TyperOption(param_decls=[spec.name, flag], multiple=True, help=help, metavar="TEXT")
    if spec.form is Form.CHOICE and len(spec.choices) > MANY:
        help = f"{spec.help[:1].upper()}{spec.help[1:]} (the shell completes it{needed})."
    option = TyperOption(param_decls=[spec.name, flag], help=help, metavar="TEXT")
    if spec.form is Form.CHOICE:
        complete_words(option, spec.choices, [word for word, _ in spec.also])
    return option


def recording(kind: EventKind, params: dict[str, Any], given: Mapping[str, str]) -> Recording:
    """The request that was typed; an option goes before what the name of the command gives."""
    return Recording(
        kind.name,
        tuple(params["subjects"] or ()),
        {**given, **{k: _text(v) for k, v in params.items() if k not in COMMON and _given(v)}},
        everyone=bool(params["everyone"]),
        room=params["room"],
        enclosure=params.get("enclosure"),
        at=params["at"],
        note=params["note"] or "",
        confirmed=bool(params["confirm"]),
    )


def _given(value: Any) -> bool:
    return value not in (None, False, ())


def _text(value: Any) -> str:
    if value is True:
        return "yes"
    return ",".join(value) if isinstance(value, tuple | list) else str(value)


group = KindGroup(
    name="record",
    help="Record an event, for one or many animals or enclosures at once.",
    no_args_is_help=True,
    rich_markup_mode=None,
)
