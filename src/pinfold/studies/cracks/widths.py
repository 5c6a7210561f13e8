"""What the width of a crack means for repair and damp."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.errors import InputError
from pinfold.sources import Standing
from pinfold.studies.cracks.records import CrackClass
from pinfold.units import Meter

_SOURCE = "BRE-251"
_ROWS: tuple[tuple[str, float, str, str], ...] = (
    ("hairline", 0.0, "nothing needs doing; a new coat of paint or limewash covers it", "lets in next to nothing"),
    ("fine", 0.1e-3, "brush in a thin slurry, or cover it with the next coat", "drinks some driving rain"),
    (
        "slight",
        1e-3,
        "rake out and fill; repoint joints outside",
        "lets driving rain in until it is filled; frost can open it further",
    ),
    (
        "moderate",
        5e-3,
        "open it up and patch; repoint, and relay loose blocks or bricks",
        "no longer keeps the weather out",
    ),
    (
        "severe",
        15e-3,
        "break out and rebuild the part; find what moved before building again",
        "lets water run through and frost work inside the wall",
    ),
    (
        "very severe",
        25e-3,
        "keep away from the wall until someone competent has seen it; rebuild it in part or whole",
        "lets water run through and frost work inside the wall",
    ),
)  # fmt: skip

CRACK_CLASSES: tuple[CrackClass, ...] = tuple(
    CrackClass(
        name=name,
        least=least,
        most=None if following is None else following[1],
        repair=repair,
        damp=damp,
        source=_SOURCE,
        standing=Standing.READ,
        words_standing=Standing.PRACTICE,
    )
    for (name, least, repair, damp), following in zip(_ROWS, (*_ROWS[1:], None), strict=True)
)
"""Six classes of visible cracks in low walls of masonry, by width."""


@dataclass(frozen=True, kw_only=True)
class CrackWords:
    """What one crack's width means.

    Attributes:
        usual: the class of the width.
        worst: the class it may be in, the width being two spreads larger.
        says: both in the builder's words.
    """

    usual: CrackClass
    worst: CrackClass
    says: str


def crack_words(width: Meter, *, spread: Meter = 0.0) -> CrackWords:
    """What a width means, and what it may mean given its spread.

    Raises:
        InputError: a width or spread that is no length.
    """
    if not 0 <= width < float("inf") or not 0 <= spread < float("inf"):
        raise InputError("the width of a crack and its spread must be lengths of 0 or more", place="width")
    usual, worst = _class_of(width), _class_of(width + 2 * spread)
    says = f"{1e3 * width:.2g} mm is {usual.name}: {usual.repair}; it {usual.damp}."
    if worst is not usual:
        says += f" Within its spread it may be {worst.name}: {worst.repair}."
    says += (
        " The width alone says nothing of whether the wall stands; a crack that grows counts for more than a wide one."
    )
    return CrackWords(usual=usual, worst=worst, says=says)


def _class_of(width: Meter) -> CrackClass:
    return [each for each in CRACK_CLASSES if width >= each.least][-1]
