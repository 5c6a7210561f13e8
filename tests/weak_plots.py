"""The two samples made weak on purpose: a thin foamed core, poor ground, overgrown mesh, no frost depth."""

from __future__ import annotations

from importlib.resources import files

import tomlkit

WEAK = {
    "seed-garden": ("block and mesh", {
        "kind": "foamed-poured", "height": "2 ft 8 in", "thickness": "5 in", "flexural_tension": "15 psi",
        "friction": "0.4",
    }),
    "quinta": ("earth block", {
        "kind": "foamed-poured-800", "height": "50 cm", "thickness": "12 cm", "flexural_tension_en": "0.05 MPa",
        "friction": "0.4",
    }),
}  # fmt: skip
"""By sample: the build-up that is made weak, and its wall."""
FOOTING = {"seed-garden": ("12 in", "6 in"), "quinta": ("25 cm", "15 cm")}
"""Width and thickness of its footing."""


def weak_text(sample: str) -> str:
    """The plan file of a sample, made weak; its other comments stay."""
    text = files("pinfold.store").joinpath(f"samples/{sample}/plan.toml").read_text(encoding="utf-8")
    plan = tomlkit.parse(text)
    name, wall = WEAK[sample]
    buildup = plan["buildup"][name]
    buildup["wall"] = wall
    buildup["footing"]["width"], buildup["footing"]["thickness"] = FOOTING[sample]
    for part in plan["buildup"].values():
        part["mesh"]["grown"] = "80 %"
    place = plan["place"]
    del place["frost_depth"]
    place.pop("hand_test", None)
    place["soil"] = "clay"
    return tomlkit.dumps(plan)
