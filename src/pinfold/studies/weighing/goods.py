"""What build-ups need of everything, layer by layer, each counted only where something it hangs on differs."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import NamedTuple

from pinfold.logbook.works import Work
from pinfold.studies.batching.cards import batch_cards
from pinfold.studies.days.counted import Counted
from pinfold.studies.days.durations import pace_of
from pinfold.studies.days.tasks import work_of
from pinfold.studies.gathering.gather import as_bought, uncharged
from pinfold.studies.gathering.needs import Need, needs_of, unknown_amounts
from pinfold.studies.gathering.sizes import curing_of, pieces_by_kind
from pinfold.studies.gathering.water import mixing_water
from pinfold.studies.lessons.applying import as_taught
from pinfold.studies.mixing.pacing import paced
from pinfold.studies.parts.listing import parts
from pinfold.studies.quantities.records import Quantity
from pinfold.studies.quantities.take_off import Section, take_off
from pinfold.studies.weighing.asking import Asks, one_by_one
from pinfold.studies.weighing.axes import Picks
from pinfold.studies.weighing.groups import lying, stepping
from pinfold.studies.weighing.scene import Built, Scene
from pinfold.studies.weighing.tables import Codes, Table, Yes, picked, tabled
from pinfold.units import CubicMeter, Second

Good = tuple[str, str, str, float]
"""Shelf, name, kind of unit, and height of a roll: what is bought together."""


class _Layers(NamedTuple):
    """Some layers of some sections of the take-off.

    Attributes:
        sections: that they are in.
        only: the layers there; empty for all.
        without: but for these.
    """

    sections: tuple[Section, ...]
    only: tuple[str, ...] = ()
    without: tuple[str, ...] = ()

    def hold(self, layer: str) -> bool:
        """Whether a layer is among them."""
        return (not self.only or layer in self.only) and layer not in self.without


_HANGING, _LEAVES = ("rails", "mesh", "apron", "ties"), ("gate",)
_WALL = _Layers((Section.UNDER_COATS, Section.OVER_COATS, Section.FORMS), without=_HANGING)
_COATS = _Layers((Section.COATS,))
_FENCE = _Layers((Section.OVER_COATS,), only=_HANGING)
_POSTS = _Layers((Section.STANDING, Section.GATES), without=_LEAVES)  # posts of gates are cut from the same
_GATES = _Layers((Section.GATES,), only=_LEAVES)


@dataclass(frozen=True, eq=False)
class Needed:
    """What some layers need.

    Attributes:
        needs: of each good.
        water: that goes into their mixes.
        curing: water that keeps coats damp, in square meters for a day.
        missing: what could not be counted, in plain words.
        uncharged: mixes that cannot be charged, likewise.
        labor: time that they take by the norms of the trade, by sort of work; not a number where it is not known.
        turns: when each good first comes, in the order of the take-off: who comes first takes from the pile.
    """

    needs: Mapping[Good, Need]
    turns: Mapping[Good, int]
    water: CubicMeter
    curing: float
    missing: tuple[str, ...]
    uncharged: tuple[str, ...]
    labor: Mapping[Work, Second]


def goods_tables(scene: Scene, wanted: Yes | None = None, asks: Asks = one_by_one) -> tuple[Table[Needed], ...]:
    """A table for each group of layers; together they hold all of the take-off."""
    wall, high, foot, coat, fenced, post, every, deep, rail, mesh = picked(scene.shape)
    at, tops = lying(scene).states, stepping(scene).states

    def over(codes: tuple[Codes, ...], layers: _Layers) -> Table[Needed]:
        return tabled(codes, partial(_needed, scene, layers=layers), asks, wanted=wanted)

    return (
        over((wall, high, foot, post, every), _WALL),
        over((wall, high, foot, coat), _COATS),
        over((tops, fenced, post, every, rail, mesh), _FENCE),
        over((at, fenced, post, every, deep), _POSTS),
        over((tops, fenced, post, every), _GATES),
    )


def _needed(scene: Scene, picks: Picks, *, layers: _Layers) -> Needed:
    built = scene.built(picks)
    taken = as_taught(take_off(built.layout, layers.sections), built.lessons)
    quantities = [each for each in taken if layers.hold(each.layer)]
    cards = batch_cards(paced(quantities, built.layout, built.lessons), built.lessons.mixing)
    pieces = pieces_by_kind(parts(built.layout), built.layout)
    needs = {good_of(need): need for need in needs_of(as_bought(quantities, built.layout), cards, pieces)}
    places = _places(built)
    turns = {
        good: min(places.get(use.place, len(places)) for use in need.uses) for good, need in needs.items()
    }  # fmt: skip
    damp = (
        math.fsum(face.area * face.days for face in curing_of(built.layout))
        if Section.COATS in layers.sections
        else 0.0
    )
    labor = _labor(built, quantities, layers)
    return Needed(needs, turns, mixing_water(cards), damp, unknown_amounts(quantities), uncharged(cards), labor)


def _labor(built: Built, quantities: Sequence[Quantity], layers: _Layers) -> Mapping[Work, Second]:
    """Time that some layers take by the norms of the trade."""
    found: dict[Work, Second] = {}
    for task in work_of(built.layout, Counted(quantities, ()), layers.sections):
        if layers.hold(task.layer):
            found[task.work] = found.get(task.work, 0.0) + pace_of(task, built.layout.plan.people).labor
    return found


def _places(built: Built) -> Mapping[str, int]:
    """Every place in the order of the take-off: the stretches of a run, its posts, its gates."""
    layout = built.layout
    found: dict[str, int] = {}
    for run in dict.fromkeys(run.name for _, run in layout.plan.runs):
        names = [stretch.name for stretch in layout.stretches if stretch.run == run]
        names += [f"{run} ", *(gate.name for gate in layout.plan.gates if layout.gates[gate.name].run == run)]
        for name in names:
            found.setdefault(name, len(found))
    return found


def good_of(need: Need) -> Good:
    """What it is bought together with."""
    height = round(need.kind.value("roll_height"), 4) if need.kind.has("roll_height") else 0.0
    return need.kind.shelf, need.kind.name, need.unit.kind, height
