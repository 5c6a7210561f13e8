"""What build-ups beside each other do not show or do not hold: what many of them share is told once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from pinfold.reports.pages import Block, Heading, Paragraph
from pinfold.studies.weighing.records import CRITERIA, Theme, Weighed
from pinfold.studies.weighing.weighing import Weighing

Parts = tuple[str, ...]
Missing = dict[str, Parts]
"""What is missing of build-ups, in parts, by their names."""
_MOST = 4
"""Complaints told of one option beside the others."""
_ALL = "all of them"


def unshown_of(weighing: Weighing, theme: Theme) -> Iterator[Paragraph]:
    """Why numbers of a theme are not shown: what is missing in several build-ups first, then what in one besides."""
    built = [each for each in weighing.options if each.can_be_built]
    found: dict[Parts, Missing] = {}
    for each in built:
        for because, criteria in _reasons(each, theme).items():
            found.setdefault(tuple(criteria), {})[each.option.name] = tuple(because.split("; "))
    for says, missing in found.items():
        for text in shared_first(f"NOT SHOWN: {', '.join(says)} of ", missing, everyone=len(built)):
            yield Paragraph(text=f"{text}.")


def _reasons(each: Weighed, theme: Theme) -> dict[str, list[str]]:
    """What criteria of a theme are not shown, by the reason."""
    reasons: dict[str, list[str]] = {}
    for criterion in CRITERIA:
        score = each.scores[criterion.key]
        if criterion.theme is theme and not score.is_shown:
            reasons.setdefault(score.because.removeprefix(f"{each.option.name}: "), []).append(criterion.says)
    return reasons


def missing_in_all(options: Sequence[Weighed], key: str) -> str:
    """What every one of several options lacks to show a number; empty where nothing is lacking in all of them."""
    return "; ".join(_in_all([tuple(each.scores[key].because.split("; ")) for each in options if each.can_be_built]))


def shared_first(head: str, missing: Missing, everyone: int = 0) -> Iterator[str]:
    """What is missing of several build-ups, in words.

    Args:
        head: before the names
        missing: of each, in parts
        everyone: how many build-ups there are; where so many miss a thing it is missing in all of them
    """
    shared = _in_all(tuple(missing.values()))
    if shared:
        yield f"{head}{_ALL if len(missing) == everyone > 1 else ', '.join(missing)}: {'; '.join(shared)}"
    for parts, names in _by_parts(missing, shared).items():
        yield f"{'' if shared else head}{', '.join(names)}{', besides' if shared else ''}: {'; '.join(parts)}"


def _in_all(many: Sequence[Parts]) -> Parts:
    return tuple(part for part in many[0] if all(part in parts for parts in many))


def _by_parts(missing: Mapping[str, Parts], shared: Parts) -> dict[Parts, list[str]]:
    """What is left beyond the shared, with the names of those that it holds for."""
    found: dict[Parts, list[str]] = {}
    for name, parts in missing.items():
        own = tuple(part for part in parts if part not in shared)
        if own:
            found.setdefault(own, []).append(name)
    return found


def complained(weighing: Weighing) -> Iterator[Block]:
    """What fails or is not shown, an option after the other; what all of them share once."""
    built = [each for each in weighing.options if each.can_be_built]
    shared = _in_all([_heads(each) for each in built]) if len(built) > 1 else ()
    yield Heading(text="What fails or is not shown")
    if shared:
        yield Paragraph(text="In every one of them: " + "; ".join(_of_heads(built[0], shared)) + ".")
    for each in weighing.options:
        own = [text for text in each.complaints if _head(text) not in shared]
        if own:
            more = f"; and {len(own) - _MOST} more" if len(own) > _MOST else ""
            yield Paragraph(text=f"{each.option.name}: " + "; ".join(own[:_MOST]) + more + ".")


def _head(complaint: str) -> str:
    """Verdict, check and what it is of, without why: `NOT SHOWN: clearance, pump cable`."""
    return complaint.partition(" (")[0]


def _heads(each: Weighed) -> Parts:
    return tuple(map(_head, each.complaints))


def _of_heads(each: Weighed, heads: Parts) -> list[str]:
    return [text for text in each.complaints if _head(text) in heads]
