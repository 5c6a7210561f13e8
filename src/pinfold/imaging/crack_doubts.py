"""How far a width in a photo can be trusted: blur, depth, tone, grain, each tried by moving it and measuring again."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from pinfold.imaging.card_in_photo import CardInPhoto
from pinfold.imaging.crack_fit import DepthGuess, fitted, wall_light
from pinfold.imaging.crack_width import Bands, Fit

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Grid = NDArray[np.float64]

_TONE_DOUBT = 0.12
_DEPTH_DOUBT = 0.09
_BLUR_DOUBT = 0.05
_LEAST_DEPTH_DOUBT = 0.02
_UNRESOLVED_DEPTH_DOUBT = 0.1
_MUCH_HALO = 0.04


def first_guess(bands: Bands, lie: CardInPhoto) -> DepthGuess:
    """As dark inside as the card's printed black, give or take."""
    return DepthGuess(depth=np.clip(1 - lie.black / np.maximum(wall_light(bands), 1e-3), 0.4, 0.97), doubt=_DEPTH_DOUBT)


def fitted_twice(bands: Bands, first: DepthGuess) -> tuple[Fit, DepthGuess]:
    """The fit with the depth that the crack's own wider stations show, and that depth."""
    guess = _second_guess(bands, fitted(bands, first), first)
    return fitted(bands, guess), guess


def _second_guess(bands: Bands, fit: Fit, first: DepthGuess) -> DepthGuess:
    """The depth that the wider stations show, where most of them do; else the first guess again.

    The finer a crack is against the blur, the more a blur misjudged passes for depth: the doubt grows with that.
    """
    told = fit.clear & (fit.depth_doubt < 0.5 * first.doubt)
    if np.count_nonzero(told) < max(3, 0.5 * np.count_nonzero(fit.clear)):
        return first
    before = np.broadcast_to(np.asarray(first.depth), fit.depth.shape)[told]
    after = fit.depth_doubt[told] ** -2
    seen = after - first.doubt**-2
    depth = float(np.sum(after * fit.depth[told] - before * first.doubt**-2) / np.sum(seen))
    depth = min(max(depth, 0.3), 0.995)
    apart = float(np.std(fit.depth[told])) / math.sqrt(np.count_nonzero(told))
    unresolved = float(np.median((bands.blur[told] / fit.width[told]) ** 2))
    doubt = math.hypot(apart, _LEAST_DEPTH_DOUBT + _UNRESOLVED_DEPTH_DOUBT * unresolved)
    return DepthGuess(depth=depth, doubt=min(doubt, first.doubt))


def doubts_of(bands: Bands, fit: Fit, first: DepthGuess, lie: CardInPhoto, kept: NDArray[np.int_]) -> dict[str, float]:
    """Standard deviations of the median width by cause, in mm."""
    some = kept[np.linspace(0, len(kept) - 1, min(len(kept), 12)).round().astype(int)]
    few = _chosen(bands, some)
    start = DepthGuess(depth=np.asarray(first.depth)[some], doubt=first.doubt)
    usual, guess = fitted_twice(few, start)

    def moved(changed: Bands, depth: Grid | float) -> float:
        again, _ = fitted_twice(changed, DepthGuess(depth=depth, doubt=first.doubt))
        return float(np.median(again.width - usual.width))

    shallow = fitted(few, DepthGuess(depth=guess.depth - guess.doubt, doubt=guess.doubt))
    grain = float(np.median(fit.width_doubt[kept]))
    unlike = 1.05 * float(np.median(np.abs(np.diff(fit.width[kept])))) if len(kept) > 2 else 0.0
    blur = math.hypot(_BLUR_DOUBT, lie.blur_doubt / 2)
    bent = replace(few, light=np.clip(few.light, 1e-4, None) ** (1 + _TONE_DOUBT))
    bent_depth = 1 - np.clip(1 - np.asarray(start.depth), 1e-3, None) ** (1 + _TONE_DOUBT)
    return {
        "grain": 1.25 * max(grain, unlike) / math.sqrt(max(len(kept) / 2, 1)),
        "blur": moved(replace(few, blur=few.blur * (1 + blur)), start.depth),
        "depth": float(np.median(shallow.width - usual.width)),
        "tone": moved(bent, bent_depth),
    }


def _chosen(bands: Bands, index: NDArray[np.int_]) -> Bands:
    return Bands(
        steps=bands.steps[index],
        light=bands.light[index],
        weight=bands.weight[index],
        blur=bands.blur[index],
        along=bands.along[index],
        places=bands.places[index],
        across=bands.across[index],
    )


def notes_of(fit: Fit, bands: Bands, guess: DepthGuess, kept: NDArray[np.int_], lie: CardInPhoto) -> tuple[str, ...]:
    """What the builder should know of a photo that was good enough to measure in."""
    notes = []
    width, blur = float(np.median(fit.width[kept])), float(np.median(bands.blur[kept]))
    if guess.doubt >= _DEPTH_DOUBT:
        notes.append(
            "the crack is too fine for this photo to show how dark it is inside; its width rests on it being about"
            " as dark as the card's printed black"
        )
    if width < blur:
        notes.append("the crack is finer than the photo's blur; a nearer, sharper photo narrows the spread")
    if lie.halo > _MUCH_HALO:
        notes.append(
            "the camera has sharpened the picture, which moves edges a little; plain, unedited pictures serve better"
        )
    if lie.blur_doubt > 0.25:
        notes.append("one part of the card is sharper than another; stand straight before it")
    return tuple(notes)
