"""Putting a batch right in the mixer, with the site's measures and what its log teaches; the reading into the log."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from pinfold.actions.answers import Answer, answer_from
from pinfold.actions.mix_family import FamilyField
from pinfold.actions.sites import Site, open_site
from pinfold.reports.mix_correct import correct_page
from pinfold.studies.batching.cards import is_mix
from pinfold.studies.batching.records import Charge
from pinfold.studies.correcting.asked import ASKS, GROUPS
from pinfold.studies.correcting.corrected import Corrected, corrected
from pinfold.studies.lessons.applying import taught_kind
from pinfold.studies.proportioning.records import Ask
from pinfold.studies.proportioning.wishes import read_asks
from pinfold.studies.quantities.take_off import take_off
from pinfold.tables.shelf import Kind, kind, shelf


@dataclass(frozen=True, kw_only=True)
class FieldGroup:
    """Fields that belong together.

    Attributes:
        says: what they are about.
        fields: in order.
        used: whether something stands in one of them, or is wrong with it.
    """

    says: str
    fields: tuple[FamilyField, ...]
    used: bool


@dataclass(frozen=True, kw_only=True)
class CorrectForm:
    """The form of a reading.

    Attributes:
        mix: that is chosen; empty for none yet.
        mixes: to choose from, those of the plan first.
        groups: of fields, in order.
        wrong: complaints that belong to no field.
    """

    mix: str
    mixes: tuple[str, ...]
    groups: tuple[FieldGroup, ...]
    wrong: str


def correct_mix(folder: Path, mix: str, typed: Mapping[str, str]) -> Answer:
    """What puts a batch of a mix right.

    Args:
        folder: of the site; its mixer, measures and lessons count
        mix: name of the mix
        typed: texts by key of what is asked

    Raises:
        NotFoundError: no such mix, or a figure of it is missing.
        InvalidPlan: complaints about the reading, all at once.
        StoreError, NewerFileError: as reading the site tells.
    """
    site = open_site(folder)
    found = _corrected(site, mix, typed)
    return answer_from(site, found, correct_page(found, site.plan.units))


def log_reading(folder: Path, mix: str, typed: Mapping[str, str], *, who: str = "") -> Answer:
    """Write the batch down with what was measured and what its card says went in.

    Raises:
        NotFoundError, InvalidPlan: as `correct_mix`; nothing is written then.
        StoreError, NewerFileError: it cannot be written; nothing is.
    """
    from pinfold.actions.log_book import log_entry

    found = _corrected(open_site(folder), mix, typed)
    return log_entry(folder, "batch", reading_words(found, typed), who=who)


def reading_pairs(folder: Path, mix: str, typed: Mapping[str, str]) -> tuple[tuple[str, str], ...]:
    """The same as key and text for the address of the log's form, an amount as `with` and `sand:3 kg`.

    Raises:
        NotFoundError, InvalidPlan: as `correct_mix`.
    """
    from pinfold.actions.scanning import WITH

    words = reading_words(_corrected(open_site(folder), mix, typed), typed)
    return tuple(
        (WITH, f"{key.removeprefix('amounts.')}:{text}") if key.startswith("amounts.") else (key, text)
        for key, text in words.items()
    )


def reading_words(found: Corrected, typed: Mapping[str, str]) -> dict[str, str]:
    """A reading as the fields of a batch, by key."""
    words = {"mix": found.mix.name, "batches": "1"}
    if found.density is not None:
        words["wet_density"] = typed.get("density") or f"{found.density:.1f} kg/m3"
    if typed.get("slump"):
        words["slump"] = typed["slump"]
    if not any(one.by == "amounts" for one in found.corrections):
        words |= _amounts(found.charge, typed.get("foam", ""))
    return words


def _amounts(charge: Charge, foam: str) -> dict[str, str]:
    """What went in, by the card."""
    words = {f"amounts.{part.kind.name}": f"{part.as_it_lies:.2f} kg" for part in charge.ingredients}
    if charge.water_to_add > 0:
        words["amounts.water"] = f"{charge.water_to_add * 1000:.2f} L"
    if charge.foam is not None:
        words["amounts.foam"] = foam or f"{charge.foam.make * 1000:.1f} L"
    return words


def correct_form(folder: Path, mix: str, typed: Mapping[str, str], wrong: Mapping[str, str]) -> CorrectForm:
    """The form of a reading with what was typed and what is wrong with it.

    Raises:
        StoreError, NewerFileError, InvalidPlan: as reading the site tells.
    """
    known = {ask.key for ask in ASKS}
    return CorrectForm(
        mix=mix,
        mixes=_mixes(open_site(folder)),
        groups=tuple(_group(says, keys, typed, wrong) for says, keys in GROUPS.items()),
        wrong="; ".join(f"{place}: {text}" if place else text for place, text in wrong.items() if place not in known),
    )


def _group(says: str, keys: tuple[str, ...], typed: Mapping[str, str], wrong: Mapping[str, str]) -> FieldGroup:
    fields = tuple(
        FamilyField(
            ask=ask, label=ask.key.replace("_", " "), value=typed.get(ask.key, ""), wrong=wrong.get(ask.key, "")
        )
        for ask in ASKS if ask.key in keys
    )  # fmt: skip
    return FieldGroup(says=says, fields=fields, used=any(field.value or field.wrong for field in fields))


def correct_asks() -> tuple[Ask, ...]:
    """What can be told of a batch."""
    return ASKS


def _corrected(site: Site, mix: str, typed: Mapping[str, str]) -> Corrected:
    told = read_asks(ASKS, typed, of="the reading")
    return corrected(_mix(site, mix), told, mixing=site.lessons.mixing, lessons=site.lessons)


def _mix(site: Site, name: str) -> Kind:
    return taught_kind(kind("mixes", name), site.lessons.figures)


def _mixes(site: Site) -> tuple[str, ...]:
    """Mixes of the plan, then all others that are shipped."""
    used = sorted({line.kind.name for line in take_off(site.layout) if is_mix(line)})
    return tuple(dict.fromkeys([*used, *shelf("mixes")]))
