"""`warmside page`: the page for the phone, and whose phones may open it."""

from __future__ import annotations

import sys
from contextlib import suppress
from typing import TYPE_CHECKING, Annotated

import typer

from warmside.core.answers.parts import (
    Answer,
    Column,
    Kind,
    Table,
    Tone,
    Words,
    said,
)
from warmside.core.session.live import live_of
from warmside.core.session.session import session_of
from warmside.core.values.errors import BadInput

if TYPE_CHECKING:
    from warmside.page.phones.devices import Devices
    from warmside.page.phones.people import Invitation

app = typer.Typer()
PORT = 8420
PLAIN_HTTP = (
    "Plain http can be read, and a phone's right be copied, by others in the same network. Use it "
    "in a network of your own, or put a reverse proxy of yours with https before it."
)
ON_THIS_MACHINE = "Only this machine can open it; for a phone in your network start it with --lan."


@app.callback(invoke_without_command=True)
def page(
    context: typer.Context,
    port: Annotated[
        int, typer.Option(min=0, max=65535, help="The port; 0 takes a free one.")
    ] = PORT,
    lan: Annotated[
        bool, typer.Option("--lan", help="For phones in your network, not only this machine.")
    ] = False,
    address: Annotated[
        str | None, typer.Option(help="With --lan: the address of this machine to use.")
    ] = None,
    name: Annotated[
        list[str] | None,
        typer.Option(metavar="HOST", help="Another name it is asked under, as by your proxy."),
    ] = None,
) -> Answer | None:
    """Serve the page until it is stopped: the round, the enclosures, logging, undo."""
    if context.invoked_subcommand is not None:
        return None
    return _serve(context, port, _address(lan, address), tuple(name or ()))


def _address(lan: bool, address: str | None) -> str:
    from warmside.page.serving import THIS_MACHINE, is_home_address, network_address

    if address is None:
        return network_address() if lan else THIS_MACHINE
    if not lan:
        raise BadInput("--address needs --lan, for it opens the page to the network")
    if not is_home_address(address):
        raise BadInput(f"{address} is no address of a home network; the page is not for others")
    return address


def _serve(context: typer.Context, port: int, address: str, names: tuple[str, ...]) -> Answer:
    from warmside.cli.finishing import finish
    from warmside.cli.page_commands import PageCommands
    from warmside.page.app import Page
    from warmside.page.phones.people import Rights
    from warmside.page.serving import hosts_of, server_of

    live = live_of(context)
    with live.session().read():  # a file that cannot be used is told of now, not by the page
        pass
    devices = _devices(context)
    page = Page(live, devices, PageCommands(live.path), ())
    server = server_of(page, address, port)
    page.hosts = frozenset(hosts_of(address, server.effective_port, names))
    url = f"http://{address}:{server.effective_port}/"
    made = devices.invite("keeper", Rights(), live.now())
    keep_address(context, url)
    finish(context, _started(url, made, lan=address != "127.0.0.1"))
    sys.stdout.flush()
    with suppress(KeyboardInterrupt):
        server.run()
    server.close()
    return said("the page is closed; what was recorded stands")


def _started(url: str, made: Invitation, *, lan: bool) -> Answer:
    """Where it is, how a phone is paired, and how it is stopped."""
    from warmside.page.phones.qr import qr_drawing

    pairing = f"{url}pair?c={made.code}"
    parts = (
        Words(f"The page is at {url}"),
        Words(PLAIN_HTTP, Tone.CAUTION) if lan else Words(ON_THIS_MACHINE),
        qr_drawing(f"Pair a phone or a browser within ten minutes: {pairing}", pairing),
        Words("Another phone: warmside page pair NAME. Stop the page with Ctrl+C.", Tone.HINT),
    )
    return Answer("", parts)


@app.command("pair")
def pair(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="Whose phone it is.")] = "keeper",
) -> Answer:
    """A code that pairs one phone of a keeper, once, within ten minutes."""
    from warmside.page.phones.inviting import checked_name
    from warmside.page.phones.people import Rights

    session = session_of(context)
    with session.read():
        pass
    made = _devices(context).invite(checked_name(name), Rights(), session.now)
    return _invited(context, made)


@app.command("sitter")
def sitter(
    context: typer.Context,
    name: Annotated[str, typer.Argument(help="Who looks after them.")],
    until: Annotated[str, typer.Option(help="The last day, such as 2026-08-20.")],
    first: Annotated[
        str, typer.Option("--from", help="The first day; else it opens at once.")
    ] = "",
    only: Annotated[
        list[str] | None,
        typer.Option(metavar="CODE", help="Only this enclosure; may be given again."),
    ] = None,
    may: Annotated[
        list[str] | None,
        typer.Option(metavar="KIND", help="What may be recorded; else the daily care and notes."),
    ] = None,
    call: Annotated[str, typer.Option(help="Whom to call.")] = "",
    never: Annotated[str, typer.Option(help="What never to do.")] = "",
) -> Answer:
    """A code for a sitter's phone: limited, and over at the end of a day by itself."""
    from warmside.page.phones.inviting import checked_name, sitters_rights

    session = session_of(context)
    with session.ask() as ask:
        kinds = tuple(ask.kind(k).name for k in may or ())
        rights = sitters_rights(ask.book, until, tuple(only or ()), kinds, call, never, first)
    made = _devices(context).invite(checked_name(name), rights, session.now)
    return _invited(context, made)


@app.command("people")
def people(context: typer.Context) -> Answer:
    """The paired phones, whose they are and until when."""
    with session_of(context).read():  # a file that cannot be used is told of
        pass
    rows = tuple(
        (
            d.name,
            d.rights.role.value,
            d.rights.last_day,
            ", ".join(d.rights.enclosures) or "all",
            d.paired,
        )
        for d in _devices(context).all()
    )
    columns = (
        Column("name", "who"),
        Column("role", "as"),
        Column("until", "to the end of", Kind.DATE),
        Column("enclosures", "enclosures"),
        Column("paired", "paired", Kind.MOMENT),
    )
    return Answer("Phones", (Table("phones", columns, rows, empty="no phone is paired"),))


@app.command("forget")
def forget(
    context: typer.Context, name: Annotated[str, typer.Argument(help="Whose phone, as listed.")]
) -> Answer:
    """Take a phone off the list; its next request is refused."""
    gone = _devices(context).forget(name)
    return said(f"{gone.name} is off the list; a new code pairs that phone again")


def _invited(context: typer.Context, made: Invitation) -> Answer:
    from warmside.page.phones.qr import qr_drawing

    until = f"{made.name}: code {made.code}, for one phone, within ten minutes."
    url = kept_address(context)
    if url is None:
        return said(until, hints=["warmside page --lan (serve the page, then open /pair there)"])
    pairing = f"{url}pair?c={made.code}"
    return Answer("", (Words(until), qr_drawing(f"Scan, or open {pairing}", pairing)))


def _devices(context: typer.Context) -> Devices:
    from warmside.cli.page_places import devices_file
    from warmside.page.phones.devices import Devices

    return Devices(devices_file(session_of(context).path))


def keep_address(context: typer.Context, url: str) -> None:
    """Keep where the page was served last, for codes that are made at the desk."""
    from warmside.cli.page_places import address_file

    path = address_file(session_of(context).path)
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    path.write_text(url, encoding="utf-8")


def kept_address(context: typer.Context) -> str | None:
    """Where the page was served last; None where that is not known."""
    from warmside.cli.page_places import address_file

    try:
        return address_file(session_of(context).path).read_text(encoding="utf-8").strip() or None
    except OSError:
        return None
