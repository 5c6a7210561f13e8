"""Plans to measure on: the sample, and an enclosure of twelve sides and some two hundred posts on rolling ground."""

from __future__ import annotations

import math
import re
from importlib.resources import files

from pinfold.plan.enclosure import Enclosure
from pinfold.store.planfile import plan_of

SIDES = 12


def sample_text() -> str:
    return files("pinfold.store").joinpath("samples/seed-garden/plan.toml").read_text(encoding="utf-8")


def sample() -> Enclosure:
    return plan_of(sample_text())


def twelve_sides_text(stretch: float = 1.0) -> str:
    """The sample's build-ups on a plot of twelve sides; `stretch` moves one corner, as a drag does."""
    text = sample_text()
    head = text[: text.index("# Heights of the ground")]
    buildups = text[text.index('[buildup."block and mesh"]') :]
    buildups = buildups.replace('says = "hollow block', 'says = "twelve: hollow block')
    corners = [_corner(number, stretch if number == 3 else 1.0) for number in range(SIDES)]
    sides = [
        f'[[side]]\nname = "s{n}"\nfrom = "C{n}"\nto = "C{(n + 1) % SIDES}"\nbuildup = "block and mesh"\n'
        for n in range(SIDES)
    ]
    gates = [
        re.sub(r'name = "[^"]*"', f'name = "gate {n}"', GATE).replace('side = "s0"', f'side = "s{n}"')
        for n in (0, 4, 8)
    ]
    return "\n".join([head, ground(), *corners, *sides, *gates, LINE, buildups])


def ground() -> str:
    rows = []
    for east in range(-7, 8):
        for north in range(-7, 8):
            height = 1.2 * math.sin(east / 3) + 0.8 * math.cos(north / 2.5)
            rows.append(f'    ["{east * 13} m", "{north * 13} m", "{height:.3f} m"],')
    return "\n".join(["[ground]", "points = [", *rows, "]", ""])


def _corner(number: int, stretch: float) -> str:
    angle, radius = math.tau * number / SIDES, 78.0 * stretch
    x, y = radius * math.cos(angle), radius * math.sin(angle)
    return f'[[corner]]\nname = "C{number}"\nx = "{x:.3f} m"\ny = "{y:.3f} m"\n'


GATE = """[[gate]]
name = "gate"
side = "s0"
at = "12 m"
width = "4 ft"
height = "5 ft"
hinges = "left"
kind = "steel-frame-mesh"
post = "pipe-2in"
embed = "3 ft"
collar = "12 in"
"""
LINE = """[[line]]
name = "main"
carries = "water"
depth = "4 ft"
clearance = "12 in"
located = true
points = [["-90 m", "0 m"], ["0 m", "5 m"], ["90 m", "0 m"]]
"""


def twelve_sides(stretch: float = 1.0) -> Enclosure:
    return plan_of(twelve_sides_text(stretch))
