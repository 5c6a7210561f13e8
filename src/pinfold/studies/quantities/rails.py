"""Rails along a stretch: each over as many bays as the longest stock allows, jointed on posts, their laps in them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from pinfold.errors import NotFoundError
from pinfold.plan.buildups import Rail, RailJoint
from pinfold.studies.quantities.reach import Reach
from pinfold.studies.quantities.stocked import longest_stock
from pinfold.units import Meter


class RailPiece(NamedTuple):
    """One rail to cut.

    Attributes:
        length: laps in it.
        lapped: how many of its ends meet another.
    """

    length: Meter
    lapped: int


def lap_of(reach: Reach, rail: Rail) -> Meter:
    """How far two rails reach over each other where they meet; 0 where they butt.

    Raises:
        NotFoundError: it goes by the width of the posts, and that is not known.
    """
    if rail.joint is RailJoint.BUTT:
        return 0.0
    if rail.lap is not None:
        return rail.lap
    posts = reach.stretch.buildup.posts
    if posts is None:
        raise NotFoundError("rails lap on posts, and there are none; write lap")
    return posts.kind.value("width")


def rail_pieces(reach: Reach, rail: Rail) -> tuple[RailPiece, ...]:
    """The rails along a stretch, from its start.

    A bay longer than any stock is shared out in equal pieces, joined in it.

    Raises:
        NotFoundError: as `lap_of`.
    """
    lap, longest = lap_of(reach, rail), longest_stock(rail.kind)
    slope = reach.course_length / reach.stretch.length
    places = _joints([0.0, *(end * slope for _, end in reach.bays)], lap, longest)
    last = len(places) - 2
    return tuple(
        RailPiece(end - start + lap / 2 * ((number > 0) + (number < last)), (number > 0) + (number < last))
        for number, (start, end) in enumerate(pairwise(places))
    )


def _joints(posts: list[Meter], lap: Meter, longest: Meter) -> list[Meter]:
    """Where rails meet, the ends of the stretch among them: as few as can be, on posts where bays allow it."""
    found = [0.0]
    for number, (start, end) in enumerate(pairwise(posts), start=2):
        over = lap / 2 * (number < len(posts))  # what it reaches past its end
        if end - found[-1] + over + lap / 2 * (len(found) > 1) <= longest + 1e-9:
            continue
        if start > found[-1]:
            found.append(start)
        found += _within(found[-1], end, (lap / 2 * (len(found) > 1) + over, lap, longest))
    return [*found, posts[-1]]


def _within(start: Meter, end: Meter, lengths: tuple[Meter, Meter, Meter]) -> Iterator[Meter]:
    """Joints in a bay that no stock reaches over, its pieces alike."""
    past, lap, longest = lengths
    count = max(math.ceil((end - start + past - lap) / (longest - lap) - 1e-9), 1)
    return (start + (end - start) * part / count for part in range(1, count))
