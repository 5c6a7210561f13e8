"""Scales a person can measure with: the round ones of a metric rule and of an inch rule."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pinfold.units import System


@dataclass(frozen=True, kw_only=True)
class Scale:
    """How much smaller the paper is than the ground.

    Attributes:
        ratio: meters on the ground for one meter of paper.
        text: as it is printed, such as `1:50` or `1/4" = 1'`.
    """

    ratio: float
    text: str

    @property
    def mm_per_meter(self) -> float:
        """Millimeters of paper for one meter of ground."""
        return 1000 / self.ratio


def metric(ratio: int) -> Scale:
    """The scale one to so many."""
    return Scale(ratio=float(ratio), text=f"1:{ratio}")


METRIC: tuple[Scale, ...] = tuple(
    metric(ratio) for ratio in (1, 2, 5, 10, 20, 25, 50, 75, 100, 125, 150, 200, 250, 500)
)
_INCHES: tuple[tuple[str, int], ...] = (
    ("12", 1), ("6", 2), ("3", 4), ("1 1/2", 8), ("1", 12), ("3/4", 16), ("1/2", 24), ("3/8", 32), ("1/4", 48),
    ("3/16", 64), ("1/8", 96), ("3/32", 128), ("1/16", 192),
)  # fmt: skip
_FEET: tuple[int, ...] = (10, 20, 30, 40, 50, 60, 100)
US: tuple[Scale, ...] = tuple(
    sorted(
        (
            *(Scale(ratio=float(ratio), text=f"{inches}\" = 1'") for inches, ratio in _INCHES),
            *(Scale(ratio=12.0 * feet, text=f"1\" = {feet}'") for feet in _FEET),
        ),
        key=lambda scale: scale.ratio,
    )
)


def scales(system: System) -> Iterator[Scale]:
    """The usual scales from large to small, going on past the rule's end in steps of 1, 2, 5 without end."""
    usual = US if system is System.US else METRIC
    yield from usual
    decade = 100
    while True:
        for step in (1, 2, 5):
            feet = step * decade
            if system is System.US and feet > _FEET[-1]:
                yield Scale(ratio=12.0 * feet, text=f"1\" = {feet}'")
            elif system is not System.US and feet > usual[-1].ratio:
                yield metric(feet)
        decade *= 10


def bar_length(scale: Scale, system: System, *, room: float = 45.0) -> tuple[float, str]:
    """The longest round length whose bar is no longer than the room in paper millimeters: meters and text."""
    unit, sign = (0.3048, "ft") if system is System.US else (1.0, "m")
    most = room * scale.ratio / 1000 / unit
    size = 10.0**-3
    best = size
    while size <= most:
        best = next((step * size for step in (5.0, 2.0, 1.0) if step * size <= most), best)
        size *= 10
    return best * unit, f"{best:.3f}".rstrip("0").rstrip(".") + f" {sign}"
