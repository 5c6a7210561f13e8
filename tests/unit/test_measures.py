"""Measures as they are on site: in the plan, on the card, in the log, and what a weighing moves."""

from __future__ import annotations

import itertools
import json
from dataclasses import replace
from importlib.resources import files

import pytest

from pinfold.actions.answers import told
from pinfold.actions.log_book import log_entry, show_entry
from pinfold.actions.mix_card import CardsAsked, mix_cards
from pinfold.actions.mix_measures import form_address, measures_of, reading_form, try_reading
from pinfold.actions.sites import entries_now, start_site
from pinfold.errors import InputError, InvalidPlan, NotFoundError
from pinfold.logbook.entries import Entry, entry_of
from pinfold.logbook.seen import seen
from pinfold.plan.place import Mixing
from pinfold.sources import Standing
from pinfold.store.pile import pile_of
from pinfold.store.planfile import plan_of
from pinfold.store.prices import prices_of
from pinfold.studies.batching.charge import charge_of
from pinfold.studies.batching.counting import counted
from pinfold.studies.lessons.learned import learned
from pinfold.studies.lessons.records import Lessons
from pinfold.studies.lessons.site_measures import measure_rows
from pinfold.tables.shelf import kind

SHELF = files("pinfold.store").joinpath("samples", "quinta")
TEXT = SHELF.joinpath("plan.toml").read_text(encoding="utf-8")
PLAN = plan_of(TEXT)
PRICES = prices_of(SHELF.joinpath("prices.toml").read_text(encoding="utf-8"))
PILE = pile_of(SHELF.joinpath("pile.csv").read_text(encoding="utf-8"))
NUMBERS = itertools.count(1)
SAND = kind("materials", "sand")
DENSITY = SAND.value("bulk_density")


def raw(of: str, **fields: str) -> dict[str, object]:
    number = next(NUMBERS)
    return {"id": f"entry-{number:06d}", "kind": of, "at": "2026-05-03T10:00+02:00", "who": "me", "device": "desk",
            "fields": fields}  # fmt: skip


def entry(of: str, **fields: str) -> Entry:
    made = entry_of(raw(of, **fields))
    return replace(made, seq=int(made.id[-6:]))


def taught(*entries: Entry, plan=PLAN) -> Lessons:
    return learned(plan, PRICES, PILE, entries)


def one(lessons: Lessons, subject: str):
    return next(lesson for lesson in lessons.lessons if lesson.subject == subject)


def planned(extra: str):
    """The sample with more under `mixing`."""
    return plan_of(TEXT.replace('lime_bag = "20 kg"', f'lime_bag = "20 kg"\n{extra}'))


def complaints(of: str, **fields: str) -> dict[str, str]:
    with pytest.raises(InvalidPlan) as refused:
        entry_of(raw(of, **fields))
    return {problem.place: problem.message for problem in refused.value.problems}


# ---- the plan


def test_a_plan_names_its_measures_and_how_full_they_are():
    mixing = planned(
        'sand_by = "barrow"\n[mixing.measure.barrow]\nvolume = "60 L"\nfilled = "120 %"\n'
        '[mixing.measure.pail]\nheight = "35 cm"\nbottom = "24 cm"\ntop = "44 cm"\n'
        '[mixing.measure.bucket]\nheight = "28 cm"\nbelow = "28 mm"'
    ).mixing

    assert mixing.measure("barrow").holds == pytest.approx(0.072)
    assert mixing.measure("pail").holds == pytest.approx(0.0327, abs=5e-5)
    assert mixing.bucket == pytest.approx(0.9 * 0.012)
    assert mixing.measure("bucket").holds == mixing.bucket
    assert mixing.sand_by == "barrow"


def test_what_a_plan_does_not_say_stands_as_usual():
    usual = plan_of(TEXT.replace('bucket = "12 L"\n', "")).mixing

    assert "bucket" in usual.usual
    assert usual.measure("bucket").standing is Standing.PRACTICE
    assert PLAN.mixing.measure("bucket").standing is Standing.GIVEN
    assert PLAN.mixing.measure("shovel").standing is Standing.PRACTICE


@pytest.mark.parametrize(
    ("extra", "place"),
    [
        ('[mixing.measure.bucket]\nvolume = "14 L"', "mixing.measure.bucket.volume"),
        ('[mixing.measure.spoon]\nvolume = "14 mL"', "mixing.measure.spoon"),
        ('[mixing.measure.barrow]\nfilled = "110 %"', "mixing.measure.barrow.volume"),
        ('[mixing.measure.barrow]\nvolume = "900 L"', "mixing.measure.barrow.volume"),
        ('[mixing.measure.pail]\nvolume = "19 L"\nbelow = "2 in"', "mixing.measure.pail.height"),
        ('[mixing.measure.pail]\nvolume = "19 L"\nheight = "30 cm"\nbelow = "40 cm"', "mixing.measure.pail.below"),
        ('[mixing.measure.pail]\nvolume = "19 L"\nheight = "30 cm"\nbelow = "2 cm"\nfilled = "90 %"',
         "mixing.measure.pail.below"),
        ('sand_by = "spoon"', "mixing.sand_by"),
    ],
)  # fmt: skip
def test_a_measure_that_cannot_be_is_told(extra, place):
    with pytest.raises(InvalidPlan) as refused:
        planned(extra)

    assert place in [problem.place for problem in refused.value.problems]


# ---- the card


def test_sand_is_counted_by_the_measure_that_the_plan_says():
    mixing = planned('sand_by = "shovel"').mixing
    plain = charge_of(kind("mixes", "mortar-S"), PLAN.mixing).part("sand")
    shoveled = charge_of(kind("mixes", "mortar-S"), mixing).part("sand")

    assert plain.counted_in is None
    found = counted(shoveled.loose, shoveled.counted_in)
    assert found.exact == pytest.approx(shoveled.loose / 0.005)
    assert found.number == round(2 * found.exact) / 2
    assert shoveled.loose == plain.loose


@pytest.mark.parametrize(("name", "loose", "number"), [("barrow", 0.094, 1.25), ("shovel", 0.0363, 7.5)])
def test_a_count_is_as_fine_as_the_measure_can_be_filled(name, loose, number):
    assert counted(loose, PLAN.mixing.measure(name)).number == number


def test_the_card_says_shovels_and_what_one_is_taken_to_hold(tmp_path):
    start_site(tmp_path / "plot", "quinta", {})
    text = told(mix_cards(tmp_path / "plot", CardsAsked(name="mortar", sand_by="shovel")), as_json=False)

    assert " shovels" in text
    assert "as usual and not as yours" in text
    with pytest.raises(InputError, match="shovel"):
        mix_cards(tmp_path / "plot", CardsAsked(sand_by="spoon"))


# ---- what was seen


def test_what_was_seen_and_what_was_written_down_teach_the_same():
    seen_ones = taught(entry("moisture", item="sand", wet="612 g", dry="582 g", pan="82 g", moist_height="150 mm",
                             flooded_height="120 mm"))  # fmt: skip
    written = taught(entry("moisture", item="sand", moisture="6 %", bulking="25 %"))

    for subject in ("sand, water in it", "sand, swollen by"):
        assert one(seen_ones, subject).value == pytest.approx(one(written, subject).value)
        assert one(seen_ones, subject).spread == pytest.approx(one(written, subject).spread)


def test_a_jar_alone_teaches_the_swelling():
    lessons = taught(entry("moisture", item="sand", moist_height="150 mm", flooded_height="120 mm"))

    assert one(lessons, "sand, swollen by").value == pytest.approx(0.25, abs=0.01)
    assert [lesson.subject for lesson in lessons.lessons] == ["sand, swollen by"]


def test_pails_and_pan_give_the_swelling_and_pails_and_jar_the_water():
    by_pan = seen("moisture", entry("moisture", item="sand", moisture="5 %", moist_pail="15.12 kg",
                                    dry_pail="18 kg").values)  # fmt: skip
    by_jar = seen("moisture", entry("moisture", item="sand", moist_height="150 mm", flooded_height="120 mm",
                                    moist_pail="15.12 kg", dry_pail="18 kg").values)  # fmt: skip

    assert by_pan.figures["bulking"] == pytest.approx(0.25)
    assert by_jar.figures["moisture"] == pytest.approx(0.05)


def test_a_can_of_water_gives_the_water_without_a_stove():
    grains = SAND.value("particle_density")
    full = 3.0 + 1.0 * (1 - 1000 / grains)
    found = seen("moisture", entry("moisture", item="sand", sample="1.06 kg", can_with_sand=f"{full:.6f} kg",
                                   can_of_water="3 kg").values)  # fmt: skip

    assert found.figures["moisture"] == pytest.approx(0.06, abs=1e-4)


def test_much_silt_is_told():
    fine = taught(entry("moisture", item="sand", flooded_height="120 mm", silt_height="3 mm"))
    foul = taught(entry("moisture", item="sand", flooded_height="120 mm", silt_height="15 mm"))

    assert "Wash the sand" not in one(fine, "sand, silt in it").told
    assert "Wash the sand" in one(foul, "sand, silt in it").told


@pytest.mark.parametrize(
    ("of", "fields", "place", "says"),
    [
        ("moisture", {"wet": "470 g", "dry": "500 g"}, "dry", "swapped"),
        ("moisture", {"wet": "470 g"}, "wet", "says nothing alone; dry"),
        ("moisture", {}, "moisture", "nothing was read yet"),
        ("moisture", {"moisture": "-3 %"}, "moisture", "cannot be"),
        ("moisture", {"wet": "900 g", "dry": "500 g"}, "moisture", "cannot be"),
        ("moisture", {"moist_height": "12 cm", "flooded_height": "15 cm"}, "flooded_height", "stands lower"),
        ("moisture", {"silt_height": "20 cm", "flooded_height": "15 cm"}, "silt_height", "swapped"),
        ("moisture", {"moist_pail": "15 kg", "dry_pail": "18 kg"}, "moist_pail", "two pails alone"),
        ("moisture", {"moisture": "3 %", "wet": "500 g", "dry": "470 g"}, "moisture", "cannot both be"),
        ("bucket", {"measure": "bucket", "mass": "18 kg", "volume": "900 L"}, "volume", "cannot be"),
        ("bucket", {"measure": "bucket", "gross": "1 kg", "empty": "2 kg"}, "gross", "swapped"),
        ("bucket", {"measure": "bucket", "mass": "5 kg", "filled": "90 %", "below": "2 cm"}, "below", "not both"),
        ("bucket", {"measure": "bucket", "mass": "5 kg", "gross": "9 kg", "empty": "1 kg"}, "mass", "take one"),
        ("bucket", {"measure": "bucket"}, "mass", "gross with empty"),
    ],
)
def test_what_cannot_have_been_seen_is_told_and_not_written(of, fields, place, says):
    assert says in complaints(of, item="sand", **fields)[place]


def test_a_scale_without_a_known_weight_says_nothing():
    assert "known; water" in complaints("scale", shown="26 kg")["known"]
    assert "not both" in complaints("scale", shown="26 kg", known="25 kg", water="25 L")["water"]


# ---- what measures hold


def test_water_in_a_shovelless_measure_teaches_what_it_holds():
    lessons = taught(entry("bucket", item="water", measure="pail", mass="18.9 kg"))

    assert one(lessons, "pail").value == pytest.approx(0.0189, rel=0.01)
    assert lessons.mixing.measure("pail").standing is Standing.LEARNED
    assert lessons.figures == ()  # nobody learns how dense water is


def test_a_weighed_shovel_teaches_what_it_carries_by_the_density_of_the_sand():
    mass = 0.0065 * DENSITY * 1.05
    lessons = taught(*(entry("bucket", item="sand", measure="shovel", mass=f"{mass:.4f} kg") for _ in range(3)))
    shovel = one(lessons, "shovel")

    assert shovel.value == pytest.approx(0.0065, rel=0.03)
    assert shovel.prior.value == pytest.approx(0.005)
    assert shovel.spread > 0.1 * shovel.value  # no surer than the density it rests on


def test_a_density_learned_makes_the_shovel_surer():
    mass = 0.0065 * DENSITY * 1.05
    shovel = [entry("bucket", item="sand", measure="shovel", mass=f"{mass:.4f} kg") for _ in range(3)]
    buckets = [entry("bucket", item="sand", measure="bucket", mass=f"{0.012 * DENSITY * 1.05:.4f} kg")
               for _ in range(3)]  # fmt: skip

    assert one(taught(*shovel, *buckets), "shovel").spread < one(taught(*shovel), "shovel").spread


@pytest.mark.parametrize("many", range(1, 6))
def test_weighing_more_never_widens_what_a_measure_is_believed_to_hold(many):
    water = [entry("bucket", item="water", measure="pail", mass="18.9 kg") for _ in range(many + 1)]

    assert one(taught(*water), "pail").spread < one(taught(*water[:-1]), "pail").spread


def test_what_the_plan_says_of_a_measure_stays_and_the_log_is_told_beside_it():
    lessons = taught(entry("bucket", item="water", measure="bucket", mass="11 kg"))

    assert lessons.mixing.bucket == PLAN.mixing.bucket
    assert "that is used" in one(lessons, "bucket").told


def test_a_bucket_that_the_plan_leaves_open_is_learned():
    plan = plan_of(TEXT.replace('bucket = "12 L"\n', ""))
    lessons = taught(entry("bucket", item="water", measure="bucket", mass="9.5 kg"), plan=plan)

    assert lessons.mixing.bucket == pytest.approx(0.0095, rel=0.03)


def test_a_bucket_not_full_to_the_brim_weighs_less_and_teaches_the_same():
    full = taught(*(entry("bucket", item="sand", measure="bucket", mass="16 kg") for _ in range(3)))
    less = taught(*(entry("bucket", item="sand", measure="bucket", mass="12.8 kg", filled="80 %") for _ in range(3)))
    plan = planned('[mixing.measure.bucket]\nheight = "30 cm"')
    down = taught(*(entry("bucket", item="sand", measure="bucket", mass="12.8 kg", below="6 cm") for _ in range(3)),
                  plan=plan)  # fmt: skip

    assert one(less, "sand, loose").value == pytest.approx(one(full, "sand, loose").value)
    assert one(down, "sand, loose").value == pytest.approx(one(full, "sand, loose").value)


def test_how_far_below_the_rim_wants_the_height():
    lessons = taught(entry("bucket", item="sand", measure="bucket", mass="16 kg", below="2 in"))

    assert lessons.figures == ()
    assert "mixing.measure.bucket.height" in lessons.set_aside[0]


# ---- the scale


def test_a_scale_that_shows_too_much_is_divided_out():
    tried = [entry("scale", shown="26 kg", known="25 kg"), entry("scale", shown="10.38 kg", water="10 L")]
    true = taught(*(entry("bucket", item="sand", measure="bucket", mass="16 kg") for _ in range(3)))
    off = taught(*tried, *(entry("bucket", item="sand", measure="bucket", mass="16.64 kg") for _ in range(3)))

    assert one(off, "the scale, shown over true").value == pytest.approx(1.04, abs=0.003)
    assert one(off, "sand, loose").value == pytest.approx(one(true, "sand, loose").value, rel=0.005)


def test_what_a_scale_shows_with_nothing_on_it_counts_for_bags_alone():
    zero = [entry("scale", shown="0.5 kg", known="0 kg") for _ in range(3)]
    bag = taught(*zero, entry("bucket", item="cement", measure="bag", mass="25.5 kg"))
    sand = taught(*zero, entry("bucket", item="sand", measure="bucket", mass="16 kg"))

    assert one(bag, "portland-cement, bag").value == pytest.approx(25.0, abs=0.05)
    assert one(sand, "sand, bucket").value == one(
        taught(entry("bucket", item="sand", measure="bucket", mass="16 kg")), "sand, bucket"
    ).value  # fmt: skip


def test_each_scale_by_its_name():
    tried = entry("scale", shown="26 kg", known="25 kg", scale="kitchen")
    lessons = taught(tried, entry("bucket", item="sand", measure="bucket", mass="16 kg"))
    alone = taught(entry("bucket", item="sand", measure="bucket", mass="16 kg"))

    assert one(lessons, "sand, loose").value == one(alone, "sand, loose").value


def test_a_scale_that_shows_less_with_the_weight_on_is_set_aside():
    lessons = taught(entry("scale", shown="0.5 kg", known="0 kg"), entry("scale", shown="0.1 kg", known="25 kg"))

    assert any("no more with the known mass" in reason for reason in lessons.set_aside)


# ---- the table, and trying


def test_the_table_tells_the_standing_of_every_measure():
    rows = {row.measure: row for row in measure_rows(taught(), (SAND, kind("materials", "portland-cement")))}

    assert rows["bucket"].standing is Standing.GIVEN
    assert rows["shovel"].standing is Standing.PRACTICE
    assert [each.material.name for each in rows["barrow"].weights] == ["sand"]
    assert rows["bag"].weights[0].mass == 25.0
    assert rows["bucket"].weights[0].weighed == 0
    assert rows["bucket"].weights[0].mass == pytest.approx(0.012 * DENSITY * 1.05)


def test_what_was_weighed_stands_in_the_table():
    lessons = taught(*(entry("bucket", item="sand", measure="bucket", mass="16 kg") for _ in range(4)))
    row = next(row for row in measure_rows(lessons, (SAND,)) if row.measure == "bucket")

    assert row.weights[0].weighed == 4
    assert row.weights[0].standing is Standing.LEARNED


@pytest.fixture
def plot(tmp_path):
    start_site(tmp_path / "plot", "quinta", {})
    return tmp_path / "plot"


PAN = {"wet": "540 g", "dry": "512 g", "pan": "90 g"}


def test_trying_writes_nothing_and_says_what_it_would_move(plot):
    text = told(try_reading(plot, "moisture", PAN), as_json=False)

    assert "6.6%" in text
    assert "Nothing was written down" in text
    assert "measure 10.0 of this" in text
    assert entries_now(plot) == ()


def test_what_was_tried_is_what_the_log_would_learn(plot):
    tried = json.loads(told(try_reading(plot, "moisture", PAN), as_json=True))
    log_entry(plot, "moisture", {"item": "sand", **PAN})
    (lesson,) = measures_of(plot).record.lessons

    assert tried["moved"][0]["after"]["value"] == pytest.approx(lesson.value)
    assert tried["form"] == form_address("moisture", PAN)


@pytest.mark.parametrize(
    ("of", "typed", "refused"),
    [
        ("moisture", {"wet": "500 g", "dry": "512 g"}, InvalidPlan),
        ("bucket", {"item": "moon dust", "measure": "bucket", "mass": "5 kg"}, InputError),
        ("batch", {"mix": "mortar-S"}, NotFoundError),
    ],
)
def test_what_cannot_be_tried_is_told(plot, of, typed, refused):
    with pytest.raises(refused):
        try_reading(plot, of, typed)


def test_a_form_that_was_not_sent_asks_and_one_sent_wrong_tells_where(plot):
    blank, nothing = reading_form(plot, "moisture", {})
    wrong, none = reading_form(plot, "moisture", {"f.wet": "500", "u.wet": "g", "f.dry": "512", "u.dry": "g"})

    assert (blank.asked, nothing) == (False, None)
    assert "swapped" in wrong.wrong["dry"]
    assert none is None


def test_the_log_says_what_it_makes_of_what_was_seen(plot):
    log_entry(plot, "moisture", {"item": "sand", **PAN})

    assert "makes water over dry mass" in told(show_entry(plot, "1"), as_json=False)


def test_a_mixing_made_by_hand_knows_its_measures():
    mixing = Mixing(batch=0.06, bucket=0.012, bag=25.0, lime_bag=20.0, sand_bulking=None)

    assert mixing.measure("bucket").holds == 0.012
    assert mixing.measure("pail").holds == pytest.approx(0.018927, abs=1e-6)


def test_the_water_in_the_sand_is_told_as_cards_reckon_it(tmp_path):
    folder = tmp_path / "plot"
    start_site(folder, "seed-garden", {})

    (rows,) = (
        block.rows for block in measures_of(folder).page.blocks if getattr(block, "heads", ("",))[0] == "of the sand"
    )
    figures = dict(mix_cards(folder, CardsAsked(name="mortar")).record.cards[0].charge.figures)
    assert rows[0][1] == f"{figures['sand moisture'].value:.0%}" == "3%"
