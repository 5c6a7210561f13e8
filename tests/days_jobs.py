"""Jobs for the tests of the days: those of the samples, small ones out of a random source, what a schedule keeps to."""

from __future__ import annotations

import itertools
from datetime import UTC, date
from importlib.resources import files

import numpy as np

from pinfold.logbook.works import Work
from pinfold.plan.people import HOUR, People
from pinfold.store.planfile import plan_of
from pinfold.studies.batching.cards import batch_cards
from pinfold.studies.days.durations import job_of
from pinfold.studies.days.pieces import Piece, Wait
from pinfold.studies.days.problem import NOT_YET, Problem
from pinfold.studies.days.records import Link, Measures, Task
from pinfold.studies.days.slots import SLOT, slots_of
from pinfold.studies.days.tasks import tasks_of
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.quantities.take_off import take_off

ALWAYS = People(count=100, hours=24 * HOUR, start=0.0, end=24 * HOUR, weekdays=tuple(range(7)))
MONDAY = date(2026, 6, 1)


def plan(name="seed-garden"):
    """The plan of a sample."""
    return plan_of(files("pinfold.store").joinpath("samples", name, "plan.toml").read_text(encoding="utf-8"))


def counted(of):
    """A plan laid out, its take-off and its cards."""
    layout = lay_out(of)
    quantities = take_off(layout)
    return layout, quantities, batch_cards(quantities, of.mixing)


def job(of):
    """All of a plan's work, by the norms."""
    return job_of(tasks_of(*counted(of)), of.people)


def piece(number, slots, people, after=(), tail=0.0):
    """A piece of nothing in particular; `after` are pairs of a number and a wait in hours."""
    task = Task(key=f"job {number}", work=Work.DIG, says="", place="", layer="", measures=Measures(), norms=())
    waits = tuple(Wait(other, Link(f"job {other}", hours * HOUR)) for other, hours in after)
    return Piece(task=task, part=0, parts=1, slots=slots, people=people, labor=slots * people * SLOT, after=waits,
                 tail=tail, share=1.0)  # fmt: skip


def problem(pieces, slots, crew=2, day_most=10**6, risk=None, allowed=None):
    """Pieces in slots."""
    fits = np.array([slots.fits(each.slots) for each in pieces])
    return Problem(
        slots=slots, pieces=tuple(pieces), allowed=fits if allowed is None else fits & allowed,
        risk=np.zeros(fits.shape) if risk is None else risk, crew=crew, day_most=day_most,
    )  # fmt: skip


def drawn(seed, count=4, days=2, hours=3):
    """A small job with limits and risks."""
    rng = np.random.default_rng(seed)
    people = People(count=2, hours=hours * HOUR, start=8 * HOUR, end=(8 + hours) * HOUR, weekdays=tuple(range(7)))
    slots = slots_of(people, first=MONDAY, days=days, zone=UTC)
    pieces = []
    for number in range(count):
        after = [(other, float(rng.choice([0, 1, 14]))) for other in range(number) if rng.random() < 0.3]
        pieces.append(piece(number, int(rng.integers(1, 4)), int(rng.integers(1, 3)), after, float(rng.integers(0, 9))))
    shape = (count, slots.count)
    return problem(
        pieces, slots, risk=rng.choice([0.0, 0.0, 5.0, 40.0], size=shape), allowed=rng.random(shape) < 0.8,
        day_most=int(rng.integers(6, 13)),
    )  # fmt: skip


def keeps(of, starts):
    """Whether a schedule keeps to all that binds it."""
    used = np.zeros(of.slots.count, dtype=int)
    day = np.zeros(len(of.slots.dates), dtype=int)
    for number, start in enumerate(starts):
        if start == NOT_YET:
            continue
        each = of.pieces[number]
        if not of.allowed[number, start]:
            return False
        for wait in each.after:
            if starts[wait.piece] == NOT_YET or start < of.free_from(wait, starts[wait.piece]):
                return False
        used[start : start + each.slots] += each.people
        day[of.slots.days[start]] += each.slots * each.people
    return bool((used <= of.crew).all() and (day <= of.day_most).all())


def best_by_trying(of):
    """The least cost of all schedules there are."""
    choices = [[NOT_YET, *np.flatnonzero(row)] for row in of.allowed]
    return min(of.cost_of(starts) for starts in itertools.product(*choices) if keeps(of, starts))
