"""Cut sheets, pictures and labels as a builder reads them: nothing to mix up, nothing cut off, nothing below nothing."""

from __future__ import annotations

import re
from collections import Counter

import pytest

from pinfold.actions.cut_done import Done, cut_done
from pinfold.actions.cut_flat import rolls_of, sheets_of
from pinfold.actions.cut_labels import labels_for
from pinfold.actions.cut_pieces import CutAsked, cut_pieces, parts_by_mark, pieces_of
from pinfold.actions.cut_shown import pieces_shown, sheets_shown
from pinfold.actions.sites import open_site
from pinfold.plan.stock import RawEnds
from pinfold.reports.cut_flat import paper_sheets
from pinfold.reports.cut_labels import label_sheets
from pinfold.reports.cut_picture import pieces_picture
from pinfold.reports.cut_pieces import rows_of
from pinfold.store import planfile, starting
from pinfold.studies.cutting.sawing import Falls
from pinfold.studies.parts.labels import Label
from pinfold.units import System

PILE = (
    "item,count,length,width,flaws,raw_ends,condition,amount,note\n"
    "pipe-2in,3,10 ft,,dent 5 ft 10 in to 6 ft; rust 9 ft 8 in to 10 ft,both,,,reclaimed\n"
    "sawn-2x4,3,12 ft,,nails 3 in to 6 in; knot 6 ft to 6 ft 2 in; split 11 ft to 12 ft,both,,,old deck\n"
)


@pytest.fixture
def yard(tmp_path):
    """The sample with old pieces that have flaws and raw ends, and a gate of sheets that have no price."""
    folder = tmp_path / "seed-garden"
    starting.from_sample(folder, "seed-garden")
    (folder / "pile.csv").write_text(PILE, encoding="utf-8")
    text = (folder / "plan.toml").read_text(encoding="utf-8")
    text = text.replace('kind = "wood-frame-mesh"', 'kind = "sheet-panel"').replace(
        'kind = "steel-frame-mesh"', 'kind = "wood-frame-mesh"', 1
    )
    planfile.write_plan(folder / "plan.toml", text)
    return folder


def pieces(folder):
    return [piece for section in pieces_of(open_site(folder), CutAsked()) for piece in section.pieces]


def test_what_could_be_saved_is_never_less_than_nothing(yard):
    sections = pieces_of(open_site(yard), CutAsked())

    assert any(not section.priced for section in sections)
    assert all(section.bound <= section.money for section in sections)
    assert "save USD -" not in str(cut_pieces(yard, CutAsked()).page)


def test_every_row_of_a_piece_names_it_and_says_where_to_measure_from(yard):
    site = open_site(yard)
    for piece in pieces(yard):
        rows = list(rows_of(piece, parts_by_mark(site), System.US))
        assert {row[0].partition(" x ")[0] for row in rows} == {piece.code}
        assert not [row for row in rows if row[2] in ('0"', "0 mm")]


def test_no_two_ticks_of_a_page_are_the_same(yard):
    for shown in (pieces_shown(yard, CutAsked()), sheets_shown(yard)):
        ticks = re.findall(r'data-tick="([^"]*)"', "".join(section.body for section in shown.sections))
        assert ticks
        assert [tick for tick, many in Counter(ticks).items() if many > 1] == []


def test_pictures_tell_the_tape_at_the_cuts_the_raw_ends_and_the_flaws(yard):
    piece = next(piece for piece in pieces(yard) if piece.raw_ends is RawEnds.BOTH and piece.item == "pipe-2in")
    drawn = pieces_picture([piece], System.US)

    assert drawn.count(">raw end<") == 2
    assert ">dent<" in drawn
    assert ">3/8&quot;<" in drawn  # the mark of the cut that takes the raw end off
    assert ">5&#x27; 8 1/2&quot;<" in drawn


def test_an_offcut_goes_back_with_its_flaws_and_its_raw_end(yard):
    piece = next(
        piece for piece in pieces(yard) if piece.item == "sawn-2x4" and any(s.falls is Falls.KEPT for s in piece.steps)
    )
    kept = next(step for step in piece.steps if step.falls is Falls.KEPT)
    cut_done(yard, Done(count="1"), code=piece.code)
    back = next(row for row in open_site(yard).lessons.pile if row.item == "sawn-2x4" and row.note == "by the log")

    assert back.length == pytest.approx(kept.measure, abs=0.002)
    start = kept.running - kept.measure
    inside = [flaw for flaw in piece.flaws if flaw.end > start]
    assert inside
    assert [flaw.kind for flaw in back.flaws] == [flaw.kind for flaw in inside]
    assert [flaw.end for flaw in back.flaws] == pytest.approx([flaw.end - start for flaw in inside], abs=0.002)
    assert back.raw_ends is RawEnds.RIGHT


def test_all_of_a_sheet_is_on_its_page(yard):
    sheets = [sheet for each in sheets_of(open_site(yard)) for sheet in each.sheets] * 9
    pages = list(paper_sheets(sheets, System.US, wide_mm=170.0, high_mm=215.0))

    assert len(pages) > 1
    codes = Counter()
    for svg, high in pages:
        assert high <= 215.0
        wide, tall = (float(text) for text in re.search(r'viewBox="0 0 (\S+) (\S+)"', svg).groups())
        assert tall <= wide * 215 / 170 + 4
        for x, y in re.findall(r"translate\((\S+) (\S+)\)", svg):
            assert float(x) < wide
            assert float(y) < tall
        codes.update(re.findall(r">(Q\d+)", svg))
    assert set(codes.values()) == {9}


def test_wires_and_strips_alike_are_numbered(yard):
    wires = [label for label in labels_for(open_site(yard), each=True) if label.code == "W8"]

    assert [(label.number, label.many) for label in wires] == [(1, 3), (2, 3), (3, 3)]
    assert (
        sum(piece.mark == "W8" for flat in rolls_of(open_site(yard)) for roll in flat.rolls for piece in roll.pieces)
        == 3
    )


def label(**changes):
    plain = {
        "code": "G10", "number": 1, "many": 2, "says": "gate brace", "length": 1.85, "width": None,
        "ends": "lower and upper 46.7° off square, along the rails; 1 half lap", "where": "cart gate", "up": "crown up",
        "source": "E3086.1", "kept": False,
    }  # fmt: skip
    return Label(**{**plain, **changes})


def test_how_the_ends_are_cut_stands_whole_on_a_label():
    (drawn,) = label_sheets([label()], "letter", System.US)

    words = " ".join(re.findall(r">([^<>]+)</text>", drawn))
    assert "lower and upper 46.7° off square, along the rails; 1 half lap" in words
    assert "…" not in words


@pytest.mark.parametrize("code", ["Z5170", "Z51702b", "E517"])
def test_a_long_code_keeps_clear_of_what_stands_beside_it(code):
    (drawn,) = label_sheets([label(code=code, kept=True)], "letter", System.US)
    size = float(re.search(rf'font-size="([\d.]+)"[^>]*>{code}<', drawn).group(1))

    assert len(code) * size * 0.53 * 1.06 <= 190 / 3 - 39.0 + 1e-6
    assert "out of" not in drawn
