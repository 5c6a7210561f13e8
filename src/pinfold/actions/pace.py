"""How often Python looks for garbage: seldom, for a plan's answers are many small records that live or die together."""

from __future__ import annotations

import gc

_RECORDS = 100_000


def look_for_garbage_seldom() -> None:
    """Leave what is loaded alone, and look for rings among the rest only after so many new records.

    Records hold each other in no rings, so nothing waits for it; looking at all of them again and again took a tenth of
    every answer.
    """
    gc.freeze()
    gc.set_threshold(_RECORDS, 20, 100)
