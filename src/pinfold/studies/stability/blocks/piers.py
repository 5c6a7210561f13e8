"""Piers of blocks under a neighbor: pads, stacks, loads, spacing and frost."""

from __future__ import annotations

from functools import partial

from pinfold.errors import NotFoundError
from pinfold.figures import given
from pinfold.findings import Finding, Step, keeps_to, work
from pinfold.formulas import blocks as formulas
from pinfold.formulas import pads
from pinfold.formulas.walls import GRAVITY
from pinfold.plan.grounds import Blocks
from pinfold.plan.outline import Neighbor
from pinfold.plan.place import Place
from pinfold.studies.stability.answers import Question, answered, told
from pinfold.studies.stability.blocks.figures import HIGHEST, SMALLEST_PAD, STRONGEST, WIDEST
from pinfold.studies.stability.footings.freezing import freezing_of
from pinfold.studies.stability.pieces import caution
from pinfold.tables.shelf import Kind
from pinfold.units import KILOGRAM, METER, NEWTON, SQUARE_METER, Newton

LEFT_OUT = (
    "racking of the stacks, since dry blocks hold no sideways push: brace the beams or mortar the blocks; the strength "
    "of the structure and its beams; uneven loads; snow and goods that live does not name; earthquakes"
)


def on_piers(neighbor: Neighbor, blocks: Blocks, place: Place) -> tuple[Finding, ...]:
    """Every check of the piers of one neighbor."""
    subject = f"neighbor {neighbor.name}"
    checks = (
        ("pad area", partial(_pad, blocks, place)), ("pier load", partial(_strength, blocks)),
        ("stack height", partial(_stack, blocks)), ("pier spacing", partial(_spacing, blocks)),
        ("frost", partial(_frost, blocks, place)),
    )  # fmt: skip
    return tuple(
        answered(
            Question(check=check, subject=subject, left_out=LEFT_OUT, caution=_CAUTION * (check == "pad area")), find
        )
        for check, find in checks
    )  # fmt: skip


_CAUTION = f"{caution('jacking')} {caution('engineer')}"


def load_of(blocks: Blocks) -> Newton:
    """Weight of the structure alone.

    Raises:
        NotFoundError: its mass is not given.
    """
    if blocks.mass is None:
        raise NotFoundError("what it weighs is not known; write mass under its blocks")
    return blocks.mass * GRAVITY


def _carried(blocks: Blocks) -> Step:
    return work(
        formulas.pier_load, why="the pier that carries most, in two rows", load=load_of(blocks) + blocks.live,
        count=float(blocks.count),
    )  # fmt: skip


def soil_of(place: Place) -> Kind:
    """The ground.

    Raises:
        NotFoundError: it is not given.
    """
    if place.soil is None:
        raise NotFoundError("no soil is given; write soil or hand_test under [place]")
    return place.soil


def _pad(blocks: Blocks, place: Place) -> Finding:
    if blocks.pad_length is None or blocks.pad_width is None:
        raise NotFoundError("the size of its pads is not known; write pad_length and pad_width under its blocks")
    allowed, carried = soil_of(place).figure("bearing"), _carried(blocks)
    asked = work(
        pads.pad_area, why="pad that the ground bears", load=carried.number, bearing=allowed.value,
        smallest=SMALLEST_PAD.value,
    )  # fmt: skip
    area = blocks.pad_length * blocks.pad_width
    return Finding(
        check="", subject="", demand=asked.number, capacity=area, unit=SQUARE_METER, working=(carried, asked),
        figures=(
            ("mass", given(blocks.mass or 0.0, KILOGRAM)), ("bearing of the ground", allowed),
            ("least pad", SMALLEST_PAD),
        ),
        because=told("as if both rows carried alike", soil_of(place).word("note")),
        mend="" if keeps_to(asked.number, area) else "larger pads, or more piers",
    )  # fmt: skip


def _strength(blocks: Blocks) -> Finding:
    carried, most = _carried(blocks), STRONGEST[blocks.stack]
    return Finding(
        check="", subject="", demand=carried.number, capacity=most.value, unit=NEWTON, working=(carried,),
        figures=(("mass", given(blocks.mass or 0.0, KILOGRAM)), ("most on a stack", most)),
        mend="" if keeps_to(carried.number, most.value) else "more piers, or double stacks",
    )  # fmt: skip


def _stack(blocks: Blocks) -> Finding:
    most = HIGHEST[blocks.stack]
    holds = keeps_to(blocks.stack_height, most.value)
    return Finding(
        check="", subject="", demand=blocks.stack_height, capacity=most.value, unit=METER,
        figures=(("stack height", given(blocks.stack_height, METER)), ("highest stack", most)),
        because="cells upright, long side across the beam, a solid cap, shims driven tight from both sides",
        mend="" if holds else "lower stacks, double ones, or piers that an engineer designs",
    )  # fmt: skip


def _spacing(blocks: Blocks) -> Finding:
    if blocks.spacing is None:
        raise NotFoundError("how far apart its piers stand is not known; write spacing under its blocks")
    holds = keeps_to(blocks.spacing, WIDEST.value)
    return Finding(
        check="", subject="", demand=blocks.spacing, capacity=WIDEST.value, unit=METER,
        figures=(("spacing", given(blocks.spacing, METER)), ("widest", WIDEST)),
        because="written for the steel beams of factory-made homes; wooden beams may want piers nearer together",
        mend="" if holds else "piers nearer together",
    )  # fmt: skip


def _frost(blocks: Blocks, place: Place) -> Finding:
    frozen = freezing_of(place)
    shallow = not keeps_to(frozen.depth, blocks.pad_below)
    return Finding(
        check="", subject="", demand=frozen.depth, capacity=blocks.pad_below, unit=METER, figures=frozen.figures,
        working=frozen.working,
        because=told(_RIDES if shallow else "", frozen.note),
        mend="pads below the frost, on drained gravel, or level it anew each spring" if shallow else "",
    )  # fmt: skip


_RIDES = "pads above the frost ride up and down with the ground, each by its own amount"
