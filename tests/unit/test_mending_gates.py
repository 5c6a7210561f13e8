"""Mends of how gates are hung, braced and latched: found by trying, and right when they are written into the file."""

from __future__ import annotations

import pytest

from pinfold.actions.mending import mends_of
from pinfold.actions.sites import open_site
from pinfold.findings import Verdict
from pinfold.plan.changes import Put
from pinfold.plan.hanging import Bracing, Foot
from pinfold.store.plan_put import text_with_puts
from pinfold.store.planfile import plan_of
from pinfold.studies.mending.gate_levers import (
    gate_brace_turned,
    gate_gap,
    gate_hinge,
    gate_other_post,
    gate_other_way,
    gate_two_leaves,
    gate_wire,
)
from pinfold.studies.mending.weak import worst_by_owner
from pinfold.studies.stability.assess import assess
from stand_plots import fence, plan, plan_text

GATE = """
[[gate]]
name = "small"            # a comment to keep
side = "line"
at = "2 m"
width = "{width}"
height = "{height}"
kind = "{kind}"
post = "{post}"
embed = "1.5 m"
collar = "50 cm"
{more}
"""


def gate(width="1.2 m", height="1.2 m", kind="wood-frame-mesh-50x50", post="wood-6x6", more=""):
    return GATE.format(width=width, height=height, kind=kind, post=post, more=more)


def mends_in(folder, **told):
    """Of a plan with one gate: what mends each check of it that fails."""
    (folder / "plan.toml").write_text(plan_text(fence(), rest=gate(**told)), encoding="utf-8")
    found = mends_of(folder, near=False)
    return {one.weak.check: one.mends for one in found.checks if one.weak.owner.table == "gate"}


def verdict_after(folder, puts, check):
    text = text_with_puts((folder / "plan.toml").read_text(encoding="utf-8"), puts)
    assert "# a comment to keep" in text
    (folder / "plan.toml").write_text(text, encoding="utf-8")
    layout = open_site(folder).layout
    found = {key: one for key, one in worst_by_owner(assess(layout), layout).items() if key[2].table == "gate"}
    return next((one.verdict for key, one in found.items() if key[0] == check), None)


STEEL = {"kind": "steel-frame-mesh-50x50", "post": "pipe-60"}


@pytest.mark.parametrize(
    ("told", "check", "says"),
    [
        ({"width": "1.7 m", "height": "1 m", "more": 'leaf_mass = "120 kg"'}, "hinge screws", "other hinges"),
        ({"more": 'hanging = { foot = "latch" }'}, "leaf square", "the brace the other way round"),
        ({"more": 'gap = "4 mm"'}, "latch gap", "a wider gap beside the leaf"),
        ({"more": 'gap = "30 mm"', **STEEL}, "latch gap", "a narrower gap beside the leaf"),
        ({"width": "3.2 m", "height": "1 m"}, "sag", "two leaves"),
    ],
)  # fmt: skip
def test_what_fails_of_a_gate_is_mended_and_holds_when_it_is_written(tmp_path, told, check, says):
    mends = mends_in(tmp_path, **told)[check]
    mend = next(each for each in mends if each.says == says)

    assert verdict_after(tmp_path, mend.puts, check) in (Verdict.HOLDS, None)


def test_hinges_to_try_hold_in_what_the_gate_is_of_and_the_planned_one_is_not_among_them():
    wood = plan(fence(), rest=gate(more='hanging = { hinge = "strap-hinge" }'))
    steel = plan(fence(), rest=gate(**STEEL))

    assert [step[0].text for step in gate_hinge(wood, "small").steps] == [
        "strap-hinge-lagged", "strap-on-hook", "strap-hinge-bolted",
    ]  # fmt: skip
    assert [step[0].text for step in gate_hinge(steel, "small").steps] == ["plate-hinge", "bolted-plate"]
    assert gate_hinge(plan(fence(), rest=gate(post="pipe-60")), "small").steps == ()


def test_a_wire_in_place_of_a_strut_is_put_the_right_way_round():
    drawn = plan(fence(), rest=gate(more='hanging = { foot = "hinge" }'))
    first = gate_wire(drawn, "small").steps[0]
    after = plan_of(text_with_puts(plan_text(fence(), rest=gate(more='hanging = { foot = "hinge" }')), first))

    assert after.gates[0].hanging.bracing is Bracing.WIRE
    assert after.gates[0].hanging.foot is Foot.LATCH
    assert gate_brace_turned(after, "small") is None


def test_a_stouter_wire_follows_a_wire_and_a_sheet_is_left_alone():
    wired = plan(fence(), rest=gate(more='hanging = { bracing = "wire", wire = "wire-3mm" }'))
    lever = gate_wire(wired, "small")
    skin = plan(fence(), rest=gate(kind="sheet-panel", post="pipe-60", more='hanging = { bracing = "sheet" }'))

    assert lever.says == "a stouter wire as brace"
    assert all(put.text != "wire-3mm" for step in lever.steps for put in step)
    assert gate_wire(skin, "small") is None


def test_gaps_go_up_and_down_by_marks_of_the_tape():
    wider, narrower = (gate_gap(plan(fence(), rest=gate(more=f'gap = "{gap} mm"')), "small") for gap in (10, 20))

    assert [step[0].text for step in wider.steps][:2] == ["12 mm", "14 mm"]
    assert [step[0].text for step in narrower.steps][:2] == ["18 mm", "16 mm"]
    assert (wider.says.split()[1], narrower.says.split()[1]) == ("wider", "narrower")


def test_a_gate_may_open_the_other_way_and_hang_from_its_other_post():
    drawn = plan(fence(), rest=gate(width="2.4 m"))

    assert gate_other_way(drawn, "small").steps == ((Put(("gate", "small", "swing"), "out"),),)
    assert gate_other_post(drawn, "small").steps == ((Put(("gate", "small", "hinges"), "right"),),)
    two = gate_two_leaves(drawn, "small").steps[0]
    after = plan_of(text_with_puts(plan_text(fence(), rest=gate(width="2.4 m")), two))
    assert after.gates[0].leaves == 2
    assert gate_two_leaves(after, "small") is None
    assert gate_other_post(after, "small") is None
    assert gate_two_leaves(plan(fence(), rest=gate()), "small") is None
