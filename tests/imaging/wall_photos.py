"""Photos of cracked walls with a scale card, rendered from known sizes: what the measurement must find again."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from io import BytesIO

import cv2
import numpy as np
from PIL import Image

from pinfold.imaging.scale_card import CARD, CELLS, marker_cells

TEXTURE = 0.05
"""Millimeters per pixel of the card as drawn here."""


@dataclass(frozen=True, kw_only=True)
class Wall:
    """A wall, its crack and the photo of it; lengths in mm, angles in degrees."""

    width: float = 0.5
    taper: float = 0.0  # share by which the width grows from the middle to either end of the crack
    wander: float = 0.6
    place: str = "window"  # window, beside, none
    turn: float = 70.0  # of the crack, in the picture
    tilt: float = 0.0
    tilt_about: float = 30.0
    blur: float = 1.0  # pixels
    across: int = 1500
    down: int = 1130
    view: float = 140.0  # mm seen across the picture
    noise: float = 0.006
    grain: float = 0.03
    wall: float = 0.45
    crack: float = 0.06
    ink: float = 0.04
    shade: float = 0.25
    shadow: bool = False
    quality: int = 92
    light: float = 0.85
    hidden: tuple[int, ...] = ()
    window_cut: bool = True
    lens: str = "bell"  # or disk, for a lens out of focus, or shake, for a hand that moved
    sharpening: float = 0.0  # share of unsharp masking, as phones do
    ragged: float = 0.0  # mm by which either lip wanders within a millimeter or so
    chamfer: float = 0.0  # mm of half-dark bevel on either lip
    gamma: float = 0.0  # 0 for the usual sRGB curve
    seed: int = 1


@cache
def card_texture(ink: float) -> np.ndarray:
    height, width = round(CARD.height_mm / TEXTURE), round(CARD.width_mm / TEXTURE)
    picture = np.full((height, width), 0.82, np.float32)
    cell = CARD.marker_mm / CELLS
    for marker in CARD.markers:
        left, top = CARD.corners_mm(marker)[0]
        for row, cells in enumerate(marker_cells(marker.number)):
            for column, white in enumerate(cells):
                x, y = left + column * cell, top + row * cell
                if not white:
                    picture[
                        round(y / TEXTURE) : round((y + cell) / TEXTURE),
                        round(x / TEXTURE) : round((x + cell) / TEXTURE),
                    ] = ink
    left, y, length = CARD.ruler_mm
    for millimeter in range(int(length) + 1):
        x = left + millimeter
        picture[round(y / TEXTURE) : round((y + 2) / TEXTURE), round(x / TEXTURE) : round((x + 0.15) / TEXTURE)] = ink
    for row, words, size in ((9.5, "pinfold scale card", 4.0), (14, "print at 100 %", 2.6)):
        letters = np.zeros(picture.shape, np.uint8)
        cv2.putText(
            letters,
            words,
            (round(32 / TEXTURE), round(row / TEXTURE)),
            cv2.FONT_HERSHEY_SIMPLEX,
            size / TEXTURE / 30,
            255,
            10,
        )
        picture[letters > 0] = ink
    return picture


def homography(wall: Wall) -> np.ndarray:
    """From mm on the card to pixels: a pinhole camera tilted about an axis in the wall."""
    axis = np.radians(wall.tilt_about)
    turned, _ = cv2.Rodrigues(np.array([np.cos(axis), np.sin(axis), 0.0]) * np.radians(wall.tilt))
    far = 250.0
    focal = wall.across * far / wall.view
    camera = np.array([[focal, 0, wall.across / 2], [0, focal, wall.down / 2], [0, 0, 1]])
    middle = np.array([CARD.width_mm / 2, CARD.height_mm / 2 + (12 if wall.place == "beside" else 0)])
    place = np.column_stack([turned[:, 0], turned[:, 1], np.array([0, 0, far])])
    shift = np.array([[1, 0, -middle[0]], [0, 1, -middle[1]], [0, 0, 1]])
    return camera @ place @ shift


def crack_frame(wall: Wall) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Middle of the crack, its direction and its normal, in mm on the card."""
    if wall.place == "beside":
        middle = np.array([CARD.width_mm / 2, CARD.height_mm + 14.0])
        turn = np.radians(wall.turn - 70.0)
    else:
        middle = np.array([52.0, 37.0])
        turn = np.radians(wall.turn)
    along = np.array([np.cos(turn), np.sin(turn)])
    return middle, along, np.array([-along[1], along[0]])


def true_width(wall: Wall, along: np.ndarray) -> np.ndarray:
    return wall.width * (1 + wall.taper * along / 30.0)


def _smooth(rng: np.random.Generator, shape: tuple[int, int], size: float) -> np.ndarray:
    small = max(1, int(size / 3))
    noise = rng.standard_normal((shape[0] // small + 2, shape[1] // small + 2), dtype=np.float32)
    noise = cv2.GaussianBlur(noise, (0, 0), max(size / small, 0.3))
    noise = cv2.resize(noise, (shape[1], shape[0]), interpolation=cv2.INTER_LINEAR)
    return noise / noise.std()


def _wall_mm(wall: Wall) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    h = np.linalg.inv(homography(wall))
    x, y = np.meshgrid(np.arange(wall.across, dtype=np.float32), np.arange(wall.down, dtype=np.float32))
    w = h[2, 0] * x + h[2, 1] * y + h[2, 2]
    mx, my = (h[0, 0] * x + h[0, 1] * y + h[0, 2]) / w, (h[1, 0] * x + h[1, 1] * y + h[1, 2]) / w
    return mx, my, np.hypot(np.gradient(mx, axis=1), np.gradient(my, axis=1))


def _wandering(wall: Wall, along: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """How far the crack's middle lies off its straight way, and its slope against it."""
    phase = np.random.default_rng(wall.seed + 77).uniform(0, 6.28, 3)
    waves = tuple(zip((1.0, 0.5, 0.15), (41.0, 17.0, 7.0), phase, strict=True))
    line = sum(wall.wander * a * np.sin(2 * np.pi * along / n + p) for a, n, p in waves)
    slope = sum(wall.wander * a * 2 * np.pi / n * np.cos(2 * np.pi * along / n + p) for a, n, p in waves)
    return line, slope


def true_middle(wall: Wall, along: np.ndarray) -> np.ndarray:
    """The crack's middle in mm on the card, (n, 2)."""
    middle, way, normal = crack_frame(wall)
    return middle + along[:, None] * way + _wandering(wall, along)[0][:, None] * normal


def _crack_cover(wall: Wall, mx: np.ndarray, my: np.ndarray) -> np.ndarray:
    middle, along, normal = crack_frame(wall)
    u = (mx - middle[0]) * along[0] + (my - middle[1]) * along[1]
    v = (mx - middle[0]) * normal[0] + (my - middle[1]) * normal[1]
    line, slope = _wandering(wall, u)
    distance = np.abs(v - line) / np.sqrt(1 + slope**2)
    gy, gx = np.gradient(v - line)
    pixel = np.hypot(gx, gy) / np.sqrt(1 + slope**2)
    half = true_width(wall, u) / 2
    for side, phase in ((v > line, 1.0), (v <= line, 2.0)):
        half = half + np.where(
            side, wall.ragged * np.sin(2 * np.pi * u / 1.3 + phase) * np.sin(2 * np.pi * u / 3.7 + 2 * phase), 0
        )
    cover = _overlap(distance, pixel, half)
    if wall.chamfer:
        cover = 0.5 * cover + 0.5 * _overlap(distance, pixel, half + wall.chamfer)
    return np.where(np.abs(u) < 45, cover, 0.0)


def _overlap(distance: np.ndarray, pixel: np.ndarray, half: np.ndarray) -> np.ndarray:
    return np.clip(np.minimum(distance + pixel / 2, half) - np.maximum(distance - pixel / 2, -half), 0, None) / pixel


def _through_lens(wall: Wall, light: np.ndarray) -> np.ndarray:
    if wall.blur <= 0:
        return light
    if wall.lens == "bell":
        return cv2.GaussianBlur(light, (0, 0), wall.blur)
    reach = 2 * wall.blur if wall.lens == "disk" else 1.732 * wall.blur
    half = int(reach) + 2
    y, x = np.mgrid[-half : half + 1 : 0.1, -half : half + 1 : 0.1]
    streak = (np.abs(x) <= reach) & (np.abs(y - 0.4 * x) <= 0.5)
    inside = np.hypot(x, y) <= reach if wall.lens == "disk" else streak
    kernel = np.histogram2d(y[inside], x[inside], bins=2 * half + 1, range=[[-half - 0.5, half + 0.5]] * 2)[0]
    return cv2.filter2D(light, -1, (kernel / kernel.sum()).astype(np.float32))


def light_of(wall: Wall) -> np.ndarray:
    """The picture in linear light, before the camera."""
    rng = np.random.default_rng(wall.seed)
    mx, my, mm = _wall_mm(wall)
    size = 1 / float(np.median(mm))
    shape = mx.shape
    grain = (
        0.5 * _smooth(rng, shape, 0.15 * size)
        + 0.6 * _smooth(rng, shape, 0.8 * size)
        + 0.6 * _smooth(rng, shape, 5 * size)
    )
    face = wall.wall * (1 + wall.grain * grain)
    if wall.place != "none":
        cover = _crack_cover(wall, mx, my)
        face = face * (1 - cover) + wall.crack * cover
    h = homography(wall)
    twice = np.diag([2.0, 2.0, 1.0]) @ h @ np.diag([TEXTURE, TEXTURE, 1.0])
    twice = np.array([[1, 0, 0.5], [0, 1, 0.5], [0, 0, 1.0]]) @ twice
    texture = card_texture(wall.ink).copy()
    for index in wall.hidden:
        left, top = CARD.corners_mm(CARD.markers[index])[0]
        texture[
            round((top - 1) / TEXTURE) : round((top + 8) / TEXTURE),
            round((left - 1) / TEXTURE) : round((left + 16) / TEXTURE),
        ] = 0.5
    big = (shape[1] * 2, shape[0] * 2)
    mask = np.ones_like(texture)
    if wall.window_cut:
        left, top, right, bottom = (round(edge / TEXTURE) for edge in CARD.window_mm)
        mask[top:bottom, left:right] = 0
    card = cv2.resize(
        cv2.warpPerspective(texture * mask, twice, big), (shape[1], shape[0]), interpolation=cv2.INTER_AREA
    )
    mask = cv2.resize(cv2.warpPerspective(mask, twice, big), (shape[1], shape[0]), interpolation=cv2.INTER_AREA)
    face = face * (1 - mask) + card
    x, y = np.meshgrid(np.linspace(-1, 1, shape[1]), np.linspace(-1, 1, shape[0]))
    lamp = 1 - wall.shade * (0.5 + 0.5 * (0.8 * x + 0.6 * y))
    if wall.shadow:
        edge = (0.5 * x + y * 0.3 - 0.05) * shape[1] / 2 / size / 2.0
        lamp = lamp * (1 - 0.45 / (1 + np.exp(-edge)))
    return (face * lamp).astype(np.float32)


def photo_of(wall: Wall) -> bytes:
    """The picture as a camera's JPEG."""
    light = light_of(wall)
    light = _through_lens(wall, light)
    rng = np.random.default_rng(wall.seed + 5)
    light = light * wall.light
    light = light + rng.standard_normal(light.shape, dtype=np.float32) * wall.noise * np.sqrt(
        np.clip(light, 0.02, None)
    )
    light = np.clip(light, 0, 1)
    if wall.gamma:
        coded = light ** (1 / wall.gamma)
    else:
        coded = np.where(light <= 0.0031308, 12.92 * light, 1.055 * light ** (1 / 2.4) - 0.055)
    if wall.sharpening:
        coded = np.clip(coded + wall.sharpening * (coded - cv2.GaussianBlur(coded, (0, 0), 1.2)), 0, 1)
    out = BytesIO()
    Image.fromarray(np.round(coded * 255).astype(np.uint8)).save(out, "JPEG", quality=wall.quality)
    return out.getvalue()
