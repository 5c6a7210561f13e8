"""What a photo says of a crack, and the bars a photo must pass."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from pinfold.units import Meter, Radian


@dataclass(frozen=True, kw_only=True)
class PhotoBars:
    """Bars a photo must pass before a crack is measured in it.

    Attributes:
        most_blur: spread of edges at the card.
        least_scale: pixels per millimeter, at the middle of the card and in its most squeezed direction.
        most_tilt: between the view and straight on.
        most_misfit: of the card's markers from where a flat card would have them.
        darkest_paper: brightness of the card's paper, full white 1.
    """

    most_blur: Meter = 0.3e-3
    least_scale: float = 6.0
    most_tilt: Radian = 0.87  # about 50°
    most_misfit: Meter = 0.2e-3
    darkest_paper: float = 0.05


class WidthAt(NamedTuple):
    """The width at one place of the crack.

    Attributes:
        along: distance from the crack's one end.
        width: of the crack there.
        spread: standard deviation from grain and noise alone.
        x: of the middle between its lips, to the right of the card's top left corner, the card seen straight on.
        y: likewise, down from that corner.
        turn: direction in which the crack runs there, from the right over down.
    """

    along: Meter
    width: Meter
    spread: Meter
    x: Meter
    y: Meter
    turn: Radian


@dataclass(frozen=True, kw_only=True)
class CrackProfile:
    """One crack as one photo shows it.

    Attributes:
        widths: along the crack, about one per millimeter, from one end to the other.
        median: the middle width.
        largest: the largest width, of three neighbors in a row.
        widest: the middle one of those three.
        high: the width that 95 % of the crack keeps below.
        length: of crack traced; what the card hides or the picture cuts off is not in it.
        spread: standard deviation of the median, all causes together.
        pixel: size of a pixel of the photo at the card.
        blur: spread of the photo's edges at the crack, as standard deviation.
        tilt: between the view and straight on.
        notes: what the builder should know about this photo.
    """

    widths: tuple[WidthAt, ...]
    median: Meter
    largest: Meter
    widest: WidthAt
    high: Meter
    length: Meter
    spread: Meter
    pixel: Meter
    blur: Meter
    tilt: Radian
    notes: tuple[str, ...]
