"""Reading the tables `mixing.measure.NAME`: what each measure of a site holds and how full it is filled."""

from __future__ import annotations

from pinfold.errors import OutOfRangeError
from pinfold.formulas.measures import cone_volume
from pinfold.plan.measures import SiteMeasure
from pinfold.store.forms import Form
from pinfold.units import CUBIC_METER, METER, RATIO, CubicMeter

NAMES = ("bucket", "pail", "shovel", "barrow")
_SHAPE = ("height", "bottom", "top")


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
    shape = {key: form.perhaps(key, METER, low=0.02, high=2.0) for key in _SHAPE}
    brim = bucket if name == "bucket" else form.perhaps("volume", CUBIC_METER, low=0.0002, high=0.5)
    if name == "bucket" and form.has("volume"):
        form.complain("volume", "goes into mixing.bucket; write it there and take it out here")
    if brim is None:
        brim = _by_shape(form, shape)
    measure = SiteMeasure(name=name, brim=brim, **shape)
    return SiteMeasure(name=name, brim=brim, filled=_filled(form, measure), **shape)


def _by_shape(form: Form, shape: dict[str, float | None]) -> CubicMeter:
    height, bottom, top = (shape[key] for key in _SHAPE)
    if height is None or bottom is None or top is None:
        form.complain("volume", 'is missing; write volume = "60 L", or height, bottom and top of a round one')
        return 0.01
    return _tried(form, "height", lambda: cone_volume(height=height, bottom=bottom, top=top), otherwise=0.01)


def _filled(form: Form, measure: SiteMeasure) -> float:
    below = form.perhaps("below", METER, low=0.0, high=1.0)
    filled = form.perhaps("filled", RATIO, low=0.05, high=2.5)
    if below is None:
        return 1.0 if filled is None else filled
    if filled is not None:
        form.complain("below", "goes without filled; say how full it is as a share or by its rim")
    if measure.height is None:
        form.complain("height", "is missing; how far below the rim says nothing without it")
        return 1.0
    return _tried(form, "below", lambda: measure.share_below(below) or 1.0, otherwise=1.0)


def _tried(form: Form, key: str, make: object, *, otherwise: float) -> float:
    assert callable(make)
    try:
        return float(make())
    except OutOfRangeError as wrong:
        form.complain(key, str(wrong))
        return otherwise
