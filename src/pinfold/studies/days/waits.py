"""What one piece of work waits for after another: times of the shelves, told as links."""

from __future__ import annotations

from pinfold.plan.buildups import Coat
from pinfold.studies.days.records import Link
from pinfold.tables.shelf import kind
from pinfold.units import Meter, Second

_HIGH_POUR: Meter = 1.524
"""Grout poured higher than this waits longer: 5 ft."""


def rule(name: str) -> Second:
    """A wait of shelf `job_rules`."""
    return kind("job_rules", "waits").value(name)


def just(key: str) -> Link:
    """Follows as soon as the other is done."""
    return Link(key)


def overnight(key: str, why: str) -> Link:
    """Waits until what was placed has set."""
    return Link(key, rule("set"), why)


def ripe(key: str, target: str) -> Link:
    """Waits until what was placed is strong enough, at least the time that shelf `ripe_for` names."""
    for_what = kind("ripe_for", target)
    return Link(key, for_what.value("wait"), f"strong enough for {for_what.says}", target)


def grouting(key: str, height: Meter) -> Link:
    """Laid work before it is grouted."""
    return ripe(key, "grout-high" if height > _HIGH_POUR else "grout")


def next_coat(key: str, coat: Coat) -> Link:
    """A coat before the one over it."""
    own = coat.kind.has("next_coat_after")
    wait = coat.kind.value("next_coat_after") if own else rule("next_coat")
    return Link(key, wait, f"{coat.kind.name} cures before the next coat", "next-coat")


def first_coat(key: str) -> Link:
    """A new wall before its first coat."""
    return Link(key, rule("coat_on_new_wall"), "a new wall shrinks before it is coated")
