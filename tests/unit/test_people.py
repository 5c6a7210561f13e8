"""Who builds, as the plan says it: what is absent stands as usual, what cannot be is told."""

from __future__ import annotations

import pytest

from pinfold.errors import InvalidPlan
from pinfold.plan.people import HOUR, People
from pinfold.store.planfile import plan_of
from pinfold.store.starting import start_plan


def people(text=""):
    return plan_of(f"{start_plan({})}\n[people]\n{text}").people


def test_nothing_said_is_as_usual():
    assert people() == plan_of(start_plan({})).people == People()


def test_what_is_said_is_no_longer_usual():
    read = people('count = 1\nhours = "5 h"\nstart = "6:30"\nend = "19:00"\nweekdays = ["sunday", "saturday"]')

    assert (read.count, read.hours, read.start, read.end) == (1, 5 * HOUR, 6.5 * HOUR, 19 * HOUR)
    assert read.weekdays == (5, 6)
    assert read.usual == ("slowness",)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('start = "25:00"', 'a time of the day is wanted, like start = "6:30"'),
        ("start = 7", "a time of the day is wanted"),
        ('weekdays = ["funday"]', 'a list of days is wanted, like ["monday", "saturday"]'),
        ("weekdays = [1]", "a list of days is wanted"),
        ("count = -1", "a whole number from 0 to 100 is wanted"),
        ('hours = "12 h"\nstart = "8:00"\nend = "12:00"', "leaves less time than hours asks for"),
        ('hours = "half"', "people.hours"),
        ('boss = "me"', "people.boss"),
    ],
)
def test_what_cannot_be_is_told_with_its_place(text, told):
    with pytest.raises(InvalidPlan) as refused:
        people(text)

    assert told in str(refused.value)


def test_a_late_start_moves_the_usual_end():
    assert people('start = "16:00"\nhours = "6 h"').end == 24 * HOUR
