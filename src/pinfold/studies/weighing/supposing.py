"""Options judged before and after something is supposed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from pinfold.studies.weighing.records import Weighed


class WhatIf(NamedTuple):
    """One thing supposed.

    Attributes:
        says: in the builder's words.
        after: options judged under it, in the order of those before.
    """

    says: str
    after: tuple[Weighed, ...]


class Lacking(NamedTuple):
    """One thing that cannot be supposed.

    Attributes:
        says: in the builder's words.
        because: what the plan or its prices leave out for it.
    """

    says: str
    because: str


@dataclass(frozen=True, kw_only=True)
class Suppositions:
    """All that was supposed.

    Attributes:
        before: options judged as things are.
        each: one thing after the other, and where there are several all together as the last.
        lacking: what could not be supposed, and why; not in them.
    """

    before: tuple[Weighed, ...]
    each: tuple[WhatIf, ...]
    lacking: tuple[Lacking, ...] = ()
