"""What no check of a wall as a whole looks at."""

from __future__ import annotations

from pinfold.studies.stability.answers import told
from pinfold.studies.stability.cases import Exposed

LEFT_OUT = (
    "earth higher on one side than on the other where the plan names no bank; earth in front of the footing, "
    "trees and the shelter of what stands near; the twist of wind on one half of the wall; what a wall around a corner "
    "holds beyond the panel next to it, and wind on both walls of a corner at once"
)


def left_out_of(ask: Exposed) -> str:
    """What the checks of a wall do not look at, with what the plan says nobody and nothing does."""
    nobody = "people and animals pushing" if ask.place.pushes == () else ""
    return told(LEFT_OUT, nobody, "earthquakes" if ask.place.seismic is None else "")
