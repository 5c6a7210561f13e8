"""Digging, footing and the bars along it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from pinfold.geometry.profiles import area_above
from pinfold.plan.buildups import Footing
from pinfold.studies.quantities.laps import bar_count, bar_pieces
from pinfold.studies.quantities.lines import Count, line, plural, waste_of
from pinfold.studies.quantities.reach import Reach
from pinfold.studies.quantities.records import Quantity
from pinfold.tables.shelf import kind
from pinfold.units import CUBIC_METER, METER, CubicMeter, Meter, tape


def trench(reach: Reach) -> tuple[Quantity, ...]:
    """Ground dug out and put back, footing and its bars for one stretch of wall."""
    footing = reach.stretch.buildup.footing
    volumes = _volumes(reach)
    lines = [_work(reach, "trench", volumes.dug, volumes.note)]
    if volumes.back > 1e-9:
        lines.append(_work(reach, "backfill", volumes.back, "dug out less what footing and wall take up below ground"))
    if footing is not None:
        lines.append(_concrete(reach, footing, volumes))
        if footing.bars and footing.bar is not None:
            lines.append(_bars(reach, footing))
    return tuple(line for line in lines if not line.is_known or line.net > 1e-9)


@dataclass(frozen=True, kw_only=True)
class _Volumes:
    """What is dug, built and put back in one trench."""

    dug: CubicMeter
    strip: CubicMeter
    risers: CubicMeter
    back: CubicMeter
    note: str


def _volumes(reach: Reach) -> _Volumes:
    stretch, wall = reach.stretch, reach.wall
    footing = stretch.buildup.footing
    width = footing.width if footing else wall.thickness
    thickness = footing.thickness if footing else 0.0
    side = area_above(stretch.ground, 0.0) - math.fsum(step.length * step.footing_bottom for step in stretch.steps)
    risers = width * thickness * math.fsum(reach.risers) if _is_strip(footing) else 0.0
    strip = width * thickness * stretch.length
    dug = max(width * side, 0.0) + risers
    buried = max(reach.wall_area - reach.shown_area, 0.0)
    back = dug - strip - risers - min(wall.thickness, width) * buried
    note = f"{tape(width, reach.system)} wide, {tape(side / stretch.length, reach.system)} deep on average"
    return _Volumes(dug=dug, strip=strip, risers=risers, back=max(back, 0.0), note=note)


def _is_strip(footing: Footing | None) -> bool:
    return footing is not None and footing.kind.word("make") == "strip"


def _work(reach: Reach, name: str, net: CubicMeter, note: str) -> Quantity:
    return line(
        kind=kind("works", name), layer="trench", place=reach.stretch.name, unit=CUBIC_METER,
        count=lambda: Count(net=net, note=note),
    )  # fmt: skip


def _concrete(reach: Reach, footing: Footing, volumes: _Volumes) -> Quantity:
    mix = footing.kind.word("mix")
    size = f"{tape(footing.width, reach.system)} x {tape(footing.thickness, reach.system)}"
    note = f"{tape(reach.stretch.length, reach.system)} of {size}"
    if volumes.risers:
        note += f", and {plural(len(reach.risers), 'riser')} where it steps"
    return line(
        kind=kind("mixes", mix) if mix else footing.kind, layer="footing", place=reach.stretch.name, unit=CUBIC_METER,
        count=lambda: Count(net=volumes.strip + volumes.risers, note=note), waste=waste_of(footing.kind, "concrete"),
    )  # fmt: skip


def footing_bar_length(reach: Reach) -> Meter:
    """Length of one bar along the footing: the stretch, its risers, and half a lap where the next stretch goes on."""
    footing = reach.stretch.buildup.footing
    assert footing is not None
    assert footing.bar is not None
    lap = bar_count(reach.system, footing.bar).lap
    return reach.stretch.length + math.fsum(reach.risers) + reach.joined_ends * lap / 2


def _bars(reach: Reach, footing: Footing) -> Quantity:
    bar = footing.bar
    assert bar is not None

    def count() -> Count:
        rules = bar_count(reach.system, bar)
        pieces = bar_pieces(footing_bar_length(reach), rules)
        laps = tape(rules.lap, reach.system)
        note = f"{plural(footing.bars, 'bar')} along it, each of {plural(len(pieces), 'piece')} lapped {laps}"
        return Count(net=footing.bars * math.fsum(pieces), note=note, working=(rules.working,))

    return line(
        kind=bar, layer="footing", place=reach.stretch.name, unit=METER, count=count, waste=waste_of(bar, "bars")
    )
