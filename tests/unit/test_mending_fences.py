"""Mends of what hangs between posts: found by trying, and right when they are tried."""

from __future__ import annotations

from pinfold.plan.changes import Put
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.mending.between_levers import rails_stouter, wires_harder
from pinfold.studies.mending.levers import levers_for
from pinfold.studies.mending.weak import weak_of
from pinfold.studies.stability.assess import assess
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

TURNED = """
[[corner]]
name = "C"
x = "10 m"
y = "10 m"
[[side]]
name = "back"
from = "B"
to = "C"
buildup = "run"
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


def test_rails_told_together_are_mended_as_rails():
    weak = fence(mesh='[[buildup.run.rail]]\nkind = "bar-12"\nat = "1 m"\n')
    drawn = plan(weak, rest=TURNED)
    layout = lay_out(drawn)

    found = [one for one in weak_of(assess(layout), layout, near=False) if one.check.startswith("rail")]
    assert {one.check for one in found} == {"rail", "rail under a push"}
    for one in found:
        assert one.subject.startswith("stretches ")
        assert levers_for(drawn, one)[0].says == "stouter rails"
