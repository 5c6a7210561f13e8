"""How large a batch may be: times of setting and of use against what their sources print."""

from __future__ import annotations

import pytest

from pinfold.formulas import batch_size
from pinfold.studies.batching.limits import DRUM
from pinfold.tables.shelf import kind
from published import Printed
from rows import Row

HOUR, FAHRENHEIT = 3600.0, 5 / 9


def row(source, where, what, digits, ours, *, formula="", look_up=True, note=""):
    return Row(what=what, printed=Printed(digits, source, where), ours=ours, table=f"{source} {where}", formula=formula,
               look_up=look_up, note=note)  # fmt: skip


def sets_in(fahrenheit):
    return lambda: batch_size.setting_time(temperature=(fahrenheit - 32) * FAHRENHEIT) / HOUR


def used_within(family, unit=HOUR):
    return lambda: kind("workability", family).value("workable") / unit


ROWS = (
    *(
        row("SET-TIMES", "table of setting times", f"concrete at {warm} °F sets in, h", digits, sets_in(warm),
            formula="batch_size.setting_time", note=note)
        for warm, digits, note in (
            (100, "1.67", "printed 1-2/3"), (90, "2.67", "printed 2-2/3"), (80, "4", ""), (70, "6", ""), (60, "8", ""),
        )
    ),
    row("ASTM-C270", "time after mixing, a page that restates it", "mortar is used within, h", "2.5",
        used_within("mortar")),
    row("OBC-9-20", "9.20.3.2 (5)(b)", "mortar below 25 °C is in place within, h", "2.5", used_within("mortar")),
    row("TMS-602", "3.5 A, a page that restates it", "grout is placed within, h", "1.5", used_within("grout")),
    row("ASTM-C94", "10.7, a page that quotes it", "concrete is discharged within, h", "1.5",
        used_within("concrete")),
    row("DRUM-SHARE", "p. 59", "batch over the volume of the drum, %", "60", lambda: DRUM.value * 100),
    row("NIOSH-LIFTING", "load constant, a page that restates it", "most one lifts in the best posture, kg", "23",
        lambda: kind("cautions", "heavy-lift").value("over")),
)  # fmt: skip


@pytest.mark.parametrize("checked", ROWS, ids=str)
def test_as_printed(checked):
    assert checked.printed.fits(checked.ours(), method_error=checked.method_error)


def test_the_code_that_cuts_mortar_to_an_hour_and_a_half_from_25_degrees_on_lies_amid_ours():
    warm, hot = (batch_size.workable_time(usual=2.5 * HOUR, temperature=each) / HOUR for each in (25.0, 32.0))

    assert hot < 1.5 < warm < 2.5
