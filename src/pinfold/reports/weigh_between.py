"""What is given up for what between two options, in words."""

from __future__ import annotations

from collections.abc import Sequence

from pinfold.reports.weigh_amounts import Money, amount
from pinfold.reports.weigh_words import percent
from pinfold.studies.weighing.between import Difference
from pinfold.studies.weighing.records import Shown
from pinfold.units import System

_COUNTED = {
    "trips": ("trip", "trips"), "skills": ("craft to learn", "crafts to learn"), "tools": ("tool", "tools"),
}  # fmt: skip
_LESS_MORE = {
    "cash_now": ("cheaper", "dearer"), "cash_later": ("less cash later", "more cash later"),
    "cost_per_length": ("cheaper for a length", "dearer for a length"),
    "hours": ("less work", "more work"), "days": ("sooner done", "later done"),
    "water": ("less water", "more water"), "cement": ("less cement", "more cement"),
    "hauled": ("less to haul", "more to haul"), "carbon": ("less carbon dioxide", "more carbon dioxide"),
    "upkeep": ("less upkeep a year", "more upkeep a year"), "life": ("shorter lasting", "longer lasting"),
}  # fmt: skip
_SHARES = {
    "margin": "the strength to spare", "cracking": "the chance of a crack", "falling": "the chance of a fall",
    "frost": "the depth to spare below the frost", "wet": "the strength left when soaked",
    "tightness": "what is kept out", "reclaimable": "what can be used again",
}  # fmt: skip
_WORDS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


def between(differences: Sequence[Difference], system: System, money: Money, *, most: int = 4) -> str:
    """`240 cheaper and 12 h less work, but three trips more and the chance of a crack rises from 4 % to 11 %`.

    Args:
        differences: in the order they are told
        system: of the plan
        money: how it is told
        most: of gains, and of losses
    """
    gains = [told(each, system, money) for each in differences if each.is_better]
    losses = [told(each, system, money) for each in differences if not each.is_better]
    parts = [_joined(part, most) for part in (gains, losses) if part]
    if not parts:
        return "alike on all that is shown"
    return ", but ".join(parts) if gains and losses else f"{parts[0]}, and nothing shown against it" if gains else (
        f"{parts[0]}, and nothing shown for it"
    )  # fmt: skip


def told(difference: Difference, system: System, money: Money) -> str:
    """One difference."""
    key, shown = difference.criterion.key, difference.criterion.shown
    if shown is Shown.SHARE:
        way = "rises" if difference.after > difference.before else "drops"
        return f"{_SHARES[key]} {way} from {percent(difference.before)} to {percent(difference.after)}"
    by, fewer = abs(difference.after - difference.before), difference.after < difference.before
    if key in _COUNTED:
        count = round(by)
        named = _COUNTED[key][0 if count == 1 else 1]
        return f"{_counted(count)} {named} {'fewer' if fewer else 'more'}"
    return f"{amount(difference.criterion, by, system, money)} {_LESS_MORE[key][0 if fewer else 1]}"


def _counted(count: int) -> str:
    return _WORDS[count] if count < len(_WORDS) else str(count)


def _joined(parts: Sequence[str], most: int) -> str:
    shown = list(parts[:most])
    if len(parts) > most:
        shown.append(f"{_counted(len(parts) - most)} other thing{'s' if len(parts) - most > 1 else ''}")
    return shown[0] if len(shown) == 1 else f"{', '.join(shown[:-1])} and {shown[-1]}"
