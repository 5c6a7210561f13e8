"""The time before a mix sets: how long it can be used at a temperature, and how much of it is used up by then."""

from __future__ import annotations

from pinfold.figures import Figure, practice
from pinfold.findings import Step, work
from pinfold.formulas import batch_size
from pinfold.plan.place import Mixing
from pinfold.studies.batching.records import InHand
from pinfold.tables.shelf import Kind, shelf
from pinfold.units import SECOND

TURNING = practice("10 min", SECOND, "from the first water until the mix is beside the work")
USE_RATE = "use_rate"
"""Figure of a mix that says how fast it is used, where the log or the plan knows better than the usual rate."""


def in_hand(mix: Kind, mixing: Mixing) -> InHand | None:
    """How long a mix can be used, and how fast it is; None for what does not set, or where no temperature is known.

    Args:
        mix: of shelf `mixes`
        mixing: with the temperature
    """
    usual = _usual(mix)
    if usual is None or mixing.temperature is None:
        return None
    figures = _figures(mix, usual)
    time = batch_size.workable_time(usual=figures[0][1].value, temperature=mixing.temperature)
    return InHand(
        temperature=mixing.temperature, workable=time, use_rate=figures[1][1].value, figures=figures
    )  # fmt: skip


def _figures(mix: Kind, usual: Kind) -> tuple[tuple[str, Figure], tuple[str, Figure]]:
    rate = mix.figure(USE_RATE) if mix.has(USE_RATE) else usual.figure(USE_RATE)
    return (f"{usual.says}, time of use", usual.figure("workable")), (f"{usual.says}, rate of use", rate)


def _usual(mix: Kind) -> Kind | None:
    """The kind of mix by what makes it set; None where nothing does, as in air lime and plain earth."""
    uses = mix.words.get("uses", {})
    assert isinstance(uses, dict)
    if "cement" in uses or "dry_mix" in uses:
        return shelf("workability").get(mix.word("family"), shelf("workability")["mortar"])
    lime = uses.get("lime")
    hydraulic = (lime.name if isinstance(lime, Kind) else lime) == "hydraulic-lime"
    return shelf("workability")["hydraulic-lime"] if hydraulic else None


def used_up(found: InHand) -> tuple[Step, ...]:
    """The largest batch that is used up before it sets, with how long it can be used before it."""
    usual = found.figures[0][1].value
    time = work(
        batch_size.workable_time, why="how long it can be used", usual=usual, temperature=found.temperature
    )  # fmt: skip
    turning = min(TURNING.value, time.number / 2)
    return (
        time,
        work(
            batch_size.batch_before_set, why="what is used up by then", workable=time.number, turning=turning,
            rate=found.use_rate,
        ),
    )  # fmt: skip
