"""How far a leaf's latch side sinks: at once, by joints that bed, by wood that dries and creeps; with a spread."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

from pinfold.errors import NotFoundError
from pinfold.figures import Figure, practice
from pinfold.findings import Step, work
from pinfold.formulas import creep, gates
from pinfold.formulas.walls import GRAVITY
from pinfold.plan.hanging import Bracing
from pinfold.studies.gates.latching import BUILT, DRY
from pinfold.studies.gates.records import BraceLie, GateFrame
from pinfold.studies.gates.weight import leaf_weight, weight_figures
from pinfold.tables.shelf import kind
from pinfold.units import METER, RATIO, Meter, Newton, SquareMeter

LOW, HIGH = practice("0.5", RATIO, "least of what is likely"), practice("2", RATIO, "most: joints scatter that much")
BEDDING = practice("3 mm", METER, "knots, eyes and thimbles of a wire as they bed")


class SagTerm(NamedTuple):
    """One part of what the diagonal gives.

    Attributes:
        says: what gives.
        change: of the diagonal's length after years.
    """

    says: str
    change: Meter


@dataclass(frozen=True, kw_only=True)
class Sag:
    """What becomes of a leaf in years.

    Attributes:
        force: in strut or wire.
        terms: what gives.
        low: least that the latch side is likely to sink.
        likely: what is likely.
        high: most.
        take_up: of a turnbuckle, for the most.
        diagonals: by how much the two differ at the likely drop.
        steps: working.
        figures: what it rests on.
    """

    force: Newton
    terms: tuple[SagTerm, ...]
    low: Meter
    likely: Meter
    high: Meter
    take_up: Meter
    diagonals: Meter
    steps: tuple[Step, ...]
    figures: tuple[tuple[str, Figure], ...]


def sag_of(frame: GateFrame) -> Sag:
    """How far the latch side of a leaf sinks in years.

    Raises:
        NotFoundError: the leaf has no brace, its brace is the wrong way, or a figure is not known.
        OutOfRangeError: a formula refuses what is put in.
    """
    brace = frame.brace
    if brace is None:
        raise NotFoundError("a leaf without strut or wire sinks as far as its corners or its sheet's screws let it")
    if not brace.right:
        raise NotFoundError("a brace the wrong way round holds nothing")
    force, steps = brace_pull(frame)
    level, rise = brace.axis
    own = {"width": level, "height": rise}
    terms, more, figures = (_strut if brace.bracing is Bracing.STRUT else _wire)(frame, brace, force)
    change = math.fsum(term.change for term in terms)
    drop = work(gates.latch_drop, why="what is likely at the latch", change=change, **own)
    most = HIGH.value * drop.number
    turned = work(gates.take_up, why="turnbuckle or wedge for the most of it", drop=most, **own)
    size = frame.size
    apart = work(
        gates.diagonal_gap, why="what the leaf's diagonals show of it", drop=drop.number,
        width=size.meters(size.width), height=size.meters(size.height),
    )  # fmt: skip
    return Sag(
        force=force, terms=terms, low=LOW.value * drop.number, likely=drop.number, high=most, take_up=turned.number,
        diagonals=apart.number, steps=(*steps, *more, drop, turned, apart),
        figures=(*weight_figures(frame.gate), *figures, ("least of the sag", LOW), ("most of the sag", HIGH)),
    )  # fmt: skip


def brace_pull(frame: GateFrame) -> tuple[Newton, tuple[Step, ...]]:
    """Force along the strut or wire of a leaf; the weight at the latch side is what its center of gravity asks there.

    Raises:
        NotFoundError: the leaf has no brace, or its mass is not known.
    """
    if frame.brace is None:
        raise NotFoundError("the leaf has neither strut nor wire")
    weight = leaf_weight(frame.gate)
    load = weight.mass * GRAVITY * weight.reach / frame.size.meters(frame.size.width)
    level, rise = frame.brace.axis
    step = work(gates.brace_force, why="along the brace, corners as hinges", load=load, width=level, height=rise)
    return step.number, (step,)


def member_area(frame: GateFrame) -> SquareMeter:
    """Section of one member.

    Raises:
        NotFoundError: its wall or thickness is not known.
    """
    wide, section = frame.gate.kind.value("member_width"), frame.made.word("section")
    if section == "board":
        return wide * frame.made.value("thickness")
    inner = wide - 2 * frame.gate.kind.value("member_wall")
    return (wide**2 - inner**2) * (math.pi / 4 if section == "pipe" else 1.0)


_Given = tuple[tuple[SagTerm, ...], tuple[Step, ...], tuple[tuple[str, Figure], ...]]


def _strut(frame: GateFrame, brace: BraceLie, force: Newton) -> _Given:
    made = frame.made
    pressed = work(
        creep.shortened, why="the strut itself, at once", force=force, length=math.hypot(*brace.axis),
        area=member_area(frame), modulus=made.value("modulus"),
    )  # fmt: skip
    later = work(creep.crept, why="and after years", at_once=pressed.number, creep=made.value("creep"))
    terms = [SagTerm("the strut, pressed for years", later.number)]
    steps = [pressed, later]
    names = ["modulus", "creep", "play"]
    if made.word("material") == "wood":
        more, working = _joints(frame, brace, force)
        terms, steps = terms + more, steps + working
        names += ["density", "across", "screws", "joint_creep"]
    if made.value("play") > 0:
        terms.append(SagTerm("both ends of it as they bed", 2 * made.value("play")))
    return tuple(terms), tuple(steps), tuple((name.replace("_", " "), made.figure(name)) for name in names)


def _joints(frame: GateFrame, brace: BraceLie, force: Newton) -> tuple[list[SagTerm], list[Step]]:
    """Slip of the screws at both ends of a wooden strut, and the drying of the wood that it bears on."""
    made = frame.made
    screw = kind("screws", made.word("screw"))
    stiff = work(creep.slip_modulus, why="one screw", density=made.value("density"), diameter=screw.value("diameter"))
    aslant = force * (math.sin(brace.angle) if brace.cut else math.cos(brace.angle))
    at_once = 2 * aslant / (made.value("screws") * stiff.number)
    slipped = work(creep.crept, why="slip of both ends, after years", at_once=at_once, creep=made.value("joint_creep"))
    dried = work(
        creep.swollen, why="stiles or rails that dry", width=frame.size.meters(frame.member),
        coefficient=made.value("across"), wet=BUILT.value, dry=DRY.value,
    )  # fmt: skip
    terms = [SagTerm("screws that slip", slipped.number), SagTerm("wood that dries across its grain", dried.number)]
    return terms, [stiff, slipped, dried]


def _wire(frame: GateFrame, brace: BraceLie, force: Newton) -> _Given:
    wire = frame.gate.hanging.wire
    if wire is None:
        raise NotFoundError("what the wire brace is made of is not said; write wire in the gate's hanging")
    area = math.pi / 4 * wire.value("diameter") ** 2
    longer = work(
        creep.shortened, why="the wire itself, longer", force=force, length=math.hypot(*brace.axis),
        area=area, modulus=wire.value("modulus"),
    )  # fmt: skip
    terms = (SagTerm("the wire, pulled", longer.number), SagTerm("its ends as they bed", BEDDING.value))
    return terms, (longer,), ((f"modulus of {wire.name}", wire.figure("modulus")), ("bedding of its ends", BEDDING))
