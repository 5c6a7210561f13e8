"""Writing in the log of a site and asking it: the clock is asked here, and ids are made here."""

from __future__ import annotations

import secrets
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from pinfold.actions.answers import Answer
from pinfold.actions.clock import site_clock
from pinfold.actions.log_pages import entry_record, kinds_page, list_page, show_page, written_page
from pinfold.actions.remarks import remarks_on
from pinfold.actions.taking import Taken, log_of, site_of, take_entries, take_photo
from pinfold.errors import InputError, InvalidPlan, PinfoldError
from pinfold.logbook.cells import fields_of
from pinfold.logbook.current import standing
from pinfold.logbook.entries import Entry
from pinfold.logbook.kinds import WITHDRAWN, EntryKind, Sort, entry_kind, entry_kinds
from pinfold.plan.enclosure import Enclosure
from pinfold.units import System

DEVICE = "computer"
WHO = "me"
PAGE = 25


@dataclass(frozen=True, kw_only=True)
class Search:
    """Which entries are looked for; all that stand where nothing is said.

    Attributes:
        kind: of this kind.
        since: from this day or time on.
        until: up to this time, or to the end of this day.
        who: by this name.
        place: at this place.
        text: that hold these letters.
        limit: at most so many, the newest.
        everything: also those that were corrected or taken back.
    """

    kind: str = ""
    since: str = ""
    until: str = ""
    who: str = ""
    place: str = ""
    text: str = ""
    limit: int = PAGE
    everything: bool = False


def log_entry(
    folder: Path, kind: str, words: Mapping[str, str], *, at: str = "", who: str = "", photo: Path | None = None,
    keep_place: bool = False,
) -> Answer:  # fmt: skip
    """Write an entry down.

    Args:
        folder: of the site
        kind: of the entry
        words: text by key of the field, `amounts.sand` for one of the amounts
        at: when it happened; now unless told, by the clock of the place unless an offset is given
        who: by whom
        photo: a picture file to keep with it
        keep_place: whether the place it was taken is kept with it

    Raises:
        NotFoundError: no site folder, no such kind, no such picture.
        InvalidPlan, InputError: what is wrong with the fields.
        StoreError, NewerFileError: it cannot be written; nothing is.
    """
    site_of(folder)
    of_kind = entry_kind(kind)
    when = _moment(folder, at) if at else now_at(folder)
    head = {"id": new_id(), "kind": kind, "at": when, "who": who or WHO, "device": DEVICE}
    raw = {**head, "fields": fields_of(of_kind, words)}
    return _written(folder, of_kind, raw, photo=photo, keep_place=keep_place)


def correct_entry(
    folder: Path, name: str, words: Mapping[str, str], *, at: str = "", who: str = "", photo: Path | None = None,
    keep_place: bool = False,
) -> Answer:  # fmt: skip
    """Write a correction: the entry as it stands with some fields changed; an empty text takes a field out.

    Args:
        folder: of the site
        name: id or number of any version of the entry
        words: as `log_entry`; `amounts.sand` changes, adds or takes out that one, `amounts` stands for all of them
        at: when it happened, if that was wrong
        who: by whom, if that was wrong
        photo: another picture; the place of the one before it goes
        keep_place: as `log_entry`

    Raises:
        NotFoundError, InvalidPlan, InputError, StoreError, NewerFileError: as `log_entry`; also where the entry was
            taken back, or nothing would change.
    """
    site_of(folder)
    stands = _standing_version(folder, name)
    kind = entry_kind(stands.kind)
    if not words and not at and not who and photo is None and not keep_place:
        raise InputError("nothing to correct; write a field, like width='0.3 mm'")
    gone = kind.from_photo if photo else frozenset()
    fields = _corrected(kind, {key: typed for key, typed in stands.typed.items() if key not in gone}, words)
    head = {
        "id": new_id(), "kind": kind.name, "at": _moment(folder, at) if at else stands.at, "who": who or stands.who,
        "device": DEVICE, "corrects": stands.id, "fields": fields,
    }  # fmt: skip
    return _written(folder, kind, head, photo=photo, keep_place=keep_place)


def withdraw_entry(folder: Path, name: str, why: str, *, who: str = "") -> Answer:
    """Take an entry back; it stays in the log and is no longer counted.

    Raises:
        NotFoundError, InvalidPlan, InputError, StoreError, NewerFileError: as `correct_entry`.
    """
    site_of(folder)
    stands = _standing_version(folder, name)
    head = {"id": new_id(), "kind": WITHDRAWN, "at": now_at(folder), "who": who or WHO, "device": DEVICE}
    return _written(folder, entry_kind(WITHDRAWN), {**head, "corrects": stands.id, "fields": {"text": why}})


def list_log(folder: Path, asked: Search) -> Answer:
    """The newest entries asked for; days and times by the clock of the place, and that is told.

    Raises:
        NotFoundError: no site folder, no such kind.
        InputError: a day or time that is none.
        StoreError, NewerFileError: the log cannot be read.
    """
    from pinfold.store.log import Which, open_log

    site_of(folder)
    plan = plan_of(folder)
    clock = site_clock(plan)
    which: Which = {
        "kind": entry_kind(asked.kind).name if asked.kind else None,
        "since": clock.edge(asked.since, "--since") if asked.since else None,
        "until": clock.edge(asked.until, "--until", end=True) if asked.until else None,
        "who": asked.who or None, "place": asked.place or None, "text": asked.text or None,
        "standing": not asked.everything,
    }  # fmt: skip
    with open_log(folder) as log:
        found, count = log.entries(limit=max(asked.limit, 1), **which), log.count(**which)
    record = {"count": count, "zone": clock.name, "entries": tuple(entry_record(entry) for entry in found)}
    page = list_page(found, count, clock.says if asked.since or asked.until else "")
    return Answer(record=record, page=page, system=plan.units if plan else System.METRIC)


def show_entry(folder: Path, name: str) -> Answer:
    """One entry with all that was corrected in it.

    Raises:
        NotFoundError: no site folder, no such entry.
        StoreError, NewerFileError: the log cannot be read.
    """
    from pinfold.store.log import open_log

    site_of(folder)
    with open_log(folder) as log:
        asked, history = log.entry(name), log.history(name)
    stands = next(iter(standing(history)), None)
    record = {
        "stands": entry_record(stands) if stands else None,
        "history": tuple(entry_record(entry) for entry in history),
    }
    remarks = tuple(map(str, remarks_on(folder, [stands])[0])) if stands else ()
    page = show_page(asked, stands, history)
    return Answer(record=record, page=page, system=system_of(folder), cautions=remarks)


def show_kinds(name: str = "") -> Answer:
    """Kinds of entries, or the fields of one.

    Raises:
        NotFoundError: no such kind.
    """
    shown = (entry_kind(name),) if name else tuple(entry_kinds().values())
    return Answer(record=shown, page=kinds_page(shown, fields=bool(name)), system=System.METRIC)


def new_id() -> str:
    """An id that no other entry has."""
    return secrets.token_urlsafe(16)


def _written(
    folder: Path, kind: EntryKind, raw: Mapping[str, object], *, photo: Path | None = None, keep_place: bool = False
) -> Answer:
    from pinfold.store.log_photos import picture_bytes

    if keep_place and photo is None:
        raise InputError("the place is kept of a photo that comes with it; add --photo FILE", place="--keep-place")
    untold = False
    with log_of(folder) as log:  # the file is let go of at the end, whole by itself
        if photo is not None:
            key = _photo_key(kind)
            _one_taken(folder, _shown(raw, {key: "0" * 64}), write=False)  # all else first
            taken = take_photo(folder, picture_bytes(photo), keep_place=keep_place)
            raw, untold = _shown(raw, {key: taken.name, **taken.place}), keep_place and not taken.place
        came = _one_taken(folder, raw)
        kept = log.entry(came.id)
    page, remarks = written_page(kept, untold=untold), tuple(map(str, came.remarks))
    return Answer(record=entry_record(kept), page=page, system=system_of(folder), cautions=remarks)


def _shown(raw: Mapping[str, object], photo: Mapping[str, str]) -> Mapping[str, object]:
    fields = raw["fields"]
    assert isinstance(fields, Mapping)
    return {**raw, "fields": {**fields, **photo}}


def _one_taken(folder: Path, raw: Mapping[str, object], *, write: bool = True) -> Taken:
    taken = take_entries(folder, [raw], write=write)[0]
    if taken.complaints:
        raise InvalidPlan("entry", taken.complaints)
    return taken


def _corrected(kind: EntryKind, typed: Mapping[str, object], words: Mapping[str, str]) -> dict[str, object]:
    """The fields that stand with what was corrected; single amounts one by one, all else as a whole."""
    fields = {**typed, **fields_of(kind, {word: text for word, text in words.items() if "." not in word})}
    for word, text in words.items():
        key, dot, item = word.partition(".")
        field = kind.field(key)
        if dot and field is not None and field.sort is Sort.AMOUNTS:
            fields[key] = _with_amount(fields.get(key), key, item.strip(), text)
        elif dot:
            fields |= fields_of(kind, {word: text})  # told by whoever reads the entry
    return fields


def _with_amount(pairs: object, key: str, item: str, text: str) -> list[list[str]]:
    """Amounts with another one of an item, in its place; without the item where the text is empty.

    Raises:
        InputError: an item is to be taken out that is not there.
    """
    there = [[each, said] for each, said in pairs] if isinstance(pairs, Sequence) and not isinstance(pairs, str) else []
    names = [each for each, _ in there]
    if item not in names:
        if not text.strip():
            raise InputError(f"{item!r} is not among them; {', '.join(names) or 'there are none'}", place=key)
        return [*there, [item, text]]
    place = names.index(item)
    rest = [pair for pair in there[place + 1 :] if pair[0] != item]
    return [*there[:place], *([[item, text]] if text.strip() else []), *rest]


def _photo_key(kind: EntryKind) -> str:
    for field in kind.fields:
        if field.sort is Sort.PHOTO:
            return field.key
    raise InputError(f"a {kind.name} entry has no photo; 'pinfold log add photo --photo FILE' keeps one by itself")


def _standing_version(folder: Path, name: str) -> Entry:
    from pinfold.store.log import open_log

    with open_log(folder) as log:
        found = standing(log.history(name))
    if not found:
        raise InputError(f"entry {name} was taken back; write a new one with 'pinfold log add'")
    return found[0]


def plan_of(folder: Path) -> Enclosure | None:
    """The plan; None while it has complaints, for a log can be kept and read even then."""
    from pinfold.store import planfile

    try:
        return planfile.read_plan(folder / planfile.NAME)
    except PinfoldError:
        return None


def system_of(folder: Path) -> System:
    """The plan's units; metric while it has complaints."""
    plan = plan_of(folder)
    return System.METRIC if plan is None else plan.units


def now_at(folder: Path) -> str:
    """Now by the clock of the place."""
    return site_clock(plan_of(folder)).now()


def _moment(folder: Path, text: str) -> str:
    """A time with its offset, that of the place where none is given."""
    found = site_clock(plan_of(folder)).moment(text, "--at")
    return text if datetime.fromisoformat(text).tzinfo is not None else found.isoformat()
