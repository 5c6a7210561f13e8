"""A shed on six blocks with invented surveys, for the tests of leveling. The place and all readings are invented."""

from __future__ import annotations

import random
from collections.abc import Mapping

from pinfold.store import planfile, starting

MARKS = {"A1": (0.0, 0.0), "A2": (2.1, 0.0), "A3": (4.2, 0.0), "B1": (0.0, 2.4), "B2": (2.1, 2.4), "B3": (4.2, 2.4)}
"""Supports in two rows, from the shed's own corner."""
CORNER = (30.0, 20.0)
SHIMS = ((0.0125, 4), (0.006, 8), (0.003, 12))
TRUE = {"A1": 0.0, "A2": -0.004, "A3": -0.022, "B1": 0.003, "B2": -0.009, "B3": -0.035}
"""Heights that were planted: it falls to the east, and its corner B3 is twisted down."""


def shed(*, marks: Mapping[str, tuple[float, float]] = MARKS, shims=SHIMS, more: str = "", inner: str = "") -> str:
    """The tables of a plan that tell of the shed.

    Args:
        marks: supports and their places, from its corner
        shims: thickness and count
        more: further tables
        inner: further keys of its blocks
    """
    x, y = CORNER
    footprint = [[f"{x + dx} m", f"{y + dy} m"] for dx, dy in ((-0.1, -0.1), (4.3, -0.1), (4.3, 2.5), (-0.1, 2.5))]
    blocks = [
        "[[neighbor]]", 'name = "tool shed"', 'height = "2.4 m"', f"footprint = {footprint}".replace("'", '"'),
        "[neighbor.blocks]", 'mass = "1900 kg"', 'live = "2 kN"', f"count = {len(marks)}", 'spacing = "2.1 m"',
        'pad_length = "40 cm"', 'pad_width = "40 cm"', 'stack_height = "40 cm"', 'fixed = "peg"', 'built = "2026-04-01"',
        'crib = "crib-4x4-2"', 'crib_length = "24 in"', 'crib_height = "14 in"', inner,
        "[neighbor.blocks.jack]", 'capacity = "40 kN"', 'base_length = "40 cm"', 'base_width = "40 cm"',
        "[[neighbor.blocks.door]]", 'name = "door"', f'from = ["{x + 2.9} m", "{y} m"]', f'to = ["{x + 3.8} m", "{y} m"]',
        'height = "2 m"', 'gap = "3 mm"',
    ]  # fmt: skip
    for mark, (dx, dy) in marks.items():
        blocks += ["[[neighbor.blocks.support]]", f'mark = "{mark}"', f'x = "{x + dx} m"', f'y = "{y + dy} m"']
    for thickness, count in shims:
        blocks += ["[[neighbor.blocks.shim]]", f'thickness = "{1e3 * thickness:g} mm"', f"count = {count}"]
    return "\n".join([*blocks, more]) + "\n"


def plan_text(units: str = "metric", **told: object) -> str:
    """A plan with the shed in it."""
    return starting.start_plan({"units": units}) + "\n" + shed(**told)  # type: ignore[arg-type]


def plan(**told: object):
    """The same, read."""
    return planfile.plan_of(plan_text(**told))  # type: ignore[arg-type]


def rods(
    heights: Mapping[str, float] = TRUE,
    *,
    setups: tuple[float, ...] = (1.0, 1.21),
    spread: float = 0.0008,
    seed: int = 1,
) -> list[tuple[str, str, float]]:
    """Readings from each mark and the peg up to the water: mark, setup, reading.

    Args:
        heights: of the marks over the peg
        setups: height of the water over the peg, setup by setup
        spread: standard deviation that is mixed in
        seed: of it
    """
    chance = random.Random(seed)
    marks = {"peg": 0.0, **heights}
    return [
        (mark, f"s{number}", round(water - height + chance.gauss(0, spread), 4))
        for number, water in enumerate(setups, start=1) for mark, height in marks.items()
    ]  # fmt: skip
