"""What caps the wall: pieces along it, or the mix it is cast of, and what it is bedded in."""

from __future__ import annotations

from pinfold.plan.buildups import Coping
from pinfold.studies.quantities.lines import Count, line, waste_of
from pinfold.studies.quantities.reach import Reach
from pinfold.studies.quantities.records import Quantity
from pinfold.tables.shelf import kind
from pinfold.units import CUBIC_METER, METER, RATIO, Meter, tape


def coping(reach: Reach) -> tuple[Quantity, ...]:
    """Coping of one stretch; nothing where it has none."""
    cap = reach.stretch.buildup.coping
    if cap is None:
        return ()
    make, mix = cap.kind.word("make"), cap.kind.word("mix")
    if make == "cast":
        return (_cast(reach, cap, mix),)
    lines = [_board(reach, cap) if make == "board" else _pieces(reach, cap)]
    if mix and cap.kind.has("joint"):
        lines.append(_bed(reach, cap, mix))
    return tuple(lines)


def coping_length(reach: Reach) -> Meter:
    """Along the wall's top, with an overhang at each open end."""
    cap = reach.stretch.buildup.coping
    overhang = cap.kind.value("overhang") if cap and cap.kind.has("overhang") else 0.0
    return reach.course_length + overhang * reach.stretch.open_ends


def _pieces(reach: Reach, cap: Coping) -> Quantity:
    def count() -> Count:
        joint = cap.kind.value("joint") if cap.kind.has("joint") else 0.0
        length = coping_length(reach)
        net = length / (cap.kind.value("unit_length") + joint)
        note = f"{tape(length, reach.system)} of pieces {tape(cap.kind.value('unit_length'), reach.system)} long"
        return Count(net=net, note=note)

    return line(
        kind=cap.kind, layer="coping", place=reach.stretch.name, unit=RATIO, count=count,
        waste=waste_of(cap.kind, "coping"),
    )  # fmt: skip


def _board(reach: Reach, cap: Coping) -> Quantity:
    length = coping_length(reach)
    return line(
        kind=cap.kind, layer="coping", place=reach.stretch.name, unit=METER,
        count=lambda: Count(net=length, note=f"{tape(cap.width, reach.system)} wide"),
        waste=waste_of(cap.kind, "sticks"),
    )  # fmt: skip


def _cast(reach: Reach, cap: Coping, mix: str) -> Quantity:
    size = f"{tape(cap.width, reach.system)} x {tape(cap.thickness, reach.system)}"
    return line(
        kind=kind("mixes", mix), layer="coping", place=reach.stretch.name, unit=CUBIC_METER,
        count=lambda: Count(net=coping_length(reach) * cap.width * cap.thickness, note=f"cast {size}"),
        waste=waste_of(cap.kind, "concrete"),
    )  # fmt: skip


def _bed(reach: Reach, cap: Coping, mix: str) -> Quantity:
    """A bed as thick as a joint over the wall's top, and the joints between pieces."""

    def count() -> Count:
        joint = cap.kind.value("joint")
        pieces = coping_length(reach) / (cap.kind.value("unit_length") + joint)
        bed = reach.course_length * min(cap.width, reach.wall.thickness) * joint
        return Count(
            net=bed + pieces * joint * cap.width * cap.thickness,
            note=f"bed and joints of {tape(joint, reach.system)}",
        )

    return line(
        kind=kind("mixes", mix), layer="coping", place=reach.stretch.name, unit=CUBIC_METER, count=count,
        waste=kind("waste", "mortar-full").figure("waste"),
    )  # fmt: skip
