"""Shear in posts of wood where they are held; steel is far from it."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial

from pinfold.errors import NotFoundError
from pinfold.findings import Finding, keeps_to, work
from pinfold.formulas import cantilevers, wood
from pinfold.studies.stability.answers import Question, answered, governing, told, tried
from pinfold.studies.stability.fences import listed
from pinfold.studies.stability.fencing.figures import WET_SHEAR, WIND_DURATION
from pinfold.studies.stability.fencing.sections import area_of
from pinfold.studies.stability.post_groups import Group, hardest
from pinfold.studies.stability.pulls import told_of
from pinfold.units import PASCAL

CHECK = "shear"
LEFT_OUT = "checks and splits at the ground, rot; holes for rails and bolts"


def shearing(groups: Iterable[Group]) -> tuple[Finding, ...]:
    """Posts of a kind of wood in a build-up together, the worst of them."""
    alike: dict[tuple[str, str], list[Group]] = {}
    for group in groups:
        if group.worst.kind.word("material") == "wood":
            alike.setdefault((group.fence.stretch.buildup.name, group.worst.kind.name), []).append(group)
    return tuple(_worst(some) for some in alike.values())


def _worst(groups: list[Group]) -> Finding:
    question = Question(
        check=CHECK, subject=listed(post for group in groups for post in group.posts), left_out=LEFT_OUT
    )  # fmt: skip
    return answered(question, lambda: governing(tried(partial(_of_group, group)) for group in hardest(groups)))


def _of_group(group: Group) -> Finding:
    """By the stress of the table along the grain, wet, the wind in it."""
    kind, pull, section = group.worst.kind, group.together, area_of(group.worst.kind)
    if section is None or not kind.has("table_shear"):
        raise NotFoundError(f"no width or shear stress is known for {kind.name}; write width and table_shear beside it")
    sheared = work(
        cantilevers.shear_stress, why="shear where the post is held, the ground's push on it not counted",
        force=pull.force, area=section.area, peak=section.peak,
    )  # fmt: skip
    allowed = work(
        wood.adjusted_stress, why="shear of the table with its factors", reference=kind.value("table_shear"),
        duration=WIND_DURATION.value, wet=WET_SHEAR.value,
    )  # fmt: skip
    return Finding(
        check=CHECK, subject="", demand=sheared.number, capacity=allowed.number, unit=PASCAL,
        because=told(told_of(group.wires), *group.fence.wind.mesh_notes), working=(*pull.working, sheared, allowed),
        figures=(*group.fence.figures, ("shear stress of its table", kind.figure("table_shear")),
                 ("load duration", WIND_DURATION), ("wet service", WET_SHEAR), *group.wires.figures,
                 *group.fence.factors.allowable),
        mend="" if keeps_to(sheared.number, allowed.number) else "a stouter post, closer posts or lower mesh",
    )  # fmt: skip
