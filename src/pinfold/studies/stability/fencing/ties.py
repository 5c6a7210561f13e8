"""Ties and staples that hold the mesh on rails and wires, or on posts alone, when the wind pulls it off."""

from __future__ import annotations

from functools import partial

from pinfold.findings import Finding, Step, keeps_to, work
from pinfold.formulas import fence_loads, wood
from pinfold.studies.stability.answers import Question, answered, governing, told, tried
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.factors import Named
from pinfold.studies.stability.fencing.bays import strips_of
from pinfold.tables.shelf import Kind, kind
from pinfold.units import NEWTON, Meter, Newton

CHECK = "tie"
LEFT_OUT = "ties on the posts beside the rails; ties that rust or are cut; the edge wires of the mesh"


def ties(fence: Exposed) -> tuple[Finding, ...]:
    """Ties of one stretch, the hardest pulled of them; nothing where no mesh hangs."""
    buildup = fence.stretch.buildup
    if buildup.posts is None or buildup.mesh is None:
        return ()
    question = Question(check=CHECK, subject=f"stretch {fence.stretch.name}", left_out=LEFT_OUT)
    return (answered(question, lambda: _worst(fence)),)


def _worst(fence: Exposed) -> Finding:
    buildup = fence.stretch.buildup
    assert buildup.posts is not None
    places: list[tuple[Kind, str, Meter]] = [
        (rail.kind, "on_rails", strip) for rail, strip in zip(buildup.rails, strips_of(buildup), strict=True)
    ]
    found = places or [(buildup.posts.kind, "on_posts", buildup.posts.spacing)]
    return governing(tried(partial(_pulled, fence, *each)) for each in found)


def _pulled(fence: Exposed, on: Kind, where: str, strip: Meter) -> Finding:
    tie = kind("fasteners", "staple" if on.word("material") == "wood" else "tie-wire")
    spacing = tie.figure(where)
    pulled = work(
        fence_loads.mesh_force, why="wind that pulls at one tie, with its factor",
        pressure=fence.factors.service.value * fence.wind.mesh, spacing=spacing.value, bottom=0.0, top=strip,
    )  # fmt: skip
    held, steps, figures = _held(tie)
    return Finding(
        check=CHECK, subject="", demand=pulled.number, capacity=held, unit=NEWTON,
        because=told(f"{tie.says}, as far apart as the take-off counts them", f"on {on.name}", *fence.wind.mesh_notes),
        working=(*fence.wind.mesh_working, pulled, *steps),
        figures=(*fence.figures, ("from tie to tie", spacing), *figures, *fence.factors.allowable),
        mend="" if keeps_to(pulled.number, held) else "ties nearer together, or a rail or wire more",
    )  # fmt: skip


def _held(tie: Kind) -> tuple[Newton, tuple[Step, ...], Named]:
    if tie.has("holds"):
        return tie.value("holds"), (), (("what a tie holds", tie.figure("holds")),)
    names = ("diameter", "leg", "gravity", "damp")
    leg = work(
        wood.nail_withdrawal, why="pull of one leg for its length in the wood", diameter=tie.value("diameter"),
        gravity=tie.value("gravity"),
    )  # fmt: skip
    held = 2 * tie.value("leg") * tie.value("damp") * leg.number
    return held, (leg,), tuple((f"{name} of a staple", tie.figure(name)) for name in names)
