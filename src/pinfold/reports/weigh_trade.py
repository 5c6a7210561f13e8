"""The trade-off between build-ups: what nothing betters, what is given up for what, and what misses by least."""

from __future__ import annotations

from collections.abc import Iterator

from pinfold.findings import Verdict
from pinfold.reports.pages import Block, Caution, Heading, Page, Paragraph, Table, table
from pinfold.reports.weigh_amounts import Money, amount
from pinfold.reports.weigh_between import between
from pinfold.reports.weigh_unshown import missing_in_all, shared_first
from pinfold.reports.weigh_words import head, said
from pinfold.studies.mending.records import Mend, Mended
from pinfold.studies.weighing.limits import Bound, Limit
from pinfold.studies.weighing.misses import Short, hides
from pinfold.studies.weighing.records import CRITERION_BY_KEY, Shown, Weighed
from pinfold.studies.weighing.trading import Trade
from pinfold.units import System


def trade_page(name: str, trade: Trade, system: System, money: Money) -> Page:
    """The trade-off as a page.

    Args:
        name: of the plot
        trade: found
        system: of the plan
        money: how it is told
    """
    blocks: list[Block] = [Paragraph(text=_opening(trade)), *_limits(trade, system, money), *_common(trade)]
    if trade.front:
        blocks += [Heading(text="What nothing betters"), _table(trade, system, money)]
    if trade.steps:
        blocks.append(Heading(text="What is given up for what"))
        blocks += [
            Paragraph(text=f"{step.other} beside {step.one}: {between(step.differences, system, money)}.")
            for step in trade.steps
        ]
    if trade.nearest is not None:
        blocks += [Heading(text="The nearest miss"), Paragraph(text=miss_said(trade, system, money))]
        blocks += [Paragraph(text=mended_said(each, system, money)) for each in trade.mended]
    return Page(title=f"{name}: what for what", blocks=(*blocks, *_rest(trade)))


def _opening(trade: Trade) -> str:
    names = ", ".join(each.says for each in trade.criteria)
    kept = len(trade.front) + len(trade.beaten)
    shown = ", beside what fails in all of them" if trade.in_all and trade.limits.holds else ""
    shown += ", as far as anything is shown of them" if trade.common else ""
    far = ", as far as wall, mesh and ground go" if trade.let_in and trade.limits.animals else ""
    within = f" {kept} of {len(trade.options)} keep to the limits{far}{shown}." if trade.limits.all else ""
    if not trade.front:
        return f"Traded off: {names}.{within or ' Nothing can be told.'}"
    if len(trade.front) == 1:
        return f"Traded off: {names}.{within} One is bettered by none."
    return (
        f"Traded off: {names}.{within} {len(trade.front)} are bettered by none: whatever is better on one of these is "
        "worse on another. Which of them is best is yours to say."
    )


def _limits(trade: Trade, system: System, money: Money) -> Iterator[Block]:
    if trade.limits.all:
        told = "; ".join(limit_said(limit, system, money) for limit in trade.limits.all)
        yield Paragraph(text=f"Limits: {told}.")
    if trade.let_in:
        yield Caution(text="NOT kept out as a whole: whatever is chosen, the gates leave ways in: "
                      f"{'; '.join(trade.let_in)}. What is kept out here is by wall, mesh and ground alone; 'pinfold "
                      "gates' tells by which gaps, and what would close them.")  # fmt: skip
    for each in trade.nowhere:
        lacking = missing_in_all(trade.options, each.key)
        because = f" In all of them: {lacking}." if lacking else ""
        yield Paragraph(text=f"NOT SHOWN by any of them and left out: {each.says}.{because}")


def _common(trade: Trade) -> Iterator[Block]:
    """What fails in all of them, and what nobody can tell about any, neither of which is a pass."""
    if trade.in_all:
        yield Caution(text=f"FAILS in all of them, whatever is chosen: {'; '.join(trade.in_all)}. It is of gates or "
                      "neighbors as the plan has them, so it tells none from another, and none of them holds before it "
                      "is mended: 'pinfold stand' says how.")  # fmt: skip
    if trade.common:
        kept = (trade.front or trade.beaten) and not trade.in_all
        rest = " All else holds in those that keep to the limits." if kept else ""
        yield Paragraph(text=f"NOT SHOWN in any of them, so none is known to hold in it: {'; '.join(trade.common)}. It "
                        "hangs on what the plan leaves out, not on what is chosen: 'pinfold stand' says what to "
                        f"write.{rest}")  # fmt: skip


def limit_said(limit: Limit, system: System, money: Money) -> str:
    """A limit as it was understood."""
    if limit.criterion.key == "margin" and limit.value == 0.0:
        return "every check holds"
    if limit.criterion.key == "tightness" and limit.value == 1.0:
        return limit.text
    return f"{limit.criterion.says} {limit.bound.value} {amount(limit.criterion, limit.value, system, money)}"


def _table(trade: Trade, system: System, money: Money) -> Table:
    limited = (limit.criterion for limit in trade.limits.all)
    criteria = tuple(dict.fromkeys((*trade.criteria, *limited)))
    by_name = {each.option.name: each for each in trade.options}
    rows = [
        (name, by_name[name].verdict.value,
         *(said(each, by_name[name].scores[each.key], system, money.digits) for each in criteria))
        for name in trade.front
    ]  # fmt: skip
    heads = ("build-up", "all checks", *(head(each, system, money.currency) for each in criteria))
    return table(heads, rows, right=range(2, len(heads)))


def miss_said(trade: Trade, system: System, money: Money) -> str:
    """Which option misses by least, on what, and what would mend it."""
    assert trade.nearest is not None
    option = trade.options[trade.nearest.number]
    told = "; ".join(_short(each, option, system, money) for each in trade.nearest.shorts)
    blind = [limit.text for limit in trade.limits.all if option.option.name in trade.missing
             and _is_unshown(option, limit, trade)]  # fmt: skip
    also = f"; NOT SHOWN whether it keeps to: {', '.join(blind)}" if blind else ""
    return f"None keeps to all limits. {option.option.name} misses by least: {told}{also}."


def _is_unshown(option: Weighed, limit: Limit, trade: Trade) -> bool:
    """Whether nobody can tell if an option keeps to a limit."""
    if limit.text == "must hold" and trade.limits.holds:
        return hides(option, frozenset(trade.common)) and (option.scores["margin"].value or 0.0) >= 0
    return not option.scores[limit.criterion.key].is_shown


def mended_said(each: Mended, system: System, money: Money) -> str:
    """What would mend one check, the cheapest first."""
    if not each.mends:
        return f"{each.weak.check}: none of the changes tried mends it ({', '.join(each.tried) or 'none is known'})."
    ways = "; or ".join(_mend(mend, system, money) for mend in each.mends)
    return f"{each.weak.check} would be mended by {ways}."


def _mend(mend: Mend, system: System, money: Money) -> str:
    keys = ", ".join(f"{put.path[-1].replace('_', ' ')} {put.text}" for put in mend.puts)
    if mend.cost is None:
        return f"{mend.says} ({keys}), at a cost NOT SHOWN"
    if mend.cost == 0:
        return f"{mend.says} ({keys}), for the same money"
    coins = amount(CRITERION_BY_KEY["cash_now"], abs(mend.cost), system, money)
    return f"{mend.says} ({keys}), {coins} {'cheaper' if mend.cost < 0 else 'dearer'}"


def _short(short: Short, option: Weighed, system: System, money: Money) -> str:
    criterion, limit = short.limit.criterion, short.limit
    value = option.scores[criterion.key].value
    assert value is not None
    if criterion.key == "margin" and limit.value == 0.0:
        return _fails(option, value)
    if criterion.key == "tightness":
        ways = "; ".join(each.told_of_fence for each in option.kept if not each.fence_out)
        return f"not all of {limit.text.removesuffix(' out')} stay out ({ways})"
    by, own = amount(criterion, short.by, system, money), amount(criterion, value, system, money)
    way = "more" if limit.bound is Bound.MOST else "less"
    if criterion.shown in (Shown.MONEY, Shown.MONEY_PER_LENGTH):
        return f"{criterion.says} {own}: with {by} {way} it would do"
    return f"{criterion.says} {own}, {by} {way} than asked"


def _fails(option: Weighed, margin: float) -> str:
    """What does not hold: the check that governs, or one that is none of strength."""
    if margin < 0:
        return f"{option.governs} uses {100 * (1 - margin):.0f} % of its strength"
    failing = [text for text in option.complaints if text.startswith(Verdict.FAILS.value)]
    given = {f"{Verdict.FAILS.value}: {name}" for name in option.given}
    own = [text for text in failing if text.partition(" (")[0] not in given]
    return next(iter(own or failing), "a check fails")


_REASONS = 6


def _reasons(trade: Trade) -> Iterator[Block]:
    """What is missing of options that nobody can tell about; what several miss once."""
    unsure = [each for each in trade.options if each.option.name in trade.unsure]
    missing = {each.option.name: tuple(_lacking(each, trade)) for each in unsure[:_REASONS]}
    if missing:
        yield from (Paragraph(text=f"{text}.") for text in shared_first("", missing))


def _lacking(each: Weighed, trade: Trade) -> Iterator[str]:
    for of in dict.fromkeys((*trade.criteria, *(limit.criterion for limit in trade.limits.all))):
        if of not in trade.nowhere and not each.scores[of.key].is_shown:
            yield from f"{of.says}: {each.scores[of.key].because}".split("; ")
    if trade.limits.holds and each.verdict is Verdict.NOT_SHOWN:
        yield from _hidden(each, trade.common)


def _hidden(each: Weighed, common: tuple[str, ...]) -> list[str]:
    """What an option does not show beyond what none does, a few of it."""
    shared = tuple(f"{Verdict.NOT_SHOWN.value}: {name}" for name in common)
    own = [text for text in each.complaints if text.startswith(Verdict.NOT_SHOWN.value)]
    return [text for text in own if text.partition(" (")[0] not in shared][:_HIDDEN]


_HIDDEN = 2


def _rest(trade: Trade) -> Iterator[Block]:
    for names, told in (
        (trade.beaten, "Within the limits and bettered by another"), (trade.missing, "Past a limit"),
        (trade.failing, "A check FAILS, so they are held neither against the limits nor against the others"),
        (trade.unsure, "NOT SHOWN to keep to the limits or to be bettered, as a number is missing"),
        (trade.unbuilt, "Cannot be built here"),
    ):  # fmt: skip
        if names:
            yield Paragraph(text=f"{told}: {', '.join(names)}.")
    yield from _reasons(trade)
