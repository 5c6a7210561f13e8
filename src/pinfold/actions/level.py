"""How a structure on blocks lies by its last survey, what that does to doors, and the least moves that level it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.level_site import NO_READINGS, NO_SUPPORTS, SiteLevels, level_site
from pinfold.actions.sites import Site, open_site
from pinfold.errors import InputError, InvalidPlan, NoSolutionError, OutOfRangeError
from pinfold.figures import Figure, given
from pinfold.reports.level_page import Leveled, level_page
from pinfold.studies.leveling.instruments import WATER_NOTE
from pinfold.studies.leveling.lying import Lie, lie_of, long_side, standing_out
from pinfold.studies.leveling.moving import TOLERANCE, Moves, least_moves
from pinfold.studies.leveling.openings import racked
from pinfold.studies.leveling.program import Place, Told
from pinfold.studies.leveling.records import Survey
from pinfold.studies.leveling.words import fine
from pinfold.units import METER, read

_LEAST, _MOST = 0.0002, 0.1
_SURE = 2.0
"""Spreads of a difference that a tolerance is to be wider than."""


@dataclass(frozen=True, kw_only=True)
class LevelAsked:
    """What is asked, as typed.

    Attributes:
        neighbor: name of the structure; the only one where empty.
        survey: name of it; the last one where empty.
        tolerance: most that two supports may differ; the plan's where empty.
    """

    neighbor: str = ""
    survey: str = ""
    tolerance: str = ""


def level_of(folder: Path, asked: LevelAsked, *, told: Told | None = None) -> Answer:
    """How it lies and how it is leveled.

    Args:
        folder: of the site
        asked: as typed
        told: of the progress

    Raises:
        NotFoundError: no such structure or survey.
        InvalidPlan: a tolerance that cannot be.
        StoreError, NewerFileError: as reading the site and its log tell.
    """
    levels = level_site(folder, asked.neighbor)
    site = open_site(folder) if levels is None else levels.site
    found = nothing(site) if levels is None else leveled(levels, asked, told=told)
    return answer_from(site, found, level_page(found, site.plan.units))


def nothing(site: Site) -> Leveled:
    """What there is to tell where no structure has supports."""
    return Leveled(neighbor="", survey=None, lie=None, north=site.plan.place.north, doors={},
                   tolerance=TOLERANCE[site.plan.units].value, moves=None, because=(NO_SUPPORTS,))  # fmt: skip


def leveled(levels: SiteLevels, asked: LevelAsked, *, told: Told | None = None) -> Leveled:
    """The same out of a site that was read.

    Raises:
        NotFoundError, InvalidPlan: as `level_of`.
    """
    limit = tolerance_of(levels, asked.tolerance)
    survey, place = levels.chosen(asked.survey), levels.site.plan.place
    bare = Leveled(
        neighbor=levels.neighbor.name, survey=survey, lie=None, north=place.north, doors={}, tolerance=limit.value,
        moves=None, figures=(("tolerance", limit),),
    )  # fmt: skip
    if survey is None:
        return replace(bare, because=(NO_READINGS,))
    leveling = levels.blocks.leveling
    try:
        lie = lie_of(
            leveling.supports, {each.mark: (each.height, each.spread) for each in survey.heights},
            axis=long_side(levels.neighbor.footprint), north=place.north,
        )  # fmt: skip
    except OutOfRangeError as fault:
        return replace(bare, because=(f"{fault}.",))
    moves, why = _moves(levels, survey, lie, partial(least_moves, tolerance=limit.value, told=told))
    return replace(
        bare, lie=lie, doors={door.name: racked(door, lie) for door in leveling.doors}, moves=moves, moves_because=why,
        notes=_notes(levels, survey, lie, limit), advice=_advice(levels, survey),
    )  # fmt: skip


def tolerance_of(levels: SiteLevels, typed: str) -> Figure:
    """The tolerance as typed, else the plan's, else that of the rule.

    Raises:
        InvalidPlan: it cannot be.
    """
    if typed.strip():
        try:
            value = read(typed.strip(), like=METER)
        except InputError as fault:
            raise InvalidPlan("what is asked of level", [InputError(fault.message, place="tolerance")]) from None
        if not _LEAST <= value <= _MOST:
            told = f"{typed.strip()[:20]!r} cannot be; from 0.2 mm to 100 mm (4 in) is wanted"
            raise InvalidPlan("what is asked of level", [InputError(told, place="tolerance")])
        return given(value, METER, typed.strip())
    own = levels.blocks.leveling.tolerance
    return TOLERANCE[levels.site.plan.units] if own is None else given(own, METER)


def _moves(levels: SiteLevels, survey: Survey, lie: Lie, find: Callable[..., Moves]) -> tuple[Moves | None, str]:
    if levels.overtaken(survey):
        assert levels.last_jacked is not None, "overtaken by it"
        day = levels.last_jacked.date().isoformat()
        return None, f"it was jacked on {day}, after this survey; read all supports anew before anything is moved again"
    if lie.missing:
        return (
            None,
            f"{', '.join(lie.missing)} has no height; read it, for every support is to be known before one moves",
        )
    leveling, gaps = levels.blocks.leveling, levels.gaps(survey)
    shims = {support.mark: support.shims for support in leveling.supports}
    places = [
        Place(each.mark, each.height, shims=shims[each.mark], gap=gaps.get(each.mark, 0.0)) for each in lie.supports
    ]  # fmt: skip
    try:
        return find(places, leveling.shims, system=levels.site.plan.units), ""
    except NoSolutionError as fault:
        return None, str(fault)


def _notes(levels: SiteLevels, survey: Survey, lie: Lie, limit: Figure) -> tuple[str, ...]:
    system, notes = levels.site.plan.units, list(levels.jackings.faults)
    for mark, off in standing_out(lie):
        notes.append(
            f"{mark} stands {fine(abs(off), system)} {'over' if off > 0 else 'under'} the plane of all others: look at "
            "it, and read it once more before anything is moved"
        )
    marks = [each.mark for each in lie.supports]
    doubt = max(survey.spread_between(one, other) for one in marks for other in marks)
    if limit.value < _SURE * doubt:
        notes.append(
            f"differences are known to {fine(doubt, system)} only, so that a tolerance of {fine(limit.value, system)} "
            "cannot be shown to be kept: read all supports from one more setup"
        )
    return tuple(notes)


def _advice(levels: SiteLevels, survey: Survey) -> str:
    read_with = {entry.text("instrument") for entry in levels.entries[survey.name]}
    return WATER_NOTE if "water level" in read_with else ""
