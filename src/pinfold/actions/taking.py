"""Taking into the log what phones, forms and files send: each entry gets its receipt, a wrong one stops no other."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from pinfold.actions.clock import received_now
from pinfold.actions.remarks import Remark, remarks_on
from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.logbook.ahead import ahead
from pinfold.logbook.entries import PHOTO, Entry, entry_of
from pinfold.logbook.kinds import Sort, entry_kinds

if TYPE_CHECKING:
    from pinfold.store.log import Log, Receipt

MOST = 200
"""Entries that may be sent at once."""


@dataclass(frozen=True, kw_only=True)
class Taken:
    """What came of one entry.

    Attributes:
        place: its place among those sent, from 0.
        id: as sent; empty where none could be read.
        state: new, known, conflict, or wrong.
        seq: its place in the log; 0 where it is not there.
        complaints: what is wrong with it, each with the field it is about.
        remarks: what is to be known of one that is not wrong: names that nothing is known by.
    """

    place: int
    id: str
    state: str
    seq: int
    complaints: tuple[InputError, ...] = ()
    remarks: tuple[Remark, ...] = ()


class TakenPhoto(NamedTuple):
    """A photo as the log keeps it.

    Attributes:
        name: for the field of an entry that shows it.
        place: fields of that entry that say where it was taken; none unless wished and told by the picture.
    """

    name: str
    place: Mapping[str, str]


@lru_cache(maxsize=4)
def _log_at(folder: Path) -> Log:
    from pinfold.store.log import open_log

    return open_log(folder)


def log_of(folder: Path) -> Log:
    """The log of a folder, kept open between questions."""
    return _log_at(folder.absolute())


def site_of(folder: Path) -> None:
    """A log is only started where there is a plan, good or not: not in any folder that one happens to be in.

    Raises:
        NotFoundError: there is none.
    """
    from pinfold.store import planfile

    if not (folder / planfile.NAME).exists():
        raise NotFoundError(f"there is no {folder / planfile.NAME}; 'pinfold new FOLDER' starts a site folder")


def money_digits(folder: Path) -> int:
    """Decimals of the site's currency.

    Raises:
        StoreError, NewerFileError, InvalidPlan: the price list cannot be read.
    """
    from pinfold.store import prices

    return prices.read_prices(folder / prices.NAME).digits


def take_entries(folder: Path, raws: Sequence[object], *, write: bool = True) -> tuple[Taken, ...]:
    """Write down all that can be; tell of each what came of it.

    Args:
        folder: of the site
        raws: entries as sent, at most `MOST`
        write: or only tell what would come of each

    Raises:
        NotFoundError: no site folder.
        InputError: too many at once.
        InvalidPlan: some tell of money, and the price list that says its decimals has complaints; nothing is written.
        StoreError, NewerFileError: the log cannot be written; nothing is.
    """
    if len(raws) > MOST:
        raise InputError(f"{len(raws)} entries at once; send at most {MOST}, then the rest")
    site_of(folder)
    digits = money_digits(folder) if any(map(_tells_of_money, raws)) else 2
    taken: dict[int, Taken] = {}
    good: dict[int, Entry] = {}
    for place, raw in enumerate(raws):
        try:
            good[place] = _entry(raw, digits)
        except InvalidPlan as wrong:
            taken[place] = _wrong(place, raw, wrong)
    log = log_of(folder)
    for place, came in (_written(log, good) if write else _foreseen(log, good)).items():
        taken[place] = _told(place, raws[place], came)
    for place, remarks in zip(good, remarks_on(folder, list(good.values())), strict=True):
        if taken[place].state in ("new", "known"):
            taken[place] = replace(taken[place], remarks=remarks)
    return tuple(taken[place] for place in sorted(taken))


def _tells_of_money(raw: object) -> bool:
    """Whether the price list is asked for: what needs no money is written even while that one has complaints."""
    fields = raw.get("fields") if isinstance(raw, Mapping) else None
    if not isinstance(raw, Mapping) or not isinstance(fields, Mapping):
        return False
    kind = entry_kinds().get(str(raw.get("kind")))
    return kind is not None and any(field.sort is Sort.MONEY and field.key in fields for field in kind.fields)


def _entry(raw: object, digits: int) -> Entry:
    try:
        str(raw).encode("utf-8")
    except UnicodeEncodeError:
        raise InvalidPlan("entry", [InputError("holds letters that are none")]) from None
    entry = entry_of(raw, digits=digits)
    if wrong := ahead(entry, datetime.fromisoformat(received_now())):
        raise InvalidPlan("entry", [wrong])
    return entry


def _written(log: Log, good: Mapping[int, Entry]) -> dict[int, Receipt | InvalidPlan]:
    """All in one go; one by one where one of them names a photo that is not there."""
    received = received_now()
    if not good:
        return {}
    try:
        return dict(zip(good, log.append(list(good.values()), received=received), strict=True))
    except InvalidPlan:
        return {place: _written_alone(log, entry, received) for place, entry in good.items()}


def _written_alone(log: Log, entry: Entry, received: str) -> Receipt | InvalidPlan:
    try:
        return log.append([entry], received=received)[0]
    except InvalidPlan as wrong:
        return wrong


def _foreseen(log: Log, good: Mapping[int, Entry]) -> dict[int, Receipt | InvalidPlan]:
    return dict(zip(good, log.outcomes(list(good.values())), strict=True))


def _told(place: int, raw: object, came: Receipt | InvalidPlan) -> Taken:
    if isinstance(came, InvalidPlan):
        return _wrong(place, raw, came)
    complaints = (InputError(came.message, place="id"),) if came.message else ()
    return Taken(place=place, id=came.id, state=came.outcome, seq=came.seq, complaints=complaints)


def _wrong(place: int, raw: object, wrong: InvalidPlan) -> Taken:
    name = raw.get("id") if isinstance(raw, Mapping) else ""
    return Taken(
        place=place, id=name[:64] if isinstance(name, str) else "", state="wrong", seq=0, complaints=wrong.problems
    )


def take_photo(folder: Path, raw: bytes, *, keep_place: bool = False, write: bool = True) -> TakenPhoto:
    """Keep a photo, upright, small and without what phones write into it.

    Args:
        folder: of the site
        raw: the picture as it came
        keep_place: whether the place it was taken stays in the picture and is told
        write: or only tell what would come of it

    Raises:
        NotFoundError: no site folder.
        InputError: no picture that can be opened.
        StoreError, NewerFileError: it cannot be written.
    """
    from pinfold.imaging.photos import prepared_photo
    from pinfold.store.log_photos import photo_name

    site_of(folder)
    photo = prepared_photo(raw, keep_place=keep_place)
    if write:
        log_of(folder).keep_photo(
            photo.jpeg, width=photo.width, height=photo.height, at=received_now(), taken=photo.taken or ""
        )
    return TakenPhoto(photo_name(photo.jpeg), _place_fields(photo.place))


def take_pictured(
    folder: Path, raw: Mapping[str, object], pictures: Mapping[str, bytes], *, keep_place: bool = False
) -> Taken:  # fmt: skip
    """Write an entry down with its pictures; of one that is refused none is kept.

    Args:
        folder: of the site
        raw: the entry without them
        pictures: bytes of each by key of its field
        keep_place: as `take_photo`

    Raises:
        NotFoundError: no site folder.
        InputError: no picture that can be opened.
        InvalidPlan, StoreError, NewerFileError: as `take_entries`.
    """

    def shown(*, write: bool) -> Mapping[str, object]:
        given = raw["fields"]
        assert isinstance(given, Mapping)
        fields = dict(given)
        for key, picture in pictures.items():
            photo = take_photo(folder, picture, keep_place=keep_place, write=write)
            fields |= {key: photo.name, **photo.place}
        return {**raw, "fields": fields}

    (foreseen,) = take_entries(folder, [shown(write=False)], write=False) if pictures else (None,)
    if foreseen is not None and foreseen.state != "new":
        return foreseen
    return take_entries(folder, [shown(write=True)])[0]


def _place_fields(place: tuple[float, float] | None) -> dict[str, str]:
    """A place as an entry says it, to a meter or so."""
    return dict(zip(("latitude", "longitude"), (f"{angle:.5f} deg" for angle in place or ()), strict=False))


def photo_bytes(folder: Path, name: str) -> bytes:
    """The JPEG of a stored photo.

    Raises:
        NotFoundError: none of that name, or its file is gone.
    """
    from pinfold.store.log_photos import photo_file

    if not re.fullmatch(PHOTO, name):
        raise NotFoundError("there is no such photo")
    log_of(folder).photo(name)
    try:
        return photo_file(folder, name).read_bytes()
    except OSError:
        raise NotFoundError("the photo's file is gone from the folder photos; bring it back from a backup") from None
