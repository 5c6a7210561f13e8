"""How far the job is by the log: batches, coats, hours with what was done, holes dug, held against the tasks."""

from __future__ import annotations

import math
import re
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from functools import cache, partial

from pinfold.logbook.entries import Entry
from pinfold.logbook.works import PER, Work, named_works
from pinfold.studies.days.records import Job, Measures, Task
from pinfold.units import Ratio

DONE = 0.97
"""From this share on a task is done: nobody measures the last corner."""


@dataclass(frozen=True, kw_only=True)
class Progress:
    """How far the tasks are.

    Attributes:
        left: share of each task still to be done, by its key.
        done: when each that is done was, by key, as far as the log tells.
        in_part: keys of those that are begun and not done.
        unplaced: entries that tell of work and could not be laid to a task, in words.
        by_order: keys of those that count as done because what waits for them is.
    """

    left: Mapping[str, Ratio]
    done: Mapping[str, datetime]
    in_part: tuple[str, ...] = ()
    unplaced: tuple[str, ...] = ()
    by_order: tuple[str, ...] = ()

    def share(self, job: Job) -> Ratio:
        """Of all work that is done, by its time."""
        whole = job.labor
        if whole <= 0:
            return 0.0
        left = math.fsum(pace.labor * self.left.get(key, 1.0) for key, pace in job.paces.items() if pace.is_known)
        return 1.0 - left / whole


class _Tally:
    """Shares done while the log is read."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.batched = cache(partial(_batched, job))  # a long log asks for the same few again and again
        self.whole = {(task.key, per): _whole(task, per) for task in job.tasks for per in _PER}
        self.shares: dict[str, float] = defaultdict(float)
        self.when: dict[str, datetime] = {}

    def give(self, tasks: Iterable[Task], amount: float, per: str, when: datetime) -> bool:
        """An amount to tasks in their order, each as far as it takes it; whether any took some."""
        taken = False
        for task in tasks:
            whole = self.whole[task.key, per]
            room = whole * (1.0 - self.shares[task.key]) if whole > 0 else 0.0
            if amount <= 0 or room <= 1e-9:
                continue
            part = min(amount, room)
            self.shares[task.key] += part / whole
            self.when[task.key] = max(when, self.when.get(task.key, when))
            amount -= part
            taken = True
        return taken


_PER = (*Measures._fields, "volume")


def _whole(task: Task, per: str) -> float:
    return sum(dose.volume for dose in task.doses) if per == "volume" else task.measures.by(per)


def progress_of(job: Job, entries: Iterable[Entry]) -> Progress:
    """How far the job is.

    Of batches and of coats and hours the more counts, never their sum: one day's work is often written down twice.

    Args:
        job: tasks and paces
        entries: of the log, those that stand
    """
    listed = sorted(entries, key=lambda entry: entry.when)
    tallies: list[_Tally] = []
    unplaced: list[str] = []
    for kind, read in _READERS.items():
        tally = _Tally(job)
        unplaced += [_told(entry) for entry in listed if entry.kind == kind and not read(tally, entry)]
        tallies.append(tally)
    return _progress(job, tallies, unplaced)


def _progress(job: Job, tallies: list[_Tally], unplaced: list[str]) -> Progress:
    shares = {task.key: min(max(tally.shares[task.key] for tally in tallies), 1.0) for task in job.tasks}
    when = {
        key: max(tally.when[key] for tally in tallies if key in tally.when)
        for key in shares
        if any(key in tally.when for tally in tallies)
    }
    done = {key for key, share in shares.items() if share >= DONE}
    implied = _before(job, {key for key, share in shares.items() if share > 0}) - done
    whole = done | implied
    return Progress(
        left={key: 0.0 if key in whole else 1.0 - share for key, share in shares.items()},
        done={key: when[key] for key in sorted(done) if key in when},
        in_part=tuple(key for key, share in shares.items() if share > 0 and key not in whole),
        unplaced=tuple(dict.fromkeys(unplaced)), by_order=tuple(sorted(implied)),
    )  # fmt: skip


def _before(job: Job, begun: set[str]) -> set[str]:
    """All that must have been done before what is begun could be."""
    found: set[str] = set()
    for task in reversed(job.tasks):
        if task.key in begun or task.key in found:
            found |= {link.key for link in task.after}
    return found


def _read_coat(tally: _Tally, entry: Entry) -> bool:
    """Area by stretch and face; the coat by its name, or the first that is not whole."""
    area = entry.number("area")
    if not area or entry.text("again"):
        return True  # what is done again was done before
    place, face, layer = entry.text("place"), entry.text("face"), entry.text("layer")
    tasks = [task for task in tally.job.tasks if task.work is Work.COAT and place and is_there(task, place)]
    if face in ("outer", "inner"):
        tasks = [task for task in tasks if task.face == face]
    named = [task for task in tasks if layer and layer in (task.coat, task.coat.rpartition("-")[2])]
    mixed = [task for task in tasks if any(dose.mix == entry.text("mix") for dose in task.doses)]
    return tally.give(named or mixed or tasks, area, "m2", entry.when)


def _read_hours(tally: _Tally, entry: Entry) -> bool:
    """Length, area or pieces done; hours without any teach nothing here."""
    amounts = [(per, amount) for field, per in PER if (amount := entry.number(field))]
    works = named_works(entry.text("layer"))
    if not amounts or entry.text("again"):
        return True
    if not works:
        return False
    tasks = tasks_named(tally.job, entry.text("layer"), entry.text("place"))
    return any(tally.give([task for task in tasks if task.measures.by(per) > 0], amount, per, entry.when)
               for per, amount in amounts)  # fmt: skip


def _read_batch(tally: _Tally, entry: Entry) -> bool:
    """Batches by layer and place, as the volume they made."""
    layer, place = entry.text("layer"), entry.text("place")
    if not place and not layer:
        return True  # tried somewhere else, or nobody says where it went
    tasks = tally.batched(layer, place, entry.text("mix"))
    count = (entry.number("batches") or 1.0) - (entry.number("thrown") or 0.0)
    made = entry.number("made")
    volume = count * made if made else count * _usual(tasks)
    return tally.give(tasks, volume, "volume", entry.when) if math.isfinite(volume) else False


def _batched(job: Job, layer: str, place: str, mix: str) -> list[Task]:
    works = named_works(layer)
    return [
        task for task in job.tasks
        if is_there(task, place) and (not works or task.work in works)
        and any(dose.mix == mix for dose in task.doses)
    ]  # fmt: skip


def _usual(tasks: list[Task]) -> float:
    """What one batch makes by the cards."""
    doses = [dose for task in tasks for dose in task.doses if dose.batches > 0]
    return doses[0].volume / doses[0].batches if doses else math.nan


def _read_hole(tally: _Tally, entry: Entry) -> bool:
    """A hole is one of those of its run, side or gate."""
    place = entry.text("place")
    tasks = [task for task in tally.job.tasks if task.work is Work.HOLES and place and is_there(task, place)]
    return not tasks or tally.give(tasks, 1.0, "each", entry.when)


def tasks_named(job: Job, layer: str, place: str) -> list[Task]:
    """The tasks that words for work and place mean; the name of a coat means that coat alone."""
    works, coat = named_works(layer), " ".join(layer.lower().split())
    there = [task for task in job.tasks if task.work in works and is_there(task, place)]
    return [task for task in there if task.coat == coat] or there


def is_there(task: Task, place: str) -> bool:
    """Whether a task is at a place: its stretch, a run of several, or the whole side."""
    return not place or task.place == place or task.place.startswith(f"{place}/") or (
        _STRETCH.sub("", task.place) == place
    )  # fmt: skip


_STRETCH = re.compile(r"(?<=\d)[a-z]+$")
"""What a stretch has behind the name of its run."""


_READERS = {"coat": _read_coat, "hours": _read_hours, "batch": _read_batch, "hole": _read_hole}
WORK_KINDS = tuple(_READERS)
"""Kinds of entries that tell of work done."""


def _told(entry: Entry) -> str:
    what = " ".join(part for part in (entry.text("layer"), entry.text("mix"), entry.text("place")) if part)
    return f"{entry.kind} of {entry.when.date().isoformat()}: {what or 'no place'}"
