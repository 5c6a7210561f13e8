"""Limewash and cement wash: lime thinned to milk, brushed on in thin coats."""

from __future__ import annotations

from pinfold.figures import Figure
from pinfold.studies.proportioning.parts import NONE, ONE, held, plain, told
from pinfold.studies.proportioning.records import Ask, Departure, Family, Proportioned, Wish
from pinfold.tables.shelf import Kind, kind
from pinfold.units import METER, RATIO

LIMES = {"hydrated": "hydrated-lime", "putty": "lime-putty", "quicklime": "quicklime"}
_COATS = Ask(
    key="coats", says="how many thin coats", unit=RATIO, otherwise="3", low=1.0, high=12.0, example="3", whole=True
)
_FILM = Ask(
    key="thickness", says="wet thickness of all coats together, in place of the usual", unit=METER, low=2e-5,
    high=5e-3, example="0.7 mm",
)  # fmt: skip
_LIME_ASKS = (
    Ask(key="lime", says="powder from the bag, putty, or quicklime slaked on site", choices=tuple(LIMES),
        otherwise="hydrated"),
    Ask(key="water", says="all the water to one of lime, by volume", unit=RATIO, low=0.2, high=12.0, example="1-1/2"),
    _COATS, _FILM,
)  # fmt: skip
_CEMENT_ASKS = (
    Ask(key="lime", says="parts of hydrated lime to one of cement, by volume", unit=RATIO, low=0.0, high=10.0,
        example="2"),
    Ask(key="water", says="all the water over cement by weight", unit=RATIO, low=0.4, high=12.0, example="3"),
    _COATS, _FILM,
)  # fmt: skip
_THIN = ("Thick wash dries to a crust that flakes.", "So thin a wash hides little: more coats.")


def propose_lime(wish: Wish) -> Proportioned:
    """Lime thinned to milk."""
    lime = wish.word("lime")
    row = kind("proportions", "limewash")
    water = told(wish, "water", kind("proportions", f"limewash-{lime}").figure("water"))
    outside = (
        held("water", water.value, row, key="water", of="to one of lime", says=_THIN) if lime == "hydrated" else ()
    )
    parts = {"lime": ONE}
    mix = _wash(
        "limewash", {"lime": wish.material(LIMES[lime])}, {**parts, "water_parts": water},
        order="quicklime-wash" if lime == "quicklime" else "wash",
    )  # fmt: skip
    return _told(wish, mix, row, departures=outside, notes=_lime_notes(lime))


def propose_cement(wish: Wish) -> Proportioned:
    """Cement and lime brushed on."""
    row = kind("proportions", "cement-wash")
    parts = {"cement": ONE, "lime": told(wish, "lime", row.figure("lime"))}
    parts = {part: figure for part, figure in parts.items() if figure.value > 0}
    names = {"cement": "portland-cement", "lime": "hydrated-lime"}
    uses = {part: wish.material(names[part]) for part in parts}
    mix = _wash(
        "cement-wash", uses, {**parts, "water_cement": told(wish, "water", row.figure("water_cement"))},
        order="wash",
    )  # fmt: skip
    notes = ("Use it within two hours; stir it all the time.", "Damp the wall before, and keep it damp two days after.")
    return _told(wish, mix, row, departures=(), notes=notes)


def _wash(
    name: str, uses: dict[str, Kind], figures: dict[str, Figure], *, order: str
) -> Kind:  # fmt: skip
    dry = " : ".join(f"{figures[part].printed} {material.name.replace('-', ' ')}" for part, material in uses.items())
    said = f"{dry} : {figures['water_parts'].printed} water" if "water_parts" in figures else (
        f"{dry}, water {figures['water_cement'].printed} of the cement by weight"
    )  # fmt: skip
    return Kind(
        name=name, shelf="mixes", figures={**figures, "air": NONE},
        words={
            "says": f"{name.replace('-', ' ')}, {said}", "family": "wash", "order": order,
            "yield_method": "absolute", "uses": uses,
            "notes": ["Strain it through a cloth or fine sieve; stir it often."], "cautions": [],
        },
    )  # fmt: skip


def _told(
    wish: Wish, mix: Kind, row: Kind, *, departures: tuple[Departure, ...], notes: tuple[str, ...]
) -> Proportioned:  # fmt: skip
    coats, film = wish.number("coats"), row.figure("film")
    films = held("film of one coat", (wish.perhaps("thickness") or film.value * coats) / coats, row, key="film")
    return Proportioned(
        mix=mix,
        method="the old recipes of whitewash, each by its own page",
        departures=(*departures, *films),
        thickness=film.value * coats,
        notes=(
            f"{plain(coats)} coats of about {film.printed} wet, {_per_coat(film)}; each a day or more after the last.",
            *notes,
        ),
    )


def _per_coat(film: Figure) -> str:
    liter, gallon = 1e-3 / film.value, 0.003785411784 / film.value / 0.09290304
    return f"a liter covers {liter:.1f} m² once, a gallon {gallon:.0f} ft²"


def _lime_notes(lime: str) -> tuple[str, ...]:
    damp = "Damp the wall first; brush it on so thin that the wall shows through, it whitens as it dries."
    if lime == "quicklime":
        return (
            "Steam carries a tenth to a fifth of it off: what you get is less than what goes in.",
            "Let it stand four days at least, under a lid.", damp,
        )  # fmt: skip
    return ("Soak the powder overnight.", damp) if lime == "hydrated" else (damp,)


LIMEWASH = Family(name="limewash", says="thin white coats of lime", asks=_LIME_ASKS, propose=propose_lime)
CEMENT_WASH = Family(
    name="cement-wash", says="cement and lime brushed on masonry", asks=_CEMENT_ASKS, propose=propose_cement
)  # fmt: skip
