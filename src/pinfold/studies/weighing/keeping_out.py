"""Whom an enclosure keeps out: through its mesh, under it, over it, by its gates."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.plan.buildups import Buildup
from pinfold.sources import weakest
from pinfold.studies.gates.frame import framed
from pinfold.studies.gates.leaf import leaf_size
from pinfold.studies.gates.passing import GateGap, Passes, gaps_of, passes
from pinfold.studies.layout.records import GatePlace, Layout
from pinfold.studies.weighing.records import Kept, Score, not_shown
from pinfold.tables.shelf import Kind, kind
from pinfold.units import Meter, System

Way = tuple[Passes, str]
"""Whether a way is open to it, and which way that is."""
Gaps = Mapping[str, tuple[GateGap, ...] | None]
"""Of each gate; None where its frame is not known."""


def kept_out(layout: Layout, animals: tuple[str, ...]) -> tuple[Kept, ...]:
    """Each animal at every build-up and gate; one way in is enough."""
    gaps = gaps_at(layout)
    return tuple(_kept(kind("passers", name), layout, gaps) for name in dict.fromkeys(animals))


def share_out(kept: Sequence[Kept], *, by_fence: bool = False) -> Score:
    """Share of some animals that is kept out.

    Args:
        kept: each of them; at least one
        by_fence: by wall, mesh and ground alone, as the gates are the same whatever is chosen
    """
    out = [each.fence_out if by_fence else each.is_out for each in kept]
    told = "; ".join(each.told_of_fence if by_fence else each.told for each in kept)
    figures = tuple(figure for each in kept for figure in each.figures)
    stopped, unknown = out.count(True), out.count(None)
    if unknown == len(out):
        return not_shown(told, figures)
    return Score(
        value=stopped / len(out), low=stopped / len(out), high=(stopped + unknown) / len(out), figures=figures,
        standing=weakest(figure.standing for _, figure in figures), because=told,
    )  # fmt: skip


def let_in(kept: Sequence[Kept]) -> tuple[str, ...]:
    """Whom the gates let in, or are not shown to keep out, and by which ways."""
    return tuple(f"{each.says}: {each.gates}" for each in kept if each.gates)


def gaps_at(layout: Layout) -> Gaps:
    """The gaps of every gate."""
    return {place.gate.name: _gaps(place, layout.plan.units) for place in layout.gates.values()}


def _gaps(place: GatePlace, system: System) -> tuple[GateGap, ...] | None:
    """Of a gate; None where its frame is not known."""
    try:
        return gaps_of(framed(place.gate, leaf_size(place.gate, system)), place)
    except (NotFoundError, OutOfRangeError):
        return None


def _kept(who: Kind, layout: Layout, gaps: Gaps) -> Kept:
    buildups = dict.fromkeys(stretch.buildup for stretch in layout.stretches)
    fence, gates = tuple(by_fence(who, buildups)), tuple(by_gates(who, layout, gaps))
    return Kept(
        name=who.name, says=who.says, fence=_told(fence), gates=_told(gates),
        is_out=is_out(found for found, _ in (*fence, *gates)),
        figures=tuple((f"{who.says}, {name}", figure) for name, figure in who.figures.items()),
    )  # fmt: skip


def is_out(ways: Iterable[Passes]) -> bool | None:
    """Whether somebody is kept out: one way in is enough; None where no way is open and some is not shown."""
    found = set(ways)
    return False if Passes.PASSES in found else None if Passes.NOT_SHOWN in found else True


def _told(ways: Iterable[Way]) -> str:
    """The ways that are open, or those not shown; empty where all are closed."""
    open_ = dict.fromkeys(way for found, way in ways if found is Passes.PASSES)
    unknown = dict.fromkeys(way for found, way in ways if found is Passes.NOT_SHOWN)
    return ", ".join(open_) or (f"NOT SHOWN {', '.join(unknown)}" if unknown else "")


def elsewhere(who: Kind, layout: Layout, name: str, gaps: Gaps) -> Iterator[Way]:
    """By the gates and by all build-ups but one: the same whatever that one is."""
    yield from by_gates(who, layout, gaps)
    for buildup in dict.fromkeys(each.buildup for each in layout.stretches if each.buildup.name != name):
        for found, way in by_fence(who, (buildup,)):
            yield found, f"{way} at {buildup.name}"


def let_in_by(buildup: Buildup, animals: Iterable[str]) -> tuple[str, ...]:
    """Whom a build-up lets in, or is not shown to keep out, and by which ways."""
    return _let_in(animals, lambda who: by_fence(who, (buildup,)))


def let_in_beside(layout: Layout, name: str, animals: Iterable[str]) -> tuple[str, ...]:
    """Whom gates and all build-ups but one let in, or are not shown to keep out, and by which ways."""
    gaps = gaps_at(layout)
    return _let_in(animals, lambda who: elsewhere(who, layout, name, gaps))


def _let_in(animals: Iterable[str], ways: Callable[[Kind], Iterable[Way]]) -> tuple[str, ...]:
    found = ((who, _told(tuple(ways(who)))) for who in (kind("passers", name) for name in animals))
    return tuple(f"{who.says}: {told}" for who, told in found if told)


def by_fence(who: Kind, buildups: Iterable[Buildup]) -> Iterator[Way]:
    """Over, under and through build-ups."""
    for buildup in buildups:
        yield over(who, buildup)
        yield under(who, buildup)
        yield through(who, buildup)


def by_gates(who: Kind, layout: Layout, gaps: Gaps) -> Iterator[Way]:
    """In by the gates: through their gaps and their mesh, and over them."""
    for place in layout.gates.values():
        found = gaps[place.gate.name]
        if found is None:
            yield Passes.NOT_SHOWN, f"at {place.gate.name}"
        for gap in found or ():
            yield passes(who, gap), f"{gap.name} {place.gate.name}" if gap.name != "mesh" else f"by {place.gate.name}"
        yield _compared(who, "over", place.gate.height, lambda at, own: own >= at), f"over {place.gate.name}"


def over(who: Kind, buildup: Buildup) -> Way:
    """Jumping or climbing; of mesh above a wall it must climb both."""
    climbs, mesh = who.word("climbs"), buildup.mesh is not None
    scaled = climbs == "rough" or (climbs == "mesh" and mesh and _reaches(who, buildup.wall_height))
    if scaled:
        return Passes.PASSES, "climbs"
    return _compared(who, "over", buildup.height, lambda at, own: own >= at), "over"


def _reaches(who: Kind, height: Meter) -> bool:
    """Whether it gets up to the mesh on a wall."""
    return not who.has("over") or who.value("over") >= height


def under(who: Kind, buildup: Buildup) -> Way:
    """Digging: an apron, or a footing or wall, that goes further stops it."""
    depth = buildup.footing.below_ground if buildup.footing is not None else 0.0
    guard = max(depth, buildup.mesh.apron if buildup.mesh is not None else 0.0)
    return _compared(who, "under", guard, lambda at, own: own > at), "under"


def through(who: Kind, buildup: Buildup) -> Way:
    """Through one opening of the mesh, from wire to wire as meshes are named and as gates are asked."""
    if buildup.mesh is None:
        return Passes.STOPPED, "through"
    made, where = buildup.mesh.kind, "through"
    if not (made.has("opening_wide") and made.has("opening_high")):
        return Passes.NOT_SHOWN, where
    small, large = sorted((made.value("opening_wide"), made.value("opening_high")))
    gap = GateGap(name="mesh", width=small, long=large > _LONG * small)
    return passes(who, gap), where


_LONG = 1.5
"""An opening so many times as long as wide counts as a slot."""


def _compared(who: Kind, name: str, at: Meter, passes_at: Callable[[Meter, Meter], bool]) -> Passes:
    if not who.has(name):
        return Passes.NOT_SHOWN
    return Passes.PASSES if passes_at(at, who.value(name)) else Passes.STOPPED
