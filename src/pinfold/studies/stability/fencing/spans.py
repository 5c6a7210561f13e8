"""What hangs between the posts of a build-up: rails, wires and ties, told once where its mesh catches the most wind."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache

from pinfold.errors import NotFoundError, OutOfRangeError
from pinfold.findings import Finding
from pinfold.studies.stability.cases import Exposed
from pinfold.studies.stability.fencing.line_wires import line_wires
from pinfold.studies.stability.fencing.rails import rails
from pinfold.studies.stability.fencing.ties import ties


def between_posts(fences: Iterable[Exposed]) -> tuple[Finding, ...]:
    """Every check between posts, for the stretches of a build-up together."""
    alike: dict[str, list[Exposed]] = {}
    for fence in fences:
        if fence.stretch.buildup.posts is not None:
            alike.setdefault(fence.stretch.buildup.name, []).append(fence)
    return tuple(finding for some in alike.values() for finding in _together(some))


def _together(fences: list[Exposed]) -> tuple[Finding, ...]:
    found = _between(max(fences, key=_caught))
    if len(fences) == 1:
        return found
    names = ", ".join(fence.stretch.name for fence in fences)
    return tuple(replace(each, subject=f"stretches {names}") for each in found)


def _caught(fence: Exposed) -> float:
    """Wind on its mesh; none where that cannot be told, as every check of it then says."""
    try:
        return fence.wind.mesh
    except (NotFoundError, OutOfRangeError):
        return 0.0


@lru_cache(maxsize=64)  # while one corner is dragged, the wind on the mesh stays what it was
def _between(fence: Exposed) -> tuple[Finding, ...]:
    return (*rails(fence), *line_wires(fence), *ties(fence))
