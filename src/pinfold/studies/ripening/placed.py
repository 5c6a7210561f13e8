"""What was placed and when: out of the log's batches and coats, or as if."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from pinfold.logbook.entries import Entry
from pinfold.plan.enclosure import Enclosure
from pinfold.studies.lessons.coverage import coat_of
from pinfold.studies.ripening.wanting import Placing


@dataclass(frozen=True, kw_only=True, eq=False)
class Placed:
    """One mix in one place at one time.

    Attributes:
        placing: what.
        place: where; empty where nobody says.
        face: of a coat; empty for others or where nobody says.
        when: with its offset; the last of several batches alike, for that one is the weakest.
        logged: whether the log says so.
    """

    placing: Placing
    place: str
    face: str
    when: datetime
    logged: bool


def placed_of(
    entries: Iterable[Entry], plan: Enclosure, placings: Sequence[Placing], *, since: datetime
) -> tuple[Placed, ...]:  # fmt: skip
    """The last of every mix at every place that the log tells of, the newest first.

    Args:
        entries: that stand
        plan: of the site
        placings: what the plan has placed
        since: older ones are passed over
    """
    last: dict[tuple[int, str, str], Placed] = {}
    for entry in entries:
        placing = _placing(entry, plan, placings) if entry.kind in ("batch", "coat") else None
        if placing is None or entry.when < since:
            continue
        face = entry.text("face")
        key = (id(placing), entry.text("place"), face)
        if key not in last or last[key].when < entry.when:
            last[key] = Placed(placing=placing, place=key[1], face=face, when=entry.when, logged=True)
    return tuple(sorted(last.values(), key=lambda each: each.when, reverse=True))


def _placing(entry: Entry, plan: Enclosure, placings: Sequence[Placing]) -> Placing | None:
    if entry.kind == "coat":
        coat = coat_of(entry, plan)
        name = "" if coat is None else coat.kind.name
        return next((each for each in placings if each.coat is not None and each.coat.name == name), None)
    of_mix = [each for each in placings if each.mix.name == entry.text("mix")]
    of_layer = [each for each in of_mix if entry.text("layer") in (each.layer, each.coat.name if each.coat else "")]
    fits = of_layer or of_mix
    return fits[0] if len(fits) == 1 or of_layer else None


def as_if(placings: Iterable[Placing], when: datetime) -> tuple[Placed, ...]:
    """Everything as if it were placed at one time.

    Args:
        placings: what
        when: with its offset
    """
    return tuple(Placed(placing=each, place="", face="", when=when, logged=False) for each in placings)
