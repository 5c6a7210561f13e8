"""A run of readings written into the log in one go: all marks of one setup."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from pinfold.actions.log_book import DEVICE, WHO, new_id, now_at
from pinfold.actions.taking import MOST, Taken, log_of, take_entries
from pinfold.errors import InputError, InvalidPlan, NotFoundError

_LINE = re.compile(r"\s*(?P<mark>\S.*?)\s*[=:\t]\s*(?P<reading>.+?)\s*$|\s*(?P<first>\S+)\s+(?P<rest>\S.*?)\s*$")
_BARE = re.compile(r"-?\d+(\.\d+)?")


@dataclass(frozen=True, kw_only=True)
class Run:
    """Readings of one setup.

    Attributes:
        lines: a mark and its reading each, like `A1 412 mm` or `A1=412`.
        setup: that they were read from.
        instrument: they were read with; empty where nobody says.
        survey: name of it; the day where empty.
        unit: of readings without one.
        spread: of each; the instrument's where empty.
        who: read them.
        device: they were written down on.
        id: begins the ids of the entries, so that the same run sent twice is written once.
        at: when; now where empty.
    """

    lines: tuple[str, ...]
    setup: str = ""
    instrument: str = ""
    survey: str = ""
    unit: str = ""
    spread: str = ""
    who: str = WHO
    device: str = DEVICE
    id: str = ""
    at: str = ""


def write_run(folder: Path, run: Run) -> tuple[str, ...]:
    """Write all readings down, or none where one of them is wrong; what came of it, in lines.

    Raises:
        InvalidPlan: every complaint, each with the mark it is about.
        NotFoundError, StoreError, NewerFileError: the log cannot be written.
    """
    pairs, wrong = _pairs(run.lines, run.unit)
    begin = run.id or new_id()
    at = run.at or sent_at(folder, f"{begin[:48]}-0")
    shared = {
        key: text for key, text in (
            ("setup", run.setup.strip() or "1"), ("instrument", run.instrument.strip()), ("survey", run.survey.strip()),
            ("spread", run.spread.strip()),
        ) if text
    }  # fmt: skip
    raws = [
        {"id": f"{begin[:48]}-{number}", "kind": "level", "at": at, "who": run.who, "device": run.device,
         "fields": {"mark": mark, "rod": reading, **shared}}
        for number, (mark, reading) in enumerate(pairs)
    ]  # fmt: skip
    refuse("readings", [mark for mark, _ in pairs], take_entries(folder, raws, write=False), wrong)
    taken = take_entries(folder, raws)
    new = sum(each.state == "new" for each in taken)
    marks = ", ".join(mark for mark, _ in pairs)
    told = f"Written down from setup {shared['setup']}: {marks}." if new else "Written down already."
    return (told, *(f"{remark.place}: {remark.message}" for each in taken for remark in each.remarks))


def sent_at(folder: Path, name: str) -> str:
    """When an entry of that id was written, where it is sent again; else now.

    Raises:
        StoreError, NewerFileError: the log cannot be read.
    """
    try:
        return log_of(folder).entry(name).at
    except NotFoundError:
        return now_at(folder)


def refuse(about: str, marks: Sequence[str], foreseen: Sequence[Taken], before: Sequence[InputError] = ()) -> None:
    """Stop where one of several entries would be refused, or something was wrong before.

    Raises:
        InvalidPlan: every complaint, each with the mark it is about.
    """
    wrong = [*before] + [
        InputError(complaint.message, place=f"{mark}: {complaint.place}")
        for mark, each in zip(marks, foreseen, strict=True) for complaint in each.complaints
    ]  # fmt: skip
    if wrong:
        raise InvalidPlan(about, wrong)


def _pairs(lines: Sequence[str], unit: str) -> tuple[list[tuple[str, str]], list[InputError]]:
    """Mark and reading of each line that is not empty, and what is wrong with the others.

    Raises:
        InvalidPlan: nothing was read, or more than is taken at once.
    """
    pairs, wrong, whole = [], list[InputError](), list[InputError]()
    for number, line in enumerate(lines, start=1):
        if not line.strip():
            continue
        match = _LINE.fullmatch(line)
        if match is None:
            told = f"{line.strip()[:40]!r} found; a mark and its reading are wanted, like A1 412 mm"
            wrong.append(InputError(told, place=f"line {number}"))
            continue
        reading = match["reading"] or match["rest"]
        bare = unit and _BARE.fullmatch(reading)
        pairs.append((match["mark"] or match["first"], f"{reading} {unit}" if bare else reading))
    if not pairs and not wrong:
        whole.append(InputError("is empty; a line for each mark is wanted, like A1 412 mm", place="readings"))
    if len(pairs) > MOST:
        whole.append(InputError(f"{len(pairs)} at once; at most {MOST} are taken", place="readings"))
    if whole or not pairs:
        raise InvalidPlan("readings", [*whole, *wrong])
    return pairs, wrong
