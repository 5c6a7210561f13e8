"""Changes of posts and gates."""

from __future__ import annotations

from pinfold.errors import NotFoundError
from pinfold.plan.buildups import Posts, Setting
from pinfold.plan.enclosure import Enclosure, Gate
from pinfold.studies.mending.ladders import LARGE, SMALL, falling, rising, writes
from pinfold.studies.mending.records import Lever
from pinfold.studies.stability.fencing.sections import modulus_of
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import Meter

_DEEPEST: Meter = 2.0
_WIDEST: Meter = 0.6
_CLOSEST: Meter = 0.9


def _in_ground(posts: Posts | None) -> bool:
    return posts is not None and posts.setting in (Setting.GROUND, Setting.COLLAR)


def posts_closer(plan: Enclosure, name: str) -> Lever | None:
    """Posts nearer together."""
    posts = plan.buildups[name].posts
    if posts is None:
        return None
    texts = falling(posts.spacing, _CLOSEST, step=LARGE[plan.units], system=plan.units)
    return Lever("posts nearer together", writes(("buildup", name, "posts", "spacing"), texts))


def posts_deeper(plan: Enclosure, name: str) -> Lever | None:
    """Posts deeper in the ground."""
    posts = plan.buildups[name].posts
    if posts is None or not _in_ground(posts):
        return None
    texts = rising(posts.embed, _DEEPEST, step=SMALL[plan.units], system=plan.units)
    return Lever("posts deeper in the ground", writes(("buildup", name, "posts", "embed"), texts))


def collar_wider(plan: Enclosure, name: str) -> Lever | None:
    """A wider collar of concrete around the posts."""
    posts = plan.buildups[name].posts
    if posts is None or posts.collar is None:
        return None
    texts = rising(posts.collar, _WIDEST, step=SMALL[plan.units], system=plan.units)
    return Lever("wider collars of concrete", writes(("buildup", name, "posts", "collar"), texts))


def posts_stouter(plan: Enclosure, name: str) -> Lever | None:
    """Stouter posts of the same make."""
    posts = plan.buildups[name].posts
    if posts is None:
        return None
    return Lever("stouter posts", writes(("buildup", name, "posts", "kind"), _stouter(posts.kind)))


def _stouter(kind: Kind) -> tuple[str, ...]:
    here = _strength(kind)
    if here is None:
        return ()
    others = [(strength, other) for other in shelf("posts").values() if (strength := _strength(other)) is not None]
    stouter = sorted((pair for pair in others if pair[0] > 1.05 * here), key=lambda pair: pair[0])
    return tuple(other.name for _, other in stouter if _sold_alike(kind, other))


def _sold_alike(kind: Kind, other: Kind) -> bool:
    """Of one section, and both by the inch or both by the millimeter."""
    inches = [each.has("width") and each.figure("width").printed.endswith("in") for each in (kind, other)]
    return other.word("section") == kind.word("section") and inches[0] is inches[1]


def _strength(kind: Kind) -> float | None:
    """Moment a post carries by its allowable stress; None where its section or stress is not known."""
    try:
        return modulus_of(kind)[0] * kind.value("allowable")
    except NotFoundError:
        return None


def gate_of(plan: Enclosure, name: str) -> Gate:
    """A gate of the plan by its name."""
    return next(gate for gate in plan.gates if gate.name == name)


def gate_deeper(plan: Enclosure, name: str) -> Lever | None:
    """Gate posts deeper in the ground."""
    texts = rising(gate_of(plan, name).embed, _DEEPEST, step=SMALL[plan.units], system=plan.units)
    return Lever("gate posts deeper in the ground", writes(("gate", name, "embed"), texts))


def gate_collar_wider(plan: Enclosure, name: str) -> Lever | None:
    """A wider collar of concrete around the gate posts, or one where they stand in bare soil."""
    gate = gate_of(plan, name)
    start = gate.collar if gate.collar is not None else 0.2
    texts = rising(start, _WIDEST, step=SMALL[plan.units], system=plan.units)
    says = "a wider collar of concrete" if gate.collar is not None else "a collar of concrete"
    return Lever(says, writes(("gate", name, "collar"), texts))


def gate_post_stouter(plan: Enclosure, name: str) -> Lever | None:
    """Stouter gate posts of the same make."""
    return Lever("stouter gate posts", writes(("gate", name, "post"), _stouter(gate_of(plan, name).post)))


def gate_under(plan: Enclosure, name: str) -> Lever | None:
    """More room under the leaf."""
    gate = gate_of(plan, name)
    texts = rising(gate.under, gate.under + 0.4, step=SMALL[plan.units] / 2, system=plan.units)
    return Lever("more room under the leaf", writes(("gate", name, "under"), texts))
