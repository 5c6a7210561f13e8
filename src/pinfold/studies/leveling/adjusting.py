"""Readings of a survey into heights: setups joined by least squares, gross errors found, told and set aside."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from pinfold.errors import InputError
from pinfold.figures import Figure
from pinfold.findings import work
from pinfold.formulas import leveling as formulas
from pinfold.sources import Standing
from pinfold.studies.leveling.joining import joined_to
from pinfold.studies.leveling.records import LevelReading, MarkHeight, SetAside, Survey
from pinfold.studies.leveling.solving import Numbers, Solved, solved
from pinfold.studies.leveling.words import fine
from pinfold.units import RATIO, System

CRITICAL = Figure(
    value=3.29, unit=RATIO, standing=Standing.MEMORY, source="STATISTICS", where="one in a thousand of good readings",
    printed="3.29",
)  # fmt: skip
"""Spreads off the rest from which a reading counts as wrong (Baarda's data snooping)."""
_LEAST_SHARE = 0.02
_ALIKE = 0.999
_MOST_ASIDE = 0.5
"""Share of the readings of a survey beyond which it is not trusted at all."""


@dataclass(frozen=True, kw_only=True)
class _Frame:
    """Unknowns of a survey: heights of marks but the datum, and of the line of each setup."""

    datum: str
    marks: tuple[str, ...]
    setups: tuple[str, ...]

    def design(self, readings: Sequence[LevelReading]) -> tuple[Numbers, Numbers]:
        """A row for each reading: the line less the mark, or the mark itself."""
        places = {("mark", mark): number for number, mark in enumerate(self.marks)}
        places |= {("setup", setup): len(self.marks) + number for number, setup in enumerate(self.setups)}
        rows = np.zeros((len(readings), len(places)))
        for row, reading in zip(rows, readings, strict=True):
            if reading.mark != self.datum:
                row[places["mark", reading.mark]] = -1.0 if reading.setup else 1.0
            if reading.setup:
                row[places["setup", reading.setup]] = 1.0
        return rows, np.array([reading.value for reading in readings])


def surveyed(
    readings: Sequence[LevelReading], *, name: str = "", at: float = 0.0, fixed: str = "", own: Sequence[str] = (),
    system: System = System.METRIC,
) -> Survey:  # fmt: skip
    """Heights of all marks, with what was set aside and why.

    Args:
        readings: of one survey
        name: of the survey
        at: its middle, in seconds since the epoch
        fixed: mark that does not move; another that is none of the structure's is taken where it was not read
        own: marks of the structure
        system: units that lengths are told in

    Raises:
        InputError: there is no reading, or one that is no number.
    """
    _check(readings)
    kept, aside = tuple(readings), list[SetAside]()
    while True:
        datum, steady = _datum(kept, fixed, own)
        inside, missing = joined_to(kept, datum)
        frame = _frame(inside, datum)
        found = solved(*frame.design(inside), np.array([each.spread for each in inside]))
        wrong = _wrong(inside, found, system)
        left = tuple(each for each in kept if wrong is None or each not in wrong.readings)
        if wrong is None or not left:
            break
        aside.append(wrong)
        kept = left
    gone = {each.mark for one in aside for each in one.readings} - {each.mark for each in kept}
    missing += tuple((mark, "all its readings were set aside: read it again") for mark in sorted(gone))
    survey = _survey(inside, frame, found)
    notes = _notes(survey, found, steady=steady, of=len(readings))
    return replace(survey, name=name, at=at, steady=steady, aside=tuple(aside), notes=notes, missing=missing)


def _check(readings: Sequence[LevelReading]) -> None:
    if not readings:
        raise InputError(
            "there is no reading; write levels down with 'pinfold level read' or in the log", place="level"
        )
    for each in readings:
        if not np.isfinite(each.value) or not 0 < each.spread < 1:
            raise InputError("a reading wants a number and a spread between 0 and 1 m", place=f"reading {each.mark}")


def _datum(readings: Sequence[LevelReading], fixed: str, own: Sequence[str]) -> tuple[str, bool]:
    """The mark at height 0; none where heights are given, which have their own."""
    marks = list(dict.fromkeys(each.mark for each in readings))
    if any(not each.setup for each in readings):
        return "", True
    if fixed in marks:
        return fixed, True
    strange = [mark for mark in marks if mark not in own]
    return (strange[0], True) if strange else (marks[0], False)


def _frame(readings: Sequence[LevelReading], datum: str) -> _Frame:
    return _Frame(
        datum=datum,
        marks=tuple(dict.fromkeys(each.mark for each in readings if each.mark != datum)),
        setups=tuple(dict.fromkeys(each.setup for each in readings if each.setup)),
    )


def _wrong(readings: Sequence[LevelReading], found: Solved, system: System) -> SetAside | None:
    """The reading that stands off most, or all that nothing tells from it; None where all of them fit."""
    checked = found.shares > _LEAST_SHARE
    if found.spare < 1 or not checked.any():
        return None
    spreads = np.array([each.spread for each in readings])
    safe = np.where(checked, found.shares, 1.0)
    off = np.where(checked, np.abs(found.residuals) / (spreads * np.sqrt(safe)), 0.0)
    worst = int(np.argmax(off))
    if off[worst] <= CRITICAL.value:
        return None
    alike = [
        readings[number] for number in range(len(readings))
        if checked[number] and (number == worst or abs(found.links[worst, number]) > _ALIKE)
    ]  # fmt: skip
    step = work(
        formulas.standardized_residual, why=f"reading at {readings[worst].mark}",
        residual=float(found.residuals[worst]), spread=readings[worst].spread, share=float(found.shares[worst]),
    )  # fmt: skip
    sign = -1.0 if readings[worst].setup else 1.0
    error = sign * float(found.residuals[worst] / found.shares[worst])
    return SetAside(
        readings=tuple(alike), off=error, spreads=float(off[worst]), step=step,
        says=_told(readings[worst], alike, error, system),
    )  # fmt: skip


def _told(worst: LevelReading, alike: Sequence[LevelReading], error: float, system: System) -> str:
    by = fine(abs(error), system)
    if len(alike) == 1:
        high = "high" if error > 0 else "low"
        return f"{_named(worst)} puts it {by} too {high} against all others; read it again to be sure"
    ones = ", ".join(_named(each) for each in alike)
    return (
        f"{ones}: one of them is off by about {by} and nothing tells which; all set aside. Read these marks once more"
    )


def _named(reading: LevelReading) -> str:
    where = f" in setup {reading.setup}" if reading.setup else ", written down as a height"
    entry = f" (entry {reading.number})" if reading.number else ""
    return f"the reading at {reading.mark}{where}{entry}"


def _survey(readings: Sequence[LevelReading], frame: _Frame, found: Solved) -> Survey:
    scatter = max(1.0, found.scatter) if found.spare > 0 else 1.0
    count = len(frame.marks)
    covariance = np.zeros((count + 1, count + 1)) if frame.datum else np.zeros((count, count))
    covariance[-count or len(covariance) :, -count or len(covariance) :] = found.covariance[:count, :count] * scatter**2
    marks = ((frame.datum,) if frame.datum else ()) + frame.marks
    values = [0.0] * bool(frame.datum) + [float(number) for number in found.numbers[:count]]
    heights = tuple(
        MarkHeight(mark, value, float(np.sqrt(covariance[number, number])), sum(each.mark == mark for each in readings))
        for number, (mark, value) in enumerate(zip(marks, values, strict=True))
    )
    return Survey(
        name="", at=0.0, datum=frame.datum, steady=True, heights=heights,
        covariance=tuple(tuple(float(value) for value in row) for row in covariance), aside=(), spare=found.spare,
        scatter=scatter, notes=(),
    )  # fmt: skip


def _notes(survey: Survey, found: Solved, *, steady: bool, of: int) -> tuple[str, ...]:
    notes = []
    if survey.spare < 1:
        notes.append("no mark was read twice, so that a wrong reading cannot be found: read all from a second setup")
    elif (found.shares < _LEAST_SHARE).any():
        notes.append("some marks were read only once: a wrong reading there cannot be found")
    if survey.scatter > 1.5:
        notes.append(
            f"readings scatter {survey.scatter:.1f} times as much as they say: all spreads are widened to match"
        )
    if sum(each.readings for each in survey.heights) < _MOST_ASIDE * of:
        notes.append("more than half of the readings do not fit each other: survey it anew")
    if not steady:
        notes.append(
            f"no mark away from the structure was read: {survey.datum} stands for 0, and sinking as a whole is not seen"
        )
    return tuple(notes)
