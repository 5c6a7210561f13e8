"""Cracks of a site: whether they move, and measuring one from a photo with the scale card beside it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache
from pathlib import Path

from pinfold.actions.answers import Answer
from pinfold.actions.log_book import DEVICE, WHO, new_id, now_at, system_of
from pinfold.actions.taking import log_of, take_pictured
from pinfold.errors import InputError, InvalidPlan, NotFoundError, StoreError
from pinfold.figures import Figure
from pinfold.imaging.crack_records import CrackProfile
from pinfold.logbook.entries import Entry
from pinfold.logbook.kinds import entry_kind
from pinfold.reports.crack_trace import LEGEND, traced
from pinfold.reports.cracks_page import CrackTold, cracks_html, cracks_page, profile_html, profile_page
from pinfold.sources import Standing
from pinfold.studies.cracks.records import CrackReading, CrackTrend, CrackVerdict
from pinfold.studies.cracks.trend import crack_trend
from pinfold.studies.cracks.widths import crack_words
from pinfold.units import METER, System

GAUGE = Figure(
    value=0.05e-3, unit=METER, standing=Standing.PRACTICE, source="PRACTICE",
    printed="half a division of a 0.1 mm gauge",
)  # fmt: skip
"""Spread of a reading that says none."""
MOST = 300
"""Readings that are looked at, the newest ones."""
_ORDER = (CrackVerdict.MOVING, CrackVerdict.NOT_SHOWN, CrackVerdict.DEAD)


def cracks_of(folder: Path) -> Answer:
    """Every crack of the log by its mark, those that move first.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as reading the site and its log tell.
    """
    system = system_of(folder)
    told = by_mark(log_of(folder).entries(kind="crack", standing=True, limit=MOST))
    return Answer(record=told, page=cracks_page(told, system), system=system)


def cracks_as_html(folder: Path) -> str:
    """The same for the middle of a page, with pictures.

    Raises:
        NotFoundError, StoreError, NewerFileError, InvalidPlan: as `cracks_of`.
    """
    answer = cracks_of(folder)
    assert isinstance(answer.record, tuple)
    return cracks_html(answer.record, answer.system)


def by_mark(entries: Iterable[Entry]) -> tuple[CrackTold, ...]:
    """Readings by mark, each with its trend, those that move first."""
    marks: dict[str, list[Entry]] = {}
    for entry in sorted(entries, key=lambda each: each.when):
        marks.setdefault(entry.text("mark"), []).append(entry)
    cracks = [_told(mark, own) for mark, own in marks.items()]
    return tuple(sorted(cracks, key=lambda crack: (_ORDER.index(crack.trend.verdict), crack.mark)))


def _told(mark: str, entries: list[Entry]) -> CrackTold:
    readings = tuple(
        CrackReading(
            at=entry.when.timestamp(), width=entry.number("width") or 0.0, temperature_c=entry.number("temperature"),
            spread=entry.number("spread") or GAUGE.value,
        )
        for entry in entries
    )  # fmt: skip
    place = next((entry.text("place") for entry in reversed(entries) if entry.text("place")), "")
    means = crack_words(readings[-1].width, spread=readings[-1].spread)
    return CrackTold(mark=mark, place=place, readings=readings, trend=_trend_of(readings), means=means)


@lru_cache(maxsize=512)  # a crack that was not read again moves as it did
def _trend_of(readings: tuple[CrackReading, ...]) -> CrackTrend:
    return crack_trend(readings)


def photo_of_crack(
    folder: Path, photo: Path, *, keep_place: bool = False, picture: Path | None = None, **told: str
) -> Answer:
    """`crack_in` on a picture file.

    Raises:
        NotFoundError: no such picture.
        InputError, InvalidPlan, StoreError, NewerFileError: as `crack_in`; the picture is not to be an SVG.
    """
    if picture is not None and picture.suffix.lower() != ".svg":
        raise InputError(f"{picture.name} would be a drawing in SVG; give it a name like crack.svg", place="--picture")
    try:
        raw = photo.read_bytes()
    except FileNotFoundError:
        raise NotFoundError(f"there is no picture {photo}") from None
    except OSError as fault:
        raise StoreError(f"{photo} cannot be read: {(fault.strerror or str(fault)).lower()}") from None
    return crack_in(folder, raw, told, keep_place=keep_place, picture=picture)


def crack_in(
    folder: Path, raw: bytes, told: Mapping[str, str], *, keep_place: bool = False, picture: Path | None = None
) -> Answer:
    """Measure the crack in a photo that shows the scale card, and write it down where a mark is given.

    Args:
        folder: of the site
        raw: the picture
        told: `mark` of the crack, `place`, `temperature`, `who`, `device`, as far as they are known; without a mark
            nothing is written; `id` where the same form may come twice
        keep_place: whether the place the photo was taken is kept with it
        picture: a file to draw what was traced into, as SVG

    Raises:
        InputError: the photo is not good enough, and why.
        InvalidPlan: a field that cannot be.
        NotFoundError, StoreError, NewerFileError: as reading the site and writing the log and the picture tell.
    """
    from pinfold.imaging.crack_photo import measured_crack
    from pinfold.store.writing import write_text

    system = system_of(folder)
    profile = measured_crack(raw)
    came = []
    if picture is not None:
        write_text(picture, _drawn(raw, profile, system))
        came.append(f"What was traced is drawn in {picture}. {LEGEND}")
    if told.get("mark", "").strip():
        came += _kept(folder, raw, profile, told, keep_place=keep_place)
    means = crack_words(profile.median, spread=profile.spread)
    return Answer(record=profile, page=profile_page(profile, means, system, told=came), system=system)


def crack_as_html(folder: Path, raw: bytes, told: Mapping[str, str], *, keep_place: bool = False) -> str:
    """The same for the middle of a page, with the drawing of what was traced.

    Raises:
        InputError, InvalidPlan, NotFoundError, StoreError, NewerFileError: as `crack_in`.
    """
    answer = crack_in(folder, raw, told, keep_place=keep_place)
    assert isinstance(answer.record, CrackProfile)
    return profile_html(answer.page, _drawn(raw, answer.record, answer.system), answer.system)


def _drawn(raw: bytes, profile: CrackProfile, system: System) -> str:
    from pinfold.imaging.crack_picture import flat_picture

    return traced(profile, flat_picture(raw, profile), system)


def _kept(
    folder: Path, raw: bytes, profile: CrackProfile, told: Mapping[str, str], *, keep_place: bool
) -> tuple[str, ...]:
    mark = told["mark"].strip()
    fields = {
        "mark": mark, "width": f"{1e3 * profile.median:.3f} mm", "spread": f"{1e3 * profile.spread:.3f} mm",
        **{key: told[key] for key in ("place", "temperature") if told.get(key)},
    }  # fmt: skip
    entry = {
        "id": told.get("id") or new_id(), "kind": "crack", "at": now_at(folder), "who": told.get("who") or WHO,
        "device": told.get("device") or DEVICE, "fields": fields,
    }  # fmt: skip
    taken = take_pictured(folder, entry, {"photo": raw}, keep_place=keep_place)
    if taken.state in ("known", "conflict") and told.get("id"):
        return (f"Written down already as crack {mark}.",)
    if taken.state != "new":
        raise InvalidPlan("crack", taken.complaints)
    placed = log_of(folder).entry(taken.id).typed.keys() & entry_kind("crack").from_photo
    place = " and the place it was taken" if placed else ""
    kept = f"Written down as crack {mark}, entry {taken.seq}, with the photo{place}."
    return (kept, *(f"{remark.place}: {remark.message}" for remark in taken.remarks))


def scale_card() -> str:
    """The scale card as SVG, to print at 100 %."""
    from pinfold.imaging.scale_card import card_svg

    return card_svg()


def write_card(file: Path) -> None:
    """Write the scale card.

    Raises:
        StoreError: the file cannot be written.
    """
    from pinfold.store.writing import write_text

    write_text(file, scale_card())
