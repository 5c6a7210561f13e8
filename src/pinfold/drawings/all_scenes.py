"""Every drawing of a plan, in the order of the binder, and the sheet on which each is largest."""

from __future__ import annotations

from dataclasses import replace

from pinfold.drawings.elevation_scene import elevation_scenes
from pinfold.drawings.gate_scene import gate_scenes
from pinfold.drawings.leaf_scene import leaf_scenes
from pinfold.drawings.plan_scene import plan_scene
from pinfold.drawings.scenes import Scene
from pinfold.drawings.section_scene import section_scenes
from pinfold.drawings.sheets import ROOMS, Sheet, largest_of
from pinfold.plan.enclosure import Paper
from pinfold.studies.layout.records import Layout
from pinfold.units import System


def scenes(layout: Layout) -> tuple[Scene, ...]:
    """Plan, elevations around the plot, sections of the build-ups, gates and their leaves; no two of one name."""
    drawn = (
        plan_scene(layout), *elevation_scenes(layout), *section_scenes(layout), *gate_scenes(layout),
        *leaf_scenes(layout),
    )  # fmt: skip
    named: dict[str, Scene] = {}
    for scene in drawn:
        tries = (scene.name, *(f"{scene.name}-{number}" for number in range(2, len(drawn) + 2)))
        name = next(each for each in tries if each not in named)
        named[name] = scene if name == scene.name else replace(scene, name=name)
    return tuple(named.values())


def largest_sheet(scene: Scene, *, paper: Paper, system: System) -> Sheet:
    """A scene on the upright or the broad sheet, whichever shows it larger; the upright one when both are alike.

    Raises:
        NoSolutionError: its texts fit on neither.
    """
    return largest_of(scene, rooms=(ROOMS[paper.value], ROOMS[f"{paper.value} wide"]), system=system)
