"""A leaf from its opening: what is left between the gaps, in whole marks of the tape."""

from __future__ import annotations

from pinfold.errors import InputError
from pinfold.plan.enclosure import Gate
from pinfold.studies.gates.records import MARK, LeafSize, marks_in
from pinfold.units import Meter, System, tape


def leaf_size(gate: Gate, system: System, *, own: Meter | None = None) -> LeafSize:
    """The leaf that fits the opening with the planned gaps, or one on hand in it.

    Args:
        gate: as planned
        system: of the tape
        own: width of a leaf on hand; None for one made to fit

    Raises:
        InputError: a leaf on hand that is wider than the opening leaves room for.
    """
    opening, mark = marks_in(gate.width, system), MARK[system]
    width = marks_in(gate.leaf_width, system) if own is None else _fitting(gate, system, own)
    each, rest = divmod((opening - gate.leaves * width) // mark, gate.leaves + 1)
    gaps = tuple((each + more) * mark for more in _MORE[gate.leaves][rest])
    return LeafSize(system=system, opening=opening, width=width, height=marks_in(gate.height, system), gaps=gaps)


_MORE = {1: ((0, 0), (1, 0)), 2: ((0, 0, 0), (0, 1, 0), (1, 0, 1))}
"""Marks that are left over, by the leaves and how many: at the hinges of one leaf, alike on both sides of two."""


def _fitting(gate: Gate, system: System, own: Meter) -> int:
    if own > gate.leaf_width + 1e-6:
        many = "leaf is" if gate.leaves == 1 else "leaves are"
        raise InputError(
            f"a leaf of {tape(own, system)} is too wide: the opening of {tape(gate.width, system)} with gaps of "
            f"{tape(gate.gap, system)} takes {gate.leaves} of at most {tape(gate.leaf_width, system)}; narrow it, set "
            f"the posts further apart, or plan smaller gaps (its {many} planned from the opening)",
            place="leaf",
        )
    if own < 0.2:
        raise InputError(f"a leaf of {tape(own, system)} is too narrow; 20 cm (8 in) at least is wanted", place="leaf")
    return marks_in(own, system)
