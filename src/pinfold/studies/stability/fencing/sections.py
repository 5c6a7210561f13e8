"""Sections of posts: how much they take in bending and how stiff they are, measured or out of the shelf."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from functools import lru_cache
from typing import NamedTuple

from pinfold.errors import NotFoundError
from pinfold.findings import Step, work
from pinfold.formulas import cantilevers, post_sections
from pinfold.studies.stability.factors import Named
from pinfold.tables.shelf import Kind
from pinfold.units import CubicMeter, Meter, MeterToFourth, Ratio, SquareMeter

TEE = ("flange_width", "flange_thickness", "stem_depth", "stem_thickness")
"""What to measure of a tee."""
ROUND = ("pipe", "round", "bar")
"""Sections that bend alike whichever way."""
Modulus = tuple[CubicMeter, tuple[Step, ...], Named]
Inertia = tuple[MeterToFourth, tuple[Step, ...], Named]


class Area(NamedTuple):
    """Area of a section, and how far the shear in it stands over its mean."""

    area: SquareMeter
    peak: Ratio


@lru_cache(maxsize=128)  # the same kind is asked for by every group of posts
def modulus_of(kind: Kind) -> Modulus:
    """Section modulus of a post, of a tee the weaker way.

    Raises:
        NotFoundError: its section is not known; the message says what to measure.
    """
    known = _known(kind, "section_modulus", lambda tee: min(tee.modulus_stem, tee.modulus_side))
    if known is not None:
        return known
    if kind.word("section") not in _MODULI:
        raise NotFoundError(f"no section modulus is known for {kind.name}; measure the post and write section_modulus")
    names, why, find = _MODULI[kind.word("section")]
    step = find(kind, why)
    return step.number, (step,), _named(kind, names)


@lru_cache(maxsize=128)
def inertia_of(kind: Kind) -> Inertia:
    """Second moment of a post's section, of a tee the weaker way.

    Raises:
        NotFoundError: its section is not known; the message says what to measure.
    """
    known = _known(kind, "second_moment", lambda tee: min(tee.inertia, tee.inertia_side))
    if known is not None:
        return known
    modulus, steps, named = modulus_of(kind)
    found = work(cantilevers.second_moment, why="stiffness of the section", modulus=modulus, edge=_edge(kind))
    return found.number, (*steps, found), named


def _known(
    kind: Kind, name: str, weaker: Callable[[post_sections.TeeSection], float]
) -> tuple[float, tuple[Step, ...], Named] | None:
    """As the shelf or the plan has it, of a tee the weaker way; None for other sections that are measured."""
    if kind.has(name):
        return kind.value(name), (), ((name.replace("_", " "), kind.figure(name)),)
    if kind.word("section") == "tee":
        tee, step, named = _tee(kind)
        return weaker(tee), (step,), named
    return None


def area_of(kind: Kind) -> Area | None:
    """Area of a post's section with the peak of its shear; None where it is not known."""
    section = kind.word("section")
    if section == "tee":
        return Area(_tee(kind)[0].area, 2.0) if all(kind.has(name) for name in TEE) else None
    if not kind.has("width"):
        return None
    width = kind.value("width")
    if section == "pipe":
        return Area(math.pi * kind.value("wall") * (width - kind.value("wall")), 2.0)
    if section in ROUND:
        return Area(math.pi * width**2 / 4, 4 / 3)
    return Area(width * (kind.value("depth") if kind.has("depth") else width), 1.5)


def _edge(kind: Kind) -> Meter:
    if kind.has("depth"):
        return min(kind.value("width"), kind.value("depth")) / 2
    return kind.value("width") / 2


def _tee(kind: Kind) -> tuple[post_sections.TeeSection, Step, Named]:
    missing = [name for name in TEE if not kind.has(name)]
    if missing:
        raise NotFoundError(
            f"no section is known for {kind.name}: measure the post and write {', '.join(TEE)} beside its kind in the "
            "plan, and allowable, the stress its steel may take"
        )
    step = work(
        post_sections.tee_section, why="section of the tee as measured; the weaker way counts",
        **{name: kind.value(name) for name in TEE},
    )  # fmt: skip
    result = step.result
    assert isinstance(result, post_sections.TeeSection)
    return result, step, _named(kind, TEE)


def _named(kind: Kind, names: tuple[str, ...]) -> Named:
    return tuple((f"{name.replace('_', ' ')} of the post", kind.figure(name)) for name in names)


_MODULI: Mapping[str, tuple[tuple[str, ...], str, Callable[[Kind, str], Step]]] = {
    "pipe": (
        ("width", "wall"), "section of the pipe",
        lambda k, why: work(post_sections.pipe_modulus, why=why, outside=k.value("width"), wall=k.value("wall")),
    ),
    "round": (
        ("width",), "section of the round post",
        lambda k, why: work(post_sections.round_modulus, why=why, diameter=k.value("width")),
    ),
    "bar": (
        ("width",), "section of the bar",
        lambda k, why: work(post_sections.round_modulus, why=why, diameter=k.value("width")),
    ),
    "square": (
        ("width",), "section of the square post",
        lambda k, why: work(post_sections.rectangle_modulus, why=why, width=k.value("width"), depth=k.value("width")),
    ),
}  # fmt: skip
