"""Pairing phones with a site folder, knowing them again, and letting them go."""

from __future__ import annotations

import hashlib
import hmac
import secrets
import threading
from contextlib import suppress
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path

from pinfold.errors import InputError, NotFoundError, StoreError
from pinfold.store.pairings import MOST_DEVICES, NAME, Device, read_pairings, write_pairings
from pinfold.store.stamps import Stamp, stamp_of

LONGEST_NAME = 40
_ONE_AT_A_TIME = threading.Lock()
_KNOWN: dict[Path, tuple[Stamp, tuple[Device, ...]]] = {}


def devices(folder: Path) -> tuple[Device, ...]:
    """All paired devices; read anew when the file has changed, so that unpairing holds at once.

    Raises:
        StoreError: the file of pairings is damaged.
    """
    stamp = stamp_of(folder / NAME)
    if stamp is None:
        return ()
    known = _KNOWN.get(folder)
    if known is None or known[0] != stamp:
        known = (stamp, read_pairings(folder))
        _KNOWN[folder] = known
    return known[1]


def device_name(text: str) -> str:
    """A name that can stand in a list.

    Raises:
        InputError: it is empty, too long or holds signs that cannot be printed.
    """
    name = " ".join(text.split())
    if not name or len(name) > LONGEST_NAME or not name.isprintable():
        raise InputError(f"a name of 1 to {LONGEST_NAME} letters is wanted, such as 'Kitchen tablet'", place="name")
    return name


def pair_device(folder: Path, name: str) -> str:
    """Take a device in and give the token that it must show from now on; it is kept nowhere here.

    A name that another device has already gets a number behind it.

    Raises:
        InputError: the name is no name, or too many devices are paired.
        StoreError: the pairing cannot be kept.
    """
    name, token, today = device_name(name), secrets.token_urlsafe(32), _today()
    with _ONE_AT_A_TIME:
        paired = devices(folder)
        if len(paired) >= MOST_DEVICES:
            raise InputError(f"{MOST_DEVICES} devices are paired; unpair one first", place="name")
        added = Device(name=_free(name, paired), proof=_proof(token), paired=today, seen=today)
        write_pairings(folder, (*paired, added))
    return token


def device_with(folder: Path, token: str) -> Device | None:
    """The device that shows this token; None when no paired one does. Notes the day it was seen.

    Raises:
        StoreError: the file of pairings is damaged.
    """
    if not 20 <= len(token) <= 100:
        return None
    proof = _proof(token)
    found = None
    for device in devices(folder):
        if hmac.compare_digest(device.proof, proof):
            found = device
    if found is not None and found.seen != _today():
        with suppress(StoreError):  # a full disk keeps no phone out that was let in
            _note_seen(folder, found)
    return found


def unpair_device(folder: Path, mark: str) -> str:
    """Let a device go; it sees nothing from the next request on.

    Returns:
        its name

    Raises:
        NotFoundError: no paired device has that mark.
        StoreError: the change cannot be kept.
    """
    with _ONE_AT_A_TIME:
        paired = devices(folder)
        gone = next((device for device in paired if device.mark == mark), None)
        if gone is None:
            raise NotFoundError("there is no such paired device; it may be unpaired already")
        write_pairings(folder, (device for device in paired if device is not gone))
    return gone.name


def _free(name: str, paired: tuple[Device, ...]) -> str:
    """The name, or where another device has it the name with a number behind it, cut so that it is never too long."""
    taken = {device.name.casefold() for device in paired}
    ends = ("", *(f" {number}" for number in range(2, MOST_DEVICES + 2)))
    names = (f"{name[: LONGEST_NAME - len(end)].rstrip()}{end}" for end in ends)
    return next(each for each in names if each.casefold() not in taken)


def _note_seen(folder: Path, device: Device) -> None:
    with _ONE_AT_A_TIME:
        seen = replace(device, seen=_today())
        write_pairings(folder, (seen if each.proof == device.proof else each for each in devices(folder)))


def _proof(token: str) -> str:
    return hashlib.sha256(token.encode("utf-8", "replace")).hexdigest()


def _today() -> date:
    return datetime.now().astimezone().date()
