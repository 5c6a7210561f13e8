"""Which changes of the plan are tried for which check."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from pinfold.plan.enclosure import Enclosure
from pinfold.studies.mending.between_levers import rails_stouter, wires_harder
from pinfold.studies.mending.fence_levers import (
    collar_wider,
    gate_collar_wider,
    gate_deeper,
    gate_post_stouter,
    gate_under,
    posts_closer,
    posts_deeper,
    posts_stouter,
)
from pinfold.studies.mending.gate_levers import (
    gate_brace_turned,
    gate_gap,
    gate_hinge,
    gate_other_post,
    gate_other_way,
    gate_two_leaves,
    gate_wire,
)
from pinfold.studies.mending.masonry_levers import (
    bars_higher,
    grout_higher,
    lap_longer,
    pads_wider,
    piers_closer,
    sheet_higher,
)
from pinfold.studies.mending.records import Lever, Weak
from pinfold.studies.mending.wall_levers import (
    bars_added,
    bars_closer,
    bars_stouter,
    footing_deeper,
    footing_thicker,
    footing_wider,
    joints_closer,
    mesh_lower,
    wall_lower,
    wall_thicker,
)
from pinfold.studies.stability.earthquakes.walls import UNDER as SHAKEN
from pinfold.studies.stability.pushes.walls import UNDER as PUSHED

Maker = Callable[[Enclosure, str], Lever | None]
"""Makes a lever for a build-up or gate by name; None where it has nothing to pull at."""
_BALANCE: tuple[Maker, ...] = (
    footing_wider, pads_wider, piers_closer, wall_thicker, footing_deeper, mesh_lower, wall_lower,
)  # fmt: skip
_LEAN: tuple[Maker, ...] = (wall_thicker, mesh_lower, wall_lower)
_SECTION: tuple[Maker, ...] = (bars_closer, bars_stouter, bars_added, wall_thicker, mesh_lower, wall_lower)
_POSTS: tuple[Maker, ...] = (posts_deeper, posts_closer, collar_wider, posts_stouter, mesh_lower)
_WALL_LEVERS: Mapping[str, tuple[Maker, ...]] = {
    "overturning": _BALANCE, "sliding": (*_BALANCE, footing_thicker),
    "bearing": (footing_wider, pads_wider, mesh_lower),
    "joints": (joints_closer,), "frost": (footing_deeper,), "dowel": (footing_thicker, bars_closer),
    "footing": (footing_thicker,), "shrinkage": (joints_closer,), "joint set-out": (), "skin bond": (),
    "change in the wall": (bars_higher, grout_higher, sheet_higher, *_LEAN), "lap": (lap_longer, bars_closer),
    "cover": (wall_thicker,), "shear at the bars": (bars_closer, *_LEAN), "span between bars": (bars_closer, *_LEAN),
    "panel between piers": (piers_closer, *_LEAN), "shear in a bed": _LEAN, "pressed edge": _LEAN, "slenderness": _LEAN,
    "skin tension": (wall_thicker, mesh_lower, wall_lower), "core shear": (wall_thicker, mesh_lower, wall_lower),
    "rail": (rails_stouter, posts_closer, mesh_lower), "wire": (posts_closer, mesh_lower), "tie": (mesh_lower,),
    "slack": (wires_harder, posts_closer),
}  # fmt: skip
_POST_LEVERS: Mapping[str, tuple[Maker, ...]] = {
    "embedment": _POSTS, "bending": (posts_stouter, posts_closer, mesh_lower), "frost": (posts_deeper,),
    "anchorage": (posts_closer, wall_thicker, mesh_lower), "deflection": (posts_stouter, posts_closer, mesh_lower),
    "shear": (posts_stouter, posts_closer, mesh_lower), "brace": (),
}  # fmt: skip
_GATE_LEVERS: Mapping[str, tuple[Maker, ...]] = {
    "embedment": (gate_deeper, gate_collar_wider), "frost": (gate_deeper,),
    "swing": (gate_under, gate_other_way, gate_other_post), "bending": (gate_post_stouter,),
    "deflection": (gate_post_stouter,), "hinge": (gate_two_leaves,), "hinge screws": (gate_hinge, gate_two_leaves),
    "leaf square": (gate_brace_turned, gate_wire), "strut joint": (gate_wire, gate_two_leaves),
    "sag": (gate_brace_turned, gate_wire, gate_two_leaves), "latch gap": (gate_gap,),
}  # fmt: skip


def levers_for(plan: Enclosure, weak: Weak) -> tuple[Lever, ...]:
    """Every lever worth trying for a weak check, those with something left to change."""
    makers = _makers(weak)
    made = (make(plan, weak.owner.name) for make in makers)
    return tuple(lever for lever in made if lever is not None and lever.steps)


def _makers(weak: Weak) -> tuple[Maker, ...]:
    check = _plain(weak.check)
    if weak.owner.table == "gate":
        return _GATE_LEVERS.get(check, (gate_deeper, gate_collar_wider, gate_post_stouter))
    if weak.part == "posts":
        return _POST_LEVERS.get(check, (posts_closer, posts_stouter, posts_deeper, mesh_lower))
    return _WALL_LEVERS.get(check, (*_SECTION, footing_wider, footing_thicker))


def _plain(check: str) -> str:
    """A check's own name, whatever acts."""
    return check.removesuffix(f" {PUSHED}").removesuffix(f" {SHAKEN}")
