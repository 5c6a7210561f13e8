"""What piers do for a wall they stiffen: pads that hold it down and press the ground, a lowest bed that is thicker.

The wall between two piers leans on them; what it holds by its own weight and what the pads hold are added up. That is
safe: it is one way in which the loads can go into the ground.
"""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.findings import Step, work
from pinfold.formulas import bearing, pier_sections, walls
from pinfold.plan.buildups import Faces, Grout, Piers
from pinfold.studies.stability.bedding import Section, section_of
from pinfold.studies.stability.pieces import Piece, widest_bay
from pinfold.studies.stability.weights import Weight
from pinfold.units import Meter, NewtonMeterPerMeter, NewtonPerMeter, Pascal, Ratio

PIERS = "the piers are counted, with the wall between them spanning level: see the panel between piers"


def _off(piece: Piece, piers: Piers) -> Meter:
    """How far the middle of the wall stands from the middle of its piers."""
    return 0.0 if piers.faces is Faces.BOTH else (piers.depth - piece.wall.thickness) / 2


def held_by_pads(piece: Piece, weight: Weight) -> tuple[Step, ...]:
    """Moment by which pads hold more than the strip would, per length of wall; nothing without piers on pads."""
    piers = piece.buildup.piers
    if piers is None or piece.base.footing <= 0:
        return ()
    farther = (piers.pad_width - piece.base.width) / 2 - _off(piece, piers)
    if farther <= 0:
        return ()
    extra = weight.piers + weight.pads
    on_pads = (weight.total - extra) * piers.pad_length / widest_bay(piece) + extra
    return (
        work(
            walls.resisting_moment, why="what stands on the pads, so much farther from their toes, spread over a bay",
            weight=on_pads, arm=farther,
        ),
    )  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Pressed:
    """What strip and pads do to the ground.

    Attributes:
        toe: the greatest pressure.
        contact: width that presses, pads and strip together, spread over a bay.
        working: how both were found.
    """

    toe: Pascal
    contact: Meter
    working: tuple[Step, ...]


def pressed_pads(piece: Piece, weight: Weight, share: Ratio, moment: NewtonMeterPerMeter) -> Pressed:
    """The ground under strip and pads: the strip leans as far as it presses all over, the pads take the rest.

    Raises:
        OutOfRangeError: the pads tip over.
    """
    piers, bay = piece.buildup.piers, widest_bay(piece)
    assert piers is not None
    line, strip = share * (weight.total - weight.piers - weight.pads), max(bay - piers.pad_length, 0.0)
    leaning = min(moment * bay, line * piece.base.width / 6 * strip)
    under_strip = work(
        bearing.base_pressure, why="under the strip between pads, pressed all over", load=line,
        width=piece.base.width, eccentricity=leaning / (line * strip) if line * strip > 0 else 0.0,
    )  # fmt: skip
    on_pad = line * piers.pad_length + share * (weight.piers + weight.pads) * bay
    off = work(
        bearing.eccentricity, why="how far off the middle of a pad its load stands, with the rest of the bay's moment",
        moment=moment * bay - leaning + line * piers.pad_length * _off(piece, piers), load=on_pad,
    )  # fmt: skip
    under_pad = work(
        bearing.base_pressure, why="pressure under the toe of a pad", load=on_pad / piers.pad_length,
        width=piers.pad_width, eccentricity=off.number,
    )  # fmt: skip
    beside, beneath = under_strip.result, under_pad.result
    assert isinstance(beside, bearing.BasePressure)
    assert isinstance(beneath, bearing.BasePressure)
    contact = (beside.contact * strip + beneath.contact * piers.pad_length) / bay
    return Pressed(toe=max(beside.toe, beneath.toe), contact=contact, working=(under_strip, off, under_pad))


@dataclass(frozen=True, kw_only=True)
class Stiffened:
    """The lowest bed of a wall with its piers.

    Attributes:
        section: bedded area and modulus per length, and their working.
        half: how far the load may stand off the middle where the bed pulls nothing.
    """

    section: Section
    half: Meter


def stiffened_bed(piece: Piece, weight: Weight) -> Stiffened | None:
    """The lowest bed with its piers; None without piers.

    Raises:
        NotFoundError: the shells of hollow units are not known.
    """
    piers = piece.buildup.piers
    if piers is None:
        return None
    bay = widest_bay(piece)
    return Stiffened(section=_section(piece, piers, bay), half=_half(piece, piers, weight, bay))


def _section(piece: Piece, piers: Piers, bay: Meter) -> Section:
    """Pier and wall together; beside a pier of hollow units, its cells filled, the wall counts for its bed alone.

    A pier so slender that its outer edge is strained sooner than the plain wall takes nothing from it.
    """
    wall = piece.wall
    area, plain, steps = section_of(wall)
    hollow = wall.kind.word("bedding") == "face-shell" and wall.grout is not Grout.FULL
    reach = work(
        pier_sections.working_length, why="wall that works with a pier", spacing=bay, width=piers.width,
        thickness=wall.thickness,
    )  # fmt: skip
    found = work(
        pier_sections.pier_section, why="section of pier and wall", length=piers.width if hollow else reach.number,
        thickness=wall.thickness, width=piers.width, depth=piers.depth, inset=0.5 if piers.faces is Faces.BOTH else 0.0,
    )  # fmt: skip
    pier = found.result
    assert isinstance(pier, pier_sections.PierSection)
    bedded = (area * (bay - piers.width) + piers.width * piers.depth) / bay
    return bedded, max(pier.modulus / bay, plain), (*steps, *(() if hollow else (reach,)), found)


def _half(piece: Piece, piers: Piers, weight: Weight, bay: Meter) -> Meter:
    """Mean of how far the load may go in the wall and in the piers, by the weight in each."""
    line: NewtonPerMeter = weight.wall - weight.piers
    thickness, at_piers = piece.wall.thickness, line * piers.width + weight.piers * bay
    between = line * (bay - piers.width) * thickness / 2
    return (between + at_piers * (piers.depth / 2 - _off(piece, piers))) / (weight.wall * bay)
