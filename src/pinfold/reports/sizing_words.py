"""Why a batch is as large as it is, and how long it can be used, in sentences."""

from __future__ import annotations

from pinfold.reports.amounts import weight
from pinfold.sources import Standing
from pinfold.studies.batching.lifting import lifted_again
from pinfold.studies.batching.records import Bound, Charge, InHand, Limit, Measure
from pinfold.units import CELSIUS, CUBIC_METER, System, show

_MEASURED = {
    Measure.WHOLE_BAGS: "by whole bags",
    Measure.HALF_BAG: "by half a bag",
    Measure.THIRD_BAG: "by a third of a bag",
    Measure.QUARTER_BAG: "by a quarter of a bag",
    Measure.WHOLE_BUCKETS: "by whole buckets",
    Measure.ALL: "by all there is to mix",
    Measure.WEIGHED: "by weighing out its first part",
}
_STANDINGS = {
    Standing.READ: "as published", Standing.PRACTICE: "common practice", Standing.MEMORY: "from memory",
    Standing.GIVEN: "as the plan says", Standing.LEARNED: "as your log says", Standing.DERIVED: "derived",
}  # fmt: skip


def sized(charge: Charge, system: System) -> str:
    """Which bound governs, what each allows, and how long the mix can be used."""
    bounds = sorted(charge.limits, key=lambda limit: limit.most)
    allowed = ", ".join(f"{limit.bound.value} {_batch(limit.most, system)}" for limit in bounds)
    held = "more would go" if charge.measure is Measure.ALL else f"what holds it is {charge.governs.value}"
    text = f"Sized {_MEASURED[charge.measure]}; {held} (at most by {allowed})."
    text += "".join(_lifting(limit, system) for limit in bounds if limit.bound is Bound.BACK)
    return text + (_in_hand(charge, charge.in_hand, system) if charge.in_hand else "")


def _batch(value: float, system: System) -> str:
    return show(value, CUBIC_METER, system, in_unit="ft3" if system is System.US else "L")


def _lifting(limit: Limit, system: System) -> str:
    lift = limit.figures[0][1].value
    return (
        f" One lifts {weight(lift, system)} now and then, {weight(lifted_again(lift), system)} bucket after bucket "
        "(published guidance; for a weaker back write lift into the plan)."
    )


def _in_hand(charge: Charge, found: InHand, system: System) -> str:
    (_, time), (_, rate) = found.figures
    hourly = _batch(found.use_rate * 3600, system)
    return (
        f" At {show(found.temperature, CELSIUS, system)} use it within {hours(found.workable)} of the first water "
        f"({_STANDINGS[time.standing]}{_hot(found, time.value)}); one person uses {hourly} an hour "
        f"({_STANDINGS[rate.standing]}), a batch in {hours(charge.makes / found.use_rate)}.{_again(charge)} Throw away "
        "what has begun to set."
    )


def _again(charge: Charge) -> str:
    """Mortar and plaster that only dried out may be wetted again; what is poured or cast may not."""
    wetted = charge.mix.word("family") in {"mortar", "plaster"}
    return " Within that time what only dried out may be wetted and turned again." if wetted else ""


def _hot(found: InHand, usual: float) -> str:
    if found.workable >= usual * 0.999:
        return ""
    return f", cut from {hours(usual)} as warm mixes set sooner: shade, cold water"


def hours(seconds: float) -> str:
    """A time to work by: `2 h 20 min`."""
    minutes = max(round(seconds / 60), 1)
    whole, rest = divmod(minutes if minutes < 20 else round(minutes / 5) * 5, 60)
    return " ".join(part for part in (f"{whole} h" if whole else "", f"{rest} min" if rest else "") if part)
