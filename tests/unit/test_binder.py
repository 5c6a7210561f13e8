from __future__ import annotations

import dataclasses
import io
import re

import pypdf
import pytest
from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

from pinfold.figures import Figure, given
from pinfold.findings import Finding, work
from pinfold.formulas import bearing, braces, foam, walls
from pinfold.reports.binder.content import content_of
from pinfold.reports.binder.papers import page_for
from pinfold.reports.binder.records import Binder, BinderPart, Card, Checklist, Sheet, cards_of, ticked
from pinfold.reports.binder.sources import STANDINGS, Use, sources_of, sources_part
from pinfold.reports.binder.table_data import ROOM, widths_of
from pinfold.reports.binder.typeset import FONTS, pictures, typeset
from pinfold.reports.binder.wording import BREAK, equation_pieces, worded
from pinfold.reports.pages import Caution, Findings, Heading, Paragraph, table
from pinfold.sources import Standing, publication
from pinfold.units import METER, NEWTON, PASCAL, System

HOSTILE = '#read("/etc/passwd") *b* $x$ <script> `c` _i_ @ref \\ [x] // -- ~ "q" <lab> = h'
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="{0}mm" height="{1}mm" viewBox="0 0 {0} {1}">'
    '<rect x="1" y="1" width="{0}" height="{1}" fill="none" stroke="#1f2326"/>'
    '<text x="10" y="10" font-size="5" font-family="\'Atkinson Hyperlegible Next\', sans-serif">φ 12 ≥ 3′</text></svg>'
)
WORKING = (
    work(bearing.eccentricity, moment=500.0, load=5000.0, why="under the toe"),
    work(walls.layer_weight, density=2000.0, thickness=0.2, height=1.0),
    work(braces.corner_brace, pull=4000.0, pull_height=0.6, rail_height=0.9, rail_length=2.4),
    work(
        foam.foamed_mix, cast=800.0, foam=40.0, water_cement=0.5, sand_cement=0.0, water_density=1000.0,
        cement_density=3150.0, sand_density=2650.0,
    ),
)  # fmt: skip
REMEMBERED = Figure(value=1.0, unit=PASCAL, standing=Standing.MEMORY, source="IBC-1806")


def finding(number: int = 0, **changes: object) -> Finding:
    demand, capacity = ((900.0, 1500.0), (1700.0, 1400.0), (None, 1200.0), (3.0, 0.0))[number % 4]
    usual: dict[str, object] = {
        "check": "overturning", "subject": f"stretch south/{number}", "demand": demand, "capacity": capacity,
        "unit": NEWTON, "because": "no strength of ground is given", "working": WORKING,
        "figures": (("bearing", REMEMBERED), ("height", given(1.2, METER, "1.2 m"))), "mend": "set a pier",
        "left_out": "ground water", "caution": "a falling wall kills",
    }  # fmt: skip
    return Finding(**(usual | changes))  # type: ignore[arg-type]


def sheet(width: float, height: float, title: str = "Plan") -> Sheet:
    return Sheet(title=title, svg=SVG.format(width, height), width_mm=width, height_mm=height, scale="1:50")


def binder(*parts: BinderPart, **changes: object) -> Binder:
    usual: dict[str, object] = {
        "title": "Seed garden", "says": "High plain", "printed_on": "2026-05-03", "paper": "a4",
        "system": System.METRIC, "summary": "Something does not hold: of 3 findings 1 FAIL.",
        "open_points": ("frost depth is not given",), "failing": ("sliding, stretch south/1",), "parts": parts,
    }  # fmt: skip
    return Binder(**(usual | changes))  # type: ignore[arg-type]


def full(**changes: object) -> Binder:
    findings = tuple(finding(number) for number in range(9))
    rows = table(
        ("mark", "piece", "length"), [(f"R{n}", "rail", f"{n} m") for n in range(70)], right=(2,), note="note 7"
    )
    batch = table(("part", "a batch"), [("cement", "1 bag")], right=(1,), title="Charge")
    card = Card(title="Mortar 1:1:6", says="wall", blocks=(batch, Caution(text="gloves")))
    return binder(
        BinderPart(title="Drawings", intro="To scale.", sheets=(sheet(265, 170), sheet(180, 250, "Side"))),
        BinderPart(
            title="Will it stand",
            blocks=(Findings(findings=findings, working=True),),
            cautions=("Advice only.",),
        ),
        BinderPart(title="Batch cards", blocks=(card,)),
        BinderPart(title="Part list", blocks=(Checklist(table=rows, sums=1), Heading(text="More"))),
        sources_part(findings),
        **changes,
    )  # fmt: skip


def read(pdf: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(pdf))


def words(pdf: bytes) -> str:
    """All text, spaces and breaking places apart."""
    text = "\n".join(page.extract_text() for page in read(pdf).pages)
    return re.sub(r"\s+", " ", text.replace(BREAK, ""))


def packed(text: str) -> str:
    return re.sub(r"\s+", "", text)


@pytest.fixture(scope="module")
def whole() -> bytes:
    return typeset(full())


def test_every_part_and_subject_stands_in_the_pdf(whole: bytes) -> None:
    text = words(whole)

    for title in ("Drawings", "Will it stand", "Batch cards", "Part list", "Sources", "Mortar 1:1:6"):
        assert text.count(title) >= 2  # in the contents and at its place
    for number in range(9):
        assert f"stretch south/{number}" in text
    for word in ("FAILS", "NOT SHOWN", "HOLDS", "set a pier", "ground water", "a falling wall kills", "under the toe"):
        assert word in text


def test_cover_tells_what_fails_and_what_is_open(whole: bytes) -> None:
    cover = re.sub(r"\s+", " ", read(whole).pages[0].extract_text())

    for word in (
        "Seed garden",
        "High plain",
        "2026-05-03",
        "Does not hold (1)",
        "Sliding, stretch south/1",
        "Still open (1)",
        "Frost depth is not given",
        "licensed engineer",
    ):
        assert word in cover


def test_every_page_after_the_cover_is_counted(whole: bytes) -> None:
    pages = read(whole).pages

    for number, page in enumerate(pages[1:], start=2):
        assert f"page {number} of {len(pages)}" in page.extract_text()


def test_a_long_table_repeats_its_heads(whole: bytes) -> None:
    listed = [page.extract_text() for page in read(whole).pages if re.search(r"R\d+ ", page.extract_text())]

    assert len(listed) > 1
    assert all("piece" in text and "mark" in text for text in listed)


def test_every_row_but_the_sums_has_a_box(whole: bytes) -> None:
    assert words(whole).count("☐") == 69


@pytest.mark.parametrize(("paper", "size"), [("a4", (595.28, 841.89)), ("letter", (612.0, 792.0))])
def test_pages_are_of_the_paper_and_wide_drawings_lie_on_their_side(paper: str, size: tuple[float, float]) -> None:
    wide = (265.0, 170.0) if paper == "a4" else (250.0, 170.0)
    pdf = read(typeset(binder(BinderPart(title="Drawings", sheets=(sheet(*wide), sheet(150, 200))), paper=paper)))
    sizes = [(float(page.mediabox.width), float(page.mediabox.height)) for page in pdf.pages]

    assert sizes[0] == pytest.approx(size, abs=0.02)
    assert sizes[-2] == pytest.approx(size[::-1], abs=0.02)
    assert sizes[-1] == pytest.approx(size, abs=0.02)


def test_a_drawing_keeps_its_true_size() -> None:
    page = read(typeset(binder(BinderPart(title="Drawings", sheets=(sheet(200, 100),))))).pages[-1]
    points: list[tuple[float, float]] = []

    def note(operator: bytes, operands: list[object], matrix: list[float], _: list[float]) -> None:
        if operator in {b"m", b"l"} and matrix[0] > 1:
            x, y = (float(str(number)) for number in operands)
            points.append((matrix[0] * x + matrix[4], matrix[3] * y + matrix[5]))

    page.extract_text(visitor_operand_before=note)
    across = max(x for x, _ in points) - min(x for x, _ in points)

    assert across / 72 * 25.4 == pytest.approx(200, abs=0.1)


@pytest.mark.parametrize(
    ("paper", "size", "name"),
    [
        ("a4", (265, 170), "A4"),
        ("a4", (180, 255), "A4"),
        ("a4", (390, 265), "A3"),
        ("letter", (250, 170), "Letter"),
        ("letter", (185, 235), "Letter"),
        ("letter", (400, 240), "Tabloid"),
        ("a4", (900, 300), "larger paper"),
    ],
)
def test_a_drawing_gets_the_smallest_paper_that_takes_it(paper: str, size: tuple[float, float], name: str) -> None:
    page = page_for(paper, *size)  # type: ignore[arg-type]

    assert page["name"] == name
    assert float(str(page["width"])) >= size[0] + 20
    assert float(str(page["height"])) >= size[1] + 30


def test_the_pdf_is_tagged_and_titled(whole: bytes) -> None:
    pdf = read(whole)

    assert pdf.metadata is not None
    assert pdf.metadata.title == "Seed garden"
    assert str(pdf.metadata.creation_date)[:10] == "2026-05-03"
    assert pdf.root_object["/MarkInfo"]["/Marked"]  # type: ignore[index]
    assert str(pdf.root_object["/Lang"]) == "en"
    chapters = [str(entry["/Title"]) for entry in pdf.outline if not isinstance(entry, list)]
    assert chapters[-1].endswith("Sources")


def test_the_pdf_keeps_the_rules_for_readers_who_cannot_see() -> None:
    assert typeset(full(), accessible=True).startswith(b"%PDF")


def test_the_same_binder_gives_the_same_bytes(whole: bytes) -> None:
    assert typeset(full()) == whole


def test_a_day_in_words_is_printed_as_it_is_and_gives_the_same_bytes() -> None:
    one = full(printed_on="the first of May")

    assert typeset(one) == typeset(one)
    assert "the first of May" in words(typeset(one))


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_hostile_texts_print_as_they_are(paper: str) -> None:
    hostile = HOSTILE + " " + "long" * 40
    places: tuple[str, ...] = ("check", "subject", "because", "mend", "left_out", "caution")
    blocks = (
        Paragraph(text=hostile), Heading(text=hostile), Caution(text=hostile),
        table((hostile, "b"), [(hostile, hostile)], title=hostile, note=hostile),
        Checklist(table=table((hostile,), [(hostile,)])),
        Card(title=hostile, says=hostile, blocks=(Paragraph(text=hostile),)),
        Findings(findings=(finding(0, **dict.fromkeys(places, hostile)),), working=True),
    )  # fmt: skip
    part = BinderPart(
        title=hostile,
        intro=hostile,
        cautions=(hostile,),
        blocks=blocks,
        sheets=(dataclasses.replace(sheet(100, 50), title=hostile, scale=hostile),),
    )
    said = dict.fromkeys(("title", "says", "summary"), hostile)
    pdf = typeset(binder(part, failing=(hostile,), open_points=(hostile,), paper=paper, **said))
    found = packed(words(pdf))

    assert found.count(packed(hostile)) >= 20
    assert "root:" not in found
    for page in read(pdf).pages:
        assert _rightmost(page) <= float(page.mediabox.width)


def _rightmost(page: pypdf.PageObject) -> float:
    """Where the line of text that begins furthest right begins."""
    places = [0.0]
    page.extract_text(
        visitor_text=lambda text, _c, matrix, _f, _s: places.append(float(matrix[4])) if text.strip() else None
    )
    return max(places)


def test_control_letters_and_broken_letters_never_reach_the_paper() -> None:
    text = words(
        typeset(binder(BinderPart(title="a\x00b\x1b[31mc\ud800d\u202ee", blocks=(Paragraph(text="f\u2028g\x07"),))))
    )

    assert "a b [31mc\ufffdde" in text
    assert "f g" in text


def test_letters_that_no_font_has_do_not_stop_the_binder() -> None:
    assert typeset(binder(BinderPart(title="菜園 🌱", blocks=(Paragraph(text="x"),)))).startswith(b"%PDF")


def test_empty_parts_are_left_out() -> None:
    empty = BinderPart(
        title="Nothing here", intro="An intro.", blocks=(table(("a",), ()), Findings(findings=()), Paragraph(text=" "))
    )
    parts = content_of(binder(empty, BinderPart(title="Only a caution", cautions=("mind",))))["parts"]

    assert [part["title"] for part in parts] == ["Only a caution"]  # type: ignore[attr-defined]
    assert "Nothing here" not in words(typeset(binder(empty)))


def test_a_binder_without_parts_is_a_cover_and_contents() -> None:
    assert len(read(typeset(binder(failing=(), open_points=(), summary="", says="", printed_on=""))).pages) == 2


def test_what_has_no_room_on_the_cover_is_listed_in_full_behind_it() -> None:
    points = tuple(f"Point {number} is not given in the plan, nor in the survey of the ground" for number in range(60))
    pdf = typeset(binder(open_points=points))
    text = words(pdf)

    assert "Before you build" in text
    assert all(point in text for point in points)
    assert re.search(r"and \d+ more: page 3", re.sub(r"\s+", " ", read(pdf).pages[0].extract_text()))


def test_two_hundred_findings_with_working_are_printed_to_the_last() -> None:
    many = Findings(findings=tuple(finding(number) for number in range(200)), working=True)
    pdf = typeset(binder(BinderPart(title="Will it stand", blocks=(many,))))

    assert "stretch south/96" in read(pdf).pages[-1].extract_text()


def test_a_verdict_is_told_by_word_and_by_form_not_by_color() -> None:
    assert pictures(binder(), ppi=30)[1].startswith(b"\x89PNG")
    template = (FONTS.parent / "binder" / "binder.typ").read_text(encoding="utf-8")
    inks = set(re.findall(r'rgb\("#(\w{6})"\)', template))
    spreads = {ink: max(bytes.fromhex(ink)) - min(bytes.fromhex(ink)) for ink in inks}

    assert max(spreads.values()) < 80  # nothing but grays and one earth, so that gray print loses nothing
    assert "dash: (2pt, 1.4pt)" in template and "fill: if fails" in template  # noqa: PT018


def test_a_missing_font_is_an_error_not_a_surprise(monkeypatch: pytest.MonkeyPatch) -> None:
    import typst

    from pinfold.reports.binder import typeset as module

    none = typst.Fonts(include_system_fonts=False, include_embedded_fonts=True, font_paths=[])
    monkeypatch.setattr(module, "_fonts", lambda: none)
    with pytest.raises(RuntimeError, match="font"):
        typeset(binder())


def test_the_fonts_have_every_letter_that_pinfold_prints() -> None:
    have: set[int] = set()
    for file in FONTS.glob("*.ttf"):
        have |= set(TTFont(file).getBestCmap())
    printed: set[str] = set()
    for file in FONTS.parents[1].rglob("*"):
        if file.suffix in {".py", ".toml", ".typ"}:
            printed |= set(file.read_text(encoding="utf-8"))

    assert {letter for letter in printed if letter.isprintable() and ord(letter) not in have} == set()
    assert all(ord(letter) in have for letter in "²³±Ø≥≤×−½″′☐φγρμε√·–→")


def test_sources_name_every_publication_once_with_its_standings() -> None:
    listed = sources_of(
        [finding(0), finding(1, check="sliding")], [Use(what="mixes", figures=(("price", given(1.0, METER)),))]
    )
    rows = {row[0]: row for row in listed.rows}

    assert len(rows) == len(listed.rows)
    assert list(rows) == sorted(rows)
    assert rows["IBC-1806"][2:] == ("from memory", "overturning, sliding")
    assert rows["STATICS"][2:] == ("derived", "overturning, sliding")
    assert rows["GIVEN"] == ("GIVEN", publication("GIVEN").title, "given", "mixes, overturning, sliding")


def test_no_findings_have_no_sources() -> None:
    assert sources_of([]).rows == ()
    assert sources_part([]).blocks == ()


def test_every_standing_is_explained() -> None:
    assert set(STANDINGS) == set(Standing)


def test_a_finding_that_is_not_shown_has_no_share_and_says_what_is_not_known() -> None:
    text = words(typeset(binder(BinderPart(title="x", blocks=(Findings(findings=(finding(2),)),)))))

    assert "Acts not known; resists 1 200 N" in text
    assert "%" not in text


@pytest.mark.parametrize(
    ("equation", "pieces"),
    [
        ("V = V_w / 3", [["on", "V = V"], ["low", "w"], ["on", " / 3"]]),
        ("a = Re^−0.75", [["on", "a = Re"], ["high", "−0.75"]]),
        ("e^(x + y)", [["on", "e"], ["high", "x + y"]]),
        ("0.2 B", [["on", "0.2 B"]]),
        ("", []),
    ],
)
def test_low_and_high_parts_of_an_equation_are_found(equation: str, pieces: list[list[str]]) -> None:
    assert equation_pieces(equation) == pieces


def test_overlong_words_may_break_and_others_may_not() -> None:
    assert worded("short words only") == "short words only"
    assert worded("a" * 60).replace(BREAK, "") == "a" * 60
    assert BREAK in worded("a" * 60)


def test_narrow_tables_are_as_wide_as_their_texts_and_wide_ones_leave_the_rest_to_the_wide_column() -> None:
    rows = table(("a", "b"), [("x" * 5, "y" * 10)])
    usual = widths_of(table(("a", "b"), [("x" * 40, "y" * 20)], wide=0))
    crowded = widths_of(table(("a", "b", "c"), [("x " * ROOM, "y", "z " * ROOM)], wide=0))

    assert widths_of(rows) == [0.0, 0.0]
    assert widths_of(rows, boxed=True) == [1.0, 0.0]  # alike checklists stay alike
    assert usual == [1.0, 0.0]
    assert crowded[0] == crowded[2] > crowded[1] == 0


def test_pages_of_blocks_become_cards_and_checklists() -> None:
    rows = table(("a",), [("1",)])
    cards = cards_of((Paragraph(text="before"), Heading(text="one"), rows, Heading(text="two")))

    assert cards == (Paragraph(text="before"), Card(title="one", blocks=(rows,)), Card(title="two"))
    assert ticked((rows, Heading(text="h"))) == (Checklist(table=rows), Heading(text="h"))


def test_a_card_that_needs_more_than_a_page_goes_on_over_the_next() -> None:
    long = Card(title="Long card", blocks=tuple(Paragraph(text=f"line number {number}") for number in range(90)))
    text = words(typeset(binder(BinderPart(title="Batch cards", blocks=(long,)))))

    assert all(f"line number {number}" in text for number in range(90))


def test_cautions_that_follow_each_other_share_a_box() -> None:
    blocks = (Caution(text="one"), Caution(text="two"), Paragraph(text="between"), Caution(text="three"))
    (part,) = content_of(binder(BinderPart(title="p", blocks=blocks)))["parts"]  # type: ignore[misc]

    assert [block.get("texts", block.get("text")) for block in part["blocks"]] == [  # type: ignore[index]
        ["one", "two"], "between", ["three"],
    ]  # fmt: skip


def test_headings_titles_and_points_begin_with_a_capital() -> None:
    card = Card(title="coat: finish", blocks=(Paragraph(text="x"),))
    part = BinderPart(title="p", blocks=(Heading(text="steel"), card, Findings(findings=(finding(),))))
    text = words(typeset(binder(part, says="a high plain")))

    for word in ("Steel", "Coat: finish", "Overturning", "A high plain", "Frost depth is not given"):
        assert word in text


def test_a_figure_and_its_unit_stay_on_one_line() -> None:
    assert (
        worded("115 mi in all, 3 yd³ of sand, 2 by 4 in size")
        == "115\u00a0mi in all, 3\u00a0yd³ of sand, 2 by 4\u00a0in size"
    )
    assert worded("4 more, 5 minutes") == "4 more, 5 minutes"
