"""The log as files: CSV out and in, a backup and bringing it back, looking it over."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from pinfold.actions.answers import Answer
from pinfold.actions.clock import received_now, site_clock
from pinfold.actions.log_book import DEVICE, WHO, plan_of, system_of
from pinfold.actions.log_pages import line_of
from pinfold.actions.remarks import remarks_on
from pinfold.actions.taking import money_digits, site_of
from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.logbook.ahead import ahead
from pinfold.logbook.entries import Entry
from pinfold.reports.pages import Block, Caution, Page, Paragraph, table

if TYPE_CHECKING:
    from pinfold.store.log import Log
    from pinfold.store.log_csv import CsvRow

_GOOD = ("new", "known")
_REMARKED = 20
"""Remarks on rows that are told one by one above an answer; the record has all."""
_LISTED = 200
"""Rows of a trial run that are listed one by one on a page; the record has all."""


class RowTold(NamedTuple):
    """What comes of one row of a CSV file.

    Attributes:
        line: of the file.
        outcome: new, known, conflict or wrong.
        says: the entry in one line, its kind first, or what is wrong.
        id: of the entry; empty when wrong.
        remarks: what is to be known of one that is not wrong, each with its field.
    """

    line: int
    outcome: str
    says: str
    id: str
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class BroughtIn:
    """What came of a CSV file.

    Attributes:
        file: its name.
        written: whether anything was to be written.
        new: entries that were not in the log before.
        known: entries that were.
        conflicts: rows whose id is in the log with other words.
        wrong: rows that cannot be read.
        rows: all of them.
    """

    file: str
    written: bool
    new: int
    known: int
    conflicts: int
    wrong: int
    rows: tuple[RowTold, ...]


@dataclass(frozen=True, kw_only=True)
class FileWritten:
    """A file that was written.

    Attributes:
        file: where.
        entries: how many are in it.
        photos: likewise.
        lacking: what could not be put in.
    """

    file: str
    entries: int
    photos: int = 0
    lacking: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class LookedOver:
    """What was found wrong with a log.

    Attributes:
        complaints: each with what to do; none when all is well.
    """

    complaints: tuple[str, ...]


def csv_out(folder: Path, file: Path) -> Answer:
    """Write all entries as CSV, corrections as rows of their own.

    Raises:
        NotFoundError: no site folder.
        StoreError, NewerFileError: the log cannot be read or the file not written.
    """
    from pinfold.store.log import open_log
    from pinfold.store.log_csv import csv_of
    from pinfold.store.writing import write_bytes

    site_of(folder)
    with open_log(folder) as log:
        entries = log.entries(newest_first=False)
    write_bytes(file, csv_of(entries).encode("utf-8"))
    record = FileWritten(file=str(file), entries=len(entries))
    told = f"{_counted(len(entries), 'entry', 'entries')} written to {file}."
    return _answer(folder, record, "The log as CSV", Paragraph(text=told))


def csv_in(folder: Path, file: Path, *, dry_run: bool = False, who: str = "") -> Answer:
    """Bring in the rows of a CSV file, the log's own or the ledger's; nothing is written if any of them is wrong.

    Args:
        folder: of the site
        file: to read
        dry_run: only tell what would come of each row
        who: for rows that do not say

    Raises:
        NotFoundError: no site folder, no such file.
        InvalidPlan: with every complaint; in a dry run only those about the file as a whole.
        StoreError, NewerFileError: the file or the log cannot be read, or the log not written.
    """
    from pinfold.store.ledger_csv import is_ledger
    from pinfold.store.log import open_log
    from pinfold.store.log_csv import read_csv

    site_of(folder)
    text = read_csv(file)
    with open_log(folder) as log:
        rows = _rows(folder, log, text, name=file.name, who=who or WHO)
        told, complaints = _judged(log, rows, day="day" if is_ledger(text) else "at")
        told = _remarked(folder, told, rows)
        if complaints and not dry_run:
            raise InvalidPlan(file.name, complaints)
        if not dry_run and any(row.outcome == "new" for row in told):
            log.append([row.entry for row in rows if row.entry], received=received_now())
    counts = Counter(row.outcome for row in told)
    record = BroughtIn(
        file=str(file), written=not dry_run, new=counts["new"], known=counts["known"], conflicts=counts["conflict"],
        wrong=counts["wrong"], rows=told,
    )  # fmt: skip
    answer = _answer(folder, record, f"{file.name} into the log", *_brought_in(record))
    return replace(answer, cautions=_remarks_in(told))


def _rows(folder: Path, log: Log, text: str, *, name: str, who: str) -> tuple[CsvRow, ...]:
    from pinfold.store.ledger_csv import LedgerSheet, is_ledger, ledger_rows
    from pinfold.store.log_csv import rows_of

    if not is_ledger(text):
        return rows_of(text, name=name, who=who, device=DEVICE, digits=money_digits(folder))
    clock = site_clock(plan_of(folder))

    def there(name: str) -> Entry | None:
        try:
            return log.entry(name)
        except NotFoundError:
            return None

    sheet = LedgerSheet(
        name=name, who=who, device=DEVICE, digits=money_digits(folder), there=there,
        at_of=lambda day: clock.moment(f"{day}T12:00", "day").isoformat(),
    )  # fmt: skip
    return ledger_rows(text, sheet)


def _remarked(folder: Path, told: Sequence[RowTold], rows: Sequence[CsvRow]) -> tuple[RowTold, ...]:
    """Rows with what is to be known of the good ones."""
    good = [row.entry for row, each in zip(rows, told, strict=True) if row.entry and each.outcome in _GOOD]
    remarks = iter(remarks_on(folder, good))
    return tuple(
        each._replace(remarks=tuple(map(str, next(remarks)))) if row.entry and each.outcome in _GOOD else each
        for row, each in zip(rows, told, strict=True)
    )


def _remarks_in(told: Sequence[RowTold]) -> tuple[str, ...]:
    """The first of all remarks with their lines, and how many more there are."""
    found = [f"line {row.line}, {remark}" for row in told for remark in row.remarks]
    more = len(found) - _REMARKED
    return (*found[:_REMARKED], *([f"and {more} more like it"] if more > 0 else []))


def back_up(folder: Path, file: Path) -> Answer:
    """Put the whole log with its photos into one new file.

    Raises:
        NotFoundError: no site folder, no log in it.
        InputError: a file of that name is there.
        StoreError, NewerFileError: the log cannot be read or the file not written.
    """
    from pinfold.store.log_backup import backup

    site_of(folder)
    saved = backup(folder, file)
    record = FileWritten(file=str(file), entries=saved.entries, photos=saved.photos, lacking=saved.lacking)
    entries, photos = _counted(saved.entries, "entry", "entries"), _counted(saved.photos, "photo", "photos")
    told = Paragraph(text=f"{entries} and {photos} saved to {file}. Keep it on another disk.")
    return _answer(folder, record, "Backup", told, *(Caution(text=text) for text in saved.lacking))


def bring_back(folder: Path, file: Path) -> Answer:
    """Add to the log what a backup has and it lacks.

    Raises:
        NotFoundError: no site folder, no such file.
        StoreError, NewerFileError: it is no backup, is damaged, or the log cannot be written.
    """
    from pinfold.store.log_backup import restore

    site_of(folder)
    restored = restore(file, folder)
    told = Paragraph(
        text=f"{_counted(restored.new, 'entry', 'entries')} brought back; {restored.known} were there already. "
        f"{_counted(restored.photos, 'photo', 'photos')} in the backup."
    )
    conflicts = [f"{each.id}: {each.message}." for each in restored.conflicts]
    return _answer(
        folder, restored, f"{file.name} brought back", told, *(Caution(text=t) for t in (*conflicts, *restored.damaged))
    )


def check_log(folder: Path) -> Answer:
    """What is wrong with the log.

    Raises:
        NotFoundError: no site folder.
    """
    from pinfold.store.log_check import check
    from pinfold.store.log_file import NAME, is_there

    site_of(folder)
    complaints = check(folder)
    whole = "The log is whole: the file, every entry, every photo."
    none = "There is no log yet; 'pinfold log add' starts one."
    said: tuple[Block, ...] = tuple(Caution(text=text) for text in complaints) or (
        Paragraph(text=whole if is_there(folder / NAME) else none),
    )
    return _answer(folder, LookedOver(complaints=complaints), "The log looked over", *said)


def is_whole(answer: Answer) -> bool:
    """Whether `check_log` found nothing wrong."""
    return isinstance(answer.record, LookedOver) and not answer.record.complaints


def _judged(log: Log, rows: Sequence[CsvRow], *, day: str) -> tuple[tuple[RowTold, ...], list[InputError]]:
    from pinfold.store.log_appending import photos_of

    receipts = iter(log.outcomes([row.entry for row in rows if row.entry]))
    stored = {photo.name for photo in log.photos()}
    now = datetime.fromisoformat(received_now())
    told, complaints = [], []
    for row in rows:
        wrong = list(row.complaints)
        if row.entry is None:
            outcome, name = "wrong", ""
        else:
            receipt = next(receipts)
            outcome, name = receipt.outcome, receipt.id
            if outcome == "conflict":
                wrong.append(InputError(receipt.message, place=f"line {row.line}, id"))
            elif outcome == "new" and not set(photos_of(row.entry)) <= stored:
                outcome = "wrong"
                text = "this photo is not in the log; photos come with a backup, not with CSV"
                wrong.append(InputError(text, place=f"line {row.line}, photo"))
            elif outcome == "new" and (early := ahead(row.entry, now)):
                outcome = "wrong"
                wrong.append(InputError(early.message, place=f"line {row.line}, {day}"))
        complaints += wrong
        says = "; ".join(map(str, wrong)) or (f"{row.entry.kind} {line_of(row.entry)}".rstrip() if row.entry else "")
        told.append(RowTold(row.line, outcome, says, name))
    return tuple(told), complaints


def _brought_in(record: BroughtIn) -> tuple[Block, ...]:
    would = "" if record.written else "would be "
    told = f"{_counted(record.new, 'entry', 'entries')} {would}new, {record.known} known."
    if record.conflicts or record.wrong:
        told += f" {record.wrong} wrong, {record.conflicts} in conflict; nothing is written until they are mended."
    if record.written:
        return (Paragraph(text=told),)
    shown = sorted(record.rows, key=lambda row: (row.outcome in ("new", "known"), row.line))[:_LISTED]
    rows = [(str(row.line), row.outcome, row.says) for row in shown]
    note = f"{_LISTED} of {len(record.rows)} rows are shown, what is wrong first." if len(record.rows) > _LISTED else ""
    return Paragraph(text=told), table(("line", "outcome", "what"), rows, right=(0,), wide=2, note=note)


def _counted(number: int, one: str, many: str) -> str:
    return f"{number} {one if number == 1 else many}"


def _answer(folder: Path, record: object, title: str, *blocks: Block) -> Answer:
    return Answer(record=record, page=Page(title=title, blocks=blocks), system=system_of(folder))
