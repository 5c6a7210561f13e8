"""How the home network is served: by which address and names, with or without a certificate, and what is told of it."""

from __future__ import annotations

import asyncio
import re
import socket
import ssl
from dataclasses import dataclass
from ipaddress import IPv4Address
from pathlib import Path

from pinfold.actions import home as kept
from pinfold.errors import StoreError
from pinfold.web import home_ca

_LOOKED_AFTER = 3600.0
"""Seconds between two looks at the certificate."""
PLAIN_LIMITS = (
    "Without a certificate everything crosses your home network in the clear, also what pairs a phone; the page on a "
    "phone opens out of range only from what the phone happens to hold, so do not load it anew out there."
)


@dataclass(frozen=True, kw_only=True)
class Home:
    """The home network's side of a server.

    Attributes:
        address: of this machine in it.
        machine: its name there.
        port: of the pages.
        files: certificate and key when the pages go over TLS; None when they go in the clear.
    """

    address: IPv4Address
    machine: str
    port: int
    files: tuple[Path, Path] | None

    @property
    def url(self) -> str:
        """Where a phone finds the pages."""
        return f"{'https' if self.files else 'http'}://{self.address}:{self.port}/"

    @property
    def names(self) -> tuple[str, ...]:
        """Address and names that a phone may ask for."""
        return (str(self.address), *home_ca.names_of(self.machine))

    @property
    def hosts(self) -> frozenset[str]:
        """The same with the port of the pages."""
        return frozenset(f"{name}:{self.port}" for name in self.names)

    @property
    def handing(self) -> frozenset[str]:
        """Hosts that hand out the authority's certificate in the clear; none without TLS."""
        return frozenset(f"{name}:{self.port + 1}" for name in self.names) if self.files else frozenset()

    @property
    def places(self) -> tuple[tuple[str, int], ...]:
        """Addresses and ports to listen at."""
        address = str(self.address)
        return ((address, self.port), (address, self.port + 1)) if self.files else ((address, self.port),)

    @property
    def says(self) -> tuple[str, ...]:
        """What the owner should know."""
        if self.files:
            trust = f"http://{self.address}:{self.port + 1}/pair/trust"
            return (f"Phones in the home network: {self.url}", f"They get its certificate at {trust} first.")
        return (f"Phones in the home network: {self.url} (in the clear).", PLAIN_LIMITS)


def home_of(*, address: IPv4Address | None, port: int, plain: bool) -> Home:
    """How the home network is to be served now; the server's certificate is made or renewed on the way.

    Raises:
        StoreError: this machine is in no home network, or the authority is of another one.
    """
    found = address or home_address()
    if not found.is_private or (found.is_loopback and address is None):
        raise StoreError(f"{found} is no address of a home network; --home is not for the open internet")
    machine = machine_name()
    files = None if plain else leaf_files(found, machine)
    return Home(address=found, machine=machine, port=port, files=files)


def leaf_files(address: IPv4Address, machine: str) -> tuple[Path, Path] | None:
    """Where the server's certificate and key lie, made anew when that is due; None when the builder made no authority.

    Raises:
        StoreError: the authority is of another network, or its files are damaged.
    """
    authority, key = kept.kept("ca.pem"), kept.kept("ca.key")
    if authority is None or key is None:
        return None
    leaf, held = kept.kept("leaf.pem"), kept.kept("leaf.key")
    names = (str(address), *home_ca.names_of(machine))
    if leaf is None or held is None or home_ca.wants_renewal(leaf, authority, kept.now(), names):
        made = home_ca.make_leaf(home_ca.Pair(certificate=authority, key=key), address, machine, kept.now())
        kept.keep("leaf.key", made.key)
        kept.keep("leaf.pem", made.certificate)
    return kept.folder() / "leaf.pem", kept.folder() / "leaf.key"


async def renewing(home: Home, context: ssl.SSLContext, *, every: float = _LOOKED_AFTER) -> None:
    """Look after the certificate while the server runs, and use a new one from the next connection on."""
    while True:
        await asyncio.sleep(every)
        try:
            files = leaf_files(home.address, home.machine)
        except StoreError:
            continue  # removed or damaged meanwhile: what is loaded goes on until the server is started anew
        if files:
            context.load_cert_chain(*files)


def home_address() -> IPv4Address:
    """This machine's address in its home network, by asking which one it would use; nothing is sent.

    Raises:
        StoreError: it has none.
    """
    for aim in ("192.168.255.254", "10.255.255.254", "192.0.2.254"):
        with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asks:
            try:
                asks.connect((aim, 9))
                found = IPv4Address(asks.getsockname()[0])
            except OSError:
                continue
        if not found.is_loopback and not found.is_unspecified:
            return found
    raise StoreError("this machine is in no network; join the home network, then serve again")


def machine_name() -> str:
    """This machine's name, as it can stand in an address."""
    plain = re.sub(r"[^a-z0-9-]+", "-", socket.gethostname().partition(".")[0].lower()).strip("-")
    return plain[:40] or "pinfold"
