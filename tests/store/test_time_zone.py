"""The time zone of a place: a name of the IANA list, or none."""

from __future__ import annotations

import re
from importlib.resources import files

import pytest

from pinfold.errors import InvalidPlan
from pinfold.store import planfile, starting

SEED = files("pinfold.store").joinpath("samples/seed-garden/plan.toml").read_text(encoding="utf-8")


def place_with(line):
    return planfile.plan_of(re.sub(r"(?m)^time_zone.*$", line, SEED)).place


def test_both_samples_and_no_fresh_plan_say_their_zone():
    shelf = files("pinfold.store").joinpath("samples")
    zones = [
        planfile.plan_of(shelf.joinpath(sample, "plan.toml").read_text(encoding="utf-8")).place.time_zone
        for sample in sorted(starting.SAMPLES)
    ]

    assert zones == ["Europe/Lisbon", "America/Denver"]
    assert planfile.plan_of(starting.start_plan({})).place.time_zone is None


@pytest.mark.parametrize(("line", "zone"), [('time_zone = "Asia/Kathmandu"', "Asia/Kathmandu"), ("", None)])
def test_a_zone_is_kept_as_it_is_written(line, zone):
    assert place_with(line).time_zone == zone


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("America/Denvr", "did you mean America/Denver"), ("Nowhere/at-all", "take one like"), ("America", "no name of"),
        ("/etc/passwd", "no name of"), ("../../etc/passwd", "no name of"), ("UTC+2", "no name of"),
    ],
)  # fmt: skip
def test_what_is_no_zone_is_refused_with_the_nearest(name, says):
    with pytest.raises(InvalidPlan) as refused:
        place_with(f'time_zone = "{name}"')

    assert "place.time_zone" in str(refused.value)
    assert says in str(refused.value)
