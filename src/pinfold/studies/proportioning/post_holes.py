"""Concrete for post holes: mixed by a small-job table, out of ready bags, or dry mix watered in the hole."""

from __future__ import annotations

import math

from pinfold.errors import InvalidPlan
from pinfold.figures import given
from pinfold.findings import Step, work
from pinfold.formulas import counts
from pinfold.studies.batching.charge import charge_of
from pinfold.studies.batching.loose import bag_of
from pinfold.studies.proportioning import holes, small_jobs
from pinfold.studies.proportioning.aggregates import with_figures
from pinfold.studies.proportioning.massed_mix import bagged_mix
from pinfold.studies.proportioning.records import Ask, Departure, Family, Proportioned, Rival, Wish
from pinfold.tables.shelf import Kind
from pinfold.units import KILOGRAM, METER, RATIO, CubicMeter, Kilogram, both

_BY_TABLE = ("scale", "bucket")
_WIDE = 3.0
"""Holes are dug so many times as wide as the post (common practice)."""
_GROUND = (
    "A hand's breadth of gravel under the post's foot drains it; slope the concrete's top so that rain runs off.",
    "Brace the post plumb before the concrete goes in; hang nothing on it for a week.",
)
_DRY = (
    "Dry-set has no published strength (common practice): layers can stay dry or drown, and the foot may stay brittle. "
    "Take it for light line posts alone, never for gate, corner or brace posts, nor where the ground freezes wet.",
)

ASKS = (
    *holes.ASKS,
    Ask(key="fill", says="mixed by the scale or the bucket, out of ready bags, or dry mix watered in the hole",
        choices=(*_BY_TABLE, "bag", "dry-set"), otherwise="bucket"),
    Ask(key="bag", says="weight of a ready bag", unit=KILOGRAM, low=5.0, high=60.0, example="80 lb or 25 kg"),
    small_jobs.STONE,
    small_jobs.AIR,
    small_jobs.DAMPNESS,
)  # fmt: skip


def propose(wish: Wish) -> Proportioned:
    """Concrete for post holes.

    Raises:
        InvalidPlan: a post that fills its hole, stone that does not pass beside it.
        NotFoundError: the section of a post of the plan is not known.
    """
    fill = wish.word("fill")
    problems = holes.room_complaints(wish, stone=fill in _BY_TABLE)
    if problems:
        raise InvalidPlan("the wish for post holes", problems)
    found, bag = holes.holes_of(wish), _ready_bag(wish)
    mix, method, working = _table_mix(wish, fill) if fill in _BY_TABLE else _bag_mix(wish, bag, fill)
    return Proportioned(
        mix=mix, method=f"{method}, and the room in the holes", working=(*found.working, *working),
        departures=(*_narrow(wish), *_dry(fill)), rivals=_beside(wish, found.gross, mix, bag), volume=found.gross,
        notes=(found.says, _bags(wish, found, bag), *_GROUND, *(_DRY if fill == "dry-set" else ())),
    )  # fmt: skip


def _ready_bag(wish: Wish) -> Kind:
    own = wish.perhaps("bag")
    found = wish.material("concrete-mix-bag")
    return with_figures(found, {} if own is None else dict.fromkeys(("bag_us", "bag_metric"), given(own, KILOGRAM)))


def _mass_of(bag: Kind, wish: Wish) -> Kilogram:
    mass = bag_of(bag, wish.mixing)
    assert mass is not None
    return mass


def _table_mix(wish: Wish, fill: str) -> tuple[Kind, str, tuple[Step, ...]]:
    job = small_jobs.job_of(wish, letter="B", looked="well", measure=fill)
    made = small_jobs.WAYS[fill](job)
    return made.mix, small_jobs.way_named(fill, job), made.working


def _bag_mix(wish: Wish, bag: Kind, fill: str) -> tuple[Kind, str, tuple[Step, ...]]:
    mass = _mass_of(bag, wish)
    makes = work(counts.bag_yield, why="concrete a ready bag makes", bag=mass)
    order = "bagged" if fill == "bag" else "dry-set"
    says = f"concrete out of ready bags of {both(mass, KILOGRAM)}"
    mix = bagged_mix("post-bagged", says, bag, density=mass / makes.number, order=order)
    return mix, "the yield of ready bags", (makes,)


def _narrow(wish: Wish) -> tuple[Departure, ...]:
    """A hole that is narrow for its post, where both are the builder's."""
    if not holes.own_holes(wish) or wish.word("post_shape") == "none":
        return ()
    width, post = wish.number("hole_width"), wish.number("post_width")
    if width >= _WIDE * post * (1 - 1e-9) * 0.9:
        return ()
    says = "Thin concrete cracks off the post, which then wobbles in its hole."
    wanted = f"about {_WIDE:.0f} times the post, {both(_WIDE * post, METER)}"
    return (
        Departure(what="width of the hole", found=both(width, METER), wanted=wanted, source="PRACTICE", says=says),
    )  # fmt: skip


def _dry(fill: str) -> tuple[Departure, ...]:
    if fill != "dry-set":
        return ()
    says = "What it comes to depends on how evenly the water gets through."
    wanted = "concrete mixed with its water before it is placed"
    return (
        Departure(what="mixing", found="dry mix watered in the hole", wanted=wanted, source="PRACTICE", says=says),
    )  # fmt: skip


def _bags(wish: Wish, found: holes.Holes, bag: Kind) -> str:
    mass = _mass_of(bag, wish)
    each = counts.bags_of_mix(volume=found.one, bag=mass)
    whole = counts.bags_of_mix(volume=found.gross, bag=mass)
    return (
        f"Out of ready bags of {both(mass, KILOGRAM)}: {each:.0f} to a hole where each is filled by itself, "
        f"{whole:.0f} for all where the rest goes into the next."
    )


def _beside(wish: Wish, gross: CubicMeter, mix: Kind, bag: Kind) -> tuple[Rival, ...]:
    """Ready bags beside a mix by a table, or a mix by the bucket beside ready bags: what is to be carried."""
    if wish.word("fill") in _BY_TABLE:
        name, other = "ready bags", _bag_mix(wish, bag, "bag")
    elif holes.room_complaints(wish, stone=True):
        return ()
    else:
        name, other = "mixed by the bucket", _table_mix(wish, "bucket")
    ours, theirs = _load(wish, mix, gross), _load(wish, other[0], gross)
    rows = (
        ("bags", float(math.ceil(ours[0] - 1e-9)), float(math.ceil(theirs[0] - 1e-9)), RATIO),
        ("dry stuff to carry", ours[1], theirs[1], KILOGRAM),
    )
    says = (
        "Ready bags bring sand and stone along: more bags, nothing to measure. Cement with your own sand and stone is "
        "fewer bags and usually much less money where both lie near."
    )
    return (Rival(method=name, rows=rows, says=says, working=other[2]),)


def _load(wish: Wish, mix: Kind, gross: CubicMeter) -> tuple[float, Kilogram]:
    """Bags, and dry mass of everything, for a volume."""
    charge = charge_of(mix, wish.mixing)
    times = gross / charge.makes
    bags = sum(part.bags for part in charge.ingredients if part.bags is not None)
    return bags * times, sum(part.mass for part in charge.ingredients) * times


FAMILY = Family(name="post", says="concrete for fence posts, by the hole", asks=ASKS, propose=propose)
