"""Gates pushed at and climbed: their posts, and the hinges under the leaf, who hangs on it and who leans against it."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import partial

from pinfold.errors import NotFoundError
from pinfold.figures import given
from pinfold.findings import Finding, work
from pinfold.formulas import fence_loads
from pinfold.formulas import gates as formulas
from pinfold.plan.enclosure import Gate
from pinfold.studies.layout.records import GatePlace
from pinfold.studies.stability.answers import Question, answered, governing, told, tried
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.factors import HINGE_INSET, Named
from pinfold.studies.stability.gates import Hung, leaf_weight
from pinfold.studies.stability.pulls import Wires
from pinfold.studies.stability.pushes.posts import NOT_IN_IT, Pushed, worst_of
from pinfold.studies.stability.pushes.walls import UNDER
from pinfold.studies.stability.pushes.who import Push, hanging, pushers, pushes_at
from pinfold.units import NEWTON, Newton

HINGE = f"hinge {UNDER}"


def pushed_gate(posts: tuple[Hung, ...]) -> tuple[Finding, ...]:
    """Both posts of a gate and its hinges under the worst of all pushes."""
    place = posts[0].place
    return (
        *worst_of([_pushed(hung) for hung in posts], f"gate {place.gate.name}"), _hinges(place, posts[0].fence)
    )  # fmt: skip


def _pushed(hung: Hung) -> Pushed:
    post, place = hung.post, hung.place
    try:
        wires = hung.along[0]
    except NotFoundError as missing:
        wires = Wires(unknown=str(missing))
    return Pushed(
        subject=f"post {post.name}", post=post, fence=hung.fence, wires=wires, held=0.0,
        top=max(place.hang + place.gate.height - post.ground, 0.0),
    )  # fmt: skip


def _hinges(place: GatePlace, fence: Exposed) -> Finding:
    gate = place.gate
    question = Question(
        check=HINGE, subject=f"gate {gate.name}", left_out=f"{NOT_IN_IT}; screws and welds; how the leaf itself bends"
    )  # fmt: skip

    def of_all() -> Finding:
        hung, figures = max((hanging(one) for one in pushers(fence.place)), key=lambda found: found[0])
        pushes = pushes_at(fence.family, fence.place)
        return governing(tried(partial(_force, gate, push, (hung, figures))) for push in pushes)

    return answered(question, of_all)


def _force(gate: Gate, push: Push, hanger: tuple[Newton, Named]) -> Finding:
    """The upper hinge pulled by the leaf and who hangs at its free end, and pushed square by who leans there."""
    hung, hanging_figures = hanger
    weight, figures, note = leaf_weight(gate)
    apart = gate.height - 2 * HINGE_INSET.value
    own = work(
        formulas.hinge_couple, why="the leaf pulls at the upper hinge", weight=weight, reach=gate.leaf_width / 2,
        spacing=apart,
    )  # fmt: skip
    ridden = work(
        formulas.hinge_couple, why="who climbs hangs at the free end", weight=hung, reach=gate.leaf_width, spacing=apart
    )
    upright = work(
        formulas.hinge_force, why="either hinge may carry all the weight", couple=own.number + ridden.number,
        vertical=weight + hung,
    )  # fmt: skip
    square = push.factors.service.value * (push.point + push.line * gate.leaf_width)
    force = work(
        fence_loads.force_together, why="the push beside the hinge, square to the leaf", first=upright.number,
        second=square, angle=math.pi / 2,
    )  # fmt: skip
    carried = None if gate.hinge_capacity is None else given(gate.hinge_capacity, NEWTON)
    found = Finding(
        check="", subject="", demand=force.number, capacity=carried.value if carried else None, unit=NEWTON,
        because=told(*push.notes, note, "" if carried else _UNKNOWN, _LATCH), working=(own, ridden, upright, force),
        figures=(*push.figures, *hanging_figures, *figures, ("hinge from the edge", HINGE_INSET)),
    )  # fmt: skip
    fails = carried is not None and force.number > carried.value
    return replace(found, mend="stouter hinges, a third hinge or a lighter leaf" if fails else "")


_UNKNOWN = "what the hinges carry is not known: write hinge_capacity beside the gate, by their maker"
_LATCH = "latch and drop bolt must hold the same push"
