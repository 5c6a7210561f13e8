"""Reading what a structure on blocks is leveled with, inside the table `blocks` of a neighbor."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from pinfold.geometry.clearances import point_to_path
from pinfold.geometry.outlines import contains
from pinfold.plan.supports import DoorOpening, Jack, Leveling, Point, Shim, Support
from pinfold.store.forms import Form, each
from pinfold.units import METER, NEWTON, Meter, both

_MOST_SHIMS = 12
"""Shims in one stack that a plan may name."""
_CORNERS = 3
_BESIDE: Meter = 0.3
"""So far outside the footprint a pad may still carry a beam that reaches over it."""


def read_leveling(form: Form, footprint: tuple[Point, ...]) -> Leveling:
    """Its supports, doors, shims, jack and crib; all of them may be absent.

    Args:
        form: the table `blocks`
        footprint: of the structure
    """
    forms = form.subs("support", most=100)
    supports = each(forms, _support)
    _unlike(forms, [support.mark for support in supports])
    _under(forms, supports, footprint)
    return Leveling(
        supports=supports,
        doors=each(form.subs("door", most=20), _door),
        shims=tuple(sorted(each(form.subs("shim", most=20), _shim), reverse=True)),
        tolerance=form.perhaps("tolerance", METER, low=0.0002, high=0.1),
        step=form.perhaps("step", METER, low=0.0005, high=0.05),
        fixed=form.text("fixed", otherwise="", longest=40),
        built=_day(form, "built"),
        jack=_jack(form),
        crib=form.kind_if("crib", "cribs"),
        crib_length=form.perhaps("crib_length", METER, low=0.2, high=3.0),
        crib_height=form.perhaps("crib_height", METER, low=0.02, high=3.0),
    )


def _under(forms: Sequence[Form], supports: Sequence[Support], footprint: tuple[Point, ...]) -> None:
    """Complain of supports that stand beside the structure."""
    if len(footprint) < _CORNERS:
        return
    for form, support in zip(forms, supports, strict=False):
        off = 0.0 if contains(footprint, support.at) else point_to_path(support.at, (*footprint, footprint[0])).distance
        if off > _BESIDE:
            form.complain("x", f"{support.mark} stands {both(off, METER)} beside the footprint; measure x and y anew")


def _support(form: Form) -> Support:
    x, y = (form.quantity(axis, METER, low=-5000.0, high=5000.0) for axis in ("x", "y"))
    return Support(mark=form.text("mark", longest=40), at=(x, y), shims=_stack(form))


def _stack(form: Form) -> tuple[float, ...]:
    found = form.raw("shims")
    if found is None:
        return ()
    if not isinstance(found, list) or len(found) > _MOST_SHIMS:
        form.complain("shims", f'at most {_MOST_SHIMS} thicknesses are wanted, like shims = ["1/4 in", "1/8 in"]')
        return ()
    return tuple(form.measure(part, METER, "shims", low=0.0002, high=0.3) for part in found)


def _shim(form: Form) -> Shim:
    if not form.has("count"):
        form.complain("count", "is missing; write count = 8, how many of this thickness are on hand")
    thickness = form.quantity("thickness", METER, low=0.0002, high=0.3)
    return Shim(thickness=thickness, count=form.count("count", otherwise=0, low=0, high=1000))


def _door(form: Form) -> DoorOpening:
    door = DoorOpening(
        name=form.text("name", longest=30), start=_place(form, "from"), end=_place(form, "to"),
        height=form.quantity("height", METER, low=0.3, high=5.0),
        gap=form.quantity("gap", METER, otherwise=0.003, low=0.0, high=0.05),
    )  # fmt: skip
    if door.start == door.end:
        form.complain("to", "both jambs stand at one place; give the places of its two jambs")
    return door


def _place(form: Form, key: str) -> tuple[float, float]:
    found = form.raw(key)
    if found is None:
        form.complain(key, f'is missing; write {key} = ["12 ft", "40 ft"], the place of a jamb in plan')
        return (0.0, 0.0)
    x, y = form.point(found, key)
    return x, y


def _jack(form: Form) -> Jack | None:
    inner = form.sub("jack")
    if inner is None:
        return None
    jack = Jack(
        capacity=inner.quantity("capacity", NEWTON, low=500.0, high=2e6),
        base_length=inner.perhaps("base_length", METER, low=0.05, high=2.0),
        base_width=inner.perhaps("base_width", METER, low=0.05, high=2.0),
        count=inner.count("count", otherwise=1, low=1, high=50),
    )
    inner.refuse_unknown()
    return jack


def _unlike(forms: tuple[Form, ...], marks: list[str]) -> None:
    for number, (form, mark) in enumerate(zip(forms, marks, strict=True)):
        if mark and mark in marks[:number]:
            form.complain("mark", f"{mark!r} marks a second support; give each its own mark")


def _day(form: Form, key: str) -> str:
    text = form.text(key, otherwise="", longest=10)
    try:
        return date.fromisoformat(text).isoformat() if text else ""
    except ValueError:
        form.complain(key, f"{text!r} is no day; write it like 2026-05-03")
        return ""
