"""How long work takes: norms of the trade against what their sources print, and against each other."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from days_jobs import counted, plan
from pinfold.logbook.works import Work
from pinfold.plan.people import HOUR
from pinfold.studies.days.durations import pace_of
from pinfold.studies.days.records import Measures, Task
from pinfold.studies.days.tasks import tasks_of
from pinfold.tables.shelf import kind, shelf
from published import Printed
from rows import Row

FOOT, YARD = 0.3048, 0.9144
PEOPLE = replace(plan().people, slowness=1.0)


def hours(norm, **amount):
    """Hours of one person for an amount, the way a task takes them."""

    def found():
        task = Task(key="t", work=Work.LAY, says="", place="", layer="", measures=Measures(),
                    norms=((norm, Measures(**amount)),))  # fmt: skip
        return pace_of(task, PEOPLE).labor / HOUR

    return found


def row(source, where, what, digits, ours, *, look_up=True, note=""):
    return Row(what=what, printed=Printed(digits, source, where), ours=ours, table=f"{source} {where}",
               look_up=look_up, note=note)  # fmt: skip


def blocks_in_a_day():
    """8 in blocks of 8 by 16 in that one person lays in 8 h at the Navy's rate for the area."""
    area = (8 / 12) * (16 / 12)
    return 8 / (160 / 1000) / area


ROWS = (
    row("BLOCK-HOURS", "section 11-7", "100 ft2 of 8 in block, mason and helper, h", "14", hours(
        "lay-block", m2=100 * FOOT**2)),
    row("NAVEDTRA-14045", "rates of block", "8 in blocks that one lays in a day, at 160 h for 1000 ft2", "56",
        blocks_in_a_day, look_up=False),
    row("PLASTER-RATES", "10 m2", "10 m2 of plaster, h", "11.75", hours("coat", m2=10.0)),
    row("LABOR-CONSTANTS", "trench", "a cubic meter of trench in soft soil, days", "0.55",
        lambda: hours("dig-soft", m3=1.0)() / 8),
    row("LABOR-CONSTANTS", "trench", "a cubic meter of trench in dense soil, days", "0.68",
        lambda: hours("dig-dense", m3=1.0)() / 8),
    row("LABOR-CONSTANTS", "trench", "a cubic meter of backfill, days", "0.29",
        lambda: hours("backfill", m3=1.0)() / 8),
    row("LABOR-CONSTANTS", "brickwork", "a cubic meter of brickwork over one brick, days", "2.94",
        lambda: hours("lay-brick", m3=1.0)() / 8),
    row("EARTHWORK-RATES", "hard soil", "a cubic meter of hard soil, days", "0.8",
        lambda: hours("dig-hard", m3=1.0)() / 8),
    row("FENCE-FIGURES", "labor", "1320 ft of woven wire, h", "42", hours("mesh", m=1320 * FOOT)),
)  # fmt: skip


@pytest.mark.parametrize("checked", ROWS, ids=str)
def test_as_printed(checked):
    assert checked.printed.fits(checked.ours(), method_error=checked.method_error)


def test_two_published_rates_of_block_lie_within_what_jobs_vary():
    book, navy = kind("labor", "lay-block").value("time"), 160 * HOUR / (1000 * FOOT**2)

    assert abs(navy / book - 1) < kind("job_rules", "spread").value("job")


def test_rubble_in_mortar_lies_between_two_published_rates_far_apart():
    masons = (1 / 3 + 1 / 4) * 8 * HOUR / (25 * FOOT**3)  # TRADES-POCKETBOOK: a third and a quarter of a day to a perch
    dressing = (1.5 + 5) * 8 * HOUR  # RUBBLE-RATES, norm 6-1

    middle = math.sqrt(masons * dressing)
    assert kind("labor", "lay-rubble").value("time") == pytest.approx(middle, rel=0.1)


def test_brick_takes_longer_than_block_for_the_same_wall():
    brick = kind("labor", "lay-brick").value("time") * 0.215

    assert brick > kind("labor", "lay-block").value("time")


def test_every_norm_says_what_it_is_for_and_how_many_help():
    for norm in shelf("labor").values():
        assert norm.word("per") in Measures._fields, norm.name
        assert int(norm.words["most"]) >= 1
        assert norm.value("time") > 0


@pytest.mark.parametrize("sample", ["seed-garden", "quinta"])
def test_every_task_of_the_samples_has_a_time(sample):
    for task in tasks_of(*counted(plan(sample))):
        assert pace_of(task, PEOPLE).labor > 0, task.key
