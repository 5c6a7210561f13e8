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
    "bagged": (
        "Put in about three quarters of the water the bags ask for.",
        "Add the bags one by one, whole: a part of a bag may hold little cement.",
        "Add the last of the water by feel and turn three minutes more.",
    ),
    "dry-set": (
        "Stand the post plumb and brace it; it cannot be moved once the water is in.",
        "Pour the dry mix in by layers of a hand's breadth, rod each, and wet each with its share of the water.",
        "Let the water sink before the next layer; the top is troweled to shed rain.",
        "Leave it alone for a week before anything hangs on it or pulls at it.",
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
    "stabilized-earth": (
        "Sift the soil and break every lump; mix soil and cement dry until the color is even.",
        "Sprinkle the water on little by little while turning.",
        "Squeeze a ball and drop it from the shoulder: in a few pieces is right, whole too wet, crumbs too dry.",
        "Press or ram at once; what lies longer than an hour is lost.",
    ),
    "adobe": (
        "Heap the clay soil, make a hollow in it, fill that with water and let it stand overnight.",
        "Add the sand, and the emulsion where there is any, and tread or turn until no lump is left.",
        "Strew the straw in little by little while treading.",
        "Try a ball: it drops flat from a hand's height without splashing or bursting.",
        "Wet the mold, fill it from the corners, strike it off and lift it straight up.",
    ),
    "wash": (
        "Put in a third of the water, then the lime or the cement, and stir to a paste without lumps.",
        "Thin it with the rest of the water until it runs like milk; lime putty is only thinned.",
        "Pour it through a sieve.",
        "Stir again before every dip of the brush; what has begun to set is thrown away.",
    ),
    "quicklime-wash": (
        "Put nearly all the water into a metal tub, then the quicklime lump by lump, and stand back while it boils.",
        "Cover it and leave it four days at least.",
        "Stir, pour it through a sieve, and thin it with the last of the water until it runs like milk.",
        "Stir again before every dip of the brush.",
    ),
}


def order_of_charging(mix: Kind, *, limed: bool) -> tuple[str, ...]:
    """How to charge the mixer, one line a step: by the mix's own order, else its family's, else as for mortar.

    Args:
        mix: from the shelf of mixes
        limed: whether lime goes in beside the cement
    """
    steps = _ORDER.get(mix.word("order", mix.word("family")), _MORTAR)
    return steps if limed else tuple(step.replace(" and the lime,", "") for step in steps)
