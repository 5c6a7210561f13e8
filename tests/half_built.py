"""An invented log of a half-built enclosure: for tests, pictures and the binder. Nobody built it.

Made from a sample's own plan: its tasks in order until the share asked for is done, at a crew's pace that learns, with what
goes wrong on a site: a coat laid thick, batches that give less, some thrown away, a coat washed off by rain and laid
again, cement dearer than listed, days nobody came, one slow day.
"""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import numpy as np

from days_jobs import counted, plan
from pinfold.logbook.entries import entry_of
from pinfold.logbook.works import Work
from pinfold.plan.people import HOUR
from pinfold.store.log import open_log
from pinfold.studies.days.durations import job_of
from pinfold.studies.days.tasks import tasks_of

FIRST = date(2026, 4, 6)
CREW, LEARNS = 1.2, -0.15
"""Time over the norms' on average, and the exponent by which it falls with practice."""
THICK, GAVE = 1.25, 0.92
"""Coats come out so much thicker than planned; a batch gives so much of what its card says."""
_LAYER = {Work.DIG: "trench", Work.LAY: "wall", Work.POSTS: "posts", Work.SET_OUT: "set out", Work.BLOCKS: "blocks"}
_BOUGHT = {
    "quinta": (("portland-cement", "16", "25 kg", "91.52"), ("hydrated-lime", "6", "20 kg", "27.60"),
               ("sand", "6", "0.5 m3", "84.00"), ("gravel", "5", "0.5 m3", "77.50")),
    "seed-garden": (("portland-cement", "30", "94 lb", "498.00"), ("sand", "4", "1 yd3", "152.00")),
}  # fmt: skip


def half_built(name: str = "quinta", share: float = 0.5) -> list[dict[str, object]]:
    """Entries as they would be sent, in order of time."""
    of = plan(name)
    layout, quantities, cards = counted(of)
    job = job_of(tasks_of(layout, quantities, cards), of.people)
    return _Diary(of, job).written(share, _BOUGHT[name])


def write(folder, name: str = "quinta", share: float = 0.5, most: int | None = None) -> int:
    """Write it into the log of a site started from the sample; gives how many entries were written."""
    entries = half_built(name, share)[:most]
    with open_log(folder) as log:
        log.append([entry_of(raw) for raw in entries], received="2026-07-01T00:00:00.000+00:00")
    return len(entries)


def run_of(place: str) -> str:
    """The run of a stretch."""
    return place.rstrip("abcdefghijklmnopqrstuvwxyz") if "/" in place else place


class _Diary:
    """A crew's days, one after the other."""

    def __init__(self, of, job) -> None:
        self.of, self.job = of, job
        self.zone = ZoneInfo(of.place.time_zone)
        self.chance = np.random.default_rng(7)
        self.day, self.left = FIRST, of.people.count * of.people.hours
        self.seen: dict[Work, float] = {}
        self.whole: dict[Work, float] = {}
        self.owed: dict[tuple[str, str], float] = {}
        self.entries: list[dict[str, object]] = []
        for task in job.tasks:
            self.whole[task.work] = self.whole.get(task.work, 0.0) + job.paces[task.key].labor

    def written(self, share, bought):
        for item, packs, pack, cost in bought:
            self.write("purchase", item=item, packs=packs, pack=pack, cost=cost, shop="the yard")
        done, whole = 0.0, self.job.labor
        for task in self.side_by_side():
            labor = self.job.paces[task.key].labor
            if done + labor > share * whole:
                break
            done += labor
            self.task(task, labor)
        return sorted(self.entries, key=lambda entry: entry["at"])

    def side_by_side(self):
        """What is for the whole plot first, then all of one run after all of another, each in the order of the job."""
        runs = list(dict.fromkeys(run_of(task.place) for task in self.job.tasks))
        return sorted(self.job.tasks, key=lambda task: (bool(task.place), runs.index(run_of(task.place))))

    def task(self, task, labor) -> None:
        """All of one task, over as many days as it takes."""
        practice = max(self.seen.get(task.work, 0.0) + labor / 2, 0.005 * self.whole[task.work])
        self.seen[task.work] = self.seen.get(task.work, 0.0) + labor
        pace = CREW * (1 + LEARNS) * (practice / self.whole[task.work]) ** LEARNS
        took, gone = labor * pace * float(np.exp(0.1 * self.chance.standard_normal())), 0.0
        while gone < took - 60:
            now = min(self.left, took - gone)
            self.hours(task, now, now / took)
            gone += now
            self.left -= now
            if self.left < 1800:
                self.next_day()

    def hours(self, task, time_of_all, share) -> None:
        amount = {"done_area": f"{task.area * share:.3f} m2"} if task.area > 0 else (
            {"done_length": f"{task.measures.m * share:.3f} m"} if task.measures.m > 0 else {})  # fmt: skip
        people = self.of.people.count
        place = {"place": task.place} if task.place else {}
        self.write("hours", time=f"{time_of_all / people / HOUR:.3f} h", people=str(people),
                   layer=_LAYER.get(task.work, task.work.value), **place, **amount)  # fmt: skip
        for dose in task.doses:
            self.mixed(task, dose, share)
        if task.work is Work.COAT:
            self.coat(task, share)

    def mixed(self, task, dose, share) -> None:
        thick = THICK if task.work is Work.COAT else 1.0
        owed = self.owed.get((dose.mix, task.place), 0.0) + dose.batches * share * thick / GAVE
        count = int(owed)
        self.owed[dose.mix, task.place] = owed - count
        if count == 0:
            return
        card = dose.volume / dose.batches
        thrown = {"thrown": "1"} if count > 4 else {}
        count += len(thrown)
        self.write("batch", mix=dose.mix, batches=str(count), layer=dose.layer, place=task.place,
                   made=f"{card * GAVE * 1000:.2f} L", **thrown)  # fmt: skip

    def coat(self, task, share) -> None:
        thick = next(c.thickness for b in self.of.buildups.values() for c in b.coats if c.kind.name == task.coat)
        fields = {
            "place": task.place,
            "face": task.face,
            "layer": task.coat,
            "thickness": f"{thick * THICK * 1000:.1f} mm",
        }
        self.write("coat", area=f"{task.area * share:.3f} m2", **fields)
        if len(self.entries) % 5 == 0:  # now and then rain washes some of it off
            self.write("coat", area=f"{task.area * share * 0.2:.3f} m2", again="rain", **fields)
            self.write("hours", time="1.5 h", people="2", layer="coat", place=task.place, again="rain")

    def next_day(self) -> None:
        self.left = self.of.people.count * self.of.people.hours
        while True:
            self.day += timedelta(days=1)
            if self.day.weekday() not in self.of.people.weekdays:
                continue
            draw = self.chance.random()
            if draw < 0.08:
                self.write("weather", sky="rain", rain="11 mm")
            elif draw > 0.18:  # else nobody came
                return

    def write(self, kind, **fields) -> None:
        number = len(self.entries)
        at = datetime.combine(self.day, time(8), self.zone) + timedelta(minutes=number % 500)
        self.entries.append({"id": f"invented-{number:06}", "kind": kind, "at": at.isoformat(), "who": "crew",
                             "device": "phone", "fields": fields})  # fmt: skip
