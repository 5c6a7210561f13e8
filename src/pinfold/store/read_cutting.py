"""Reading the table `cutting` of a plan file: the saw, and what is worth keeping."""

from __future__ import annotations

from pinfold.plan.cutting import METRIC, US, Cutting
from pinfold.store.forms import Form
from pinfold.units import METER, Meter, System


def read_cutting(whole: Form, units: System) -> Cutting:
    """The table `cutting`; what is absent stands as usual and is told as such."""
    form = whole.sub("cutting") or Form({}, "cutting", whole.complaints)
    usual = US if units is System.US else METRIC

    def length(key: str, otherwise: Meter, high: Meter) -> Meter:
        return form.quantity(key, METER, otherwise=otherwise, low=0.0, high=high)

    cutting = Cutting(
        kerf=length("kerf", usual.kerf, 0.03),
        trim=length("trim", usual.trim, 0.5),
        keep=length("keep", usual.keep, 10.0),
        keep_side=length("keep_side", usual.keep_side, 5.0),
        mesh_lap=length("mesh_lap", usual.mesh_lap, 2.0),
        usual=tuple(key for key in usual.usual if key not in form.table),
    )
    form.refuse_unknown()
    return cutting
