"""Of several sizes of one build-up the leanest at which nothing fails, as `stand` tells."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import NamedTuple

from pinfold.errors import InputError, InvalidPlan, OutOfRangeError
from pinfold.findings import Finding, Verdict
from pinfold.plan.changes import Change
from pinfold.studies.stability.inquiry import TOPICS, Inquiry, Topic
from pinfold.studies.weighing.records import Option, Size
from pinfold.studies.weighing.safety_scores import is_given

Asking = Callable[[Change], Inquiry]
Failed = tuple[Finding, ...]
_MOST_TOLD = 2


class _Tried(NamedTuple):
    """A size that fails.

    Attributes:
        number: of the size, from 1 for the leanest.
        size: which.
        inquiry: the plan with it; None where it could not be laid out.
        topic: that it fails in, asked first of the next size.
        failed: what fails in that.
    """

    number: int
    size: Size
    inquiry: Inquiry | None
    topic: Topic
    failed: Failed


def leanest(option: Option, asking: Asking) -> Option:
    """The build-up at the leanest of its sizes that holds, told why; else at the one that comes nearest.

    What made one size fail is asked first of the next, so that most of what fails costs one topic.

    Args:
        option: with its sizes, from lean to stout
        asking: lays the plan out with a change, to be asked
    """
    if not option.stouter:
        return option
    sizes = (Size("", option.change), *option.stouter)
    tried: list[_Tried] = []
    for number, size in enumerate(sizes, start=1):
        found = _try(number, size, asking, tried[-1].topic if tried else TOPICS[0])
        if found is None:
            return _at(option, size, _why(number, size, len(sizes), tried))
        tried.append(found)
    built = [each for each in tried if each.inquiry is not None]
    return _nearest(option, built, len(sizes)) if built else replace(option, stouter=())


def _try(number: int, size: Size, asking: Asking, first: Topic) -> _Tried | None:
    """What fails of a size; None where nothing does."""
    try:
        inquiry = asking(size.change)
    except (InputError, InvalidPlan, OutOfRangeError):
        return _Tried(number, size, None, first, ())
    for topic in (first, *TOPICS):
        if failed := failing(inquiry.on(topic)):
            return _Tried(number, size, inquiry, topic, failed)
    return None


def failing(findings: Iterable[Finding]) -> Failed:
    """What fails and hangs on the size of a build-up: all but what the plan gives, leaves of gates and neighbors."""
    return tuple(each for each in findings if each.verdict is Verdict.FAILS and not is_given(each))


def _nearest(option: Option, built: list[_Tried], count: int) -> Option:
    """At the size whose worst failing comes nearest to its strength; of those alike, at the one that fails in least."""
    least, failed = min(
        ((each, failing(each.inquiry.findings)) for each in built if each.inquiry is not None),
        key=lambda pair: (max(finding.use or 0.0 for finding in pair[1]), len(pair[1])),
    )
    said = f", with {least.size.says}" if least.size.says else ""
    why = f"none of {count} sizes holds; size {least.number} comes nearest{said}; it fails in {_told(failed)}"
    return _at(option, least.size, why)


def _why(number: int, size: Size, count: int, tried: list[_Tried]) -> str:
    if not tried:
        return f"the leanest of {count} sizes: nothing fails"
    return f"size {number} of {count}, with {size.says}; the next leaner one {_refused(tried[-1])}"


def _refused(tried: _Tried) -> str:
    return f"fails in {_told(tried.failed)}" if tried.failed else "cannot be built here"


def _told(failed: Failed) -> str:
    """The worst of what fails, by check and place."""
    worst: dict[str, str] = {}
    for each in sorted(failed, key=lambda each: each.use or 0.0, reverse=True):
        worst.setdefault(each.check, f"{each.check}, {each.subject}")
    names = list(worst.values())
    more = f" and {len(names) - _MOST_TOLD} more" if len(names) > _MOST_TOLD else ""
    return "; ".join(names[:_MOST_TOLD]) + more


def _at(option: Option, size: Size, why: str) -> Option:
    return replace(option, change=size.change, size=why, stouter=())
