"""Does plaster make the wall stronger, and by how much: bare, coated, meshed and cracked, side by side."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.studies.stability.answers import in_words
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.ends import has_wall
from pinfold.studies.stability.skins.coated import Coated, stack_with_all
from pinfold.studies.stability.skins.holding import Held, bare, cracked, meshed, skinned
from pinfold.studies.stability.skins.shears import end_shear
from pinfold.studies.stability.skins.strengths import USUAL_MESH, dried
from pinfold.units import NewtonMeterPerMeter, Pascal, Ratio


@dataclass(frozen=True, kw_only=True)
class SkinRow:
    """One way the wall may stand.

    Attributes:
        way: bare wall, with one coat, with all coats, with mesh, tension skin cracked.
        cracks_at: moment at which it first cracks, by design.
        holds_up_to: the greatest moment it holds, by design.
        ratio: of what it holds to what the bare wall holds; None where that is nothing.
        governs: what sets it.
    """

    way: str
    cracks_at: NewtonMeterPerMeter
    holds_up_to: NewtonMeterPerMeter
    ratio: Ratio | None
    governs: str


@dataclass(frozen=True, kw_only=True)
class SkinComparison:
    """A build-up with coats, at its worst step just above the ground.

    Attributes:
        buildup: its name.
        stretch: where the wind asks most of it.
        demand: moment of the wind there, with its factor.
        rows: bare wall first; empty where nothing could be shown.
        drying: greatest tension that a coat's own drying makes in it, and it can take by itself.
        tension: that coat's strength.
        end_shear: under the end of a drying skin.
        bond: against it.
        missing: why nothing is shown; empty otherwise.
    """

    buildup: str
    stretch: str
    demand: NewtonMeterPerMeter = 0.0
    rows: tuple[SkinRow, ...] = ()
    drying: Pascal = 0.0
    tension: Pascal = 0.0
    end_shear: Pascal = 0.0
    bond: Pascal = 0.0
    missing: str = ""


def compare_skins(standings: Mapping[str, Exposed]) -> tuple[SkinComparison, ...]:
    """One comparison for each build-up that has a wall with coats."""
    by_buildup: dict[str, list[Exposed]] = {}
    for ask in standings.values():
        if has_wall(ask.stretch) and ask.stretch.buildup.coats:
            by_buildup.setdefault(ask.stretch.buildup.name, []).append(ask)
    return tuple(_compared(name, asks) for name, asks in by_buildup.items())


def _compared(name: str, asks: list[Exposed]) -> SkinComparison:
    try:
        steps = [Coated(case=case) for ask in asks for case in ask.cases]
        return _side_by_side(name, max(steps, key=lambda step: step.moment))
    except NotFoundError as missing:
        return SkinComparison(buildup=name, stretch=asks[0].stretch.name, missing=str(missing))
    except OutOfRangeError as outside:
        return SkinComparison(buildup=name, stretch=asks[0].stretch.name, missing=in_words(outside))


def _side_by_side(name: str, wall: Coated) -> SkinComparison:
    stack = stack_with_all(wall.case.piece.buildup)
    coats = [layer for layer in stack.layers if layer.kind.has("relaxation")]
    pulled = max(coats, key=lambda layer: dried(stack, layer).number / layer.kind.value("tension"))
    end, bond = end_shear(stack)
    return SkinComparison(
        buildup=name, stretch=wall.case.of.stretch.name, demand=wall.moment, rows=_rows(wall),
        drying=dried(stack, pulled).number, tension=pulled.kind.value("tension"), end_shear=end.number, bond=bond,
    )  # fmt: skip


def _rows(wall: Coated) -> tuple[SkinRow, ...]:
    coats, base = wall.case.piece.buildup.coats, bare(wall)
    mesh, planned = meshed(wall)
    ways: list[tuple[str, Callable[[], Held]]] = [
        ("bare wall", lambda: base),
        (f"with the first coat, {coats[0].kind.name}", lambda: skinned(wall, coats[:1])),
        ("with all coats", lambda: skinned(wall, coats)),
        ("with all coats, their drying not counted", lambda: skinned(wall, coats, drying=False)),
        ("with all coats and their mesh" if planned else f"as if {USUAL_MESH} were in the first coat", lambda: mesh),
        ("with all coats, the pulled skin cracked", lambda: cracked(wall)),
    ]  # fmt: skip
    return tuple(_row(way, held(), base) for way, held in ways)


def _row(way: str, held: Held, base: Held) -> SkinRow:
    return SkinRow(
        way=way, cracks_at=held.cracks.moment, holds_up_to=held.holds.moment,
        ratio=held.holds.moment / base.holds.moment if base.holds.moment > 0 else None, governs=held.holds.governs,
    )  # fmt: skip
