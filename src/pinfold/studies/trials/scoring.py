"""One score for a trial out of what the builder says of it: words of a list, each worth points, weighed together.

They are weighed by the geometric mean, as desirabilities are joined (Derringer and Suich, 1980; from memory): what
fails in one thing is not made good by the others, so a coat that falls off is worth little however few its cracks.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from pinfold.errors import InputError, InvalidPlan
from pinfold.logbook.entries import Entry

POINTS: Mapping[str, Mapping[str, float]] = {
    "sticks": {"falls off": 1.0, "slides": 3.0, "sags": 6.0, "holds": 10.0},
    "spreads": {"crumbles": 1.0, "drags": 5.0, "well": 10.0, "runs": 3.0},
    "cracks": {"none": 10.0, "hair": 6.0, "open": 1.0},
    "hardness": {"crumbles": 1.0, "digs in": 3.0, "scratches": 7.0, "slides off": 10.0},
    "dusts": {"no": 10.0, "a little": 5.0, "much": 1.0},
}
"""What each word is worth, 1 worst to 10 best (common practice)."""
WEIGHTS: Mapping[str, float] = {"sticks": 3.0, "cracks": 3.0, "hardness": 2.0, "spreads": 1.0, "dusts": 1.0}
"""What each counts, where the builder does not say (common practice)."""
OVERALL = "score"
"""The builder's own score all in all; where it is given and no weights are asked for, it alone counts."""
MOST_WEIGHT = 100.0


def weights_of(asked: Sequence[tuple[str, float]]) -> Mapping[str, float]:
    """The weights to use.

    Args:
        asked: by the builder; the usual ones when there are none

    Raises:
        InvalidPlan: a score nobody knows, a weight that cannot be, or none above nothing; every complaint.
    """
    known = (OVERALL, *POINTS)
    complaints = [
        InputError(f"there is no such score; there are {', '.join(known)}", place=f"weight {name}")
        for name, _ in asked if name not in known
    ] + [
        InputError(f"{weight:g} cannot be; from 0 to {MOST_WEIGHT:g} is wanted", place=f"weight {name}")
        for name, weight in asked if not 0 <= weight <= MOST_WEIGHT
    ]  # fmt: skip
    names = [name for name, _ in asked]
    complaints += [InputError("stands there twice", place=f"weight {name}") for name in dict.fromkeys(names)
                   if names.count(name) > 1]  # fmt: skip
    if asked and not complaints and not any(weight for _, weight in asked):
        complaints.append(InputError("all are 0; at least one above 0 is wanted", place="weights"))
    if complaints:
        raise InvalidPlan("weights of the scores", complaints)
    return dict(asked) or WEIGHTS


def told_of(entry: Entry) -> dict[str, float]:
    """Points of everything the builder said of a trial."""
    overall = entry.number(OVERALL)
    found = {} if overall is None else {OVERALL: overall}
    return found | {name: points[word] for name, points in POINTS.items() if (word := entry.text(name)) in points}


def score_of(entry: Entry, asked: Sequence[tuple[str, float]]) -> float | None:
    """The score of a trial; None where nothing that counts was said of it.

    Args:
        entry: of the trial
        asked: weights the builder asked for; none for the usual way
    """
    told = told_of(entry)
    if not asked and OVERALL in told:
        return told[OVERALL]
    weights = {name: weight for name, weight in weights_of(asked).items() if name in told and weight > 0}
    whole = sum(weights.values())
    return math.prod(told[name] ** (weight / whole) for name, weight in weights.items()) if whole else None
