"""What must hold before anything is jacked: jack and its base, crib, and pads."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import partial

from pinfold.errors import NotFoundError
from pinfold.figures import Figure, given, practice
from pinfold.findings import Finding, keeps_to, work
from pinfold.formulas import jacking, pads
from pinfold.plan.grounds import Blocks
from pinfold.plan.outline import Neighbor
from pinfold.plan.place import Place
from pinfold.plan.supports import Jack
from pinfold.studies.leveling.carrying import Carried
from pinfold.studies.stability.answers import Question, answered
from pinfold.studies.stability.blocks.figures import SMALLEST_PAD
from pinfold.studies.stability.blocks.piers import soil_of
from pinfold.studies.stability.pieces import caution
from pinfold.tables.shelf import Kind
from pinfold.units import METER, NEWTON, RATIO, SQUARE_METER

MARGIN = practice("1.5", RATIO, "rated load of a jack over what it may have to lift")
NO_LEAST = given(0.0, SQUARE_METER, "0 ft2")
LEFT_OUT = (
    "wind while it stands on jacks; uneven loads in it; how strong its beams are where a jack pushes; a jack or crib "
    "that leans; frozen or soaked ground"
)
Named = tuple[tuple[str, Figure], ...]


def jacking_checks(
    neighbor: Neighbor, blocks: Blocks, place: Place, loads: Sequence[Carried], lifted: Sequence[str]
) -> tuple[Finding, ...]:  # fmt: skip
    """Findings on jack, ground and crib, at the support where each is worst.

    Args:
        neighbor: that is leveled
        blocks: what it stands on
        place: its ground
        loads: of all supports
        lifted: marks of those that are jacked
    """
    jacked = max((each for each in loads if each.mark in lifted), key=lambda each: each.jacking, default=None)
    standing = max(loads, key=lambda each: each.standing)
    checks = [("pad under a support", partial(_pad, blocks, place, standing))]
    if jacked is not None:
        checks = [
            ("jack", partial(_jack, blocks, jacked)), ("ground under the jack", partial(_base, blocks, place, jacked)),
            ("crib load", partial(_crib, blocks, jacked)), ("crib height", partial(_crib_height, blocks)), *checks,
        ]  # fmt: skip
    subject = f"neighbor {neighbor.name}"
    return tuple(
        answered(Question(check=check, subject=subject, left_out=LEFT_OUT, caution=warned), find)
        for (check, find), warned in zip(checks, (caution("jacking"), *[""] * len(checks)), strict=False)
    )  # said once: the sheet says it twice more


def _the_jack(blocks: Blocks) -> Jack:
    if blocks.leveling.jack is None:
        raise NotFoundError("no jack is told; write [neighbor.blocks.jack] with the capacity marked on it")
    return blocks.leveling.jack


def _the_crib(blocks: Blocks) -> Kind:
    if blocks.leveling.crib is None:
        raise NotFoundError('no crib is told; write crib = "crib-4x4-2" under its blocks')
    return blocks.leveling.crib


def _jack(blocks: Blocks, load: Carried) -> Finding:
    jack = _the_jack(blocks)
    asked = work(jacking.jack_rating, why=f"at {load.mark}", load=load.jacking, margin=MARGIN.value)
    return Finding(
        check="", subject="", demand=asked.number, capacity=jack.capacity, unit=NEWTON, working=(load.step, asked),
        figures=(("margin of a jack", MARGIN), ("rated load", given(jack.capacity, NEWTON))),
        because=f"worst at {load.mark}, as if its two nearest neighbors hung free while it is lifted",
        mend="" if keeps_to(asked.number, jack.capacity) else "a stronger jack, or two beside each other",
    )  # fmt: skip


def _base(blocks: Blocks, place: Place, load: Carried) -> Finding:
    jack = _the_jack(blocks)
    if jack.base_length is None or jack.base_width is None:
        raise NotFoundError("the pad under the jack is not known; write base_length and base_width of the jack")
    return _on_ground(
        place, load.jacking, jack.base_length * jack.base_width, f"under the jack at {load.mark}", NO_LEAST
    )


def _pad(blocks: Blocks, place: Place, load: Carried) -> Finding:
    if blocks.pad_length is None or blocks.pad_width is None:
        raise NotFoundError("the size of its pads is not known; write pad_length and pad_width under its blocks")
    area = blocks.pad_length * blocks.pad_width
    return _on_ground(place, load.standing, area, f"at {load.mark}, which carries most", SMALLEST_PAD)


def _on_ground(place: Place, load: float, area: float, where: str, least: Figure) -> Finding:
    allowed = soil_of(place).figure("bearing")
    asked = work(pads.pad_area, why=where, load=load, bearing=allowed.value, smallest=least.value)
    return Finding(
        check="", subject="", demand=asked.number, capacity=area, unit=SQUARE_METER, working=(asked,),
        figures=(("bearing of the ground", allowed),), because=where,
        mend="" if keeps_to(asked.number, area) else "a larger stiff pad: two layers of planks, crossed",
    )  # fmt: skip


def _crib(blocks: Blocks, load: Carried) -> Finding:
    crib = _the_crib(blocks)
    figures: Named = tuple((name, crib.figure(name)) for name in ("layer", "member", "stress", "capacity"))
    carried = work(
        jacking.crib_load, why=crib.says, pieces=crib.value("layer"), side=crib.value("member"),
        stress=crib.value("stress"),
    )  # fmt: skip
    most = min(carried.number, crib.value("capacity"))
    return Finding(
        check="", subject="", demand=load.jacking, capacity=most, unit=NEWTON, working=(carried,), figures=figures,
        because=f"{crib.says}, at {load.mark}; sound dry softwood, every crossing bearing",
        mend="" if keeps_to(load.jacking, most) else "three pieces to a layer, or thicker ones",
    )  # fmt: skip


def _crib_height(blocks: Blocks) -> Finding:
    crib, leveling = _the_crib(blocks), blocks.leveling
    if leveling.crib_length is None:
        raise NotFoundError("how long the pieces of the crib are is not known; write crib_length under its blocks")
    high = leveling.crib_height if leveling.crib_height is not None else blocks.stack_height
    most = work(
        jacking.crib_height, why=crib.says, length=leveling.crib_length, side=crib.value("member"),
        times=crib.value("times"), most=crib.value("height"),
    )  # fmt: skip
    layers = work(jacking.crib_layers, why="whole layers; boards and shims fill the rest", height=high,
                  side=crib.value("member"))  # fmt: skip
    short = not keeps_to(crib.value("shortest"), leveling.crib_length)
    return Finding(
        check="", subject="", demand=math.inf if short else high, capacity=most.number, unit=METER,
        working=(most, layers), figures=tuple((name, crib.figure(name)) for name in ("times", "height", "shortest")),
        because="its pieces are shorter than any crib's" if short else f"{layers.number:.0f} whole layers",
        mend="longer pieces, or a lower crib" if short or not keeps_to(high, most.number) else "",
    )  # fmt: skip
