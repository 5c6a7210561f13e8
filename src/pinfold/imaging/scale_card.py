"""The scale card: four markers a known distance apart, printed, cut out and held beside a crack.

All sizes here are in millimeters, as printed; x runs right and y down from the top left corner of the card.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import groupby


@dataclass(frozen=True, kw_only=True)
class CardMarker:
    """One of the four markers of the card.

    Attributes:
        number: which pattern of the marker dictionary it bears.
        place: where it sits, in the builder's words.
        x_mm: middle of the marker, from the left edge of the card.
        y_mm: middle of the marker, from the top edge of the card.
    """

    number: int
    place: str
    x_mm: float
    y_mm: float


@dataclass(frozen=True, kw_only=True)
class ScaleCard:
    """A printed card of known sizes.

    Attributes:
        width_mm: outer width to cut to.
        height_mm: outer height to cut to.
        marker_mm: side of each black marker square.
        markers: the four markers, from the top left clockwise.
        window_mm: left, top, right and bottom of the window to cut out.
        ruler_mm: left end, height on the card and length of the check ruler.
    """

    width_mm: float
    height_mm: float
    marker_mm: float
    markers: tuple[CardMarker, ...]
    window_mm: tuple[float, float, float, float]
    ruler_mm: tuple[float, float, float]

    def corners_mm(self, marker: CardMarker) -> tuple[tuple[float, float], ...]:
        """The four corners of a marker, from its top left clockwise."""
        half = self.marker_mm / 2
        return tuple(
            (marker.x_mm + half * right, marker.y_mm + half * down)
            for right, down in ((-1, -1), (1, -1), (1, 1), (-1, 1))
        )


CARD = ScaleCard(
    width_mm=104.0,
    height_mm=74.0,
    marker_mm=14.0,
    markers=(
        CardMarker(number=3, place="top left", x_mm=12.0, y_mm=12.0),
        CardMarker(number=11, place="top right", x_mm=92.0, y_mm=12.0),
        CardMarker(number=24, place="bottom right", x_mm=92.0, y_mm=62.0),
        CardMarker(number=38, place="bottom left", x_mm=12.0, y_mm=62.0),
    ),
    window_mm=(22.0, 22.0, 82.0, 52.0),
    ruler_mm=(27.0, 58.0, 50.0),
)
"""The card that pinfold prints: markers 80 mm by 50 mm apart, a window of 60 mm by 30 mm between them."""

CELLS = 6
"""Cells along the side of a marker, its black rim among them."""


@cache
def marker_cells(number: int) -> tuple[tuple[bool, ...], ...]:
    """Which cells of a marker are white, row by row from the top left."""
    import cv2

    picture = cv2.aruco.generateImageMarker(
        cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50), number, CELLS, borderBits=1
    )
    return tuple(tuple(bool(cell > 127) for cell in row) for row in picture)


def card_svg(card: ScaleCard = CARD) -> str:
    """The card as a drawing in SVG, in true size when printed at 100 %."""
    body = [*(_marker(card, marker) for marker in card.markers), *_window(card), *_ruler(card), *_words(card)]
    width, height = _number(card.width_mm), _number(card.height_mm)
    return "\n".join([
        '<svg xmlns="http://www.w3.org/2000/svg"'
        f' width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}">',
        "<title>pinfold scale card</title>",
        f'<rect x="0" y="0" width="{width}" height="{height}" fill="#fff"/>',
        f'<rect x="0.1" y="0.1" width="{_number(card.width_mm - 0.2)}" height="{_number(card.height_mm - 0.2)}"'
        ' fill="none" stroke="#999" stroke-width="0.2"/>',
        *body,
        "</svg>",
        "",
    ])  # fmt: skip


def _number(value: float) -> str:
    return f"{value:.4f}".rstrip("0").rstrip(".")


def _marker(card: ScaleCard, marker: CardMarker) -> str:
    cell = card.marker_mm / CELLS
    left, top = card.corners_mm(marker)[0]
    white = []
    for row, cells in enumerate(marker_cells(marker.number)):
        column = 0
        for is_white, group in groupby(cells):
            count = len(tuple(group))
            if is_white:
                x, y = _number(left + column * cell), _number(top + row * cell)
                white.append(f"M{x} {y}h{_number(count * cell)}v{_number(cell)}h-{_number(count * cell)}z")
            column += count
    side = _number(card.marker_mm)
    return (
        f'<rect x="{_number(left)}" y="{_number(top)}" width="{side}" height="{side}" fill="#000"/>'
        f'<path d="{"".join(white)}" fill="#fff"/>'
    )


def _window(card: ScaleCard) -> list[str]:
    left, top, right, bottom = card.window_mm
    return [
        f'<rect x="{_number(left)}" y="{_number(top)}" width="{_number(right - left)}" height="{_number(bottom - top)}"'
        ' fill="none" stroke="#999" stroke-width="0.2" stroke-dasharray="1.5 1.5"/>'
    ]


def _ruler(card: ScaleCard) -> list[str]:
    left, y, length = card.ruler_mm
    ticks = [f"M{_number(left)} {_number(y)}h{_number(length)}"]
    for millimeter in range(int(length) + 1):
        tall = 3.0 if millimeter % 10 == 0 else 2.0 if millimeter % 5 == 0 else 1.2
        ticks.append(f"M{_number(left + millimeter)} {_number(y)}v{_number(tall)}")
    numbers = [
        _text(left + millimeter, y + 5.2, str(millimeter), size=2.2) for millimeter in range(0, int(length) + 1, 10)
    ]
    return [f'<path d="{"".join(ticks)}" fill="none" stroke="#000" stroke-width="0.15"/>', *numbers]


def _words(card: ScaleCard) -> list[str]:
    middle = card.width_mm / 2
    top = card.window_mm[1]
    _, y, length = card.ruler_mm
    return [
        _text(middle, 9.5, "pinfold scale card", size=4.2),
        _text(middle, 14.0, "print at 100 %", size=2.8),
        _text(middle, top - 2.0, "cut out the card and its window", size=1.9),
        _text(middle, y + 9.2, f"measure the ruler: it must be {length:g} mm", size=2.4),
    ]


def _text(x: float, y: float, words: str, *, size: float) -> str:
    return (
        f'<text x="{_number(x)}" y="{_number(y)}" font-size="{_number(size)}" font-family="sans-serif"'
        f' text-anchor="middle" fill="#000">{words}</text>'
    )
