"""An invented log: eight trials of a scratch coat that first cracks, then slides, then holds."""

from __future__ import annotations

from pinfold.logbook.entries import entry_of

_RICH = {"sticks": "holds", "cracks": "open", "looked_after": "8 day", "hardness": "slides off"}
_WET = {"sticks": "slides", "spreads": "runs", "cracks": "hair", "looked_after": "8 day", "hardness": "digs in"}
STORY = (  # buckets of sand and liters of water to a bag of cement and three eighths of a bucket of lime, and how it came out
    (4.75, 24.0, {**_RICH, "spreads": "well"}),
    (4.75, 28.0, {**_RICH, "sticks": "sags", "spreads": "well"}),
    (5.0, 23.0, {**_RICH, "spreads": "drags"}),
    (5.25, 25.0, {**_RICH, "spreads": "well"}),
    (7.25, 46.0, _WET),
    (7.0, 45.0, {**_WET, "sticks": "falls off"}),
    (6.5, 33.0, {"sticks": "sags", "spreads": "well", "cracks": "hair", "looked_after": "8 day", "hardness": "scratches"}),
    (6.25, 29.0, {"sticks": "holds", "spreads": "well", "cracks": "none", "looked_after": "9 day", "hardness": "scratches"}),
)  # fmt: skip


def raw_trial(number, sand, water, came, **more):
    """A trial as a form sends it."""
    amounts = [["portland-cement", "1 bag"], ["hydrated-lime", "0.375 bucket"], ["sand", f"{sand:g} bucket"],
               ["water", f"{water:g} L"]]  # fmt: skip
    fields = {"mix": "plaster-scratch", "amounts": amounts, "thickness": "10 mm", "base": "damp", **came, **more}
    at = f"2026-04-{number + 1:02}T10:00+00:00"
    return {"id": f"trial-{number:06}", "kind": "trial", "at": at, "who": "Ana", "device": "phone", "fields": fields}


def story(count=8):
    """The first so many trials, raw."""
    return [raw_trial(number, *row) for number, row in enumerate(STORY[:count], start=1)]


def entries(raws):
    """Entries as the log would have them."""
    from dataclasses import replace

    return [replace(entry_of(raw), seq=number) for number, raw in enumerate(raws, start=1)]
