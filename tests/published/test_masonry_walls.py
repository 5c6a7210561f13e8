"""Walls as masonry against printed values: shear, proportions and initial shear strengths."""

from __future__ import annotations

import pytest

from pinfold.formulas import bed_shear, wall_spans
from published import Printed
from rows import Row

IN, FT = 0.0254, 0.3048
LBF = 0.45359237 * 9.80665
PSI = LBF / IN**2

ROWS = [
    Row(
        what="longest 8 in wall between uprights, 18 thicknesses, in",
        printed=Printed("144", "TMS-EMPIRICAL", "an 8 in wall outside that bears nothing, worked in an exam forum"),
        ours=lambda: wall_spans.longest_by_ratio(thickness=8 * IN, ratio=18.0) / IN,
        table="TMS empirical ratios", formula="wall_spans.longest_by_ratio",
    ),
    Row(
        what="highest 6 in bearing wall, 20 thicknesses, ft",
        printed=Printed("10", "TMS-EMPIRICAL", "6 in wall of one story, a masonry magazine of April 1992, p. 26"),
        ours=lambda: wall_spans.longest_by_ratio(thickness=6 * IN, ratio=20.0) / FT,
        table="TMS empirical ratios", formula="wall_spans.longest_by_ratio",
        note="the ratio 20 is from the same code's table",
    ),
    Row(
        what="shear that 91.2 in² of grouted block stands by 1.2 A √f'm at 1500 psi, lb",
        printed=Printed("4239", "ENGINEERS-LIST-SHEAR", "July 2007, the second limit on Vm", "A2"),
        ours=lambda: 1.2 * 91.2 * bed_shear.shear_by_strength(masonry_strength=1500 * PSI) / PSI,
        table="engineers' list, shear", formula="bed_shear.shear_by_strength",
        note="factor 1.2 and area as printed there; the root is ours",
    ),
]  # fmt: skip


@pytest.mark.parametrize("row", ROWS, ids=str)
def test_printed_value(row):
    assert row.printed.fits(row.ours(), method_error=row.method_error), (row.ours(), row.printed.digits)
