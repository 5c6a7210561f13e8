"""What is told beside a foamed concrete: what lies outside published ranges, the foam and its time, a rule of thumb."""

from __future__ import annotations

from pinfold.findings import Step, work
from pinfold.formulas import foam
from pinfold.studies.batching.loose import water_density
from pinfold.studies.proportioning.parts import charge_asked
from pinfold.studies.proportioning.records import Departure, Rival, Wish
from pinfold.tables.shelf import Kind, kind
from pinfold.units import CUBIC_METER, KG_PER_CUBIC_METER, PASCAL, RATIO, UNIT_BY_SYMBOL, KgPerCubicMeter, Ratio, both


def departures_of(
    cast: KgPerCubicMeter, water_cement: Ratio, sand_cement: Ratio, share: Ratio
) -> tuple[Departure, ...]:  # fmt: skip
    """What lies outside published ranges."""
    published = kind("corrections", "foamed-published")
    found = [
        _outside(published, "cast", cast, "density as cast"),
        _outside(published, "foam", share, "foam in it"),
        _outside(published, "water_cement", water_cement, "water over cement"),
    ]
    if sand_cement and cast < published.value("sand_from"):
        found.append(Departure(
            what="sand", found=f"{sand_cement:g} of cement at {both(cast, KG_PER_CUBIC_METER)}",
            wanted=f"sand usually left out below {both(published.value('sand_from'), KG_PER_CUBIC_METER)}",
            source=published.figure("sand_from").source, says="Sand sinks out of light foam and breaks it.",
        ))  # fmt: skip
    if sand_cement > published.value("sand_high"):
        found.append(Departure(
            what="sand", found=f"{sand_cement:g} of cement", wanted=f"to {published.value('sand_high'):g} of cement",
            source=published.figure("sand_high").source,
        ))  # fmt: skip
    return tuple(one for one in found if one is not None)


_SAYS = {
    "cast": "What holds outside it is known only from your own cubes.",
    "foam": "Too little is mortar with bubbles, too much does not stand.",
    "water_cement": "Too stiff drinks the foam's water and breaks it, too thin lets it rise.",
}


def _outside(published: Kind, name: str, value: float, what: str) -> Departure | None:
    low, high = published.figure(f"{name}_low"), published.figure(f"{name}_high")
    if low.value * (1 - 1e-9) <= value <= high.value * (1 + 1e-9):
        return None
    if low.unit.kind == RATIO.kind:
        shown = [f"{each:.0%}" if name == "foam" else f"{each:.2f}" for each in (value, low.value, high.value)]
    else:
        shown = [both(each, low.unit) for each in (value, low.value, high.value)]
    return Departure(what=what, found=shown[0], wanted=f"{shown[1]} to {shown[2]}", source=low.source, says=_SAYS[name])


def rivals_of(cast: KgPerCubicMeter, per: foam.FoamedMix) -> tuple[Rival, ...]:
    """The rule of thumb of half foam, near the density it is given for."""
    rule = kind("corrections", "half-foam")
    if abs(cast - rule.value("cast")) > rule.value("near"):
        return ()
    return (
        Rival(
            method="half foam, a rule of thumb", rows=(("foam in the mix", per.foam, rule.value("share"), RATIO),),
            says="A household article has half foam for 1000 kg/m3; absolute volumes give a little more.",
        ),
    )  # fmt: skip


def notes_of(wish: Wish, per: foam.FoamedMix) -> tuple[str, ...]:
    """What was assumed."""
    taken = {
        "water_cement": "water over cement", "foam_density": "density of the foam", "foam_loss": "foam that collapses",
    }  # fmt: skip
    untold = [what for key, what in taken.items() if key not in wish.told]
    note = (
        f"Taken as usual, not told: {', '.join(untold)}. Weigh a level pail of foam; the loss comes from your log."
        if untold else ""
    )  # fmt: skip
    masses = [("cement", per.cement), ("water", per.water), ("sand", per.sand)]
    listed = ", ".join(f"{what} {_per_cubic(mass)}" for what, mass in masses if mass)
    cubic = f"In a cubic meter (a cubic yard) as cast: {listed}; {per.foam:.0%} of it is foam that survives."
    return tuple(text for text in (cubic, note, _tested(per)) if text)


def _per_cubic(mass: KgPerCubicMeter) -> str:
    return f"{mass:.0f} kg ({mass / UNIT_BY_SYMBOL['lb/yd3'].factor:.0f} lb)"


def _tested(per: foam.FoamedMix) -> str:
    """What a good agent gives at the density agents are tested at; empty for another mix."""
    test = kind("corrections", "agent-tested")
    cast = per.cement + per.water + per.sand + per.foam_mass
    if per.sand or abs(cast - test.value("cast")) > test.value("near"):
        return ""
    strong, pulled = (both(test.value(name), PASCAL) for name in ("strength", "tension"))
    return (
        f"Agents are tested near this density: a good one gives {strong} at 28 days, {pulled} in tension by splitting, "
        f"drinks at most {test.value('absorption'):.0%} water by volume, and loses at most "
        f"{test.value('pump_loss'):.1%} of its air in a pump (ASTM C869, table 1)."
    )


def froth_of(wish: Wish, mix: Kind) -> tuple[tuple[str, ...], tuple[Step, ...]]:
    """Foam of one batch: how much to make, from how much agent and water, and how long the generator runs."""
    charge = charge_asked(mix, wish)
    assert charge.foam is not None
    agent = kind("materials", "foaming-agent")
    share = wish.perhaps("dilution") or agent.value("dilution")
    standing = "told" if "dilution" in wish.told else agent.figure("dilution").standing.value
    liquid = charge.foam.make * mix.value("foam_density") / water_density()
    make, agents, waters = (
        both(value, CUBIC_METER) for value in (charge.foam.make, liquid * share, liquid * (1 - share))
    )
    texts = [
        f"Foam for one batch: {make}, made of {agents} of agent in {waters} of water ({share:.1%} of agent, "
        f"{standing}; the label goes first)."
    ]
    flow = wish.perhaps("foam_flow")
    if flow is None:
        texts.append(
            "How long the generator runs: fill a drum of known size with foam by the watch and give foam_flow."
        )
        return tuple(texts), ()
    time = work(foam.foam_time, why="time the generator runs for one batch", foam=charge.foam.make, flow=flow)
    texts.append(f"The generator runs {time.number:.0f} s ({time.number / 60:.1f} min) for one batch.")
    return tuple(texts), (time,)
