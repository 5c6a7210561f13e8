"""Wires from post to post: how hard cold and wind pull them, and how far they hang through with warmth."""

from __future__ import annotations

from functools import partial

from pinfold.errors import NotFoundError
from pinfold.findings import Finding, Step, keeps_to, work
from pinfold.formulas import wires as formulas
from pinfold.formulas.walls import GRAVITY
from pinfold.studies.stability.answers import Question, answered, governing, told, tried
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.factors import Named
from pinfold.studies.stability.fencing.bays import Loaded, loaded_rails
from pinfold.studies.stability.fencing.figures import BLOWN_SAG, EXPANSION, WIRE_SAG, WIRE_SHARE
from pinfold.studies.stability.fencing.seasons import colder, warmer
from pinfold.studies.stability.pulls import is_wire
from pinfold.tables.shelf import Kind
from pinfold.units import METER, NEWTON, Celsius, NewtonPerMeter

CHECK = "wire"
SLACK_CHECK = "slack"
LEFT_OUT = "ice on the wires; animals and branches against them; knots and splices, which hold less; wire that rusts"
GIVING = "pulled no harder than what holds it blown out by a twentieth of its span, as ends and wire give so far"
STRETCHED = "such a wind stretches it for good: strain it again afterwards"
GIVES = "the ends are taken as unyielding: an end that gives a little lowers the pull much"


def line_wires(fence: Exposed) -> tuple[Finding, ...]:
    """Wires of one stretch, the worst of them: whether they part, and whether they hang through."""
    if fence.stretch.buildup.posts is None or not any(is_wire(rail.kind) for rail in fence.stretch.buildup.rails):
        return ()
    subject = f"stretch {fence.stretch.name}"
    return tuple(
        answered(Question(check=check, subject=subject, left_out=LEFT_OUT), partial(_worst, fence, check))
        for check in (CHECK, SLACK_CHECK)
    )


def _worst(fence: Exposed, check: str) -> Finding:
    find = _strained if check == CHECK else _slack
    strung = [each for each in loaded_rails(fence) if is_wire(each.rail.kind)]
    return governing(tried(partial(find, fence, each)) for each in strung)


def _strained(fence: Exposed, each: Loaded) -> Finding:
    kind = each.rail.kind
    if not kind.has("breaking"):
        raise NotFoundError(
            f"no breaking strength is known for {kind.name}; write breaking beside the wire in the plan"
        )
    breaking, stiff = kind.figure("breaking"), stiffness_of(kind)
    allowed = WIRE_SHARE.value * breaking.value
    held, blown = _blown(each, stiff)
    wind = min(held.number, blown.number)
    change, season = colder(fence.place)
    cold = _after(each, stiff, own_weight(kind), change, "pull in the cold")
    demand = max(wind, cold.number)
    return Finding(
        check=CHECK, subject="", demand=demand, capacity=allowed, unit=NEWTON,
        because=told(
            f"{kind.name}: {'wind' if wind > cold.number else 'cold'} pulls hardest",
            GIVING if blown.number < held.number else GIVES, STRETCHED if held.number > allowed else "",
            *fence.wind.mesh_notes,
        ),
        working=(*each.working, stiff, held, blown, cold),
        figures=(*_figures(fence, kind), (f"breaking strength of {kind.name}", breaking),
                 ("share of it", WIRE_SHARE), ("blown out", BLOWN_SAG), *season),
        mend="" if keeps_to(demand, allowed) else "a stouter wire, one strained less hard, more wires or closer posts",
    )  # fmt: skip


def _blown(each: Loaded, stiff: Step) -> tuple[Step, Step]:
    """Pull in the wind between ends that never give, and once the wire is blown out by a twentieth of its span.

    The less of both is what it must bear: as both rise with the wind, a rougher wind never asks less of a wire.
    """
    held = _after(each, stiff, each.both, 0.0, "pull in the wind")
    why = "pull once it is blown out by a twentieth of its span"
    sag = BLOWN_SAG.value * each.span
    return held, work(formulas.pull_at_sag, why=why, load=each.both, span=each.span, sag=sag)


def _slack(fence: Exposed, each: Loaded) -> Finding:
    kind = each.rail.kind
    stiff, weight = stiffness_of(kind), own_weight(kind)
    change, season = warmer(fence.place)
    warm = _after(each, stiff, weight, change, "pull that is left in the sun")
    sag = work(formulas.wire_sag, why="how far it hangs through", weight=weight, span=each.span, tension=warm.number)
    allowed = WIRE_SAG.value * each.span
    return Finding(
        check=SLACK_CHECK, subject="", demand=sag.number, capacity=allowed, unit=METER,
        because=f"{kind.name} in the sun, by its own weight", working=(stiff, warm, sag),
        figures=(*_figures(fence, kind), ("sag of a wire", WIRE_SAG), *season),
        mend="" if keeps_to(sag.number, allowed)
        else "a wire strained harder, closer posts or stays, or a spring in the wire",
    )  # fmt: skip


def stiffness_of(kind: Kind) -> Step:
    """Stiffness of a wire.

    Raises:
        NotFoundError: its modulus is not known.
    """
    if not kind.has("modulus"):
        raise NotFoundError(f"no modulus of elasticity is known for {kind.name}; write modulus beside the wire")
    return work(
        formulas.wire_stiffness, why="stretch of the wire", diameter=kind.value("diameter"),
        modulus=kind.value("modulus"),
    )  # fmt: skip


def own_weight(kind: Kind) -> NewtonPerMeter:
    """Weight of a wire by itself."""
    return kind.value("mass_per_length") * GRAVITY


def _after(each: Loaded, stiff: Step, load: NewtonPerMeter, warming: Celsius, why: str) -> Step:
    kind = each.rail.kind
    if not kind.has("tension"):
        raise NotFoundError(f"say how hard the wires are strained: write tension = … beside {kind.name} in the plan")
    return work(
        formulas.tension_after, why=why, tension=kind.value("tension"), stiffness=stiff.number,
        before=own_weight(kind), after=load, span=each.span, expansion=EXPANSION.value, warming_c=warming,
    )  # fmt: skip


def _figures(fence: Exposed, kind: Kind) -> Named:
    names = ("diameter", "modulus", "tension", "mass_per_length")
    own = tuple((f"{name.replace('_', ' ')} of {kind.name}", kind.figure(name)) for name in names if kind.has(name))
    return (*fence.figures, *own, ("expansion", EXPANSION), *fence.factors.allowable)
