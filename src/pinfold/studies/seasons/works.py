"""The works of a plan that the season's rules are asked about: every mix in its layer, and what stands in the wind."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.plan.buildups import Buildup, Coat
from pinfold.plan.place import Family
from pinfold.studies.batching.cards import WORK_ORDER, is_mix
from pinfold.studies.layout.records import Layout
from pinfold.studies.lessons.applying import taught_kind
from pinfold.studies.lessons.records import Lessons
from pinfold.studies.lessons.strength_prior import strength_family
from pinfold.studies.quantities.records import Quantity
from pinfold.studies.quantities.take_off import take_off
from pinfold.studies.ripening.wanting import Placing
from pinfold.studies.seasons.gusts import MEAN_SHARE
from pinfold.studies.seasons.records import SeasonWork
from pinfold.studies.stability.building.green import green_speed
from pinfold.studies.stability.exposures import exposures_of
from pinfold.tables.shelf import Kind
from pinfold.units import Meter, MeterPerSecond

TRADES: Mapping[str, str] = {
    "concrete": "concrete", "grout": "grout", "mortar": "masonry", "plaster": "plaster", "bond": "plaster",
    "foamed": "foamed", "lime": "lime", "hydraulic-lime": "lime", "earth": "earth", "adobe": "earth",
    "stabilized-earth": "masonry",
}  # fmt: skip
"""Trade of the rules by family of strengths."""
_FENCE = ("mesh", "apron", "gate")
_WALLS = ("mortar", "wall")


def season_works(layout: Layout, lessons: Lessons | None = None) -> tuple[SeasonWork, ...]:
    """Every work of a plan that the season matters for, in order of work.

    Args:
        layout: the plan laid out
        lessons: of the site; None for what is thought before any test
    """
    lines = [each for each in take_off(layout) if is_mix(each) or each.layer in _FENCE]
    groups: dict[tuple[str, str, str], list[Quantity]] = {}
    coats = _coats_of(layout)
    for line in lines:
        coat = next(coats[line.place], None) if line.layer == "coat" and line.place in coats else None
        name = line.kind.name if is_mix(line) else ""
        groups.setdefault((line.layer, name, coat.kind.name if coat else ""), []).append(line)
    works = (_work(layout, key, group, lessons) for key, group in groups.items())
    return tuple(sorted(works, key=lambda work: WORK_ORDER.index(work.layer)))


def _coats_of(layout: Layout) -> dict[str, Iterator[Coat]]:
    """Coats of each stretch, in the order their mixes are taken off."""
    return {each.name: iter(each.buildup.coats) for each in layout.stretches if each.steps}


def _work(
    layout: Layout, key: tuple[str, str, str], group: list[Quantity], lessons: Lessons | None
) -> SeasonWork:  # fmt: skip
    layer, mix, coat_name = key
    places = tuple(dict.fromkeys(line.place for line in group))
    if not mix:
        return SeasonWork(layer=layer, says=layer, trades=("fence",), places=places)
    buildups = _buildups(layout, places)
    coat = next((coat for each in buildups for coat in each.coats if coat.kind.name == coat_name), None)
    placing = _placing(layer, group[0].kind, coat, buildups, lessons)
    green = layer in _WALLS
    return SeasonWork(
        layer=layer, says=f"{coat.kind.name if coat else layer} of {mix}",
        trades=(*_trade(placing.mix), *(("green",) if green else ())), placing=placing,
        dimension=_dimension(layer, buildups), places=places,
        green_speed=_slowest(layout, places) if green else None,
    )  # fmt: skip


def _buildups(layout: Layout, places: Iterable[str]) -> tuple[Buildup, ...]:
    named = {each.name: each.buildup for each in layout.stretches}
    named.update({each.run: each.buildup for each in layout.stretches if each.run not in named})
    return tuple(dict.fromkeys(named[place] for place in places if place in named))


def _placing(
    layer: str, mix: Kind, coat: Coat | None, buildups: tuple[Buildup, ...], lessons: Lessons | None
) -> Placing:  # fmt: skip
    wall = next((each.wall for each in buildups if each.wall is not None), None)
    return Placing(
        layer=layer, mix=mix if lessons is None else taught_kind(mix, lessons.figures),
        coat=None if coat is None else coat.kind, make=_make(layer, buildups),
        grouted=wall is not None and wall.grout != "none",
    )  # fmt: skip


def _make(layer: str, buildups: tuple[Buildup, ...]) -> str:
    for each in buildups:
        part = {"footing": each.footing, "coping": each.coping, "wall": each.wall}.get(layer)
        if part is not None:
            return part.kind.word("make")
    return ""


def _dimension(layer: str, buildups: tuple[Buildup, ...]) -> Meter | None:
    """The least one of what is placed, where the rule asks it."""
    found = [
        part.thickness
        for each in buildups
        if (part := {"footing": each.footing, "coping": each.coping, "wall": each.wall}.get(layer)) is not None
    ]
    return min(found, default=None)


def _trade(mix: Kind) -> tuple[str, ...]:
    try:
        return (TRADES[strength_family(mix).name],)
    except NotFoundError:
        return ()


def _slowest(layout: Layout, places: Iterable[str]) -> MeterPerSecond | None:
    """Hourly wind up to which all of them stand green; None where one of them is not shown."""
    exposed = exposures_of(layout)
    try:
        steps = [green_speed(exposed[place]) for place in places if place in exposed]
    except (NotFoundError, OutOfRangeError):
        return None
    share = MEAN_SHARE[Family(layout.plan.family)].value
    return min((step.number * share for step in steps if step is not None), default=None)
