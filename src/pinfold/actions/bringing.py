"""Bringing a file into the log: what a phone saved, or CSV. First what would come of it is told, then it is written."""

from __future__ import annotations

import base64
import binascii
import json
import secrets
import threading
from collections import Counter, OrderedDict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from pinfold.actions.log_files import BroughtIn, csv_in
from pinfold.actions.taking import MOST, Taken, log_of, take_entries, take_photo
from pinfold.errors import InputError, NotFoundError
from pinfold.logbook.kinds import Sort, entry_kinds

_MOST_WAITING = 4
_MOST_ENTRIES = 20_000
_LISTED = 500


@dataclass(frozen=True, kw_only=True)
class Brought:
    """What came, or would come, of a file.

    Attributes:
        name: of the file.
        written: whether it was written.
        waiting: what the file is asked for again by, to write it; empty once it is written.
        counts: how many are new, known, in conflict, wrong.
        told: place, state and words of each that is not simply new or known, the first ones.
        stopped: whether nothing of the file can be written until all that is wrong with it is mended.
        remarks: place and words of what is to be known of those that are not wrong, the first ones.
    """

    name: str
    written: bool
    waiting: str
    counts: Mapping[str, int]
    told: tuple[tuple[int, str, str], ...]
    stopped: bool = False
    remarks: tuple[tuple[int, str], ...] = ()


_waiting: OrderedDict[str, tuple[str, bytes]] = OrderedDict()
_lock = threading.Lock()


def look_into(folder: Path, name: str, content: bytes) -> Brought:
    """Tell what would come of a file; nothing is written. The file is kept in hand for `bring_in`.

    Raises:
        InputError: it is neither what a phone saves nor CSV.
        InvalidPlan: CSV without the wanted head.
        StoreError, NewerFileError: the log cannot be read.
    """
    found = _worked_through(folder, name, content, write=False)
    key = secrets.token_urlsafe(16)
    with _lock:
        _waiting[key] = (name, content)
        while len(_waiting) > _MOST_WAITING:
            _waiting.popitem(last=False)
    return Brought(**{**vars(found), "waiting": key})


def bring_in(folder: Path, waiting: str) -> Brought:
    """Write a file that was looked into.

    Raises:
        NotFoundError: it is no longer in hand.
        InvalidPlan, StoreError, NewerFileError: it cannot be written.
    """
    with _lock:
        held = _waiting.get(waiting)
    if held is None:
        raise NotFoundError("the file is no longer in hand; choose it again")
    found = _worked_through(folder, *held, write=True)
    with _lock:
        _waiting.pop(waiting, None)
    return found


def _worked_through(folder: Path, name: str, content: bytes, *, write: bool) -> Brought:
    if content.lstrip()[:1] == b"{":
        return _from_phone(folder, name, content, write=write)
    return _from_csv(folder, name, content, write=write)


def _from_phone(folder: Path, name: str, content: bytes, *, write: bool) -> Brought:
    entries = _entries_in(content)
    taken: list[Taken] = []
    trial = _Trial(folder)
    for start in range(0, len(entries), MOST):
        sent = entries[start : start + MOST]
        raws = [_pictured(folder, each, write=False) for each in sent]
        came = trial.judged(take_entries(folder, raws, write=False), raws, pictured=map(_has_pictures, sent))
        if write:
            for each in (each for each, foreseen in zip(sent, came, strict=True) if foreseen.state == "new"):
                _pictured(folder, each, write=True)  # of an entry that is refused no picture is kept
            came = take_entries(folder, raws)
        taken += [Taken(**{**vars(each), "place": start + each.place}) for each in came]
    told = [
        (each.place + 1, each.state, "; ".join(str(wrong) for wrong in each.complaints))
        for each in taken if each.complaints
    ]  # fmt: skip
    return Brought(
        name=name, written=write, waiting="", counts=dict(Counter(each.state for each in taken)),
        told=tuple(told[:_LISTED]),
        remarks=tuple((each.place + 1, str(remark)) for each in taken for remark in _remarks_on(each))[:_LISTED],
    )  # fmt: skip


def _remarks_on(taken: Taken) -> Iterable[object]:
    """A trial may have found out that an entry is not good after all."""
    return () if taken.complaints else taken.remarks


def _entries_in(content: bytes) -> list[object]:
    try:
        found = json.loads(content.decode("utf-8-sig"))
    except (ValueError, RecursionError):
        raise InputError("the file is damaged: it is no whole JSON; save it on the phone again") from None
    entries = found.get("entries") if isinstance(found, dict) else None
    if not isinstance(entries, list) or found.get("pinfold-log") != 1:
        raise InputError("the file holds no entries of a phone; on the phone save it from what is not sent yet")
    if len(entries) > _MOST_ENTRIES:
        raise InputError(f"the file holds {len(entries)} entries; at most {_MOST_ENTRIES} are taken at once")
    return entries


def _pictured(folder: Path, raw: object, *, write: bool) -> object:
    """An entry with its pictures in the log instead of in itself; the entry as it is where they are damaged."""
    if not isinstance(raw, dict) or not _has_pictures(raw):
        return raw
    rest = {key: value for key, value in raw.items() if key not in {"pictures", "placed"}}
    fields = rest.get("fields")
    if not isinstance(fields, dict):
        return rest
    placed = raw.get("placed")
    for key, text in raw["pictures"].items():
        keep_place = isinstance(placed, list) and key in placed
        fields = {**fields, **_picture(folder, key, text, keep_place=keep_place, write=write)}
    return {**rest, "fields": fields}


def _has_pictures(raw: object) -> bool:
    return isinstance(raw, dict) and isinstance(raw.get("pictures"), dict)


def _picture(folder: Path, key: str, text: object, *, keep_place: bool, write: bool) -> dict[str, str]:
    """The fields of an entry that a picture gives, that of its own name among them."""
    try:
        content = base64.b64decode(str(text).partition(",")[2], validate=True)
        photo = take_photo(folder, content, keep_place=keep_place, write=write)
    except (binascii.Error, InputError):
        return {key: "the picture in the file is damaged"}
    return {key: photo.name, **photo.place}


class _Trial:
    """What only writing would find out: photos that are nowhere, and entries that stand in the file twice."""

    def __init__(self, folder: Path) -> None:
        self._photos = {photo.name for photo in log_of(folder).photos()}
        self._new: dict[str, object] = {}

    def judged(
        self, taken: Iterable[Taken], raws: Sequence[object], *, pictured: Iterable[bool]
    ) -> tuple[Taken, ...]:  # fmt: skip
        """Outcomes of entries sent together as writing would have them, in turn.

        Args:
            taken: what came of each by itself
            raws: the entries, their pictures by name
            pictured: whether the pictures of each come with it; those of the good ones are kept before any is written
        """
        taken = tuple(taken)
        for each, raw, own in zip(taken, raws, pictured, strict=True):
            self._photos |= {*_photos_of(raw).values()} if own and each.state == "new" else set()
        return tuple(self._judged(each, raw) for each, raw in zip(taken, raws, strict=True))

    def _judged(self, taken: Taken, raw: object) -> Taken:
        if taken.state != "new":
            return taken
        if taken.id in self._new:
            return _once_more(taken, same=self._new[taken.id] == raw)
        lacking = [key for key, name in _photos_of(raw).items() if name not in self._photos]
        if lacking:
            complaint = InputError("the photo is neither in the file nor in the log", place=lacking[0])
            return Taken(**{**vars(taken), "state": "wrong", "complaints": (complaint,)})
        self._new[taken.id] = raw
        return taken


def _once_more(taken: Taken, *, same: bool) -> Taken:
    if same:
        return Taken(**{**vars(taken), "state": "known"})
    complaint = InputError("another one before it in the file has this id and says otherwise", place="id")
    return Taken(**{**vars(taken), "state": "conflict", "complaints": (complaint,)})


def _photos_of(raw: object) -> dict[str, str]:
    """The photos that an entry names, by key of their field."""
    if not isinstance(raw, dict) or not isinstance(raw.get("fields"), dict):
        return {}
    kind, fields = entry_kinds().get(str(raw.get("kind"))), raw["fields"]
    keys = [field.key for field in kind.fields if field.sort is Sort.PHOTO] if kind else []
    return {key: str(fields[key]) for key in keys if fields.get(key)}


def _from_csv(folder: Path, name: str, content: bytes, *, write: bool) -> Brought:
    with TemporaryDirectory() as place:
        file = Path(place, "the file")
        file.write_bytes(content)
        record = csv_in(folder, file, dry_run=not write).record
    assert isinstance(record, BroughtIn)
    counts = {"new": record.new, "known": record.known, "conflict": record.conflicts, "wrong": record.wrong}
    told = [(row.line, row.outcome, row.says) for row in record.rows if row.outcome in {"conflict", "wrong"}]
    return Brought(
        name=name, written=write, waiting="", counts=counts, told=tuple(told[:_LISTED]),
        stopped=bool(record.wrong or record.conflicts),
        remarks=tuple((row.line, remark) for row in record.rows for remark in row.remarks)[:_LISTED],
    )  # fmt: skip
