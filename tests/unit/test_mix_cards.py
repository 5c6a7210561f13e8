"""Batch cards by run, layer or mix: what is told beside them, and the address that opens a batch in the log."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from urllib.parse import parse_qs, parse_qsl, unquote, urlsplit

import cv2
import numpy as np
import pytest

from pinfold.actions.binding import binder_of
from pinfold.actions.clock import now_local
from pinfold.actions.log_book import new_id
from pinfold.actions.mix_card import CardsAsked, mix_cards, read_warmth
from pinfold.actions.prefilling import filled_draft
from pinfold.actions.scanning import keep_served, reached
from pinfold.actions.sites import open_site
from pinfold.actions.taking import take_entries
from pinfold.cli import main
from pinfold.errors import InputError, NotFoundError
from pinfold.reports.binder.typeset import pictures
from pinfold.reports.pages import Table
from pinfold.reports.square_code import lines_of, svg_of
from pinfold.store import starting
from pinfold.studies.batching.records import Bound


@pytest.fixture(params=["seed-garden", "quinta"])
def site(request, tmp_path):
    starting.from_sample(tmp_path / "plot", request.param)
    return tmp_path / "plot"


@pytest.fixture
def garden(tmp_path):
    starting.from_sample(tmp_path / "plot", "seed-garden")
    return tmp_path / "plot"


def asked(folder, name="", **more):
    return mix_cards(folder, CardsAsked(name=name, **more)).record


def written(folder, kind, **fields):
    raw = {"id": new_id(), "kind": kind, "at": now_local(), "who": "Ana", "device": "test", "fields": fields}
    (taken,) = take_entries(folder, [raw])
    assert taken.state == "new", taken.complaints


def test_a_card_is_found_by_run_layer_and_mix_in_any_order(garden):
    whole, run, stretch = (asked(garden, name).cards for name in ("mortar", "south/1 mortar", "mortar-S south/1a"))

    assert [card.layer for card in whole] == ["mortar"]
    assert run[0].places == ("south/1a", "south/1b")
    assert stretch[0].places == ("south/1a",)
    assert 0 < stretch[0].gross < run[0].gross < whole[0].gross
    assert asked(garden, "foot gate").cards[0].layer == "collars"


def test_the_cards_of_all_places_add_up_to_the_whole_cards(site):
    whole = asked(site).cards
    for card in whole:
        parts = [asked(site, f"{place} {card.layer} {card.mix.name}").cards[0] for place in card.places]
        assert sum(part.gross for part in parts) == pytest.approx(card.gross)


def test_a_name_of_nothing_is_told_with_what_is_near(garden):
    with pytest.raises(NotFoundError, match="did you mean 'south/1a'"):
        asked(garden, "soth/1a")
    with pytest.raises(NotFoundError, match="nothing is mixed for 'footing grout-fine'"):
        asked(garden, "footing grout-fine")


def test_what_is_mixed_by_the_log_is_counted_by_card_and_by_place(garden):
    assert {each.mixed for each in asked(garden).beside} == {None}  # nothing is written down yet
    written(garden, "batch", mix="mortar-S", layer="mortar", batches="3", place="south/1a")
    written(garden, "batch", mix="mortar-S", batches="2", place="east/1a")
    written(garden, "batch", mix="grout-fine", layer="grout")

    assert asked(garden, "mortar").beside[0].mixed == 5  # the mix has one layer, which need not be named
    assert asked(garden, "mortar south/1a").beside[0].mixed == 3
    assert asked(garden, "mortar east/1a").beside[0].mixed == 2
    assert asked(garden, "grout").beside[0].mixed == 1
    listed = mix_cards(garden, CardsAsked()).page.blocks[1]
    assert dict(zip(listed.heads, zip(*listed.rows, strict=True), strict=True))["mixed"] == (
        "0",
        "0",
        "5",
        "1",
        "0",
        "0",
    )
    text = mix_cards(garden, CardsAsked(name="mortar south/1a")).page
    assert any("By the log 3 of 3 mixed, all of them." in getattr(block, "text", "") for block in text.blocks)


@pytest.mark.parametrize(("word", "warmth"), [("hot", 35.0), ("Cold", 5.0), ("68 °F", 20.0), ("31 °C", 31.0)])
def test_warmth_is_read_from_a_word_or_a_quantity(word, warmth):
    assert read_warmth(word) == pytest.approx(warmth)


@pytest.mark.parametrize("text", ["tepid", "70 °C", "20", "3 m"])
def test_warmth_that_is_none_is_told(text):
    with pytest.raises(InputError) as told:
        read_warmth(text)
    assert told.value.place == "--temperature"


def test_todays_weather_in_the_log_sizes_the_batch_unless_told_otherwise(garden):
    usual = asked(garden, "mortar")
    written(garden, "weather", temperature="38 °C")
    hot, told = asked(garden, "mortar"), asked(garden, "mortar", temperature="20 °C")

    assert hot.mixing.temperature == 38.0
    assert hot.cards[0].charge.makes < usual.cards[0].charge.makes
    assert told.cards[0].charge.makes == usual.cards[0].charge.makes


def test_hours_in_the_log_tell_how_fast_the_mortar_is_used(garden):
    before = asked(garden, "mortar").cards[0].charge
    for _ in range(3):
        written(garden, "hours", time="1 h", people="1", layer="wall", done_area="8 m2")
    after = asked(garden, "mortar").cards[0].charge

    assert after.in_hand.use_rate > 2 * before.in_hand.use_rate
    assert after.governs is Bound.MIXER
    assert after.in_hand.figures[1][1].standing.value == "learned"


def test_the_address_of_a_card_fills_the_form_of_the_log(site):
    for told in mix_cards(site, CardsAsked()).record.beside:
        parts = urlsplit(told.scan)
        query = parts.fragment.partition("?")[2]
        draft, wrong = filled_draft(site, "batch", parse_qsl(query))

        assert (parts.path, parts.fragment[:11]) == ("/phone", "fill/batch?")
        assert wrong == ()
        assert draft.values["batches"] == "1"
        rows = [row for row in draft.rows["amounts"] if row[0]]
        assert rows
        assert all(number and unit for _, number, unit in rows)
        assert len(told.scan) < 1000


def test_what_an_address_brings_is_checked_as_if_typed(garden):
    given = [("mix", "mortar-S"), ("batches", "900"), ("colour", "red"), ("with", "sand:loads"), ("layer", "a\nb")]
    draft, wrong = filled_draft(garden, "batch", given)

    assert {each.place for each in wrong} == {"batches", "colour", "amounts", "layer"}
    assert draft.values["mix"] == "mortar-S"
    assert draft.values["layer"] == ""


def test_cards_point_to_this_machine_until_the_home_network_was_served(garden):
    assert (reached(garden).base, reached(garden).phones) == ("http://127.0.0.1:8017/", False)
    keep_served(garden, "https://192.168.1.20:8017/")

    assert (reached(garden).base, reached(garden).phones) == ("https://192.168.1.20:8017/", True)
    assert asked(garden, "mortar").beside[0].scan.startswith("https://192.168.1.20:8017/phone#fill/batch?")
    (garden / ".served.json").write_text('{"format": 1, "address": "javascript:alert(1)"}', encoding="utf-8")
    assert reached(garden).phones is False


def test_the_code_in_a_terminal_is_read_back(garden):
    address = asked(garden, "mortar").beside[0].scan
    lit = {"\u2588": (1, 1), "\u2580": (1, 0), "\u2584": (0, 1), " ": (0, 0)}
    rows = [row for line in lines_of(address) for row in zip(*(lit[sign] for sign in line), strict=True)]
    picture = np.kron(np.array(rows, dtype=np.uint8) * 255, np.ones((6, 6), dtype=np.uint8))

    assert cv2.QRCodeDetector().detectAndDecode(picture)[0] == address


def decoded(picture):
    """What OpenCV reads of the square codes in a picture, by both of its detectors."""
    texts = cv2.QRCodeDetectorAruco().detectAndDecodeMulti(picture)[1]
    return {*texts, cv2.QRCodeDetector().detectAndDecode(picture)[0]}


def test_every_code_of_the_binder_is_read_back_from_its_picture_and_cards_take_half_a_page(site):
    binder = binder_of(open_site(site), printed_on="2026-05-03")
    mixed = replace(binder, parts=tuple(part for part in binder.parts if part.title == "What to mix"))
    wanted = [each.scan for each in mix_cards(site, CardsAsked()).record.beside]
    sheets = pictures(mixed, ppi=150)
    found = set()
    for sheet in sheets:
        seen = cv2.imdecode(np.frombuffer(sheet, np.uint8), cv2.IMREAD_GRAYSCALE)
        high, wide = seen.shape
        for half in (seen[: high // 2, wide // 2 :], seen[high // 2 :, wide // 2 :], seen[:, wide // 2 :]):
            found |= decoded(half)

    assert set(wanted) <= found
    others = len(pictures(replace(mixed, parts=()), ppi=30))  # the first card stands under the chapter's head
    assert len(sheets) <= others + 1 + math.ceil((len(wanted) - 1) / 2)


def test_the_command_takes_names_of_several_words_and_answers_in_json(garden, capsys):
    assert main(["mix", "card", "south/1a", "mortar", "--site", str(garden), "--temperature", "hot", "--json"]) == 0
    record = json.loads(capsys.readouterr().out)

    (card,) = record["cards"]
    sand = next(part for part in card["charge"]["ingredients"] if part["part"] == "sand")
    assert sand["as_it_lies_kg"] > sand["mass_kg"]
    assert record["mixing"]["temperature_c"] == 35.0
    assert card["charge"]["limits"][0]["bound"] == "the mixer"
    assert main(["mix", "card", "nowhere", "--site", str(garden)]) == 2


def test_no_line_of_a_card_in_a_terminal_is_wider_than_it_but_the_address(site, capsys):
    assert main(["mix", "--site", str(site)]) == 0

    long = [line for line in capsys.readouterr().out.splitlines() if len(line) > 80]
    assert all(line.startswith("http://") for line in long)


def test_no_two_tables_of_all_cards_are_called_alike(garden):
    titles = [block.title for block in mix_cards(garden, CardsAsked()).page.blocks if isinstance(block, Table)]
    named = [title for title in titles if title]

    assert len(named) == len(set(named))


def test_several_cards_begin_with_a_list_whose_rows_open_each_alone_as_it_was_asked(site):
    answer = mix_cards(site, CardsAsked(temperature="hot", batch="40 L"))

    listed = answer.page.blocks[1]
    assert [row[1] for row in listed.rows] == [str(card.batches) for card in answer.record.cards]
    for link, card in zip(listed.links, answer.record.cards, strict=True):
        address, _, query = link.partition("?")
        assert parse_qs(query) == {"temperature": ["hot"], "batch": ["40 L"]}
        (alone,) = asked(site, unquote(address.removeprefix("/mix/card/")), temperature="hot", batch="40 L").cards
        assert (alone.layer, alone.mix.name) == (card.layer, card.mix.name)
    one = mix_cards(site, CardsAsked(name="collars"))
    assert not any(isinstance(block, Table) and block.links for block in one.page.blocks)


def test_sand_comes_in_the_barrow_of_the_plan(garden):
    path = garden / "plan.toml"
    usual = asked(garden).beside[0].for_all.heaps[0].barrows
    path.write_text(path.read_text() + '\n[mixing.measure.barrow]\nvolume = "150 L"\n')
    told = mix_cards(garden, CardsAsked())

    assert told.record.beside[0].for_all.heaps[0].barrows == pytest.approx(usual / 2, abs=1)
    notes = [block.note for block in told.page.blocks if isinstance(block, Table)]
    assert any("A barrow holds 5.3 ft³ (your plan)" in note for note in notes)


def test_a_square_code_that_stands_on_the_page_again_is_not_worked_out_again():
    assert svg_of("http://127.0.0.1:8765/phone") is svg_of("http://127.0.0.1:8765/phone")
    assert svg_of("http://127.0.0.1:8765/phone") != svg_of("http://127.0.0.1:8765/log")
