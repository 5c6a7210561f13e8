"""Reading what helps the posts of a plan file: anchors on a wall's top, braces."""

from __future__ import annotations

from pinfold.plan.fences import Anchors, Brace, BraceForm, Hold
from pinfold.store.forms import Form
from pinfold.units import METER, NEWTON


def read_anchors(form: Form) -> Anchors:
    """The table `anchors` of posts on a wall's top."""
    hold = form.word("hold", Hold)
    count = form.count("count", otherwise=4, low=2, high=12)
    if count % 2:
        form.complain("count", f"{count} found; two rows of as many each are wanted: an even number")
    anchors = Anchors(
        hold=hold,
        count=count,
        row_spacing=form.quantity("row_spacing", METER, low=0.02, high=1.0),
        diameter=form.quantity("diameter", METER, low=0.004, high=0.05),
        depth=form.quantity("depth", METER, low=0.02, high=1.5),
        hook=form.perhaps("hook", METER, low=0.01, high=0.3),
        pull=form.perhaps("pull", NEWTON, low=1.0, high=1e6),
        shove=form.perhaps("shove", NEWTON, low=1.0, high=1e6),
    )
    if hold is Hold.BENT and anchors.hook is None:
        form.complain("hook", 'is missing; write how long the bent leg is, like hook = "4 cm"')
    if hold is not Hold.BENT and anchors.hook is not None:
        form.complain("hook", f"goes with hold = 'bent', but it is '{hold.value}'; take one out")
    return anchors


def read_brace(form: Form) -> Brace:
    """The table `brace` of a build-up."""
    brace = Brace(
        form=form.word("form", BraceForm, otherwise=BraceForm.RAIL),
        rail_at=form.quantity("rail_at", METER, low=0.1, high=5.0),
        rail_length=form.quantity("rail_length", METER, low=0.3, high=10.0),
        rail=form.kind("rail", "posts"),
        wire=form.kind_if("wire", "rails"),
        strands=form.count("strands", otherwise=2, low=1, high=12),
    )
    if brace.form is BraceForm.RAIL and brace.wire is None:
        form.complain("wire", 'is missing; write what the diagonal is, like wire = "wire-12ga-ht"')
    if brace.form is BraceForm.STRUT and brace.wire is not None:
        form.complain("wire", "goes with form = 'rail': a strut is pressed, no wire helps it; take one out")
    return brace
