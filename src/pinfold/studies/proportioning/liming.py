"""Lime plaster and lime mortar: putty that hardens by air, or hydraulic lime that sets."""

from __future__ import annotations

from dataclasses import replace

from pinfold.figures import Figure
from pinfold.sources import Standing
from pinfold.studies.proportioning.parts import SAND, WATER_PARTS, Recipe, blend, held, told
from pinfold.studies.proportioning.records import Ask, Family, Proportioned, Wish
from pinfold.studies.proportioning.telling import heavy
from pinfold.tables.shelf import Kind, kind
from pinfold.units import KG_PER_CUBIC_METER, RATIO

_BASE = {"putty": "lime-plaster", "hydraulic": "lime-plaster-hydraulic"}
_USES = {"putty": "lime-putty", "hydraulic": "hydraulic-lime"}
_ASKS = (
    Ask(key="binder", says="lime putty, or powder of hydraulic lime", choices=tuple(_BASE), otherwise="putty"),
    Ask(key="coat", says="which coat, or mortar for joints", choices=("first", "second", "finish", "mortar"),
        otherwise="first"),
    replace(SAND, says="parts of damp loose sand to one of lime, by volume", example="3"), WATER_PARTS,
)  # fmt: skip
_SAYS = ("Rich in lime it shrinks and crazes.", "Poor in lime it dusts and washes out.")


def propose(wish: Wish) -> Proportioned:
    """Lime and sand by the coat, or for joints."""
    binder, coat = wish.word("binder"), wish.word("coat")
    base = kind("mixes", "mortar-lime" if (binder, coat) == ("hydraulic", "mortar") else _BASE[binder])
    sand = told(wish, "sand", base.figure("sand"))
    mix, working = blend(
        Recipe(
            family="lime", base=base, title=_title(binder, coat), uses={"lime": _USES[binder], "sand": "sand"},
            parts={"lime": base.figure("lime"), "sand": sand},

        ),
        wish,
    )  # fmt: skip
    return Proportioned(
        mix=mix,
        method="lime and sand as masons measure them, by loose volume",
        working=working,
        departures=held("sand", sand.value, _row(binder, coat), key="sand", of="to one of lime", says=_SAYS),
        thickness=None if coat == "mortar" else kind("proportions", f"lime-coat-{coat}").value("thickness"),
        notes=_putty_notes() if binder == "putty" else ("Use it within a few hours; what sets is not wetted again.",),
    )


def _title(binder: str, coat: str) -> str:
    of = "lime putty" if binder == "putty" else "hydraulic lime"
    return f"mortar of {of}" if coat == "mortar" else f"{coat} coat of {of} plaster"


def _row(binder: str, coat: str) -> Kind:
    if binder == "putty":
        return kind("proportions", "lime-putty")
    return kind("proportions", "lime-mortar" if coat == "mortar" else "lime-hydraulic")


def quicklime_in_putty() -> tuple[Figure, Figure]:
    """Quicklime, in kg, and water, in parts, that slake to a cubic meter of putty."""
    row = kind("proportions", "lime-slaking")
    putty, water, lime = (row.value(key) for key in ("putty", "water", "quicklime"))
    source = row.figure("putty")
    return (
        Figure(value=lime / putty, unit=KG_PER_CUBIC_METER, standing=Standing.READ, source=source.source,
               where="a barrel of quicklime over its putty"),
        Figure(value=water / putty, unit=RATIO, standing=Standing.READ, source=source.source,
               where="water over putty of a barrel"),
    )  # fmt: skip


def _putty_notes() -> tuple[str, ...]:
    lime, water = quicklime_in_putty()
    return (
        f"Putty slaked on site takes about {heavy(lime.value)} of quicklime and {water.value:.2f} of its volume "
        "in water; slake it weeks before.",
        "The putty brings most of the water: beat it long before any is added.",
    )  # fmt: skip


FAMILY = Family(name="lime", says="plaster or mortar without cement", asks=_ASKS, propose=propose)
