"""How cold, hot and damp a place is, as the plan says it."""

from __future__ import annotations

from importlib.resources import files

import pytest

from pinfold.errors import InvalidPlan
from pinfold.store import planfile

SEED = files("pinfold.store").joinpath("samples/seed-garden/plan.toml").read_text(encoding="utf-8")


def place_with(*lines: str):
    known = [line for line in SEED.splitlines() if not line.startswith(("coldest", "hottest", "humidity"))]
    text = "\n".join(known).replace("[place]\n", "\n".join(("[place]", *lines, "")), 1)
    return planfile.plan_of(text).place


def test_what_is_not_said_of_the_climate_stays_unknown():
    place = place_with()

    assert (place.coldest, place.hottest, place.humidity) == (None, None, None)


def test_the_climate_is_read_in_either_scale():
    place = place_with('coldest = "-4 °F"', 'hottest = "50 °C"', 'humidity = "55 %"')

    assert place.coldest == pytest.approx(-20.0)
    assert place.hottest == 50.0
    assert place.humidity == pytest.approx(0.55)


def test_a_share_that_cannot_be_is_told_in_percent_too():
    with pytest.raises(InvalidPlan, match=r"at least 0\.1 \(10 %\) and at most 1 \(100 %\)"):
        place_with("humidity = 55")


@pytest.mark.parametrize(
    ("line", "where"),
    [
        ('coldest = "60 °C"', "place.coldest"),
        ('hottest = "400 °C"', "place.hottest"),
        ('humidity = "140 %"', "place.humidity"),
        ('coldest = "20 °C"\nhottest = "10 °C"', "place.coldest"),
    ],
)
def test_a_climate_that_cannot_be_is_refused_where_it_stands(line, where):
    with pytest.raises(InvalidPlan) as stopped:
        place_with(line)

    assert [problem.place for problem in stopped.value.problems] == [where]
