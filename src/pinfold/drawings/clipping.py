"""Lines cut off at a frame, so that what runs on for miles takes no paper."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from pinfold.drawings.scenes import Frame, Point


def clipped(path: tuple[Point, ...], frame: Frame) -> Iterator[tuple[Point, ...]]:
    """The parts of a path that lie in a frame, in order along it."""
    part: list[Point] = []
    for start, end in pairwise(path):
        shares = _inside(start, end, frame)
        if shares is None:
            continue
        low, high = (_between(start, end, share) for share in shares)
        if not part or part[-1] != low:
            if len(part) > 1:
                yield tuple(part)
            part = [low]
        part.append(high)
    if len(part) > 1:
        yield tuple(part)


def _inside(start: Point, end: Point, frame: Frame) -> tuple[float, float] | None:
    """Shares of the way at which a straight line enters and leaves a frame; None when it misses it."""
    low, high = 0.0, 1.0
    steps = (end[0] - start[0], end[1] - start[1])
    for here, step, least, most in (
        (start[0], steps[0], frame.left, frame.right), (start[1], steps[1], frame.bottom, frame.top),
    ):  # fmt: skip
        if abs(step) < 1e-12:
            if not least <= here <= most:
                return None
            continue
        first, second = sorted(((least - here) / step, (most - here) / step))
        low, high = max(low, first), min(high, second)
    return (low, high) if high - low > 1e-9 else None


def _between(start: Point, end: Point, share: float) -> Point:
    if share in (0.0, 1.0):
        return end if share else start
    return (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)
