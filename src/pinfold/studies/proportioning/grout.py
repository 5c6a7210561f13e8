"""Grout by the proportions of ASTM C476: fine for narrow cells, coarse where a cell is wide enough."""

from __future__ import annotations

from dataclasses import replace

from pinfold.figures import Figure
from pinfold.formulas import plaster
from pinfold.studies.proportioning.parts import LIME, NONE, SAND, WATER, Recipe, blend, held, is_changed, told
from pinfold.studies.proportioning.records import Ask, Departure, Family, Proportioned, Wish
from pinfold.tables.shelf import Kind, kind
from pinfold.units import METER, RATIO, Meter, System, show

_ASKS = (
    Ask(key="grain", says="fine or coarse; by the cell where nothing is said", choices=("fine", "coarse")),
    Ask(
        key="cell", says="smaller clear width of the cells, bars and mortar fins taken off", unit=METER, low=0.01,
        high=1.0, example="3 in",
    ),
    Ask(key="pour", says="height poured in one go", unit=METER, otherwise="4 ft", low=0.1, high=7.4, example="4 ft"),
    Ask(key="slump", says="slump wanted", unit=METER, otherwise="9 in", low=0.0, high=0.3, example="9 in"),
    LIME, SAND,
    Ask(
        key="gravel", says="parts of pea gravel to one of cement, by volume; coarse grout only", unit=RATIO, low=0.0,
        high=20.0, example="2",
    ),
    WATER,
)  # fmt: skip
_SUM = "to one of cement and lime together"
_STIFF = ("Stiff grout hangs up on bars and fins and leaves holes.", "So runny it parts: stones sink, water rises.")


def propose(wish: Wish) -> Proportioned:
    """A grout fine or coarse, as told or as the cell allows, in the middle of its range or in the parts told."""
    narrowest = narrowest_cell(wish.number("pour"))
    cell = wish.perhaps("cell")
    grain = wish.word("grain") or ("coarse" if cell is not None and cell >= narrowest.value("cell") else "fine")
    base = kind("mixes", f"grout-{grain}")
    parts = _parts(wish, base)
    mix, working = blend(
        Recipe(
            family="grout", base=base, title=f"{grain} grout", parts=parts,
            uses={"cement": "portland-cement", "lime": "hydrated-lime", "sand": "sand", "gravel": "gravel"},
            air=base.figure("air"),
        ),
        wish,
    )  # fmt: skip
    return Proportioned(
        mix=mix,
        method="the proportions of ASTM C476, by loose volume",
        working=working,
        departures=(
            *_departures(grain, parts), *_slump(wish, grain), *_cell(wish, grain, narrowest),
        ),
        notes=_notes(wish, grain),
    )  # fmt: skip


def narrowest_cell(pour: Meter) -> Kind:
    """Row of the narrowest cell for coarse grout at a height of pour; the tallest row's past the table."""
    rows = [kind("proportions", f"grout-cells-{height}") for height in ("5ft", "12ft", "24ft")]
    return next((row for row in rows if pour <= row.value("pour") + 1e-9), rows[-1])


def _parts(wish: Wish, base: Kind) -> dict[str, Figure]:
    parts = {"cement": base.figure("cement"), "lime": told(wish, "lime", NONE)}
    parts["sand"] = told(wish, "sand", base.figure("sand"))
    gravel = base.figure("gravel") if base.has("gravel") else NONE
    if base.has("gravel") or is_changed(wish, ("gravel",)):
        parts["gravel"] = told(wish, "gravel", gravel)
    return parts


def _departures(grain: str, parts: dict[str, Figure]) -> tuple[Departure, ...]:
    row = kind("proportions", f"grout-{grain}")
    lime = parts["lime"].value
    sand = plaster.sand_per_binder(sand=parts["sand"].value, cement=1.0, lime=lime)
    gravel = parts["gravel"].value / (1 + lime) if "gravel" in parts else 0.0
    stones = Departure(
        what="gravel in fine grout", found=f"{parts['gravel'].printed} to one of cement", wanted="none",
        source="ASTM-C476", says="With stones it is coarse grout and wants wider cells.",
    ) if grain == "fine" and gravel > 0 else None  # fmt: skip
    return (
        *held("lime", lime, row, key="lime", of="to one of cement", says=("", "Lime makes it weaker.")),
        *held("sand", sand, row, key="sand", of=_SUM, says=("It shrinks more.", "It is weaker and parts sooner.")),
        *((stones,) if stones else held("gravel", gravel, row, key="gravel", of=_SUM) if grain == "coarse" else ()),
    )


def _slump(wish: Wish, grain: str) -> tuple[Departure, ...]:
    slump = wish.number("slump")
    found = held("slump", slump, kind("proportions", f"grout-{grain}"), key="slump", says=_STIFF)
    return tuple(replace(one, found=show(slump, METER, System.US)) for one in found)


def _cell(wish: Wish, grain: str, narrowest: Kind) -> tuple[Departure, ...]:
    cell = wish.perhaps("cell")
    least = narrowest.figure("cell")
    if grain != "coarse" or cell is None or cell >= least.value:
        return ()
    return (
        Departure(
            what="coarse grout in a narrow cell", found=show(cell, METER, System.US),
            wanted=f"{least.printed} or wider for {narrowest.says}", source=least.source,
            says="Stones bridge and leave holes: take fine grout, or pour lower.",
        ),
    )  # fmt: skip


def _notes(wish: Wish, grain: str) -> tuple[str, ...]:
    asked = () if "cell" in wish.told or "grain" in wish.told else (
        "Nothing was said of the cells, so it is fine grout, which flows anywhere. Coarse shrinks less and costs less.",
    )  # fmt: skip
    return (
        *asked,
        f"Water is brought to a slump of {show(wish.number('slump'), METER, System.US)}, the last of it by feel.",
        "Rod or shake it as it goes in, and once more when its water has gone into the block.",
    )  # fmt: skip


FAMILY = Family(name="grout", says="to fill the cells of block round bars", asks=_ASKS, propose=propose)
