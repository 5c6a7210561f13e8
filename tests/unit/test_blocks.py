"""Structures on blocks: small sheds reckoned by hand, and what is missing told as NOT SHOWN."""

from __future__ import annotations

import pytest

import stand_plots
from pinfold.findings import Verdict
from pinfold.studies.stability.blocks.wind import extents

GRAVITY = 9.80665
WALL = """
[buildup.run.wall]
kind = "brick-double"
height = "60 cm"
"""
SHED = """
[[neighbor]]
name = "shed"
height = "2.2 m"
footprint = [["2 m", "3 m"], ["6 m", "3 m"], ["6 m", "5.5 m"], ["2 m", "5.5 m"]]
"""
US = 'exposure = "C"\nwind_speed = "20 m/s"\nsoil = "sand"\nfrost_depth = "30 cm"\n'
GOOD = {
    "mass": "1500 kg", "count": 6, "spacing": "2 m", "pad_length": "40 cm", "pad_width": "40 cm", "pad_below": "40 cm",
    "stack_height": "40 cm", "ties": 3, "tie_capacity": "10 kN",
}  # fmt: skip


def findings(family="us", place=US, **changes):
    keys = {key: value for key, value in (GOOD | changes).items() if value is not None}
    lines = [f"{key} = {value if isinstance(value, int) else repr(value)}" for key, value in keys.items()]
    rest = "\n".join([SHED, "[neighbor.blocks]", *lines])
    found = stand_plots.findings(WALL, place=place, family=family, rest=rest)
    return {one.check: one for one in found if one.subject == "neighbor shed"}


def test_a_well_founded_shed_holds():
    found = findings()

    assert set(found) == {
        "pad area", "pier load", "stack height", "pier spacing", "frost", "overturning", "sliding",
    }  # fmt: skip
    assert {one.verdict for one in found.values()} == {Verdict.HOLDS}
    assert "only a jack holds" in found["pad area"].caution


def test_a_shed_that_is_founded_is_not_asked():
    assert not [one for one in stand_plots.findings(WALL, place=US, rest=SHED) if "neighbor" in one.subject]


def test_pads_by_hand():
    found = findings()["pad area"]
    load = 1500 * GRAVITY / 4

    assert found.demand == pytest.approx(max(load / 95760.5, 0.0929), rel=1e-3)
    assert found.capacity == pytest.approx(0.16)
    assert findings(live="200 kN")["pad area"].verdict is Verdict.FAILS


def test_a_single_stack_carries_8000_lb_and_stands_36_in_high():
    assert findings()["pier load"].capacity == pytest.approx(8000 * 4.4482216, rel=1e-6)
    assert findings(live="150 kN")["pier load"].verdict is Verdict.FAILS
    assert findings(stack_height="95 cm")["stack height"].verdict is Verdict.FAILS
    assert findings(stack_height="95 cm", stack="double")["stack height"].verdict is Verdict.HOLDS
    assert findings(stack_height="1.8 m", stack="double")["stack height"].verdict is Verdict.FAILS
    assert findings(spacing="3.2 m")["pier spacing"].verdict is Verdict.FAILS


def test_pads_above_the_frost_ride():
    found = findings(pad_below="10 cm")["frost"]

    assert found.verdict is Verdict.FAILS
    assert "up and down" in found.because


def test_the_wind_by_hand():
    found = findings()
    tips, shifts = found["overturning"], found["sliding"]
    force = next(step for step in tips.working if step.formula == "blocks.wind_on_box")
    lift = next(step for step in tips.working if step.formula == "blocks.lift_on_roof")

    assert dict(force.inputs)["length"] == pytest.approx(4)
    assert lift.number == pytest.approx(dict(force.inputs)["pressure"] / 1.3 * 10)
    assert tips.demand == pytest.approx(0.6 * (force.number * (1.1 + 0.4) + lift.number * 2.5 / 2))
    assert tips.capacity == pytest.approx((0.6 * 1500 * GRAVITY / 2 + 3 * 7000) * 2.5)
    assert shifts.capacity == pytest.approx(0.4 * max(0.6 * (1500 * GRAVITY - lift.number), 0) + 3 * 7000)


def test_a_light_shed_in_a_storm_wants_ties():
    storm = US.replace("20 m/s", "47 m/s")
    loose, tied = findings(place=storm, ties=0), findings(place=storm)

    for check in ("overturning", "sliding"):
        assert loose[check].verdict is Verdict.FAILS
        assert "ties to the ground" in loose[check].mend
        assert tied[check].verdict is Verdict.HOLDS
    assert "nothing ties it down" in loose["sliding"].because


@pytest.mark.parametrize(
    ("changes", "check", "words"),
    [
        ({"mass": None}, "pad area", "write mass"),
        ({"pad_width": None}, "pad area", "pad_length and pad_width"),
        ({"spacing": None}, "pier spacing", "write spacing"),
        ({"tie_capacity": None}, "sliding", "write tie_capacity"),
        ({"place": 'soil = "sand"\n'}, "overturning", "no wind speed"),
        ({"place": 'soil = "sand"\n'}, "frost", "no frost depth"),
        ({"place": 'frost_depth = "30 cm"\n'}, "pad area", "no soil"),
        ({"place": US.replace('"sand"', '"organic"')}, "pad area", "bearing"),
    ],
)
def test_what_is_missing_is_not_shown_and_says_what_to_write(changes, check, words):
    found = findings(**changes)[check]

    assert found.verdict is Verdict.NOT_SHOWN
    assert words in found.because


def test_the_european_family():
    place = 'exposure = "II"\nwind_speed = "24 m/s"\nsoil = "sand"\nfrost_depth = "30 cm"\n'
    found = findings(family="eu", place=place)

    assert found["overturning"].verdict is Verdict.HOLDS
    assert findings(family="eu", place=place, ties=0)["sliding"].verdict is Verdict.FAILS


def test_the_narrowest_box_around_an_outline_lies_along_one_of_its_edges():
    turned = ((0.0, 0.0), (3.0, 3.0), (2.0, 4.0), (-1.0, 1.0))

    assert extents(turned) == pytest.approx((3 * 2**0.5, 2**0.5))
