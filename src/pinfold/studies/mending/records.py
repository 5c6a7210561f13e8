"""What trying changes of a plan gives."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from pinfold.findings import Verdict
from pinfold.plan.changes import Change, Put
from pinfold.studies.stability.subjects import Owner


class Lever(NamedTuple):
    """One way to change a plan, from the least change on.

    Attributes:
        says: what it changes, in plain words, such as `wider footing`.
        steps: what to write for each step of it.
    """

    says: str
    steps: tuple[Change, ...]


@dataclass(frozen=True, kw_only=True)
class Weak:
    """A check of one build-up or gate that fails, or holds with too little to spare.

    Attributes:
        check: what was asked.
        part: `wall`, `bank` (a wall with earth behind it), `posts` or `gate`: what of the owner it is asked of.
        owner: the build-up or gate whose figures decide it.
        verdict: FAILS or HOLDS.
        use: share of its strength that is used, by the worst of its findings.
        subject: of that worst finding.
        hint: what that finding says would mend it.
    """

    check: str
    part: str
    owner: Owner
    verdict: Verdict
    use: float
    subject: str
    hint: str

    @property
    def key(self) -> tuple[str, str, Owner]:
        """What tells it from other checks."""
        return self.check, self.part, self.owner


@dataclass(frozen=True, kw_only=True)
class Mend:
    """A change of the plan that was made, laid out and assessed again, and held.

    Attributes:
        says: what it changes, in plain words.
        puts: what to write into the plan file.
        use: share of the strength that the check uses after it; None where the check falls away.
        cost: what it costs more, in the smallest coin; None when not known.
        unpriced: what it needs and has no price here, by name.
    """

    says: str
    puts: tuple[Put, ...]
    use: float | None
    cost: int | None
    unpriced: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Mended:
    """A weak check with the changes that mend it.

    Attributes:
        weak: the check.
        mends: the cheapest first; empty where none of the changes tried mends it.
        tried: what was tried, in plain words.
    """

    weak: Weak
    mends: tuple[Mend, ...]
    tried: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Whole:
    """Changes under which everything of a build-up or gate holds.

    Attributes:
        owner: the build-up or gate.
        checks: that fail as the plan stands.
        says: what is changed, in plain words.
        puts: what to write into the plan file; empty where no such changes were found.
        cost: what they cost more, in the smallest coin; None when not known.
        unpriced: what they need and has no price here, by name.
        left: checks that still failed when it was given up.
    """

    owner: Owner
    checks: tuple[str, ...]
    says: str
    puts: tuple[Put, ...]
    cost: int | None
    unpriced: tuple[str, ...]
    left: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class Mending:
    """What would mend what is weak.

    Attributes:
        checks: each weak check with the changes that mend it, the worst first.
        wholes: changes under which everything of a build-up or gate holds, where several of its checks fail.
    """

    checks: tuple[Mended, ...]
    wholes: tuple[Whole, ...]
