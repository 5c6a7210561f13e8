"""The ledger as a file: CSV out for a spreadsheet, and in from one."""

from __future__ import annotations

from pathlib import Path

from pinfold.actions.log_files import BroughtIn, csv_in
from pinfold.actions.taking import log_of, site_of
from pinfold.errors import InputError, InvalidPlan


def ledger_text(folder: Path) -> str:
    """All that the ledger reads as CSV, one row a line, in the order things happened; what was taken back is left out.

    Raises:
        NotFoundError: no site folder.
        StoreError, NewerFileError: the log cannot be read.
    """
    from pinfold.store.ledger_csv import KINDS, ledger_csv

    site_of(folder)
    log = log_of(folder)
    entries = [entry for kind in KINDS for entry in log.entries(kind=kind, standing=True)]
    return ledger_csv(sorted(entries, key=lambda entry: (entry.when, entry.seq)))


def ledger_out(folder: Path, file: Path) -> str:
    """Write it into a file; what was written, in a sentence.

    Raises:
        NotFoundError, StoreError, NewerFileError: as `ledger_text`; also where the file cannot be written.
    """
    from pinfold.store.writing import write_bytes

    text = ledger_text(folder)
    write_bytes(file, text.encode("utf-8"))
    lines = text.count("\r\n") - 1
    return f"{lines} {'line' if lines == 1 else 'lines'} of the ledger written to {file}"


def ledger_in(folder: Path, file: Path, *, who: str = "") -> str:
    """Bring in the rows of such a file, all of them or none; what came of them, in a sentence.

    Args:
        folder: of the site
        file: to read
        who: for rows that do not say

    Raises:
        NotFoundError: no site folder, no such file.
        InvalidPlan: with every complaint, each with its line and column; nothing is written.
        StoreError, NewerFileError: the file or the log cannot be read, or the log not written.
    """
    from pinfold.store.ledger_csv import HEADS, is_ledger
    from pinfold.store.log_csv import read_csv

    if not is_ledger(read_csv(file)):
        wrong = InputError(f"the columns day and kind are wanted; it may have {', '.join(HEADS)}", place="line 1")
        raise InvalidPlan(file.name, [wrong])
    record = csv_in(folder, file, who=who).record
    assert isinstance(record, BroughtIn)
    return f"{file.name}: {record.new} written down, {record.known} known already"
