"""How long the whole job was foreseen to take before: the same forecast made anew from the log as it was then."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date

import numpy as np

from pinfold.logbook.entries import Entry
from pinfold.studies.days.progress import progress_of
from pinfold.studies.days.records import Job
from pinfold.studies.forecasting.hands import Elsewhere, hands_of
from pinfold.studies.forecasting.records import Seen
from pinfold.studies.forecasting.rest import Rest, rest_of, spread_of
from pinfold.studies.forecasting.timed import crew_time, timed

_MOST = 20
"""Days looked back to."""
_READ = 60_000
"""Entries read for them all together: of a long log fewer days are looked back to."""


def looked_back(norms: Job, entries: Sequence[Entry], carried: Sequence[Elsewhere]) -> tuple[Seen, ...]:
    """The forecast as it was on some days with work, the last of them among them.

    Args:
        norms: the job at the norms' times
        entries: of the log, those that stand
        carried: what other places' logs say of the pace
    """
    found = sorted(entries, key=lambda entry: entry.when)
    days = sorted({entry.when.date() for entry in found if entry.kind == "hours"})
    most = max(2, min(_MOST, _READ // max(len(found), 1)))
    chosen = {days[round(at)] for at in np.linspace(0, len(days) - 1, most)} if days else set()
    return tuple(_seen(norms, found, carried, day) for day in sorted(chosen))


def _seen(norms: Job, entries: Sequence[Entry], carried: Sequence[Elsewhere], day: date) -> Seen:
    then = [entry for entry in entries if entry.when.date() <= day]
    rest = rest_then(norms, then, carried)
    took = math.fsum(crew_time(entry) for entry in then if entry.kind == "hours")
    left = math.fsum(rest.due.values())
    done = 1.0 - left / norms.labor if norms.labor > 0 else 0.0
    return Seen(day=day.isoformat(), took=took, whole=spread_of(took + rest.whole), done=done)


def rest_then(norms: Job, entries: Sequence[Entry], carried: Sequence[Elsewhere] = ()) -> Rest:
    """What is left after some entries.

    Args:
        norms: the job at the norms' times
        entries: in order of time, at least one
        carried: what other places' logs say of the pace
    """
    found, practice = timed(norms, entries)
    left = progress_of(norms, entries).left
    return rest_of(norms, left, hands_of(found, carried), practice, entries[-1].when)
