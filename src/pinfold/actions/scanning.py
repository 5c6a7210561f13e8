"""The address of a batch: what a square code on a card opens, on a paired phone or on this machine."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlencode

from pinfold.actions.batch_amounts import amounts_of
from pinfold.errors import StoreError
from pinfold.studies.batching.records import BatchCard, Charge
from pinfold.units import System

OWN = "http://127.0.0.1:8017/"
"""Where this machine serves unless told otherwise."""
WITH = "with"
"""Key of an amount in an address: `with=sand:3 bucket`."""
_PHONE = (
    "Scan it with a paired phone: this batch opens filled in, to look over and keep. It opens out of reach too where "
    "the phone keeps pinfold's page. The address is that of the home network as it is served, or was last."
)
_ONLY_HERE = (
    "It opens this batch filled in on this machine alone, while pinfold is served here. For phones: 'pinfold serve "
    "--home', pair the phone, then print the card anew."
)


@dataclass(frozen=True, kw_only=True)
class Reached:
    """Where cards point.

    Attributes:
        base: address that pages are served at, with its last slash.
        phones: whether phones of the home network find it.
    """

    base: str
    phones: bool

    @property
    def says(self) -> str:
        """What is needed for it to open."""
        return _PHONE if self.phones else _ONLY_HERE


def reached(folder: Path, *, at: str = "", own: str = OWN) -> Reached:
    """Where cards of a site point: where the home network is served, or was last, else this machine.

    Args:
        folder: of the site
        at: where the home network is served now; empty when it is not, or nobody knows
        own: where this machine is served
    """
    from pinfold.store.served import read_served

    address = at
    with suppress(StoreError):
        address = address or read_served(folder)
    return Reached(base=address or own, phones=bool(address))


def keep_served(folder: Path, address: str) -> None:
    """Keep where the home network is served, for cards printed later; a folder that takes no file is left alone."""
    from pinfold.store.served import write_served

    with suppress(StoreError):
        write_served(folder, address)


def batch_query(card: BatchCard, charge: Charge, system: System) -> str:
    """A batch of a card as the query of an address; it holds nothing but what stands on the card."""
    pairs = [("mix", card.mix.name), ("layer", card.layer)]
    pairs += [("place", card.places[0])] if len(card.places) == 1 else []
    pairs.append(("batches", "1"))
    pairs += [(WITH, f"{item}:{text}") for item, text in amounts_of(charge, system)]
    return urlencode(pairs, safe="/:")


def phone_address(base: str, query: str, *, kind: str = "batch") -> str:
    """Of the phone's page with the form of a kind filled in, which opens out of reach too."""
    return f"{base}phone#fill/{kind}?{query}"


def form_address(query: str) -> str:
    """Of the log's form on this machine, without its host."""
    return f"/log/new/batch?{query}"
