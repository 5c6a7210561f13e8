"""Reading the tables `mixing.measure.NAME`: what each measure of a site holds and how full it is filled."""

from __future__ import annotations

import math
from dataclasses import replace

from pinfold.errors import OutOfRangeError
from pinfold.formulas.measures import cone_volume
from pinfold.plan.measures import SiteMeasure
from pinfold.store.forms import Form
from pinfold.units import CUBIC_METER, METER, RATIO, CubicMeter, Meter, Ratio

NAMES = ("bucket", "pail", "shovel", "barrow")


def read_measures(mixing: Form, bucket: CubicMeter) -> tuple[SiteMeasure, ...]:
    """The measures that a plan names, in its order; the bucket's volume is `mixing.bucket`.

    Args:
        mixing: the table
        bucket: what the bucket holds to the brim
    """
    whole = mixing.sub("measure")
    if whole is None:
        return ()
    found = []
    for name in whole.table:
        if name not in NAMES:
            whole.complain(name, f"is no measure that is known; there are {', '.join(NAMES)}")
            continue
        form = whole.sub(name)
        if form is not None:
            found.append(_measure(form, name, bucket))
            form.refuse_unknown()
    return tuple(found)


def _measure(form: Form, name: str, bucket: CubicMeter) -> SiteMeasure:
    height, bottom, top = (form.perhaps(key, METER, low=0.02, high=2.0) for key in ("height", "bottom", "top"))
    brim = bucket if name == "bucket" else form.perhaps("volume", CUBIC_METER, low=0.0002, high=0.5)
    if name == "bucket" and form.has("volume"):
        form.complain("volume", "goes into mixing.bucket; write it there and take it out here")
    if brim is None and height is not None and bottom is not None and top is not None:
        brim = _volume(height, bottom, top)
    if brim is None:
        form.complain("volume", 'is missing; write volume = "60 L", or height, bottom and top of a round one')
    measure = SiteMeasure(name=name, brim=brim or _STAND_IN, height=height, bottom=bottom, top=top)
    return replace(measure, filled=_filled(form, measure))


_STAND_IN: CubicMeter = 0.01
"""Goes on in place of a volume that was complained of."""


def _volume(height: Meter, bottom: Meter, top: Meter) -> CubicMeter:
    """Of a round one; not a number where a length was complained of."""
    good = all(map(math.isfinite, (height, bottom, top)))
    return cone_volume(height=height, bottom=bottom, top=top) if good else math.nan


def _filled(form: Form, measure: SiteMeasure) -> Ratio:
    below = form.perhaps("below", METER, low=0.0, high=1.0)
    filled = form.perhaps("filled", RATIO, low=0.05, high=2.5)
    if below is None:
        return 1.0 if filled is None else filled
    if filled is not None:
        form.complain("below", "goes without filled; say how full it is as a share or by its rim")
    if measure.height is None:
        form.complain("height", "is missing; how far below the rim says nothing without it")
        return 1.0
    return _share(form, measure, below)


def _share(form: Form, measure: SiteMeasure, below: Meter) -> Ratio:
    if not math.isfinite(below) or not math.isfinite(measure.height or 0.0):
        return math.nan
    try:
        return measure.share_below(below) or 1.0
    except OutOfRangeError as wrong:
        form.complain("below", str(wrong))
        return 1.0
