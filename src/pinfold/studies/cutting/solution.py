"""The best plan so far and what is proven about it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from pinfold.studies.cutting.packing import Fill, Laid, Packing, money
from pinfold.studies.cutting.relaxing import Relaxed
from pinfold.studies.cutting.resting import uncovered


@dataclass(frozen=True, kw_only=True, eq=False)
class Solved:
    """The best plan so far.

    Attributes:
        laid: the plan.
        money: what it costs.
        bound: no plan costs less.
        relaxed: where the bound comes from.
    """

    laid: Laid
    money: int
    bound: int
    relaxed: Relaxed | None = None

    @property
    def closed(self) -> bool:
        """Whether no plan is cheaper."""
        return self.bound >= self.money

    @property
    def fills(self) -> list[Fill]:
        """All that are known."""
        return list(dict.fromkeys([*self.laid, *(self.relaxed.fills if self.relaxed else [])]))

    def or_better(self, packing: Packing, laid: Laid | None) -> Solved:
        """This, or a plan that cuts all for less."""
        if laid is None or uncovered(packing, laid).any() or money(packing, laid) >= self.money:
            return self
        return replace(self, laid=laid, money=money(packing, laid))
