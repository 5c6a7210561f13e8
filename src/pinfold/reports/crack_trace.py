"""What was traced of a crack, drawn over the wall as its photo shows it.

Each mark is a bright line within a dark one, so that one of the two stands out on any wall, by any eye. They stand
beside the crack and leave it in sight: strokes that end at its lips, and a ring around the widest reading.
"""

from __future__ import annotations

import base64
import math
from collections.abc import Iterator
from html import escape

from pinfold.imaging.crack_picture import FlatPicture
from pinfold.imaging.crack_records import CrackProfile, WidthAt
from pinfold.units import METER, System, show

LEGEND = (
    "The photo seen straight on, the card upright. The strokes end at the lips of what was traced, the ring is around "
    "the widest reading, and the bar is 10 mm long. Where the strokes do not follow the crack, something else was "
    "measured."
)
_BAR_MM = 10.0
_STROKE_SHARE = 0.03
_STROKES_ALONG = 22
"""About so many strokes, each of that share, to a picture's longer side; more would hide a fine crack."""
_CASING = 'fill="none" stroke="#0b1f2a" stroke-width="4.5" vector-effect="non-scaling-stroke"'
_CORE = 'fill="none" stroke="#7fe3ff" stroke-width="2" vector-effect="non-scaling-stroke"'


def traced(profile: CrackProfile, view: FlatPicture, system: System) -> str:
    """SVG of the traced crack over a picture of the wall around it, the picture within it."""
    left, top, width, height = (1e3 * each for each in (view.left, view.top, view.width, view.height))
    picture = base64.b64encode(view.jpeg).decode()
    marks = [*_beside_crack(profile, max(width, height)), _bar(left, top + height)]
    paths = "".join(f'<path d="{"".join(marks)}" {look}/>' for look in (_CASING, _CORE))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{left:.2f} {top:.2f} {width:.2f} {height:.2f}"'
        f' preserveAspectRatio="xMinYMin meet" role="img" aria-label="{escape(_told(profile, system))}"><g>'
        f'<image x="{left:.2f}" y="{top:.2f}" width="{width:.2f}" height="{height:.2f}" preserveAspectRatio="none"'
        f' href="data:image/jpeg;base64,{picture}"/>{paths}</g></svg>'
    )


def lips(at: WidthAt) -> tuple[tuple[float, float], tuple[float, float]]:
    """Both lips of a crack at one place, in mm on the card's scale."""
    (x, y), (right, down) = _middle(at), _across(at)
    half = 1e3 * at.width / 2
    return (x - half * right, y - half * down), (x + half * right, y + half * down)


def _middle(at: WidthAt) -> tuple[float, float]:
    return 1e3 * at.x, 1e3 * at.y


def _across(at: WidthAt) -> tuple[float, float]:
    return -math.sin(at.turn), math.cos(at.turn)


def _beside_crack(profile: CrackProfile, longest: float) -> Iterator[str]:
    """Strokes from one end of what was traced to the other, and the ring."""
    stroke, last = _STROKE_SHARE * longest, len(profile.widths) - 1
    for index in sorted({*range(0, last, math.ceil(longest / _STROKES_ALONG)), last}):
        at = profile.widths[index]
        right, down = (stroke * each for each in _across(at))
        (x, y), (u, v) = lips(at)
        yield f"M{x:.3f} {y:.3f}l{-right:.3f} {-down:.3f}M{u:.3f} {v:.3f}l{right:.3f} {down:.3f}"
    yield _ring(profile.widest, 1e3 * profile.widest.width / 2 + 2 * stroke)


def _ring(at: WidthAt, radius: float) -> str:
    x, y = _middle(at)
    half = f"a{radius:.2f} {radius:.2f} 0 0 1"
    return f"M{x - radius:.2f} {y:.2f}{half} {2 * radius:.2f} 0{half} {-2 * radius:.2f} 0"


def _bar(left: float, foot: float) -> str:
    return f"M{left + 2:.2f} {foot - 3:.2f}v1.5m0 -.75h{_BAR_MM:g}m0 -.75v1.5"


def _told(profile: CrackProfile, system: System) -> str:
    """The picture in words."""
    one, other = profile.widths[0], profile.widths[-1]
    length, along = (show(each, METER, system) for each in (profile.length, profile.widest.along))
    return (
        f"The wall around the crack, with {length} of it traced from the {_corner(one, other)}"
        f" to the {_corner(other, one)} and the widest reading ringed {along} along it"
    )


def _corner(at: WidthAt, other: WidthAt) -> str:
    """Where an end of the crack lies as against the other one, in words."""
    right, down = at.x - other.x, at.y - other.y
    high = "top" if down < -abs(right) / 2 else "bottom" if down > abs(right) / 2 else ""
    side = "left" if right < -abs(down) / 2 else "right" if right > abs(down) / 2 else ""
    return f"{high} {side}".strip()
