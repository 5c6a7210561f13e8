"""Writes a scene as SVG: real millimeters, own inks, hatches as lines, the same bytes every time.

Each layer is a group of class `layer-NAME`; a page may restyle it (styles.night_rules does for dark grounds). Ids begin
with the scene's name or a given prefix, so that several drawings can share a page.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from xml.sax.saxutils import escape, quoteattr

from pinfold.drawings import svg_shapes as shapes
from pinfold.drawings.captions import SMALL, Caption
from pinfold.drawings.lettering import FAMILY, clean
from pinfold.drawings.linework import ARROW, arrow, letter_of_north
from pinfold.drawings.scales import Scale
from pinfold.drawings.scenes import LAYERS, PaperMm, Point, Scene
from pinfold.drawings.sheets import MARGIN, ROOMS, Sheet, sheet_of
from pinfold.drawings.styles import PAPER, STYLES
from pinfold.units import System

HALO: PaperMm = 0.7
"""Width of the paper-colored line round letters that keeps them readable over line work."""


def to_svg(
    scene: Scene,
    *,
    room: tuple[PaperMm, PaperMm] = ROOMS["a4 wide"],
    system: System = System.METRIC,
    scale: Scale | None = None,
    captioned: bool = True,
) -> str:
    """A scene as an SVG text of its own size on paper: `sheet_of` and `sheet_svg` in one.

    Args:
        scene: what is drawn
        room: width and height it may take; not looked at when a scale is given
        system: whose scales are usual
        scale: use this one, whatever room it takes
        captioned: whether title, scale, north, bar and notes stand under it

    Raises:
        NoSolutionError: the texts alone need more room.
    """
    return sheet_svg(sheet_of(scene, room=room, system=system, scale=scale, captioned=captioned))


def sheet_svg(sheet: Sheet, *, prefix: str = "") -> str:
    """A laid-out sheet as SVG text.

    Args:
        sheet: from `sheet_of`
        prefix: start of every id; the scene's name when empty
    """
    scene, start = sheet.placed.scene, prefix or sheet.placed.scene.name
    about = scene.about or " ".join((f"Scale {sheet.placed.scale.text}.", *scene.notes))
    wide, high = shapes.number(sheet.width), shapes.number(sheet.height)
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" class="drawn" width="{wide}mm" height="{high}mm" '
        f'viewBox="0 0 {wide} {high}" role="img" aria-labelledby={quoteattr(f"{start}-title {start}-about")} '
        f'font-family="\'{FAMILY}\', sans-serif" fill="none" stroke-linejoin="round">',
        f"<title id={quoteattr(f'{start}-title')}>{escape(clean(scene.title))}</title>",
        f"<desc id={quoteattr(f'{start}-about')}>{escape(clean(about))}</desc>",
    ]
    lines, words = _elements(sheet)
    parts += [part for layer in LAYERS if lines[layer] for part in _lines(start, layer, lines[layer])]
    parts += [part for layer in LAYERS if words[layer] for part in _words(start, layer, words[layer])]
    return "\n".join([*parts, "</svg>", ""])


def _elements(sheet: Sheet) -> tuple[defaultdict[str, list[str]], defaultdict[str, list[str]]]:
    """Lines and words by layer."""
    lines: defaultdict[str, list[str]] = defaultdict(list)
    words: defaultdict[str, list[str]] = defaultdict(list)
    for shape in sheet.placed.scene.shapes:
        lines[shape.layer] += shapes.lines(sheet, shape)
        words[shape.layer] += shapes.words(sheet, shape)
    for one in sheet.placed.dimensions:
        lines[one.drawn.dimension.layer] += shapes.dimension_lines(sheet, one)
    for text in sheet.placed.texts:
        lines[text.layer] += shapes.leader(sheet, text)
        words[text.layer] += shapes.text_lines(sheet, text)
    if sheet.caption is not None:
        _add_caption(sheet, sheet.caption, lines["note"], words["note"])
    return lines, words


def _add_caption(sheet: Sheet, caption: Caption, lines: list[str], words: list[str]) -> None:
    top = sheet.height - MARGIN - caption.height
    words += [shapes.word(row.text, (MARGIN, top + row.drop), row.size, bold=row.bold) for row in caption.rows]
    if caption.bar is not None:
        foot = (MARGIN + 1.0, top + caption.bar_drop)
        lines += shapes.bar_lines(caption.bar, foot, ink=STYLES["note"].color)
        words += shapes.bar_words(caption.bar, foot)
    if caption.north is not None:
        middle = (sheet.width - MARGIN - ARROW / 2 - 1.0, top + ARROW / 2 + 2.0)
        drawn = "".join(shapes.path(_down(middle, part)) for part in arrow((0.0, 0.0), caption.north))
        lines.append(f'<path d="{drawn}"/>')
        (letter,) = _down(middle, (letter_of_north((0.0, 0.0), caption.north),))
        words.append(shapes.word("N", letter, SMALL, middle=True))


def _down(middle: Point, points: tuple[Point, ...]) -> tuple[Point, ...]:
    """Points counted upward from a middle, as points of the paper."""
    return tuple((middle[0] + x, middle[1] - y) for x, y in points)


def _lines(start: str, layer: str, inside: list[str]) -> Iterator[str]:
    style = STYLES[layer]
    dashes = f' stroke-dasharray="{shapes.spaced(style.dashes)}"' if style.dashes else ""
    yield (
        f'<g id={quoteattr(f"{start}-{layer}")} class="layer-{layer}" stroke="{style.color}" '
        f'stroke-width="{shapes.number(style.weight)}"{dashes}>'
    )
    yield from inside
    yield "</g>"


def _words(start: str, layer: str, inside: list[str]) -> Iterator[str]:
    yield (
        f'<g id={quoteattr(f"{start}-{layer}-words")} class="layer-{layer} words inked" fill="{STYLES[layer].color}" '
        f'stroke="{PAPER[0]}" stroke-width="{shapes.number(HALO)}" paint-order="stroke">'
    )
    yield from inside
    yield "</g>"
