"""Serving the page until it is stopped: one port on this machine, or on one address of the network.

Waitress: synchronous as the core is, and slow or half-sent requests wait outside its threads.
"""

from __future__ import annotations

import errno
import ipaddress
import os
import socket
from typing import Any

from warmside.core.values.errors import BadInput, Refused
from warmside.page.app import MOST_BYTES, Page
from warmside.page.receiving import channel_of

THIS_MACHINE = "127.0.0.1"
THREADS = 6
CONNECTIONS = 200
SILENT_SECONDS = 20


def hosts_of(address: str, port: int, names: tuple[str, ...] = ()) -> set[str]:
    """The names under which the page may be asked; the usual port is left out by browsers."""
    local = {THIS_MACHINE, "localhost"} if address == THIS_MACHINE else {address}
    hosts = {f"{host}:{port}" for host in local}
    hosts |= local if port == 80 else set()
    return hosts | set(names)


def network_address() -> str:
    """The address of this machine in its home network; Refused where it has none or several.

    A datagram socket is given a far end, which sends nothing, so that the system names its own.
    """
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as looking:
        try:
            looking.connect(("192.0.2.1", 9))  # an address for documentation, RFC 5737
            found = str(looking.getsockname()[0])
        except OSError:
            found = ""
    if not found or not is_home_address(found):
        raise Refused(
            f"this machine has no address in a home network{f' (only {found})' if found else ''}; "
            "name the one to use: --address 192.168.178.20"
        )
    return found


def is_home_address(text: str) -> bool:
    """Whether an address is one of a private network (RFC 1918, RFC 4193) or link-local."""
    try:
        address = ipaddress.ip_address(text)
    except ValueError as error:
        raise BadInput(f"{text!r} is no address; write it like 192.168.178.20") from error
    return address.is_private and not address.is_loopback and not address.is_unspecified


def server_of(page: Page, address: str, port: int) -> Any:
    """The server, listening; Refused where the port is taken."""
    from waitress.server import create_server

    server = create_server(
        page,
        sockets=[_listening(address, port)],
        threads=THREADS,
        ident=None,
        connection_limit=CONNECTIONS,
        channel_timeout=SILENT_SECONDS,
        cleanup_interval=5,
        max_request_header_size=16_384,
        max_request_body_size=2 * MOST_BYTES,
    )
    server.channel_class = channel_of(page)
    return server


def _listening(address: str, port: int) -> socket.socket:
    family = socket.AF_INET6 if ":" in address else socket.AF_INET
    made = socket.socket(family, socket.SOCK_STREAM)
    try:
        if os.name == "posix":  # a port that was just left; elsewhere it would let another in
            made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        made.bind((address, port))
    except OSError as error:
        made.close()
        if error.errno == errno.EADDRNOTAVAIL:
            raise Refused(
                f"{address} is no address of this machine; name one of its own, or no --address"
            ) from error
        raise Refused(
            f"cannot listen on {address}:{port} ({error.strerror}); another page may be running, "
            "or take another port: --port 8421"
        ) from error
    return made
