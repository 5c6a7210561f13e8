"""Sheet on a frame: carried by its posts, and what is not reckoned of it."""

from __future__ import annotations

from pinfold.findings import Finding
from pinfold.studies.layout.records import Stretch

LEFT_OUT = "fixings pulled through; the rails it is fixed to; sheet that flutters"


def spanning(stretch: Stretch) -> tuple[Finding, ...]:
    """Whether the sheet spans from rail to rail, never shown; nothing where no sheet stands."""
    wall = stretch.buildup.wall
    if wall is None or wall.kind.word("make") != "sheet":
        return ()
    return (
        Finding(
            check="bending", subject=f"stretch {stretch.name}", left_out=LEFT_OUT,
            because="what the sheet bears between its rails is not reckoned: take the greatest span from its maker",
        ),
    )  # fmt: skip
