"""Every check of `stand` over all build-ups of a search, each found only where something it hangs on differs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pinfold.studies.weighing.asking import Asks, Cannot, found_for, one_by_one
from pinfold.studies.weighing.axes import Picks
from pinfold.studies.weighing.groups import groups_of_checks
from pinfold.studies.weighing.scene import Scene
from pinfold.studies.weighing.tables import Codes, Table, Yes, asked_of, filled, joined
from pinfold.studies.weighing.uses import Uses

Numbers = npt.NDArray[np.float64]
_TRIED = 8
"""States of each group of checks asked first, to see how often it fails."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Checked:
    """Every check over all picks.

    Attributes:
        tables: by group of checks; together they hold every check of the plan, but that what fails or cannot be built
            by one group is not asked the next ones.
        cannot: picks that cannot be built, and why: by reason how many.
        fails: picks of which some check fails.
        stands: picks that can be built and of which none does.
        use: most that any check uses of its strength, of those that do not fail; else of the checks asked.
    """

    tables: tuple[Table[Uses], ...]
    cannot: Mapping[str, int]
    fails: Yes
    stands: Yes
    use: Numbers


@dataclass(frozen=True, eq=False)
class _Group:
    """Some checks that hang on the same.

    Attributes:
        states: of what they hang on.
        first: where each comes first.
        find: asks them, of one pick.
        fails: about how often they fail or cannot be built, of all states.
    """

    states: Codes
    first: Codes
    find: Callable[[Picks], Uses]
    fails: float

    def asked(self, left: Yes) -> Yes:
        """States that are asked where only some picks are left."""
        return asked_of(self.states, len(self.first), left)


def checked(scene: Scene, asks: Asks = one_by_one) -> Checked:
    """Ask every check; of the groups of checks always the one that rules out most for its states, of what is left."""
    left = np.ones(scene.shape, dtype=bool)
    fails, use = np.zeros(scene.shape, dtype=bool), np.zeros(scene.shape)
    tables: list[Table[Uses]] = []
    cannot: Counter[str] = Counter()
    groups = [_group(codes, find) for codes, find in groups_of_checks(scene, asks)]
    while groups:
        group = min(groups, key=lambda each: each.asked(left).sum() / each.fails)
        groups.remove(group)
        table = filled(group.states, group.first, group.find, asks, asked=group.asked(left))
        tables.append(table)
        cannot.update(_out(table, left))
        left &= table.numbers(lambda each: 1.0, 0.0) > 0
        fails |= left & (table.numbers(lambda each: float(each.fails), 0.0) > 0)
        use = np.maximum(use, table.numbers(lambda each: each.use, 0.0))
        left &= ~fails
    return Checked(tables=tuple(tables), cannot=cannot, fails=fails, stands=left, use=use)


def _group(codes: tuple[Codes, ...], find: Callable[[Picks], Uses]) -> _Group:
    """Tried at a few states; of half a fail more, for none may be there by chance."""
    states, first = joined(codes)
    places = first[np.unique(np.linspace(0, len(first) - 1, _TRIED).astype(int))]
    found = [found_for(find, tuple(map(int, np.unravel_index(place, states.shape)))) for place in places]
    out = sum(isinstance(each, Cannot) or each.fails for each in found)
    return _Group(states, first, find, (out + 0.5) / (len(found) + 1))


def _out(table: Table[Uses], left: Yes) -> Counter[str]:
    """What of a group cannot be built, of those that are left."""
    found: Counter[str] = Counter()
    many = np.bincount(np.broadcast_to(table.codes, left.shape)[left], minlength=len(table.values))
    for value, count in zip(table.values, many.tolist(), strict=True):
        if isinstance(value, Cannot) and count:
            found[value.why] += count
    return found
