"""Sheet on a frame: carried by its posts; whether it spans from rail to rail of its frame."""

from __future__ import annotations

from pinfold.errors import NotFoundError
from pinfold.findings import Finding, keeps_to, work
from pinfold.formulas import cantilevers, post_sections
from pinfold.studies.stability.answers import Question, answered, told
from pinfold.studies.stability.cases import Exposed
from pinfold.units import PASCAL

LEFT_OUT = "fixings pulled through; the rails of the frame; dents and laps; sheet that flutters"
_WANTED = ("section_modulus", "rail_spacing", "allowable")


def spanning(fence: Exposed) -> tuple[Finding, ...]:
    """Whether the sheet of a stretch bears the wind between its rails; nothing where no sheet stands."""
    wall = fence.stretch.buildup.wall
    if wall is None or wall.kind.word("make") != "sheet":
        return ()
    question = Question(check="bending", subject=f"stretch {fence.stretch.name}", left_out=LEFT_OUT)
    return (answered(question, lambda: _spanned(fence)),)


def _spanned(fence: Exposed) -> Finding:
    wall = fence.stretch.buildup.wall
    assert wall is not None
    kind = wall.kind
    missing = [name for name in _WANTED if not kind.has(name)]
    if missing:
        raise NotFoundError(
            f"what the sheet bears between its rails is not known: write {', '.join(missing)} beside the wall, by its "
            "maker, or take the greatest span from there"
        )
    wind, spacing, allowed = fence.wind, kind.figure("rail_spacing"), kind.figure("allowable")
    pressure = fence.factors.service.value * wind.wall
    bent = work(
        cantilevers.span_moment, why="wind on a strip of sheet a meter wide, from rail to rail", load=pressure * 1.0,
        span=spacing.value,
    )  # fmt: skip
    stress = work(
        post_sections.bending_stress, why="stress in its ribs", moment=bent.number,
        modulus=kind.value("section_modulus") * 1.0,
    )  # fmt: skip
    return Finding(
        check="bending", subject="", demand=stress.number, capacity=allowed.value, unit=PASCAL,
        because=told("sheet from rail to rail of its frame", *wind.notes),
        working=(*wind.air, *wind.on_wall, bent, stress),
        figures=(*fence.figures, ("section modulus of the sheet", kind.figure("section_modulus")),
                 ("from rail to rail", spacing), ("allowable stress of the sheet", allowed), *fence.factors.allowable),
        mend="" if keeps_to(stress.number, allowed.value) else "rails nearer together or a thicker sheet",
    )  # fmt: skip
