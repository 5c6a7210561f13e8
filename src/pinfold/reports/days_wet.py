"""A wet wall's day to read: when to wet which face with how much water, when it is too hot, what a cover does."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from pinfold.figures import Figure
from pinfold.findings import Step
from pinfold.reports.pages import Block, Caution, Heading, Page, Paragraph, Working, table
from pinfold.reports.wet_chart import DEGREES, RATE
from pinfold.studies.drying.day import Effect, Span, WetFace, WetHour
from pinfold.studies.drying.lesson import DryingLesson
from pinfold.studies.drying.records import Limits
from pinfold.studies.drying.wetting import DRAINED
from pinfold.units import CELSIUS, KG_PER_SQUARE_METER_SECOND, UNIT_BY_SYMBOL, System, poured, printed, show

_UNKNOWN = "—"
MARK = "~"
TOO_OFTEN = 0.9
"""Share of the time below which rounds by the hour do not keep a face damp enough."""


@dataclass(frozen=True, kw_only=True)
class WetDay:
    """A wet wall's day.

    Attributes:
        day: of the first round.
        faces: those asked for, in order around the plot.
        effects: what each cover does to them on that day.
        wind_share: wind at the faces over that at 10 m.
        cover: what hangs before them, in words.
        limits: from where on fresh work is in danger.
        spread: share by which a rate may be off either way.
        estimated: whether some of the day's weather is estimated.
        lesson: what wettings in the log that were seen to dry make of it.
        because: why nothing is shown; empty where it is.
        weather: what the weather is, in plain words.
        frost: when it freezes on that day or in the night after; None where it does not.
        notes: what was taken or left out.
        steps: the working of the worst hour.
        figures: that went in, with their standing.
    """

    day: str
    faces: tuple[WetFace, ...]
    effects: tuple[Effect, ...]
    wind_share: Figure
    cover: str
    limits: Limits
    spread: float
    estimated: bool
    lesson: DryingLesson
    because: tuple[str, ...]
    weather: tuple[str, ...]
    notes: tuple[str, ...]
    frost: datetime | None = None
    steps: tuple[Step, ...] = ()
    figures: tuple[tuple[str, Figure], ...] = ()


def not_shown(found: WetDay) -> tuple[Block, ...]:
    """Why nothing is shown, as far as what is told of the weather does not say it already."""
    more = [text.rstrip(".") for text in found.because if text not in found.weather]
    return tuple(Paragraph(text=text) for text in (f"NOT SHOWN: {each}." for each in more)) or (
        Paragraph(text="When to wet is NOT SHOWN."),
    )


def wet_page(found: WetDay, system: System) -> Page:
    """All of it."""
    title = f"Keeping faces damp on {found.day}"
    blocks: list[Block] = [Paragraph(text=text) for text in found.weather]
    if found.because:
        blocks += not_shown(found)
        return Page(title=title, blocks=tuple(blocks))
    blocks += [Paragraph(text=_wind(found)), *_learned(found.lesson), *wet_blocks(found, system)]
    blocks += [Paragraph(text=text) for text in found.notes]
    blocks.append(Working(steps=found.steps, figures=found.figures))
    return Page(title=title, blocks=tuple(blocks))


def wet_blocks(found: WetDay, system: System) -> tuple[Block, ...]:
    """Rounds, faces, hours and covers: what the binder has of it too."""
    one = len(found.faces) == 1
    return (
        *_dangers(found, system), *_rounds(found, system), _faces(found, system),
        *((_hours(found.faces[0], found, system),) if one else ()), _covers(found, system), Caution(text=_CAUTION),
    )  # fmt: skip


_CAUTION = "Fresh cement and lime are not hosed: mist until it just runs, not before the coat is firm to the finger."


def _wind(found: WetDay) -> str:
    share = found.wind_share
    mark = f" Some of this day's weather is estimated; such figures carry a {MARK}." if found.estimated else ""
    before = "" if found.cover == "none" else f" Before the faces: {found.cover}."
    return (
        f"Wind at the faces: {share.value:.2f} of the wind at 10 m ({share.standing.value}; --wind-share takes "
        f"your own).{before} A rate may be off by {found.spread:.0%} either way, and with it hours and water: the "
        f"wall itself has the last word.{mark}"
    )


def _learned(lesson: DryingLesson) -> Iterator[Block]:
    if lesson.count:
        rows = [
            ("thought before", "1.00", f"{lesson.spread_before:.0%}", ""),
            ("believed now", f"{lesson.longer:.2f}", f"{lesson.spread:.0%}", f"{lesson.weight:.0%}"),
        ]
        heads = ("", "times as long as reckoned", "off by", "from the log")
        note = f"Out of {lesson.count} wetting{'s' if lesson.count > 1 else ''} in the log that were seen to dry."
        yield table(heads, rows, right=(1, 2, 3), title="how long water lasts on your walls", note=note)
    elif not lesson.set_aside:
        yield Paragraph(text=_UNSEEN)
    yield from (Paragraph(text=f"Set aside: {text}.") for text in lesson.set_aside)


_UNSEEN = (
    "No wetting in the log was seen to dry yet: 'pinfold log add wetting place=… face=outer lasted=\"90 min\"', with "
    "--at for when it was wetted, narrows this where a weather file of that hour is kept."
)


def _dangers(found: WetDay, system: System) -> Iterator[Block]:
    hot = [(face, face.too_hot) for face in found.faces if face.too_hot]
    if hot:
        limit = show(found.limits.too_hot.value, CELSIUS, system)
        yield Heading(text="Too hot to coat")
        yield Paragraph(text=f"Dry, they are over {limit} (common practice): shade and wet them first, or come before.")
        yield table(("face", "from – to"), [(face.name, _spans(spans)) for face, spans in hot])
    fast = [(face, face.danger or face.watch) for face in found.faces if face.watch]
    if fast:
        yield Heading(text="A fresh coat dries too fast")
        yield Paragraph(text=_limits(found.limits, system))
        rows = [(face.name, "act" if face.danger else "watch", _spans(spans)) for face, spans in fast]
        yield table(("face", "", "from – to"), rows, wide=2)
    if not hot and not fast:
        yield Paragraph(text="On this day no face is too hot to coat, and no fresh coat dries too fast.")


def _limits(known: Limits, system: System) -> str:
    watch, act = (
        show(each.value, KG_PER_SQUARE_METER_SECOND, system, in_unit=RATE[system])
        for each in (known.caution, known.act)
    )
    return (
        f"Over {watch}: watch, mist and shade; plaster and foamed mixes bleed little, so it counts for them. Over "
        f"{act}: act, or wait. Both limits are published for concrete; none was found for plaster."
    )


def _spans(spans: Sequence[Span]) -> str:
    return ", ".join(f"{span.begins:%H:%M}–{_end(span.begins, span.ends)}" for span in spans)


def _end(begins: datetime, ends: datetime) -> str:
    return "24:00" if ends.date() > begins.date() and ends.hour == 0 else f"{ends:%H:%M}"


def _rounds(found: WetDay, system: System) -> Iterator[Block]:
    yield Heading(text="Rounds with water")
    wetted = [face for face in found.faces if face.rounds]
    if found.frost is not None:
        yield Paragraph(text=f"Frost from {found.frost:%a %H:%M}: {_DRY}")
    if not wetted and any(face.cure for face in found.faces):
        yield Paragraph(text="No round on this day.")
        return
    if not wetted:
        yield Paragraph(text="None of these faces is kept damp: what is on it dries, it does not cure by water.")
        return
    by_time: dict[datetime, list[tuple[str, float]]] = {}
    for face in wetted:
        for hour in face.rounds:
            by_time.setdefault(hour.at, []).append((face.name, hour.water))
    rows = [
        (f"{at:%H:%M}", poured(math.fsum(water for _, water in rounds), system), _whom(rounds, wetted))
        for at, rounds in sorted(by_time.items())
    ]
    yield table(("at", "water", "wet these"), rows, right=(1,), wide=2, note=_NOTE)


_NOTE = "Each round by the hour, until the face holds all it can; the water has what runs off in it."


_DRY = f"nothing is wetted in the {DRAINED.value / 3600:.0f} hours before; hang a sheet before it, it stays damp so."


def _whom(rounds: Sequence[tuple[str, float]], wetted: Sequence[WetFace]) -> str:
    names = [name for name, _ in rounds]
    if len(names) == len(wetted):
        return "all" if len(names) > 1 else names[0]
    left = [face.name for face in wetted if face.name not in names]
    return f"all but {', '.join(left)}" if len(left) < len(names) else ", ".join(names)


def _faces(found: WetDay, system: System) -> Block:
    rows = [_face(face, found, system) for face in found.faces]
    heads = (
        "face", f"hottest {DEGREES[system]}", f"loses most {printed(RATE[system])}", "lasts least", "water today",
        "whole cure", "damp",
    )  # fmt: skip
    note = (
        "Hottest: the dry face. Loses most: a fresh coat. Lasts least: a wetting, from the fastest the spread allows "
        f"to the slowest. Damp: share of the cure. {_weak(found)}"
    )
    return table(heads, rows, right=(1, 2, 3, 4, 5, 6), title="face by face", note=note.strip())


def _weak(found: WetDay) -> str:
    weak = [face.name for face in found.faces if face.damp < TOO_OFTEN]
    if not weak:
        return ""
    which = "None of them stays" if len(weak) == len(found.faces) else f"{len(weak)} of them do not stay"
    return f"{which} damp enough by rounds alone: hang something before them."


def _face(face: WetFace, found: WetDay, system: System) -> tuple[str, ...]:
    hot, fast, mark = face.hottest, face.fastest, MARK if found.estimated else ""
    least = min((hour for hour in face.hours if math.isfinite(hour.lasts)), key=lambda hour: hour.lasts, default=None)
    in_all = poured(face.water_in_all, system) if face.cure else "not kept damp"
    return (
        face.name, f"{mark}{_degrees(hot.dry_face_c, system)} at {hot.at:%H}",
        f"{mark}{_rate(fast.fresh_evaporation, system)} at {fast.at:%H}", _lasts(least),
        poured(face.water, system) if face.cure else _UNKNOWN,
        in_all if face.reach >= 1 else f"{in_all} in {face.reach:.0%} of it",
        f"{face.damp:.0%}" if face.cure else _UNKNOWN,
    )  # fmt: skip


def _hours(face: WetFace, found: WetDay, system: System) -> Block:
    degrees, rate = DEGREES[system], printed(RATE[system])
    heads = ("at", f"air {degrees}", "dry", "wet", f"loses {rate}", "fresh", "power", "lasts", "spray")
    mark = MARK if found.estimated else ""
    rows = [
        (
            f"{hour.at:%H}",
            *(f"{mark}{_degrees(each, system)}" for each in (hour.air_c, hour.dry_face_c, hour.wet_face_c)),
            *(_rate(each, system) for each in (hour.evaporation, hour.fresh_evaporation, hour.rival_evaporation)),
            _span(hour.lasts), poured(hour.water, system) if hour.water > 0 else "",
        )
        for hour in face.hours
    ]  # fmt: skip
    note = (
        "Dry, wet: temperature of the face. Loses: the wetted wall, by heat and vapor. Fresh: a fresh coat, by vapor "
        "pressures; power: the same by the power of degrees, which drifts where the face is cooler than the air. "
        "Lasts: a wetting at that time."
    )
    return table(heads, rows, right=tuple(range(1, 9)), title=f"{face.name}, hour by hour", note=note)


def _covers(found: WetDay, system: System) -> Block:
    rows = [
        (each.cover.name.replace("-", " "), _degrees(each.wet_face_c, system), _rate(each.fresh_evaporation, system),
         poured(each.water, system), f"{each.damp:.0%}")
        for each in found.effects
    ]  # fmt: skip
    heads = ("cover", f"hottest wet {DEGREES[system]}", f"loses most {printed(RATE[system])}", "water today", "damp")
    note = "; ".join(f"{each.cover.name.replace('-', ' ')}: {each.cover.says}" for each in found.effects[1:])
    return table(
        heads, rows, right=(1, 2, 3, 4), title="what a cover does on that day", note=f"{note} (common practice)."
    )


def _degrees(value: float, system: System) -> str:
    unit = UNIT_BY_SYMBOL[DEGREES[system]]
    return _UNKNOWN if math.isnan(value) else f"{(value - unit.offset) / unit.factor:.0f}"


def _rate(value: float, system: System) -> str:
    decimals = 3 if system is System.US else 2
    return _UNKNOWN if math.isnan(value) else f"{max(value / UNIT_BY_SYMBOL[RATE[system]].factor, 0.0):.{decimals}f}"


def _span(seconds: float) -> str:
    if math.isnan(seconds):
        return _UNKNOWN
    if not math.isfinite(seconds):
        return "longer"
    return f"{int(seconds // 3600)}:{int(seconds % 3600 // 60):02d}"


def _lasts(hour: WetHour | None) -> str:
    if hour is None:
        return "longer"
    return f"{_span(hour.lasts_least)} to {_span(hour.lasts_most)} at {hour.at:%H}"
