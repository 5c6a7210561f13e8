"""Looking the log up for its pages: sheets of entries, one with all versions, cracks by mark, what came in since."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urlencode

from pinfold.actions.log_pages import line_of, made_of, worded
from pinfold.actions.remarks import remarks_on
from pinfold.actions.taking import log_of
from pinfold.errors import InputError
from pinfold.logbook.current import standing
from pinfold.logbook.entries import PHOTO, Entry, raw_of
from pinfold.logbook.kinds import WITHDRAWN, Field, Sort, entry_kinds

if TYPE_CHECKING:
    from pinfold.store.log import Log, Which

SEARCHED = 30_000
"""Entries that words are looked for in at once; further back is the next sheet."""
SHEET = 50
"""Entries on one sheet."""
_YEARS = range(1900, 2300)
_FARTHEST = timedelta(days=1)
"""No place's clock is further from UTC."""


@dataclass(frozen=True, kw_only=True)
class LogLine:
    """An entry as a line of a sheet.

    Attributes:
        seq: its place in the log.
        id: of it.
        says: its kind in words.
        day: when it happened, at the place.
        clock: likewise.
        who: wrote it.
        device: it was written on.
        line: what it says; empty where it says nothing more.
        photos: names of its photos.
        before: what it said before, the first first.
    """

    seq: int
    id: str
    says: str
    day: str
    clock: str
    who: str
    device: str
    line: str
    photos: tuple[str, ...]
    before: tuple[LogLine, ...] = ()


@dataclass(frozen=True, kw_only=True)
class LogSheet:
    """Some lines and where the next ones begin.

    Attributes:
        lines: newest first.
        before: the next sheet is asked with it; None on the last one.
        tip: place of the last entry of the whole log.
        partly: whether words were looked for only so far back as the next sheet begins.
    """

    lines: tuple[LogLine, ...]
    before: int | None
    tip: int
    partly: bool


@dataclass(frozen=True, kw_only=True)
class Version:
    """One of the versions of an entry.

    Attributes:
        line: as on a sheet.
        kind: name of its kind.
        corrects: id of the version it corrects; empty for the first.
        at: when it happened, ISO 8601.
        received: when it came into the log, ISO 8601 in UTC.
        fields: label, text, and whether it says something else than the version before.
        made: label and figure of what is made of what was seen.
        puts_right: address of the page that says what to add to it; empty for what is no batch that was measured.
    """

    line: LogLine
    kind: str
    corrects: str
    at: str
    received: str
    fields: tuple[tuple[str, str, bool], ...]
    made: tuple[tuple[str, str], ...] = ()
    puts_right: str = ""


@dataclass(frozen=True, kw_only=True)
class EntryHistory:
    """An entry with all its versions.

    Attributes:
        stands: the one that counts; None when it was taken back.
        versions: the first first.
        remarks: what is to be known of the one that counts, each with its field in words.
    """

    stands: Version | None
    versions: tuple[Version, ...]
    remarks: tuple[tuple[str, str], ...] = ()


def log_sheet(
    folder: Path, *, before: int | None = None, kind: str = "", day: str = "", who: str = "", place: str = "",
    text: str = "", everything: bool = False,
) -> LogSheet:  # fmt: skip
    """A sheet of the newest entries asked for.

    Args:
        folder: of the site
        before: only what is earlier in the log
        kind: of this kind
        day: that happened on this day by the clock of the place, `2026-05-03`
        who: by this name
        place: at this place
        text: that hold these letters
        everything: also what was corrected or taken back

    Raises:
        InputError: the day is none.
        StoreError, NewerFileError: the log cannot be read.
    """
    on_day = _day(day) if day else None
    log = log_of(folder)
    tip = log.tip()
    back_to = max(min(before or tip + 1, tip + 1) - 1 - SEARCHED, 0) if text else 0
    which: Which = {
        "before_seq": before, "after_seq": back_to or None, "kind": kind or None, "who": who or None,
        "place": place or None, "text": text or None, "standing": not everything,
    }  # fmt: skip
    entries, more = _sheet_of(log, on_day, which)
    folded = [log.history(each.id) if each.corrects and not everything else () for each in entries]
    lines = [_with_before(each, history) for each, history in zip(entries, folded, strict=True)]
    following = entries[-1].seq if more else back_to + 1 if back_to else None
    return LogSheet(lines=tuple(lines), before=following, tip=tip, partly=bool(back_to) and not more)


def _sheet_of(log: Log, on_day: date | None, which: Which) -> tuple[tuple[Entry, ...], bool]:
    """The entries of a sheet and whether there are more; those of a day by the clock of each entry's own place."""
    if on_day is None:
        found = log.page(size=SHEET, **which)
        return found.entries, found.more
    first = datetime(on_day.year, on_day.month, on_day.day, tzinfo=UTC)
    which = {**which, "since": first - _FARTHEST, "until": first + timedelta(days=1) + _FARTHEST}
    kept: list[Entry] = []
    while True:
        found = log.page(size=SHEET, **which)
        kept += [each for each in found.entries if each.when.date() == on_day]
        if len(kept) > SHEET or not found.more:
            return tuple(kept[:SHEET]), len(kept) > SHEET
        which["before_seq"] = found.entries[-1].seq


def entry_history(folder: Path, name: str) -> EntryHistory:
    """An entry and all its versions.

    Raises:
        NotFoundError: there is none such.
        StoreError, NewerFileError: the log cannot be read.
    """
    history = log_of(folder).history(name)
    versions = [_version(each, history[:place]) for place, each in enumerate(history)]
    stands = next(iter(standing(history)), None)
    return EntryHistory(
        stands=next((each for each in versions if stands and each.line.id == stands.id), None),
        versions=tuple(versions), remarks=_remarks(folder, stands) if stands else (),
    )  # fmt: skip


def _remarks(folder: Path, entry: Entry) -> tuple[tuple[str, str], ...]:
    kind = entry_kinds().get(entry.kind)
    says = {field.key: field.says for field in kind.fields} if kind else {}
    return tuple(
        (says.get(each.place.partition(".")[0], each.place), each.message) for each in remarks_on(folder, [entry])[0]
    )


def entries_since(folder: Path, seq: int, *, most: int) -> dict[str, object]:
    """What came in after a place in the log, the first first, as plain JSON values.

    Raises:
        StoreError, NewerFileError: the log cannot be read.
    """
    log = log_of(folder)
    found = log.entries(newest_first=False, after_seq=seq, limit=most + 1)
    entries = [{"seq": each.seq, **raw_of(each), "received": each.received} for each in found[:most]]
    return {"entries": entries, "more": len(found) > most, "tip": log.tip()}


def csv_text(folder: Path) -> str:
    """All entries as CSV, corrections as rows of their own.

    Raises:
        StoreError, NewerFileError: the log cannot be read.
    """
    from pinfold.store.log_csv import csv_of

    return csv_of(log_of(folder).entries(newest_first=False))


def _day(text: str) -> date:
    try:
        found = datetime.strptime(text, "%Y-%m-%d").replace(tzinfo=UTC).date()
        if found.year not in _YEARS:
            raise ValueError
    except ValueError:
        raise InputError(f"{text[:40]!r} is no day; write it like 2026-05-03", place="day") from None
    return found


def clock_of(at: str) -> str:
    """Day and time by the clock of the place, as forms show them: `2026-05-03T14:20`."""
    return datetime.fromisoformat(at).isoformat()[:16]


def _with_before(entry: Entry, history: Sequence[Entry]) -> LogLine:
    return _line(entry, before=tuple(_line(each) for each in history if each.id != entry.id))


def _line(entry: Entry, *, before: tuple[LogLine, ...] = ()) -> LogLine:
    kind = entry_kinds().get(entry.kind)
    keys = [field.key for field in kind.fields if field.sort is Sort.PHOTO] if kind else []
    at = clock_of(entry.at)
    return LogLine(
        seq=entry.seq, id=entry.id, says=kind.says if kind else entry.kind, day=at[:10], clock=at[11:],
        who=entry.who, device=entry.device, line=line_of(entry),
        photos=tuple(entry.text(key) for key in keys if PHOTO.fullmatch(entry.text(key))), before=before,
    )  # fmt: skip


def _version(entry: Entry, earlier: Sequence[Entry]) -> Version:
    kind = entry_kinds().get(entry.kind)
    fields = {field.key: field for field in kind.fields if field.sort is not Sort.PHOTO} if kind else {}
    corrected = next((each for each in earlier if each.id == entry.corrects), None)
    compared = corrected is not None and entry.kind != WITHDRAWN
    was, now = _words(corrected, fields), _words(entry, fields)
    return Version(
        line=_line(entry), kind=entry.kind, corrects=entry.corrects, at=entry.at, received=entry.received,
        fields=tuple(
            (field.says, now.get(key, "nothing"), compared and now.get(key) != was.get(key))
            for key, field in fields.items() if key in now or (compared and key in was)
        ),
        made=made_of(entry), puts_right=_puts_right(entry),
    )  # fmt: skip


def _puts_right(entry: Entry) -> str:
    """Where a batch is put right by what was measured on it."""
    told = {"density": entry.typed.get("wet_density"), "slump": entry.typed.get("slump")}
    known = {key: text for key, text in told.items() if isinstance(text, str) and text}
    if entry.kind != "batch" or not known:
        return ""
    return f"/mix/correct?{urlencode({'mix': entry.text('mix'), **known})}"


def _words(entry: Entry | None, fields: Mapping[str, Field]) -> Mapping[str, str]:
    typed = entry.typed if entry is not None else {}
    return {key: worded(fields[key].sort, value) for key, value in typed.items() if key in fields}
