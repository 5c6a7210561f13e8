"""Height over thickness of walls for which no strength is counted across the beds."""

from __future__ import annotations

from pinfold.figures import printed
from pinfold.findings import Finding, keeps_to, work
from pinfold.formulas import wall_spans
from pinfold.sources import Standing
from pinfold.studies.stability.answers import told
from pinfold.studies.stability.cases import Case
from pinfold.units import METER, RATIO

CHECK = "slenderness"


SOLID = printed("6", RATIO, Standing.READ, "TMS-EMPIRICAL", "cantilever walls of solid masonry")
HOLLOW = printed("4", RATIO, Standing.READ, "TMS-EMPIRICAL", "cantilever walls of hollow masonry")


def slender(case: Case) -> Finding:
    """Whether a wall keeps to the rule of proportion of walls that stand free.

    Raises:
        NotFoundError: nothing; the thickness is known where a wall stands.
    """
    wall = case.piece.wall
    joint = wall.kind.value("joint") if wall.kind.has("joint") and wall.kind.word("make") == "units" else 0.0
    nominal = wall.thickness + joint
    ratio = HOLLOW if wall.kind.words.get("hollow", False) else SOLID
    most = work(wall_spans.longest_by_ratio, why="highest by the rule", thickness=nominal, ratio=ratio.value)
    borrowed = "the rule is made for masonry in mortar: none is known for this kind"
    mortared = wall.kind.word("material") in ("clay", "concrete-masonry")
    return Finding(
        check=CHECK, subject="", demand=case.piece.exposed, capacity=most.number, unit=METER,
        because=told("height over the ground", "" if mortared else borrowed), working=(most,),
        figures=(("height over thickness", ratio),), left_out="wind, weight and ground: the other checks look at them",
        mend="" if keeps_to(case.piece.exposed, most.number) else "a thicker or lower wall",
    )  # fmt: skip
