"""Why a piece of work lies where it lies, in words: shade, warmth, what it waited for, what the season asks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime, timedelta
from functools import cached_property
from typing import NamedTuple

import numpy as np

from pinfold.logbook.works import Work
from pinfold.plan.people import HOUR
from pinfold.studies.days.problem import Problem
from pinfold.studies.days.records import IN_ONE_GO
from pinfold.studies.days.scheduling import Asked, Placed, Schedule
from pinfold.studies.days.slots import moment_of
from pinfold.studies.seasons.records import May
from pinfold.tables.shelf import kind
from pinfold.units import CELSIUS, Celsius, System, show


class Explained(NamedTuple):
    """A piece with its reasons.

    Attributes:
        placed: where it lies.
        why: why it lies there, a sentence each.
        do: what the season asks so that it may go on.
        not_shown: what the weather does not say enough for.
    """

    placed: Placed
    why: tuple[str, ...]
    do: tuple[str, ...]
    not_shown: tuple[str, ...]


class Teller:
    """Reasons for the pieces of one schedule."""

    def __init__(self, schedule: Schedule, asked: Asked, *, system: System) -> None:
        self.schedule, self.outlook, self.people, self.zone = schedule, asked.outlook, asked.people, asked.zone
        self.system = system
        self._by_name = {placed.piece.name: placed for placed in schedule.placed}
        self._numbers = {piece.name: number for number, piece in enumerate(schedule.problem.pieces)}

    def explain(self, placed: Placed) -> Explained:
        """One piece."""
        why = [*self._shade(placed), *self._kept_off(placed), *self._waited(placed)]
        why += [*self._early(placed), *self._kinder(placed)] if not why or placed.piece.task.face else []
        why = why or [_FREE]
        if placed.piece.part < placed.piece.parts and placed.piece.part:
            why.append(_stop(placed.piece.task.work))
        return Explained(placed, tuple(why), tuple(self._asked(placed)), tuple(self._not_shown(placed)))

    def clock(self, moment: datetime) -> str:
        """`11:40` by the clock of the place."""
        return moment.astimezone(self.zone).strftime("%H:%M")

    def _hours(self, placed: Placed) -> list[int]:
        if self.outlook is None:
            return []
        steps = int(np.ceil((placed.end - placed.start).total_seconds() / HOUR))
        hours = [self.outlook.hour(placed.start.timestamp() + step * HOUR) for step in range(max(steps, 1))]
        return [hour for hour in hours if hour >= 0]

    def _shade(self, placed: Placed) -> Iterator[str]:
        """`south/1a outer from 12:00: in shade from 11:40, face 24 °C`."""
        hours = self._hours(placed)
        shade = self.outlook.shade_on(placed.piece.task) if self.outlook is not None else None
        if self.outlook is None or shade is None or not hours or hours[-1] >= len(shade):
            return
        face = self.outlook.face_of(placed.piece.task)
        warm = self._warmth(placed, hours)
        if all(shade[hour] for hour in hours):
            yield f"{face} face: {self._since(placed, hours[0])}{warm}"
        elif not any(shade[hour] for hour in hours):
            shaded = self._shade_it(placed, hours, "")
            yield f"{face} face lies in the sun from {self.clock(placed.start)}{shaded}{warm}"
        else:
            first = next(hour for hour in hours if shade[hour] != shade[hours[0]])
            moment = self._turn(placed, first)
            after, when = ("in shade", " before") if shade[first] else ("in the sun", " then")
            yield f"{face} face: {after} from {moment}{self._shade_it(placed, hours, when)}{warm}"

    def _since(self, placed: Placed, hour: int) -> str:
        assert self.outlook is not None
        shade = self.outlook.shade_on(placed.piece.task)
        assert shade is not None
        day = placed.start.astimezone(self.zone).date()
        lit = hour - 1
        while lit >= 0 and shade[lit] and self._moment(lit).astimezone(self.zone).date() == day:
            lit -= 1
        if lit < 0 or shade[lit]:
            ends = next((later for later in range(hour, len(shade)) if not shade[later]), None)
            if ends is None or self._moment(ends).astimezone(self.zone).date() != day:
                return "in shade all day"
            return f"in shade until {self._turn(placed, ends)}"
        return f"in shade from {self._turn(placed, lit + 1)}"

    def _moment(self, hour: int) -> datetime:
        assert self.outlook is not None
        return self.outlook.weather.start + timedelta(hours=hour)

    def _turn(self, placed: Placed, hour: int) -> str:
        """When a face passes between sun and shade, between the middles of two hours, to ten minutes."""
        assert self.outlook is not None
        assert self.outlook.light is not None
        lit = self.outlook.light.lit[self.outlook.light.of(self.outlook.face_of(placed.piece.task))]
        before, after = float(lit[hour - 1]), float(lit[hour])
        share = (before - 0.15) / (before - after) if abs(before - after) > 1e-9 else 0.5
        minutes = round((min(max(share, 0.0), 1.0) - 0.5) * 6) * 10
        return self.clock(self._moment(hour) + timedelta(minutes=minutes))

    def _shade_it(self, placed: Placed, hours: Sequence[int], when: str) -> str:
        """What is done about the sun on a face, unless it is known to stay cool."""
        known = self._warm(placed, hours)
        return "" if known and max(known) < _COOL else f": shade it{when}"

    def _warm(self, placed: Placed, hours: Sequence[int]) -> list[float]:
        """Temperatures of the face, where they are known."""
        assert self.outlook is not None
        found = (self.outlook.warmth_on(placed.piece.task, hour) for hour in hours)
        return [warm for warm in found if warm is not None]

    def _warmth(self, placed: Placed, hours: Sequence[int]) -> str:
        known = self._warm(placed, hours)
        if not known:
            return ""
        least, most = (show(end, CELSIUS, self.system, digits=2) for end in (min(known), max(known)))
        return f", face {least}" if least == most else f", face {least} to {most}"

    def _kept_off(self, placed: Placed) -> Iterator[str]:
        """What forbids the half hour before it, on the same day."""
        problem, before = self.schedule.problem, placed.slot - 1
        if self.outlook is None or before < 0 or problem.slots.days[before] != problem.slots.days[placed.slot]:
            return
        number = self._numbers[placed.piece.name]
        if problem.allowed[number, before]:
            return
        hour = self.outlook.hour(float(problem.slots.seconds[before]))
        season = self.outlook.season_of(placed.piece.task)
        if hour >= 0 and self.outlook.dark[hour]:
            yield f"not before {self.clock(placed.start)}: it is dark"
        elif hour >= 0 and season is not None and season.verdicts[hour] == May.NO:
            rules = ", ".join(rule.says for rule in season.fired(hour) if rule.words.get("no"))
            yield f"not before {self.clock(placed.start)}: {rules}"

    def _early(self, placed: Placed) -> Iterator[str]:
        """The first work of a day that is begun sooner than usual."""
        local = placed.start.astimezone(self.zone)
        day, first = local.date(), placed.slot == 0 or self._day(placed.slot) != self._day(placed.slot - 1)
        if first and (local - moment_of(day, 0.0, self.zone)).total_seconds() < self.people.start:
            yield "from first light, before the heat"

    def _kinder(self, placed: Placed) -> Iterator[str]:
        """Whether it lies after an hour it might have begun in, on the same day, that asks more."""
        problem, number = self.schedule.problem, self._numbers[placed.piece.name]
        ready = max((self._by_name[other].end.timestamp() for wait in placed.piece.after
                     if (other := problem.pieces[wait.piece].name) in self._by_name), default=0.0)  # fmt: skip
        begin = int(np.searchsorted(problem.slots.days, self._day(placed.slot)))
        sooner = [
            slot for slot in range(begin, placed.slot) if problem.allowed[number, slot]
            and problem.slots.seconds[slot] >= ready - 1.0 and slot not in self._busy
        ]  # fmt: skip
        if sooner and problem.risk[number, placed.slot] < problem.risk[number, sooner[0]] - _LESS:
            yield f"less cold, heat, sun or drying than from {self.clock(problem.slots.starts[sooner[0]])}"

    @cached_property
    def _busy(self) -> frozenset[int]:
        """Slots in which somebody works."""
        return frozenset(
            slot for placed in self.schedule.placed for slot in range(placed.slot, placed.slot + placed.piece.slots)
        )

    def _day(self, slot: int) -> int:
        return int(self.schedule.problem.slots.days[slot])

    def _waited(self, placed: Placed) -> Iterator[str]:
        """What it could not begin before, where that is what held it."""
        problem: Problem = self.schedule.problem
        piece = placed.piece
        latest: tuple[datetime, str] | None = None
        for wait in piece.after:
            other = self._by_name.get(problem.pieces[wait.piece].name)
            if other is None or not wait.link.why:
                continue
            ready = other.end + timedelta(seconds=problem.ready(wait.link, other.end.timestamp()))
            if latest is None or ready > latest[0]:
                latest = ready, wait.link.why
        if latest is not None and placed.start - latest[0] < timedelta(days=2):
            local = latest[0].astimezone(self.zone)
            yield f"not before {local:%a} {local.day} {local:%b %H:%M}: {latest[1]}"

    def _asked(self, placed: Placed) -> Iterator[str]:
        """Measures of the rules that hold something against its hours, each once."""
        season = self.outlook.season_of(placed.piece.task) if self.outlook is not None else None
        if season is None:
            return
        rules = {rule.name: rule for hour in self._hours(placed) for rule in season.fired(hour)}
        for rule in rules.values():
            listed = rule.words.get("measures", [])
            names = [str(name) for name in listed] if isinstance(listed, list) else []
            measures = "; ".join(kind("season_measures", name).says for name in names)
            yield f"{rule.says}: {measures}" if measures else rule.says

    def _not_shown(self, placed: Placed) -> Iterator[str]:
        hours = self._hours(placed)
        if self.outlook is None or not hours:
            yield "weather NOT SHOWN"
            return
        season = self.outlook.season_of(placed.piece.task)
        if season is not None and any(season.verdicts[hour] == May.NOT_SHOWN for hour in hours):
            rules = {rule.says for hour in hours for rule in season.not_shown(hour)}
            yield f"NOT SHOWN: {', '.join(sorted(rules))}"


_FREE = "as soon as hands are free"
_COOL: Celsius = 25.0
"""A face that stays under it needs no shade."""
_LESS = 0.2
"""Hours of waiting that a later beginning must be worth to be told of."""


def _stop(work: Work) -> str:
    """Where a part may end."""
    return "it ends at a joint or a corner" if work in IN_ONE_GO else "it may end anywhere"
