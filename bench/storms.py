"""Walls left to many storms: a million simulated wall-years beside drawing the chances alone."""

from __future__ import annotations

from collections.abc import Callable

from bench import plots


def rows(seconds: Callable[[Callable[[], object]], float]) -> list[tuple[str, str, str, str]]:
    """Two rows: one build-up of the sample through a million wall-years, beside drawing them and as it is."""
    from pinfold.store.planfile import plan_of
    from pinfold.studies.layout.resolve import lay_out
    from pinfold.studies.stability.exposures import exposures_of
    from pinfold.studies.worlds.cantilever import cantilever_of
    from pinfold.studies.worlds.chances import chances
    from pinfold.studies.worlds.drawing import LONGEST, PLOTS, WALLS, drawn

    layout = lay_out(plan_of(plots.sample_text()))
    case = next(case for each in exposures_of(layout).values() if each.stretch.steps for case in each.cases)
    wall = cantilever_of(case)
    anew = drawn.__wrapped__  # as if no wall before had asked for them
    drawing = seconds(lambda: anew(wall.family, cast=wall.cast))
    whole = seconds(lambda: chances(wall, anew(wall.family, cast=wall.cast)))
    years = PLOTS * WALLS * LONGEST
    return [
        (
            f"storms: {years:,} wall-years of one wall", f"{whole:.2f} s", f"{whole / drawing:.1f} × drawing them",
            "≤ 2 s, ≤ 3 ×",
        )
    ]  # fmt: skip
