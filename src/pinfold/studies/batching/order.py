"""In which order a mixer is charged, by family of mix: common practice."""

from __future__ import annotations

from pinfold.tables.shelf import Kind

_MORTAR = (
    "Wet the drum, then put in about three quarters of the water.",
    "Add half the sand and let it turn to a soup.",
    "Add the cement and the lime, and turn until the color is even.",
    "Add the rest of the sand.",
    "Add the last of the water by feel and turn three to five minutes more.",
)
_ORDER = {
    "mortar": _MORTAR,
    "plaster": _MORTAR,
    "bond": _MORTAR,
    "concrete": (
        "Wet the drum, then put in about half the water and all the gravel; the stones scour the drum.",
        "Add the cement and turn until every stone is gray.",
        "Add the sand.",
        "Add the last of the water by feel and turn three minutes more.",
    ),
    "grout": (
        "Put in about three quarters of the water and the gravel, where there is any.",
        "Add the cement, then the sand.",
        "Add water until it pours like thick soup and turn five minutes.",
        "Stir again just before each pour; it parts quickly.",
    ),
    "foamed": (
        "Put in the water, then the cement, and turn until there is no lump left.",
        "Add the sand, where there is any, and turn until even.",
        "Make the foam only now: it must not stand.",
        "Fold the foam in bucket by bucket, slowly, until no white streak is left.",
        "Weigh a level bucket: too heavy wants more foam, too light was turned too long or got too much.",
        "Cast at once.",
    ),
    "lime": (
        "Put in the sand, then the lime, and turn or beat until the color is even.",
        "Powdered lime: add water little by little; putty brings its own, so beat longer before adding any.",
        "Let it stand and work it through again before use.",
    ),
    "earth": (
        "Mix everything dry until the color is even.",
        "Sprinkle the water on little by little while turning.",
        "Try a handful: damp enough to hold its shape, for plaster soft enough to spread.",
    ),
}


def order_of_charging(mix: Kind, *, limed: bool) -> tuple[str, ...]:
    """How to charge the mixer, one line a step; as for mortar where the family is not known.

    Args:
        mix: from the shelf of mixes
        limed: whether lime goes in beside the cement
    """
    steps = _ORDER.get(mix.word("family"), _MORTAR)
    return steps if limed else tuple(step.replace(" and the lime,", "") for step in steps)
