"""Where the piers of a wall stand: at its free ends, at its control joints, and in equal bays between."""

from __future__ import annotations

from functools import lru_cache

from pinfold.geometry.spacing import Bays, bays_between
from pinfold.studies.layout.records import EndKind, Stretch
from pinfold.units import Meter

_NEAR: Meter = 1e-6


def pier_places(stretch: Stretch) -> tuple[Meter, ...]:
    """Middle of each pier, from the stretch's start; at a corner stands none, for there the other wall holds."""
    if stretch.buildup.piers is None or not stretch.steps:
        return ()
    first = 1 if stretch.start_kind is EndKind.CORNER else 0
    places = _held(stretch).places
    return places[first : len(places) - (1 if stretch.end_kind is EndKind.CORNER else 0)]


def pier_bays(stretch: Stretch) -> tuple[Meter, ...]:
    """Distance from each upright that holds the wall, pier or corner, to the next."""
    if stretch.buildup.piers is None or not stretch.steps:
        return ()
    return _held(stretch).widths


@lru_cache(maxsize=256)  # stability, take-off and drawings all ask
def _held(stretch: Stretch) -> Bays:
    piers = stretch.buildup.piers
    assert piers is not None
    half = min(piers.width, stretch.length) / 2
    start = 0.0 if stretch.start_kind is EndKind.CORNER else half
    end = stretch.length - (0.0 if stretch.end_kind is EndKind.CORNER else half)
    joints = (joint.at - stretch.start for joint in stretch.joints)
    inner = [place for place in joints if start + _NEAR < place < end - _NEAR]
    if end - start < _NEAR:
        return Bays(places=(start,), spans=())
    return bays_between((start, *inner, end), piers.spacing)
