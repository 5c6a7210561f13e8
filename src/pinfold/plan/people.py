"""Who builds, and when in the day and the week."""

from __future__ import annotations

from dataclasses import dataclass

from pinfold.units import Ratio, Second

HOUR: Second = 3600.0
WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")


@dataclass(frozen=True, kw_only=True)
class People:
    """Who works and how long.

    Attributes:
        count: how many work together.
        hours: of work in a day, each of them, breaks not counted.
        start: earliest time of the day to begin, after midnight.
        end: latest time of the day to stop, after midnight.
        weekdays: worked on, 0 for Monday; none of them where nobody works.
        slowness: time they take over what the published norms of the trade say; the log's own pace goes before it.
        usual: keys that the plan does not say, which stand as usual.
    """

    count: int = 2
    hours: Second = 7 * HOUR
    start: Second = 7 * HOUR
    end: Second = 18 * HOUR
    weekdays: tuple[int, ...] = (0, 1, 2, 3, 4, 5)
    slowness: Ratio = 1.5
    usual: tuple[str, ...] = ("count", "hours", "start", "end", "weekdays", "slowness")
