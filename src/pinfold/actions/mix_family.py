"""A mix of a family by the builder's wish, with the site's measures and its materials as the log teaches them."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.sites import open_site
from pinfold.errors import InputError, InvalidPlan
from pinfold.figures import Figure
from pinfold.plan.place import Mixing
from pinfold.reports.mix_family import family_page
from pinfold.studies.batching.cards import card_for
from pinfold.studies.batching.charge import charge_of
from pinfold.studies.batching.records import BatchCard
from pinfold.studies.lessons.applying import taught_kind
from pinfold.studies.lessons.records import Lessons
from pinfold.studies.proportioning.families import FAMILIES, family_named
from pinfold.studies.proportioning.records import Ask, Family, Proportioned, Wish
from pinfold.studies.proportioning.wishes import asks_of, read_wish
from pinfold.studies.quantities.records import Quantity
from pinfold.tables.shelf import Kind, kind
from pinfold.units import CUBIC_METER, CubicMeter


@dataclass(frozen=True, kw_only=True)
class FamilyAnswer:
    """A mix by a wish.

    Attributes:
        family: its word.
        proportioned: the mix, how it was found, departures and rivals.
        figures: of the mix, by name: its parts, masses, water.
        card: of the volume asked for; of one batch when none was.
    """

    family: str
    proportioned: Proportioned
    figures: Mapping[str, Figure]
    card: BatchCard


@dataclass(frozen=True, kw_only=True)
class FamilyField:
    """One thing asked, as a form shows it.

    Attributes:
        ask: what is asked.
        label: its word.
        value: as typed.
        wrong: what is wrong with it; empty when nothing is.
    """

    ask: Ask
    label: str
    value: str
    wrong: str


@dataclass(frozen=True, kw_only=True)
class FamilyForm:
    """A family as a form.

    Attributes:
        name: its word.
        title: the same with what it is for.
        fields: in order.
        wrong: complaints that belong to no field.
    """

    name: str
    title: str
    fields: tuple[FamilyField, ...]
    wrong: str


def family_form(name: str, typed: Mapping[str, str], wrong: Mapping[str, str]) -> FamilyForm:
    """A family's form with what was typed and what is wrong with it.

    Args:
        name: word of the family
        typed: texts by key
        wrong: complaints by key; of no field by the empty key

    Raises:
        NotFoundError: no such family.
    """
    family = family_named(name)
    asks = asks_of(family)
    known = {ask.key for ask in asks}
    return FamilyForm(
        name=name,
        title=f"{name.replace('-', ' ')}: {family.says}",
        fields=tuple(
            FamilyField(
                ask=ask, label=ask.key.replace("_", " "), value=typed.get(ask.key, ""), wrong=wrong.get(ask.key, "")
            )
            for ask in asks
        ),
        wrong="; ".join(
            f"{place}: {text}" if place else text for place, text in wrong.items() if place not in known
        ),
    )  # fmt: skip


def mix_family(folder: Path, name: str, typed: Mapping[str, str]) -> Answer:
    """One family's mix for a wish.

    Args:
        folder: site folder; its mixer, measures and lessons count
        name: word of the family
        typed: texts by key of what the family asks

    Raises:
        NotFoundError: no such family, or a figure is missing.
        InvalidPlan: complaints about the wish, all at once.
        OutOfRangeError: what cannot be mixed.
        StoreError, NewerFileError: as reading the site tells.
    """
    family = family_named(name)
    site = open_site(folder)
    read = read_wish(family, typed, mixing=site.lessons.mixing, material=_materials(site.lessons))
    wish = replace(read, posts=lambda: tuple(post for post in site.layout.posts if post.collar > 0 and post.hole > 0))
    answer = _answer(family, wish)
    return answer_from(site, answer, family_page(family, answer.proportioned, answer.card, site.plan.units))


def family_choices() -> tuple[tuple[Family, tuple[Ask, ...]], ...]:
    """Every family with all that it asks."""
    return tuple((family, asks_of(family)) for family in FAMILIES)


def _materials(lessons: Lessons) -> Callable[[str], Kind]:
    return lambda name: taught_kind(kind("materials", name), lessons.figures)


def _answer(family: Family, wish: Wish) -> FamilyAnswer:
    found = family.propose(wish)
    mixing = _mixing(wish)
    told = _volume(family, wish, found)
    asked = Quantity(
        kind=found.mix, layer=family.name, place="one batch" if told is None else "what was asked", unit=CUBIC_METER,
        net=told or charge_of(found.mix, mixing).makes, waste=0.0, waste_figure=None, note="",
    )  # fmt: skip
    card = card_for(asked, mixing)
    thickness = wish.perhaps("thickness") or found.thickness
    found = replace(found, thickness=thickness, notes=(*found.notes, *_amount_notes(found, told)))
    return FamilyAnswer(family=family.name, proportioned=found, figures=found.mix.figures, card=card)


def _amount_notes(found: Proportioned, told: CubicMeter | None) -> tuple[str, ...]:
    """What the amount leaves out; nothing where the family counts its waste itself."""
    if told is None:
        return ("No amount was asked for, so this is one batch: give a volume, or an area and its thickness.",)
    if told == found.volume:
        return ()
    return ("Nothing is added for what spills or stays in the tub: ask for about a tenth more.",)


def _mixing(wish: Wish) -> Mixing:
    batch = wish.perhaps("batch")
    return wish.mixing if batch is None else replace(wish.mixing, batch=batch)


def _volume(family: Family, wish: Wish, found: Proportioned) -> CubicMeter | None:
    volume, area = wish.perhaps("volume"), wish.perhaps("area")
    if volume is not None and area is not None:
        raise InvalidPlan(
            f"the wish for {family.name}", [InputError("give a volume or an area, not both", place="volume")]
        )
    if area is None:
        return found.volume if volume is None else volume
    thick = wish.perhaps("thickness") or found.thickness or math.nan
    if math.isnan(thick):
        raise InvalidPlan(
            f"the wish for {family.name}",
            [
                InputError(
                    "an area wants the thickness of the coat beside it, such as 3/8 in or 10 mm", place="thickness"
                )
            ],
        )
    return area * thick
