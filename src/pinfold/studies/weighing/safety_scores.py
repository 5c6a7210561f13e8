"""Strength to spare, chances of cracking and of falling, frost."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from pinfold.findings import Finding, Verdict, urgency
from pinfold.studies.stability.earthquakes.walls import UNDER as SHAKEN
from pinfold.studies.stability.pushes.walls import UNDER as PUSHED
from pinfold.studies.weighing.records import Score, not_shown
from pinfold.studies.weighing.subject import Asked, Subject, standing_of
from pinfold.studies.worlds.records import MOST_YEARS, ManyWorlds, Odds

_STRENGTH = frozenset({
    "overturning", "sliding", "bearing", "resultant in the base", "bed-joint tension", "change in the wall",
    "shear in a bed", "pressed edge", "shear at the bars", "span between bars", "panel between piers", "dowel",
    "bending", "shear", "rail", "wire", "tie", "brace", "embedment", "anchorage", "skin tension", "core shear",
})  # fmt: skip
"""Checks of strength: how a thing is set out, founded and left to harden is told, but gives no margin."""
_GATE, _NEIGHBOR = "gate ", "neighbor "
_WORST = -9.0
"""What uses over ten times its strength counts as this."""


def governing(findings: Iterable[Finding]) -> Finding | None:
    """The check of wall or fence that leaves least to spare; gates and neighbors are the same in every option."""
    shown = [each for each in findings if each.use is not None and is_strength(each)]
    return max(shown, key=lambda each: each.use or 0.0, default=None)


def is_strength(finding: Finding) -> bool:
    """Whether it is a check of strength of wall or fence."""
    check = finding.check.removesuffix(f" {PUSHED}").removesuffix(f" {SHAKEN}")
    return check in _STRENGTH and not finding.subject.startswith((_GATE, _NEIGHBOR))


def is_given(finding: Finding) -> bool:
    """Whether it is of what the plan gives whatever is chosen: a neighbor, or the leaf of a gate but not its posts."""
    leaf = finding.subject.startswith(_GATE) and not finding.check.startswith(_OF_POSTS)
    return leaf or finding.subject.startswith(_NEIGHBOR)


_OF_POSTS = ("bending", "embedment", "shear")
"""Checks of the posts of gates: they carry the fence, too."""


def governs(subject: Subject) -> str:
    """Which check, and where."""
    found = governing(subject.findings)
    return f"{found.check}, {found.subject}" if found is not None else ""


def margin(subject: Subject, asked: Asked) -> Score:
    """Share of the strength that is left over where least is."""
    del asked
    found = governing(subject.findings)
    if found is None or found.use is None:
        return not_shown("no check of strength could be answered")
    return Score(
        value=max(1.0 - found.use, _WORST), standing=found.standing, working=found.working, figures=found.figures,
        because=f"{found.check}, {found.subject}" + (f": {found.because}" if found.because else ""),
    )  # fmt: skip


def complaints(findings: Iterable[Finding]) -> tuple[str, ...]:
    """What fails or is not shown, a line for each check, the worst of it."""
    worst: dict[tuple[Verdict, str], Finding] = {}
    for finding in sorted(findings, key=urgency):
        if finding.verdict is not Verdict.HOLDS:
            worst.setdefault((finding.verdict, finding.check), finding)
    return tuple(_complaint(finding) for finding in worst.values())


def _complaint(finding: Finding) -> str:
    why = finding.because if finding.verdict is Verdict.NOT_SHOWN else finding.mend
    return f"{finding.verdict.value}: {finding.check}, {finding.subject}" + (f" ({why})" if why else "")


def unshown(findings: Iterable[Finding]) -> tuple[str, ...]:
    """Every check that is not shown, with what it is of."""
    return _named(each for each in findings if each.verdict is Verdict.NOT_SHOWN)


def given(findings: Iterable[Finding]) -> tuple[str, ...]:
    """Every check that fails of what the plan gives whatever is chosen, with what it is of."""
    return _named(each for each in findings if each.verdict is Verdict.FAILS and is_given(each))


def only_given(findings: Iterable[Finding]) -> bool:
    """Whether all that fails is what the plan gives whatever is chosen."""
    return all(is_given(each) for each in findings if each.verdict is Verdict.FAILS)


def _named(findings: Iterable[Finding]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(f"{each.check}, {each.subject}" for each in findings))


def cracking(subject: Subject, asked: Asked) -> Score:
    """Chance that the lowest bed of the worst stretch cracks."""
    worlds = subject.worlds(asked.years)
    if not worlds:
        return Score(value=0.0, low=0.0, high=0.0, because="there is no wall that could crack")
    bare = [each for each in worlds if not each.cracking]
    if bare:
        return not_shown(f"{bare[0].buildup}: {_why_none(bare[0], asked.years)}")
    return _chance(worlds, [each.cracking[-1] for each in worlds], "its lowest bed cracks")


def falling(subject: Subject, asked: Asked) -> Score:
    """Chance that the worst stretch of wall falls."""
    worlds = subject.worlds(asked.years)
    if not worlds:
        return not_shown("no worlds are drawn for posts without a wall: see what they have to spare")
    unknown = [each for each in worlds if not each.falling]
    if unknown:
        return not_shown(f"{unknown[0].buildup}: {_why_none(unknown[0], asked.years)}")
    return _chance(worlds, [each.falling[-1] for each in worlds], "it falls")


def _why_none(worlds: ManyWorlds, years: int) -> str:
    more = f"storms of {MOST_YEARS} years are drawn: ask no more" if years > MOST_YEARS else ""
    return more or worlds.because


def _chance(worlds: tuple[ManyWorlds, ...], odds: list[Odds], what: str) -> Score:
    worst, of = max(zip(odds, worlds, strict=True), key=lambda pair: pair[0].chance)
    figures = tuple(dict.fromkeys(figure for each in worlds for figure in each.figures))
    return Score(
        value=worst.chance, low=worst.low, high=worst.high, figures=figures,
        standing=standing_of(figures),
        because=f"that {what} within {worst.years} years, {of.stretch}" + (f"; {of.because}" if of.because else ""),
    )  # fmt: skip


def frost(subject: Subject, asked: Asked) -> Score:
    """Depth to spare below the frost, beside what is founded; where it lies least deep, and only if all is shown."""
    del asked
    found = tuple(_frosts(subject.findings))
    unknown = [each for each in found if each.use is None]
    if not found or unknown:
        return not_shown(f"{unknown[0].subject}: {unknown[0].because}" if unknown else "nothing is founded")
    worst = max(found, key=lambda each: each.use or 0.0)
    told = f"{worst.subject}" + (f": {worst.because}" if worst.because else "")
    return Score(
        value=max(1.0 - (worst.use or 0.0), _WORST), standing=worst.standing, working=worst.working,
        figures=worst.figures, because=told,
    )  # fmt: skip


def _frosts(findings: Iterable[Finding]) -> Iterator[Finding]:
    return (each for each in findings if each.check == "frost" and not is_given(each))
