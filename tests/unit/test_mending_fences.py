"""Mends of what hangs between posts: found by trying, and right when they are tried."""

from __future__ import annotations

from pinfold.plan.changes import Put
from pinfold.studies.mending.between_levers import rails_stouter, wires_harder
from pinfold.units import NEWTON, read
from stand_plots import fence, plan

RAILS = """
[[buildup.run.rail]]
kind = "wire-3mm"
at = "50 cm"
tension = "80 N"
[[buildup.run.rail]]
kind = "bar-12"
at = "1.4 m"
"""


def test_a_bar_is_followed_by_stouter_rails_of_steel_by_the_millimeter():
    lever = rails_stouter(plan(fence(mesh=RAILS)), "run")

    assert lever.steps == ((Put(("buildup", "run", "rail", "1", "kind"), "pipe-rail-42"),),)


def test_without_a_rail_that_bends_there_is_nothing_to_change():
    assert rails_stouter(plan(fence()), "run") is None


def test_wires_are_strained_harder_up_to_a_share_of_what_they_bear():
    lever = wires_harder(plan(fence(mesh=RAILS)), "run")
    pulls = [read(put.text, like=NEWTON) for step in lever.steps for put in step]

    assert pulls == sorted(pulls)
    assert 80 < pulls[0] < pulls[-1] <= 0.3 * 2470 + 1
    assert wires_harder(plan(fence()), "run") is None
