"""The computer on its home network: addresses and a free port."""

from __future__ import annotations

import contextlib
import errno
import socket
from ipaddress import ip_address

from bareshell.errors import BareshellError


class PortTaken(BareshellError):
    """Something else already answers at the port."""

    kind = "port taken"
    exit_code = 8


def home_address() -> str:
    """The address by which the home network reaches this computer; loopback when there is none.

    No packet is sent: connecting a datagram socket only asks the routing table. The address
    asked for is one reserved for documentation (RFC 5737).
    """
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))
        except OSError:
            return "127.0.0.1"
        return str(probe.getsockname()[0])


def own_names() -> frozenset[str]:
    """Names and addresses by which this computer may be called on the home network."""
    name = socket.gethostname().lower()
    names = {name, f"{name}.local", home_address()}
    with contextlib.suppress(OSError):
        names |= {str(row[4][0]) for row in socket.getaddrinfo(name, None)}
    return frozenset(found for found in names if found and not _is_wildcard(found))


def _is_wildcard(name: str) -> bool:
    try:
        return ip_address(name).is_unspecified
    except ValueError:
        return False


def listen(host: str, port: int) -> socket.socket:
    """Take a port, or say that it is taken.

    Parameters
    ----------
    host : str
        The address to listen at.
    port : int
        The port; 0 takes any free one.

    Raises
    ------
    PortTaken
        When another program has it, or it may not be taken.
    """
    taken = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    taken.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        taken.bind((host, port))
    except OSError as error:
        taken.close()
        if error.errno == errno.EADDRINUSE:
            raise PortTaken(
                f"port {port} is taken by another program, perhaps by another bareshell",
                f"stop that one, or choose another port such as {port + 1}",
            ) from error
        raise PortTaken(
            f"port {port} at {host} cannot be used ({error.strerror})", "choose another port"
        ) from error
    taken.listen(128)
    return taken
