"""Reading the table `cutting` of a plan file: the saw, and what is worth keeping."""

from __future__ import annotations

from pinfold.plan.cutting import METRIC, MOST, US, Cutting
from pinfold.store.forms import Form
from pinfold.units import METER, Meter, System


def read_cutting(whole: Form, units: System) -> Cutting:
    """The table `cutting`; what is absent stands as usual and is told as such."""
    form = whole.sub("cutting") or Form({}, "cutting", whole.complaints)
    usual = US if units is System.US else METRIC

    def length(key: str, otherwise: Meter) -> Meter:
        return form.quantity(key, METER, otherwise=otherwise, low=0.0, high=MOST[key])

    cutting = Cutting(
        kerf=length("kerf", usual.kerf),
        trim=length("trim", usual.trim),
        keep=length("keep", usual.keep),
        keep_side=length("keep_side", usual.keep_side),
        mesh_lap=length("mesh_lap", usual.mesh_lap),
        usual=tuple(key for key in usual.usual if key not in form.table),
    )
    form.refuse_unknown()
    return cutting
