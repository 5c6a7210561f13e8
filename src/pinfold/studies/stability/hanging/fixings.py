"""Screws, lag screws and bolts of a hinge, in wood and thin steel: what the leaf's weight and the wind ask of them."""

from __future__ import annotations

import math
from typing import NamedTuple

from pinfold.errors import NotFoundError
from pinfold.findings import Finding, Step, keeps_to, work
from pinfold.formulas import bolts, gates, screws, sheet_screws
from pinfold.formulas.walls import GRAVITY
from pinfold.studies.gates.frame import frame_of
from pinfold.studies.gates.latching import hinge_places
from pinfold.studies.gates.records import GateFrame
from pinfold.studies.gates.weight import leaf_weight, weight_figures
from pinfold.studies.stability.factors import Named
from pinfold.studies.stability.fencing.figures import STEADY_DURATION, WIND_DURATION
from pinfold.studies.stability.gates import Hung
from pinfold.studies.stability.hanging.bolted import bolted
from pinfold.studies.stability.hanging.figures import SHEET_SAFETY, WET_SCREWS, WET_WASHERS
from pinfold.studies.stability.hanging.records import Asked, Held
from pinfold.studies.stability.leaves import leaf_band
from pinfold.tables.shelf import Kind, kind, shelf
from pinfold.units import Meter, Newton, Ratio, System

NOT_RECKONED = {
    "weld": "what a weld holds goes by who welds it",
    "clamp": "what a clamp holds is its maker's to say",
}
_NEEDS = {"wood": "wood", "sheet": "steel", "through": "steel"}
"""What screws and bolts hold in, by where they go."""


def hinge_of(frame: GateFrame) -> Kind:
    """The hinge that the plan names, or the usual one for leaf and post.

    Raises:
        NotFoundError: none is usual for them.
    """
    named = frame.gate.hanging.hinge
    if named is not None:
        return named
    wanted = f"{frame.made.word('material')}/{frame.gate.post.word('material')}"
    found = next((each for each in shelf("hinges").values() if each.word("usual") == wanted), None)
    if found is None:
        raise NotFoundError(f"no hinge is usual for a leaf on its post ({wanted}); write hinge in the gate's hanging")
    return found


def suits(hinge: Kind, leaf: str, post: str) -> bool:
    """Whether a hinge's screws or bolts hold in the material of leaf and post and are reckoned."""
    words = ((hinge.word("leaf"), leaf), (hinge.word("post"), post))
    return all(word not in NOT_RECKONED and _NEEDS[kind("screws", word).word("into")] == made for word, made in words)


def asked_of(hung: Hung, system: System) -> Asked:
    """What one hinge asks: weight and couple for good, and its quarter of the wind on the leaf."""
    frame = frame_of(hung.gate, system)
    size, places, weight = frame.size, hinge_places(frame), leaf_weight(hung.gate)
    couple = work(
        gates.hinge_couple, why="the upper hinge pulled, the lower pushed", weight=weight.mass * GRAVITY,
        reach=weight.reach, spacing=size.meters(places.upper - places.lower),
    )  # fmt: skip
    band, steps, figures = leaf_band(hung.fence, hung.place, hung.post)
    service = hung.fence.factors.service
    wind = service.value * band.pressure * band.width * (band.top - band.bottom) / 2
    return Asked(
        level=couple.number, weight=weight.mass * GRAVITY, wind=wind, steps=(couple, *steps),
        figures=(*weight_figures(hung.gate), *figures, ("factor on the wind", service)),
    )  # fmt: skip


def on_leaf(hung: Hung, system: System) -> Finding:
    """Screws of one hinge in the leaf's stile: pushed by weight and couple, pulled by the wind."""
    frame = frame_of(hung.gate, system)
    hinge, asked = hinge_of(frame), asked_of(hung, system)
    thick = frame.made.value("thickness") if frame.made.has("thickness") else frame.gate.kind.value("member_wall")
    held = _held(hinge, "leaf", frame, _Behind(frame.made.word("material"), thick))
    return _used(hinge, "leaf", asked, held)


def on_post(hung: Hung, system: System) -> Finding:
    """Screws or hook of one hinge in the post."""
    frame = frame_of(hung.gate, system)
    hinge, asked, post = hinge_of(frame), asked_of(hung, system), hung.post.kind
    thick = post.value("wall") if post.word("material") == "steel" else post.value("width")
    return _used(hinge, "post", asked, _held(hinge, "post", frame, _Behind(post.word("material"), thick)))


class _Behind(NamedTuple):
    """What a hinge is fixed to: wood or steel, and how thick."""

    material: str
    thick: Meter


def _held(hinge: Kind, where: str, frame: GateFrame, behind: _Behind) -> Held:
    word = hinge.word(where)
    if word in NOT_RECKONED:
        raise NotFoundError(
            f"{hinge.says}: {NOT_RECKONED[word]}; write hinge_capacity beside the gate, or another hinge"
        )
    screw = kind("screws", word)
    into = screw.word("into")
    if _NEEDS[into] != behind.material:
        raise NotFoundError(
            f"{hinge.says}: {screw.says} holds in {_NEEDS[into]}, and the {where} is of {behind.material}; write "
            "another hinge"
        )
    if into == "wood":
        return _in_wood(hinge, screw, behind.thick)
    return (_in_steel if into == "sheet" else bolted)(hinge, screw, frame, behind.thick)


def _in_wood(hinge: Kind, screw: Kind, thick: Meter) -> Held:
    gravity, through = kind("frames", "board-frame").figure("gravity"), screw.word("form") == "bolt"
    deep = thick if through else min(screw.value("length") - hinge.value("plate"), thick)
    across = math.pi / 2 if screw.value("diameter") >= screws.QUARTER_INCH - 1e-9 else 0.0
    bearing = work(
        screws.wood_bearing, why="wood under the screw", diameter=screw.value("diameter"), gravity=gravity.value,
        angle=across,
    )  # fmt: skip
    pushed = work(
        screws.single_shear, why="one screw pushed, mode by mode", root=screw.value("root"), main_length=deep,
        side_length=hinge.value("plate"), main_bearing=bearing.number, side_bearing=hinge.value("bearing"),
        yield_stress=screw.value("yields"), angle=across,
    )  # fmt: skip
    modes = pushed.result
    assert isinstance(modes, screws.Yielding)
    names = [name for name in ("diameter", "root", "thread", "head", "yields") if screw.has(name)]
    pull, pulled, more = _under_washer(screw) if through else _by_thread(screw, gravity.value, deep)
    return Held(
        pulled=pull, pushed=WET_SCREWS.value * modes.least, wood=True, steps=(bearing, pushed, pulled),
        figures=(("gravity of the wood", gravity), *((f"{name} of the screw", screw.figure(name)) for name in names),
                 ("plate of the hinge", hinge.figure("plate")), ("wet service", WET_SCREWS), *more),
    )  # fmt: skip


def _by_thread(screw: Kind, gravity: Ratio, deep: Meter) -> tuple[Newton, Step, Named]:
    law = screws.lag_withdrawal if screw.word("form") == "lag" else screws.screw_withdrawal
    pulled = work(law, why="one screw pulled, by its thread", diameter=screw.value("diameter"), gravity=gravity)
    return WET_SCREWS.value * pulled.number * min(screw.value("thread"), deep), pulled, ()


def _under_washer(bolt: Kind) -> tuple[Newton, Step, Named]:
    stress = kind("frames", "board-frame").figure("washer")
    pulled = work(
        bolts.washer_hold, why="one bolt pulled, by its washer", outside=bolt.value("head"),
        hole=bolt.value("diameter"), stress=stress.value,
    )  # fmt: skip
    return WET_WASHERS.value * pulled.number, pulled, (("under a washer", stress), ("washers wet", WET_WASHERS))


def _in_steel(hinge: Kind, screw: Kind, frame: GateFrame, wall: Meter) -> Held:
    """Thin steel behind a hinge plate; the leaf's strength stands for the post's too."""
    diameter, plate = screw.value("diameter"), hinge.value("plate")
    behind, strength = frame.made.figure("strength"), hinge.figure("strength")
    torn = work(
        sheet_screws.sheet_shear, why="one screw pushed", head_thickness=plate, point_thickness=wall,
        diameter=diameter, head_strength=strength.value, point_strength=behind.value,
    )  # fmt: skip
    out = work(
        sheet_screws.pull_out, why="one screw out of the steel", thickness=wall, diameter=diameter,
        strength=behind.value,
    )  # fmt: skip
    over = work(
        sheet_screws.pull_over, why="the plate over its head", thickness=plate, head=screw.value("head"),
        strength=strength.value,
    )  # fmt: skip
    own = (screw.value("pulls_apart"), screw.value("shears"))
    return Held(
        pulled=min(out.number, over.number, own[0]) / SHEET_SAFETY.value,
        pushed=min(torn.number, own[1]) / SHEET_SAFETY.value, wood=False, steps=(torn, out, over),
        figures=(("tensile strength behind", behind), ("of the plate", strength), ("safety", SHEET_SAFETY),
                 ("what the screw pulls", screw.figure("pulls_apart")), ("shears", screw.figure("shears"))),
    )  # fmt: skip


def _used(hinge: Kind, where: str, asked: Asked, held: Held) -> Finding:
    """The share used of the screws, for good and in the wind, whichever is more."""
    count = hinge.figure(f"on_{where}")
    out = where == "post" and hinge.word("takes") == "out"
    push = asked.weight if out else math.hypot(asked.level, asked.weight)
    steady = asked.level if out else 0.0
    shares = []
    for wind, duration in ((0.0, STEADY_DURATION.value), (asked.wind, WIND_DURATION.value)):
        lasts = duration if held.wood else 1.0
        why = "with the wind" if wind else "for good"
        shares.append(
            work(
                screws.pulled_and_pushed, why=f"share used {why}", pull=steady + wind, push=push,
                withdrawal=count.value * lasts * held.pulled, lateral=count.value * lasts * held.pushed,
            )
        )  # fmt: skip
    worst, says = max(share.number for share in shares), kind("screws", hinge.word(where)).says
    return Finding(
        check="", subject="", demand=worst, capacity=1.0,
        because=f"{hinge.says}; on the {where} {count.value:.0f} × {says} at one hinge",
        working=(*asked.steps, *held.steps, *shares),
        figures=(*asked.figures, *held.figures, (f"screws on the {where}", count), ("lasting load", STEADY_DURATION),
                 ("wind", WIND_DURATION)),
        mend="" if keeps_to(worst, 1.0) else "more or longer screws, lag screws, hinges further apart, a lighter leaf",
    )  # fmt: skip
