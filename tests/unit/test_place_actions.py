"""What a plan says of pushes, earthquakes and the wind while building."""

from __future__ import annotations

import re

import pytest

from pinfold.errors import InvalidPlan
from pinfold.plan.place import Place
from pinfold.sources import Standing
from pinfold.store.planfile import plan_of
from pinfold.store.starting import start_plan


def place_of(lines: str) -> Place:
    head, mark, tail = start_plan({}).partition("[place]\n")
    return plan_of(f"{head}{mark}{lines}\n{tail}").place


def test_who_pushes_is_unknown_until_the_plan_says_and_nobody_may_be_said():
    assert place_of("").pushes is None
    assert place_of("pushes = []").pushes == ()


def test_who_pushes_is_named_by_kind_with_own_figures_over_it():
    pushes = place_of('pushes = ["goat", { kind = "cattle", mass = "700 kg" }]').pushes
    assert pushes is not None
    goat, cow = pushes

    assert (goat.name, cow.name, cow.value("mass")) == ("goat", "cattle", 700.0)
    assert cow.figure("mass").standing is Standing.GIVEN


def test_earthquake_and_the_wind_while_building_are_read():
    place = place_of('seismic = 0.5\nbuilding_wind = "20 m/s"')

    assert (place.seismic, place.building_wind) == (0.5, 20.0)


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ('pushes = "cattle"', 'place.pushes: .*a list is wanted, like \\["person", "goat"\\]'),
        ('pushes = ["catle"]', r"place.pushes\[0\]: 'catle' found; .*did you mean 'cattle'"),
        ('pushes = [{ kind = "goat", mas = "9 kg" }]', "did you mean mass"),
        ('pushes = [{ kind = "goat", mass = "9 m" }]', r"place.pushes\[0\].mass"),
        ("seismic = -1", "place.seismic: -1 is out of bounds"),
        ("seismic = 4", "place.seismic: 4 is out of bounds"),
        ('building_wind = "0 m/s"', "place.building_wind: '0 m/s' is out of bounds"),
    ],
)
def test_what_cannot_be_is_told_with_its_place(line, told):
    with pytest.raises(InvalidPlan) as stopped:
        place_of(line)

    assert any(re.search(told, f"{each.place}: {each.message}") for each in stopped.value.problems)
