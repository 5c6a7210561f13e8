"""What keeps a leaf square: strut, wire or sheet, and the joint that a strut's end leans on."""

from __future__ import annotations

import math

from pinfold.errors import NotFoundError
from pinfold.findings import Finding, keeps_to, work
from pinfold.formulas import braces, gates, screws, sheet_screws
from pinfold.formulas.walls import GRAVITY
from pinfold.plan.hanging import Bracing
from pinfold.studies.gates.records import BraceLie, GateFrame
from pinfold.studies.gates.sag import brace_pull, member_area
from pinfold.studies.gates.weight import leaf_weight, weight_figures
from pinfold.studies.stability.fencing.figures import BUCKLING, STEADY_DURATION, WIRE_SHARE
from pinfold.studies.stability.hanging.figures import SHEET_SAFETY, SKIN_SCREW, SKIN_SPACING, WET_SCREWS
from pinfold.tables.shelf import kind
from pinfold.units import NEWTON, MeterToFourth

WRONG = {
    Bracing.STRUT: "its foot stands at the latch: the leaf's weight pulls it apart, and its ends open; a strut runs "
    "from the lower hinge corner to the upper latch corner",
    Bracing.WIRE: "its lower end is at the hinges: the leaf's weight slackens it; a wire runs from the upper hinge "
    "corner to the lower latch corner",
}


def squared(frame: GateFrame) -> Finding:
    """Strut, wire or sheet under the weight that hangs at the latch side."""
    if frame.bracing is Bracing.SHEET or (frame.brace is None and frame.gate.kind.word("infill") == "sheet"):
        return _skin(frame)
    brace = frame.brace
    if brace is None:
        raise NotFoundError("nothing but its corners keeps the leaf square: brace it")
    force, steps = brace_pull(frame)
    if not brace.right:
        return Finding(
            check="", subject="", demand=force, capacity=0.0, unit=NEWTON, because=WRONG[brace.bracing], working=steps,
            figures=weight_figures(frame.gate), mend="turn it round: see the drawing",
        )  # fmt: skip
    return _strut(frame, brace) if brace.bracing is Bracing.STRUT else _wire(frame)


def _strut(frame: GateFrame, brace: BraceLie) -> Finding:
    made = frame.made
    force, steps = brace_pull(frame)
    length, crushing = math.hypot(*brace.axis), made.figure("crushing")
    held = work(
        braces.buckling_held, why="pressure under which it buckles, with its safety", modulus=made.value("modulus"),
        second_moment=_weak_way(frame), length=length, safety=BUCKLING.value,
    )  # fmt: skip
    capacity = min(held.number, member_area(frame) * crushing.value)
    return Finding(
        check="", subject="", demand=force, capacity=capacity, unit=NEWTON, because="a strut, pressed",
        working=(*steps, held),
        figures=(*weight_figures(frame.gate), ("stress along the strut", crushing),
                 ("modulus", made.figure("modulus")), ("buckling", BUCKLING)),
        mend="" if keeps_to(force, capacity) else "a stouter strut, held to a middle rail, or a lighter leaf",
    )  # fmt: skip


def _weak_way(frame: GateFrame) -> MeterToFourth:
    """Second moment of a member the way it bends most easily."""
    wide, section = frame.gate.kind.value("member_width"), frame.made.word("section")
    if section == "board":
        return float(wide * frame.made.value("thickness") ** 3 / 12)
    inner = wide - 2 * frame.gate.kind.value("member_wall")
    return float((wide**4 - inner**4) * (math.pi / 64 if section == "pipe" else 1 / 12))


def _wire(frame: GateFrame) -> Finding:
    wire = frame.gate.hanging.wire
    if wire is None:
        raise NotFoundError("what the wire brace is made of is not said; write wire in the gate's hanging")
    if not wire.has("breaking"):
        raise NotFoundError(f"no breaking strength is known for {wire.name}; write breaking beside it")
    force, steps = brace_pull(frame)
    breaking = wire.figure("breaking")
    capacity = WIRE_SHARE.value * breaking.value
    return Finding(
        check="", subject="", demand=force, capacity=capacity, unit=NEWTON,
        because="a wire with a turnbuckle, pulled", working=steps,
        figures=(*weight_figures(frame.gate), (f"breaking strength of {wire.name}", breaking), ("share", WIRE_SHARE)),
        mend="" if keeps_to(force, capacity) else "a stouter wire, two strands, or a strut",
    )  # fmt: skip


def _skin(frame: GateFrame) -> Finding:
    """A sheet's screws along its edges, each with its part of the weight at the latch side."""
    if not frame.made.has("strength"):
        raise NotFoundError("screws of a sheet on a wooden frame are not reckoned")
    size, screw, weight = frame.size, kind("screws", SKIN_SCREW), leaf_weight(frame.gate)
    sheet = kind("walls", "sheet-on-frame")
    if not sheet.has("sheet_thickness"):
        raise NotFoundError("how thick the steel of the sheet is is not known")
    load = weight.mass * GRAVITY * weight.reach / size.meters(size.width)
    each = work(
        gates.skin_screw_force, why="each screw along the edges", load=load, height=size.meters(size.height),
        spacing=SKIN_SPACING.value,
    )  # fmt: skip
    strength = frame.made.figure("strength")
    torn = work(
        sheet_screws.sheet_shear, why="one screw through the sheet", head_thickness=sheet.value("sheet_thickness"),
        point_thickness=frame.gate.kind.value("member_wall"), diameter=screw.value("diameter"),
        head_strength=strength.value, point_strength=strength.value,
    )  # fmt: skip
    capacity = min(torn.number, screw.value("shears")) / SHEET_SAFETY.value
    return Finding(
        check="", subject="", demand=each.number, capacity=capacity, unit=NEWTON,
        because=f"the sheet keeps the leaf square, {screw.says} every 30 cm (12 in) along all its edges",
        working=(each, torn),
        figures=(*weight_figures(frame.gate), ("spacing of screws", SKIN_SPACING), ("tensile strength", strength),
                 ("safety", SHEET_SAFETY), ("sheet", sheet.figure("sheet_thickness"))),
        mend="" if keeps_to(each.number, capacity) else "screws nearer together, or a strut behind the sheet",
    )  # fmt: skip


def jointed(frame: GateFrame) -> Finding:
    """Screws at the end of a wooden strut: the part of its force that its cut does not bear."""
    brace, made = frame.brace, frame.made
    if brace is None or brace.bracing is not Bracing.STRUT:
        raise NotFoundError("the leaf has no strut whose ends lean on a joint")
    if made.word("material") != "wood":
        raise NotFoundError("what a weld or a fitting holds goes by who makes it")
    force, steps = brace_pull(frame)
    aslant = force * (math.sin(brace.angle) if brace.cut else math.cos(brace.angle))
    screw, count = kind("screws", made.word("screw")), made.figure("screws")
    half = made.value("thickness") / 2
    bearing = work(
        screws.wood_bearing, why="wood under a screw", diameter=screw.value("diameter"),
        gravity=made.value("gravity"), angle=0.0,
    )  # fmt: skip
    pushed = work(
        screws.single_shear, why="one screw, half a thickness on each side", root=screw.value("root"),
        main_length=half, side_length=half, main_bearing=bearing.number, side_bearing=bearing.number,
        yield_stress=screw.value("yields"), angle=0.0,
    )  # fmt: skip
    modes = pushed.result
    assert isinstance(modes, screws.Yielding)
    capacity = count.value * STEADY_DURATION.value * WET_SCREWS.value * modes.least
    return Finding(
        check="", subject="", demand=aslant, capacity=capacity, unit=NEWTON,
        because=f"{screw.says}, {count.value:.0f} at each end of the strut; its cut bears the rest",
        working=(*steps, bearing, pushed),
        figures=(*weight_figures(frame.gate), ("screws in a joint", count),
                 ("gravity of the wood", made.figure("gravity")), ("wet service", WET_SCREWS),
                 ("lasting load", STEADY_DURATION)),
        mend="" if keeps_to(aslant, capacity) else "more screws, a bolt, or a strut notched into the stile",
    )  # fmt: skip
