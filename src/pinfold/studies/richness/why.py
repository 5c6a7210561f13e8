"""Why more cement is not simply stronger, in plain words with the ladder's own figures."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from pinfold.studies.richness.records import Rung

_ALWAYS_COAT = (
    "A coat is never richer than the one under it: the stiffer skin shrinks on a softer one and lifts it off.",
    "A thirsty wall drinks the water of a thin coat before the cement can use it, and rich mortar dusts and crazes "
    "first. Damp the wall, and let lime hold the water.",
    "Bond comes from a rough key, even suction and damp curing. A little more cement helps it; much more pulls the "
    "edges off as it dries.",
)
_ALWAYS_CONCRETE = (
    "With the same slump the water in a cubic meter stays, so more cement means less water for each of its grains: "
    "that is where the strength comes from. A drier mix, well rammed, gets as much from less cement.",
)
_ALWAYS_FOAMED = (
    "In foamed concrete the strength is in the walls between the bubbles: density sets it, not the share of cement. "
    "Sand makes it shrink less and weigh more for the same cement.",
)
_ALWAYS_MORTAR = (
    "Mortar should give before the blocks do: a crack along the joints can be pointed, a cracked block cannot.",
)


def reasons(rungs: Sequence[Rung], present: int, family: str) -> tuple[str, ...]:
    """Reasons for a family of mixes, those by figures first."""
    always = {
        "foamed": _ALWAYS_FOAMED, "concrete": _ALWAYS_CONCRETE, "grout": _ALWAYS_CONCRETE, "plaster": _ALWAYS_COAT,
        "bond": _ALWAYS_COAT,
    }.get(family, _ALWAYS_MORTAR)  # fmt: skip
    by_figures = () if family == "foamed" else tuple(_by_figures(rungs, present))
    return (*by_figures, *always)


def _by_figures(rungs: Sequence[Rung], present: int) -> Iterator[str]:
    now = rungs[present]
    richest = rungs[0]
    if present > 0 and richest.hardens.strength and now.hardens.strength:
        times = richest.hardens.strength.value / now.hardens.strength.value
        yield _stronger(now, richest, times)
        yield from _pulls(now, richest)
    short = [rung for rung in rungs if rung.filled is not None and rung.filled < 1]
    if short:
        yield (
            f"From {short[0].parts} on the paste no longer fills the gaps between the grains of sand: such mortar is "
            "rough under the trowel, lets rain in and falls off in its strength. Lime fills the gaps where cement is "
            "saved."
        )


def _stronger(now: Rung, rich: Rung, times: float) -> str:
    cement = rich.per_volume.cement / now.per_volume.cement
    parts = [f"{times:.1f} times the strength", f"{cement:.1f} times the cement"]
    stiffer, shrinks = rich.hardens.stiffer, rich.hardens.shrinks
    if stiffer is not None and shrinks is not None:
        parts += [f"{stiffer.value:.1f} times as stiff", f"shrinking {shrinks.value:.2f} times as much"]
    return f"{rich.parts} beside {now.parts}: {', '.join(parts)}."


def _pulls(now: Rung, rich: Rung) -> Iterator[str]:
    if rich.drying is None or now.drying is None:
        return
    before, after = now.drying.used, rich.drying.used
    trend = "so it cracks more, not less" if after > before * 1.02 else "so it gains nothing against its own drying"
    yield (
        "Strength raises what it can be pulled, and its stiffness as much; what it shrinks comes on top, and it creeps "
        f"less: its own drying then asks {after:.1f} times what it takes, as against {before:.1f} now, {trend}."
    )
