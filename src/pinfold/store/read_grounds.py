"""Reading banks of earth, and blocks under neighbors, of a plan file."""

from __future__ import annotations

import math

from pinfold.plan.buildups import Faces
from pinfold.plan.grounds import Bank, Blocks, Stack
from pinfold.plan.supports import Point
from pinfold.store.forms import Form, each, unique
from pinfold.store.read_supports import read_leveling
from pinfold.units import KILOGRAM, METER, NEWTON, PASCAL, RADIAN, both

FACES = (Faces.INNER, Faces.OUTER)


def read_banks(whole: Form) -> tuple[Bank, ...]:
    """All `[[bank]]` tables."""
    forms = whole.subs("bank")
    banks = each(forms, _bank)
    unique(forms, (bank.name for bank in banks), "bank")
    return banks


def _bank(form: Form) -> Bank:
    bank = Bank(
        name=form.text("name", longest=30),
        side=form.text("side", longest=30),
        start=form.quantity("from", METER, otherwise=0.0, low=0.0, high=10000.0),
        end=form.quantity("to", METER, low=0.0, high=10000.0),
        height=form.quantity("height", METER, low=0.05, high=4.0),
        face=_face(form),
        soil=form.kind_if("soil", "soils"),
        slope=form.quantity("slope", RADIAN, otherwise=0.0, low=0.0, high=math.radians(50)),
        surcharge=form.quantity("surcharge", PASCAL, otherwise=0.0, low=0.0, high=100e3),
        drained=form.flag("drained", otherwise=False),
        wall_friction=form.quantity("wall_friction", RADIAN, otherwise=0.0, low=0.0, high=math.radians(40)),
        passive=form.flag("passive", otherwise=False),
    )
    if bank.end <= bank.start:
        form.complain("to", f"the bank would end at {both(bank.end)}, before it begins at {both(bank.start)}")
    _angles(form, bank)
    return bank


def _face(form: Form) -> Faces:
    found = form.choice("face", [str(face) for face in FACES])
    if found is None and not form.has("face"):
        form.complain("face", 'is missing; write face = "inner" or "outer": where the earth stands higher')
    return Faces(found or "inner")


def _angles(form: Form, bank: Bank) -> None:
    """A surface or a wall cannot be steeper or rougher than the earth itself holds."""
    if bank.soil is None or not bank.soil.has("friction_angle"):
        return
    holds = bank.soil.value("friction_angle")
    for key, angle in (("slope", bank.slope), ("wall_friction", bank.wall_friction)):
        if angle > holds + 1e-9:
            form.complain(
                key,
                f"{math.degrees(angle):.3g} deg is more than the friction angle of {bank.soil.name}, "
                f"{math.degrees(holds):.3g} deg: it would slide by itself; lay it flatter or give another soil",
            )


def read_blocks(form: Form, footprint: tuple[Point, ...]) -> Blocks | None:
    """The table `blocks` inside a neighbor of that footprint; None where it does not stand on blocks."""
    inner = form.sub("blocks")
    if inner is None:
        return None
    blocks = Blocks(
        mass=inner.perhaps("mass", KILOGRAM, low=50.0, high=100e3),
        live=inner.quantity("live", NEWTON, otherwise=0.0, low=0.0, high=1e6),
        count=inner.count("count", otherwise=0, low=1, high=400),
        spacing=inner.perhaps("spacing", METER, low=0.3, high=10.0),
        pad_length=inner.perhaps("pad_length", METER, low=0.1, high=3.0),
        pad_width=inner.perhaps("pad_width", METER, low=0.1, high=3.0),
        pad_below=inner.quantity("pad_below", METER, otherwise=0.0, low=0.0, high=3.0),
        stack=inner.word("stack", Stack, otherwise=Stack.SINGLE),
        stack_height=inner.quantity("stack_height", METER, low=0.05, high=5.0),
        ties=inner.count("ties", otherwise=0, low=0, high=100),
        tie_capacity=inner.perhaps("tie_capacity", NEWTON, low=100.0, high=1e6),
        leveling=read_leveling(inner, footprint),
    )
    if not inner.has("count"):
        inner.complain("count", "is missing; write count = 6, the number of piers of blocks")
    supports = len(blocks.leveling.supports)
    if supports and blocks.count and supports != blocks.count:
        inner.complain("count", f"is {blocks.count}, yet {supports} supports follow; each pier is one support")
    inner.refuse_unknown()
    return blocks
