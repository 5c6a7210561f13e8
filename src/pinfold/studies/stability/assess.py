"""Does it stand: every check on a plan that is laid out, each answered HOLDS, FAILS or NOT SHOWN."""

from __future__ import annotations

from functools import lru_cache

from pinfold.findings import Finding
from pinfold.studies.layout.records import Layout
from pinfold.studies.stability.inquiry import Inquiry


@lru_cache(maxsize=4)  # several pages of one layout ask
def inquiry_into(layout: Layout) -> Inquiry:
    """A layout to be asked topic by topic; what is found so is not sought again by `assess`."""
    return Inquiry(layout=layout)


def assess(layout: Layout) -> tuple[Finding, ...]:
    """All findings: walls in order around the plot, then posts, gates, frost, buried lines.

    Stability to begin with: wind, weight and ground. Each finding says what it leaves out.
    """
    return inquiry_into(layout).findings
