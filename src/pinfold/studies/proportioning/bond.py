"""The thrown bond coat: what makes plaster hold on smooth or doubtful walls."""

from __future__ import annotations

from dataclasses import replace

from pinfold.studies.proportioning.parts import SAND, WATER, Recipe, blend, held, told
from pinfold.studies.proportioning.records import Family, Proportioned, Wish
from pinfold.tables.shelf import kind

_ASKS = (replace(SAND, example="1-1/2"), WATER)
_SAYS = ("Rich as that it skins over and crazes.", "Leaner than that it is no bond coat: plaster pulls it off.")


def propose(wish: Wish) -> Proportioned:
    """Cement and sand, no richer and no leaner than published, thrown on and left rough."""
    base = kind("mixes", "bond-coat")
    parts = {"cement": base.figure("cement"), "sand": told(wish, "sand", base.figure("sand"))}
    mix, working = blend(
        Recipe(
            family="bond", base=base, title="thrown bond coat", parts=parts,
            uses={"cement": "portland-cement", "sand": "sand"},
            air=base.figure("air"),
        ),
        wish,
    )  # fmt: skip
    row = kind("proportions", "bond-coat")
    return Proportioned(
        mix=mix,
        method="cement and at most two parts of sand, as the plastering associations say",
        working=working,
        departures=held("sand", parts["sand"].value, row, key="sand", of="to one of cement", says=_SAYS),
        thickness=kind("coats", "slurry-bond").value("thickness"),
        notes=("Wet the wall, throw it on with a brush or whisk, leave it rough; damp for a day before plaster.",),
    )


FAMILY = Family(name="bond", says="thrown on smooth walls so that plaster holds", asks=_ASKS, propose=propose)
