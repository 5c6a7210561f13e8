"""Reading how the leaves of a gate are braced, hung and latched, and what lies under them."""

from __future__ import annotations

from pinfold.plan.hanging import USUAL, Bracing, Foot, Hanging, Sill
from pinfold.store.forms import Form
from pinfold.units import METER


def read_hanging(form: Form) -> Hanging:
    """The table `hanging` inside a gate; as usual where there is none."""
    inner = form.sub("hanging")
    if inner is None:
        return USUAL
    hanging = Hanging(
        bracing=inner.word("bracing", Bracing) if inner.has("bracing") else None,
        foot=inner.word("foot", Foot) if inner.has("foot") else None,
        wire=inner.kind_if("wire", "rails"),
        hinge=inner.kind_if("hinge", "hinges"),
        latch_at=inner.perhaps("latch_at", METER, low=0.2, high=3.0),
    )
    _agrees(inner, hanging)
    inner.refuse_unknown()
    return hanging


def read_sill(form: Form) -> Sill | None:
    """The table `sill` inside a gate; None where there is none."""
    inner = form.sub("sill")
    if inner is None:
        return None
    sill = Sill(
        kind=inner.kind("kind", "posts"), above=inner.quantity("above", METER, otherwise=0.0, low=0.0, high=0.3)
    )
    if sill.kind.word("section") in ("tee", "bar"):
        inner.complain("kind", f"{sill.kind.name!r} lies on no ground; name a square or round one, such as 'wood-4x4'")
    inner.refuse_unknown()
    return sill


def _agrees(inner: Form, hanging: Hanging) -> None:
    if hanging.wire is not None and hanging.bracing is not Bracing.WIRE:
        inner.complain("wire", f'{hanging.wire.name!r} braces nothing; write bracing = "wire" or leave it out')
    if hanging.wire is not None and hanging.wire.word("section") != "round":
        inner.complain("wire", f'{hanging.wire.name!r} is no wire; name a round one, such as "wire-12ga-ht"')
    if hanging.bracing is Bracing.WIRE and hanging.wire is None and not inner.has("wire"):
        inner.complain("wire", 'is missing; write what the brace is made of, such as wire = "wire-12ga-ht"')
    if hanging.foot is not None and hanging.bracing in (Bracing.SHEET, Bracing.NONE):
        inner.complain("foot", "a leaf without strut or wire has no brace that stands anywhere; leave it out")
