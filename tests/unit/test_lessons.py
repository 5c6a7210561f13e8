"""What each kind of entry teaches, what stays as the plan says, and what is set aside."""

from __future__ import annotations

import itertools
import json
import random
from dataclasses import replace
from fractions import Fraction
from importlib.resources import files
from pathlib import Path

import pytest

from pinfold.actions.answers import told
from pinfold.actions.gathering import gather_site
from pinfold.actions.mix_card import CardsAsked, mix_cards
from pinfold.actions.reckon_lessons import lessons_of
from pinfold.actions.reckoning import reckon_site
from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import Site, open_site, start_site
from pinfold.figures import given
from pinfold.logbook.entries import Entry, entry_of
from pinfold.reports.lessons_page import before_and_now, lessons_page
from pinfold.reports.terminal import text_of
from pinfold.sources import Standing
from pinfold.store.log import open_log
from pinfold.store.pile import pile_of
from pinfold.store.planfile import plan_of
from pinfold.store.prices import prices_of
from pinfold.studies.batching.charge import charge_of
from pinfold.studies.batching.sand import DAMP, moisture_of
from pinfold.studies.lessons.applying import as_taught, taught_kind
from pinfold.studies.lessons.learned import learned
from pinfold.studies.lessons.paid import whole_coins
from pinfold.studies.lessons.records import Lessons, Topic
from pinfold.tables.shelf import kind
from pinfold.units import RATIO, System, money

SHELF = files("pinfold.store").joinpath("samples", "quinta")
PLAN = plan_of(SHELF.joinpath("plan.toml").read_text(encoding="utf-8"))
PRICES = prices_of(SHELF.joinpath("prices.toml").read_text(encoding="utf-8"))
PILE = pile_of(SHELF.joinpath("pile.csv").read_text(encoding="utf-8"))
NUMBERS = itertools.count(1)


def entry(of: str, day: int = 3, *, corrects: str = "", month: int = 5, year: int = 2026, **values: object) -> Entry:
    number = next(NUMBERS)
    raw = {
        "id": f"entry-{number:06d}", "kind": of, "at": f"{year}-{month:02d}-{day:02d}T10:00+02:00", "who": "me",
        "device": "desk", "fields": values,
    }  # fmt: skip
    made = entry_of({**raw, "corrects": corrects} if corrects else raw)
    return replace(made, seq=number)


def taught(*entries: Entry, plan=PLAN, prices=PRICES, pile=PILE) -> Lessons:
    return learned(plan, prices, pile, entries)


def one(lessons: Lessons, subject: str):
    return next(lesson for lesson in lessons.lessons if lesson.subject == subject)


def bucket(mass: str = "18 kg", item: str = "sand", measure: str = "bucket", **more: object) -> Entry:
    return entry("bucket", item=item, measure=measure, mass=mass, **more)


# ---- nothing learned


def test_without_entries_all_stays_the_very_same():
    nothing = taught()

    assert nothing.plan is PLAN
    assert nothing.prices is PRICES
    assert nothing.pile is PILE
    assert nothing.is_empty
    mix = kind("mixes", "mortar-S")
    assert taught_kind(mix, nothing.figures) is mix


def test_entries_that_teach_nothing_change_nothing():
    nothing = taught(entry("note", text="rain"), entry("weather", temperature="12 °C"))

    assert nothing.plan is PLAN
    assert nothing.is_empty


def test_a_site_made_without_entries_still_works():
    site = Site(folder=Path(), plan=PLAN, prices=PRICES, pile=PILE)

    assert site.entries == ()
    assert site.lessons.is_empty
    assert reckon_all(site).costs.total > 0


# ---- buckets


def test_weighed_buckets_teach_the_loose_density_of_the_sand():
    lessons = taught(*(bucket(mass) for mass in ("18.0 kg", "18.2 kg", "18.1 kg", "17.9 kg")))
    density, figure = one(lessons, "sand, loose"), lessons.figures[0].figure

    assert density.value == pytest.approx(18.05 / 1.05 / 0.012, rel=0.01)
    assert density.count == 4
    assert figure.value == density.value
    assert figure.standing is Standing.LEARNED
    assert figure.source == "LOG"
    assert "4 entries" in figure.where
    assert one(lessons, "sand, bucket").value == pytest.approx(18.05, rel=0.01)


def test_swelling_and_moisture_are_taken_off_a_bucket_of_sand():
    plan = replace(PLAN, mixing=replace(PLAN.mixing, sand_bulking=0.40))
    more = taught(bucket(), plan=plan)
    damp = moisture_of(kind("materials", "sand"), 0.40)

    assert damp > DAMP.value
    density = one(more, "sand, loose")
    pulled = 18 / (1 + damp) * 1.40 / 1.25 / 0.012
    assert density.prior.value < density.value < pulled


def test_one_entry_moves_part_of_the_way_and_says_so():
    lesson = one(taught(bucket("18 kg")), "sand, loose")

    assert 0.5 < lesson.weight < 1
    assert lesson.prior.value == kind("materials", "sand").value("bulk_density")
    assert lesson.prior.value < lesson.value < 18 / 1.05 / 0.012


def test_one_wild_bucket_does_not_carry_the_density_away():
    good = [bucket(mass) for mass in ("18.0 kg", "18.2 kg", "18.1 kg", "17.9 kg")]

    assert one(taught(*good, bucket("181 kg")), "sand, loose").value == pytest.approx(
        one(taught(*good), "sand, loose").value, rel=0.01
    )


def test_pounds_teach_the_same_as_kilograms():
    metric = taught(bucket("20 kg", volume="14 L"))
    american = taught(bucket("44.0924524369 lb", volume=f"{14 / 3.785411784:.12f} gal"))

    assert american.lessons[0].value == pytest.approx(metric.lessons[0].value, rel=1e-9)
    assert one(american, "sand, loose").value == pytest.approx(one(metric, "sand, loose").value, rel=1e-7)


def test_the_bag_of_the_plan_stays_and_the_weighed_one_is_told_beside_it():
    lessons = taught(*(bucket("24.2 kg", item="cement", measure="bag") for _ in range(4)))
    lesson = one(lessons, "portland-cement, bag")

    assert lessons.mixing.bag == 25.0
    assert "the plan says 25 kg" in lesson.told
    assert lesson.used == ""
    assert lesson.value == pytest.approx(24.2, abs=0.1)


def test_a_bucket_that_holds_something_else_than_the_plan_says_is_told():
    lesson = one(taught(bucket("15 kg", volume="10 L")), "sand, bucket")

    assert "The plan counts a bucket of 12 L; the ones weighed held 10 L." in lesson.told


def test_a_barrow_of_unknown_size_has_a_weight_but_no_density():
    lessons = taught(bucket("70 kg", measure="barrow"))

    assert one(lessons, "sand, barrow").value == pytest.approx(70)
    assert lessons.figures == ()
    assert one(lessons, "barrow").prior.says == "as it usually is"


def test_what_no_shelf_knows_is_set_aside_with_its_name():
    lessons = taught(bucket(item="moon dust"), bucket(item="moon dust"))

    assert lessons.lessons == ()
    assert lessons.set_aside == ("weighed: no material called 'moon dust' is known (2 entries)",)


# ---- corrections


def test_corrected_and_withdrawn_entries_do_not_count():
    first, second = bucket("18 kg"), bucket("19 kg")
    right = bucket("17.5 kg", item="sand", measure="bucket")
    mended = replace(right, corrects=second.id)
    gone = entry("withdrawn", corrects=first.id)

    assert taught(first, second, mended, gone).lessons == taught(mended).lessons
    assert taught(gone, mended, second, first).lessons == taught(mended).lessons


def test_the_order_of_entries_does_not_matter():
    entries = [
        *(bucket(mass) for mass in ("18 kg", "17 kg", "19 kg")), entry("moisture", 2, item="sand", moisture="4 %"),
        entry("moisture", 9, item="sand", moisture="7 %"), entry("hours", time="4 h", layer="wall", done_length="2 m"),
        entry("hours", time="5 h", layer="wall", done_length="2 m"),
        entry("purchase", 4, item="hinge", packs="2", cost="17.00"),
        entry("purchase", 5, item="hinge", packs="2", cost="18.00"),
    ]  # fmt: skip
    shuffled = list(entries)
    random.Random(5).shuffle(shuffled)

    def numbers(lessons):
        return sorted((lesson.subject, lesson.value, lesson.spread) for lesson in lessons.lessons)

    assert numbers(taught(*entries)) == numbers(taught(*shuffled))


# ---- moisture


def test_the_last_reading_of_the_heap_counts_most():
    wet_last = taught(entry("moisture", 1, item="sand", moisture="3 %"), entry("moisture", 29, item="sand", moisture="8 %"))  # fmt: skip
    dry_last = taught(entry("moisture", 1, item="sand", moisture="8 %"), entry("moisture", 29, item="sand", moisture="3 %"))  # fmt: skip

    assert wet_last.lessons[0].value > 0.06
    assert dry_last.lessons[0].value < 0.04


def test_an_old_reading_fades_back_to_the_usual():
    fresh = taught(entry("moisture", 1, item="sand", moisture="8 %"))
    old = taught(entry("moisture", 1, item="sand", moisture="8 %"), bucket())
    older = taught(
        entry("moisture", 1, item="sand", moisture="8 %"),
        entry("bucket", 1, month=9, item="gravel", measure="bucket", mass="17 kg"),
    )

    values = [one(lessons, "sand, water in it").value for lessons in (fresh, old, older)]
    assert values[0] > values[1] > values[2]
    assert values[2] == pytest.approx(DAMP.value, abs=1e-4)


def test_moisture_changes_the_water_to_add_and_shows_its_standing():
    wet = taught(*(entry("moisture", 3, item="sand", moisture="8 %") for _ in range(3)))
    mix = kind("mixes", "concrete-footing")
    usual, damp = charge_of(mix, PLAN.mixing), charge_of(taught_kind(mix, wet.figures), wet.mixing)

    assert damp.water == pytest.approx(usual.water)
    assert damp.water_in_sand > usual.water_in_sand
    assert damp.water_to_add < usual.water_to_add
    assert dict(damp.figures)["sand moisture"].standing is Standing.LEARNED
    assert any("Your log" in note for note in damp.notes)


def test_swelling_fills_in_only_what_the_plan_does_not_say():
    read = [entry("moisture", 3, item="sand", moisture="5 %", bulking="20 %") for _ in range(3)]
    open_plan = taught(*read)
    said = taught(*read, plan=replace(PLAN, mixing=replace(PLAN.mixing, sand_bulking=0.15)))

    assert PLAN.mixing.sand_bulking is None
    assert open_plan.mixing.sand_bulking == pytest.approx(0.2, abs=0.01)
    assert said.mixing.sand_bulking == 0.15
    assert "the plan says 15\u00a0%, and that is used" in one(said, "sand, swollen by").told
    assert one(said, "sand, swollen by").used == ""


# ---- yields

MORTAR = "mortar-S"


def batch(**values: object) -> Entry:
    return entry("batch", mix=MORTAR, **values)


def amounts(times: float = 1.0) -> list[list[str]]:
    charge = charge_of(kind("mixes", MORTAR), PLAN.mixing)
    return [
        [part.part, f"{part.mass * times:.6f} kg" if part.bags is not None else f"{part.loose * times:.8f} m3"]
        for part in charge.ingredients
    ]


def test_batches_that_gave_less_teach_that_more_of_them_are_needed():
    reckoned = charge_of(kind("mixes", MORTAR), PLAN.mixing).makes
    lessons = taught(*(batch(amounts=amounts(), made=f"{0.9 * reckoned:.8f} m3") for _ in range(4)))
    lesson = one(lessons, MORTAR)
    after = charge_of(taught_kind(kind("mixes", MORTAR), lessons.figures), lessons.mixing)

    assert lesson.value == pytest.approx(0.9, abs=0.01)
    assert after.makes / after.ingredients[0].mass < reckoned / charge_of(kind("mixes", MORTAR), PLAN.mixing).ingredients[0].mass  # fmt: skip
    assert after.working[-1].formula == "learning.taught_yield"
    assert dict(after.figures)[f"{MORTAR} yield_ratio"].standing is Standing.LEARNED


def test_the_size_of_the_batch_does_not_teach_a_yield():
    reckoned = charge_of(kind("mixes", MORTAR), PLAN.mixing).makes
    half = taught(batch(amounts=amounts(0.5), made=f"{0.45 * reckoned:.8f} m3"))
    whole = taught(batch(amounts=amounts(), made=f"{0.9 * reckoned:.8f} m3"))

    assert half.lessons[0].value == pytest.approx(whole.lessons[0].value, rel=1e-5)


def test_a_batch_lighter_than_reckoned_makes_more():
    """Yield is mass over density; a printed example has it upside down."""
    charge = charge_of(kind("mixes", MORTAR), PLAN.mixing)
    damp = 1 + moisture_of(kind("materials", "sand"), None)
    weighed = [[part.part, f"{part.mass * (damp if part.part == 'sand' else 1):.6f} kg"] for part in charge.ingredients]
    weighed.append(["water", f"{charge.water_to_add * 1000:.6f} L"])
    light, heavy = (
        taught(batch(amounts=weighed, wet_density=f"{share * charge.density:.3f} kg/m3")).lessons[0]
        for share in (0.95, 1.05)
    )

    assert light.value > 1 > heavy.value


def test_what_cannot_be_weighed_up_is_set_aside_with_its_reason():
    strange = amounts()
    strange[0][1] = "1 kg"
    lessons = taught(
        batch(made="50 L"), batch(amounts=strange, made="50 L"), batch(amounts=amounts(), wet_density="2000 kg/m3"),
        entry("batch", mix="no such mix", made="5 L"), batch(amounts=[["sand", "3 shovel"]], made="50 L"),
    )  # fmt: skip

    assert lessons.lessons == ()
    assert len(lessons.set_aside) == 5
    for reason in ("not what went in", "other proportions", "not all that went in", "no mix called", "cannot be told"):
        assert any(reason in line for line in lessons.set_aside), reason


# ---- coats


def coat(batches: str = "1", area: str = "5 m2", **more: object) -> Entry:
    return entry("coat", place="valley/1", layer="lime-first", area=area, batches=batches, **more)


def coat_kind(plan, name="lime-first"):
    return next(coat.kind for buildup in plan.buildups.values() for coat in buildup.coats if coat.kind.name == name)


def test_batches_used_on_a_wall_teach_the_waste_of_the_coat():
    makes = charge_of(kind("mixes", "lime-plaster"), PLAN.mixing).makes
    thick = next(c for b in PLAN.buildups.values() for c in b.coats if c.kind.name == "lime-first").thickness
    area = makes / thick / 1.5
    lessons = taught(*(coat(area=f"{area:.6f} m2") for _ in range(5)))

    assert one(lessons, "lime-first, mix used").value == pytest.approx(1.5, abs=0.02)
    assert coat_kind(lessons.plan).value("waste") == pytest.approx(0.5, abs=0.02)
    assert coat_kind(lessons.plan).figure("waste").standing is Standing.LEARNED
    assert coat_kind(PLAN).value("waste") == 0.32


def test_waste_that_the_plan_gives_stays():
    buildup = PLAN.buildups["earth block"]
    own = replace(coat_kind(PLAN), figures={**coat_kind(PLAN).figures, "waste": given(0.2, RATIO, "20 %")})
    coats = tuple(replace(c, kind=own) if c.kind.name == "lime-first" else c for c in buildup.coats)
    plan = replace(PLAN, buildups={**PLAN.buildups, "earth block": replace(buildup, coats=coats)})
    lessons = taught(*(coat("2") for _ in range(5)), plan=plan)

    assert coat_kind(lessons.plan).value("waste") == 0.2
    assert "the plan says 120\u00a0%, and that is used" in one(lessons, "lime-first, mix used").told


def test_a_thicker_coat_is_told_and_the_plan_stays():
    lessons = taught(*(coat(thickness="14 mm") for _ in range(3)))

    assert "and that is used" in one(lessons, "lime-first, thickness").told
    assert [c.thickness for c in lessons.plan.buildups["earth block"].coats] == [
        c.thickness for c in PLAN.buildups["earth block"].coats
    ]


def test_a_coat_that_could_be_either_is_set_aside():
    lessons = taught(entry("coat", place="valley/1", layer="coat", mix="lime-plaster", area="5 m2", batches="1"))

    assert lessons.lessons == ()
    assert "cannot be told" in lessons.set_aside[0]


# ---- pace


def test_hours_teach_the_time_for_a_meter_for_one_person():
    lessons = taught(
        entry("hours", time="6 h", people="2", layer="wall", done_length="4 m"),
        entry("hours", time="3 h", layer="wall", done_length="1 m"), entry("hours", time="8 h", layer="wall"),
        entry("hours", time="2 h", layer="coat", done_area="4 m2"),
    )  # fmt: skip
    wall = one(lessons, "wall")

    assert (wall.value, wall.count, wall.per) == (pytest.approx(3 * 3600), 2, "m")
    assert one(lessons, "coat").value == pytest.approx(1800)
    assert "3.0" in wall.told


def test_pace_is_told_by_the_foot_where_the_plan_is_in_feet():
    american = replace(PLAN, units=type(PLAN.units)("us"))
    told_in_feet = one(taught(entry("hours", time="1 h", layer="wall", done_length="1 ft"), plan=american), "wall").told

    assert "for 1 ft" in told_in_feet
    assert "1.0" in told_in_feet


# ---- prices


def bought(cost: str, day: int = 3, *, packs: str = "10", item: str = "portland-cement", **more: object) -> Entry:
    return entry("purchase", day, item=item, packs=packs, cost=cost, **more)


def test_the_last_payment_stands_over_the_price_list_to_the_coin():
    lessons = taught(bought("55.00", 1), bought("58.10", 6, pack="25 kg"), bought("57.00", 4))

    assert lessons.prices.by_item["portland-cement"].cost == 581
    assert lessons.prices.by_item["portland-cement"].pack == 25.0
    assert "the price list says EUR\u00a05.20" in one(lessons, "portland-cement").told
    assert PRICES.by_item["portland-cement"].cost == 520
    assert lessons.prices.by_item["sand"] is PRICES.by_item["sand"]


def test_what_was_paid_is_written_as_all_other_money_is():
    lessons = taught(bought("123456.70", 1, packs="1"))
    shown = money(12_345_670, PRICES.currency, PRICES.digits)

    assert f"last paid {shown} for" in one(lessons, "portland-cement").told
    assert shown in text_of(lessons_page("Quinta", lessons), System.METRIC)


def test_another_pack_is_reckoned_into_the_pack_of_the_list():
    lessons = taught(bought("11.60", packs="1", pack="50 kg"))

    assert lessons.prices.by_item["portland-cement"].cost == 580


@pytest.mark.parametrize(("cost", "packs", "coins"), [("10.00", "3", 333), ("0.05", "2", 3), ("1.00", "0.1", 1000)])
def test_money_is_rounded_once_halves_up(cost, packs, coins):
    lessons = taught(bought(cost, packs=packs, item="hinge"))

    assert lessons.prices.by_item["hinge"].cost == coins
    assert whole_coins(Fraction(5, 2)) == 3


def test_a_thing_without_listed_price_gets_the_pack_it_was_bought_in():
    lessons = taught(bought("30.00", packs="2", item="gravel", pack="0.5 m3"), prices=replace(PRICES, by_item={}))
    price = lessons.prices.by_item["gravel"]

    assert (price.cost, price.pack, price.unit.symbol, price.printed) == (1500, 0.5, "m3", "0.5 m3")


def test_a_slip_of_the_pen_is_passed_over_and_told():
    lessons = taught(bought("55.00", 1), bought("56.00", 2), bought("5600.00", 3))

    assert lessons.prices.by_item["portland-cement"].cost == 560
    assert "taken for a slip" in one(lessons, "portland-cement").told


def test_a_payment_over_a_year_old_yields_to_the_list():
    old = entry("purchase", 1, year=2024, item="hinge", packs="1", cost="5.00")
    lessons = taught(old, bucket())

    assert lessons.prices is PRICES
    assert "over a year old" in one(lessons, "hinge").told
    assert taught(old, bucket(), prices=replace(PRICES, by_item={})).prices.by_item["hinge"].cost == 500


def test_packs_that_cannot_be_told_are_set_aside():
    lessons = taught(bought("5.00", pack="a heap"), bought("5.00", pack="3 m"), bought("5.00", item="kitchen sink"))

    assert lessons.prices is PRICES
    assert len(lessons.set_aside) == 3


# ---- the pile


def moved(way: str, item: str, count: int, length: str = "", day: int = 3) -> Entry:
    return entry("pile", day, way=way, item=item, count=str(count), length=length)


def pieces(lessons: Lessons, item: str) -> list[tuple[int, float | None]]:
    return [(piece.count, piece.length) for piece in lessons.pile if piece.item == item]


def test_what_goes_on_and_off_the_pile_changes_it():
    lessons = taught(
        moved("in", "pipe-60", 2, "3 m"), moved("in", "pipe-60", 1, "3 m"), moved("out", "pipe-60", 1, "2.4 m")
    )

    assert pieces(lessons, "pipe-60") == [(4, 3.0), (1, 2.4), (3, 3.0)]
    assert lessons.pile_told == ("pipe-60, onto it: 3", "pipe-60, off it: 1")


def test_the_pile_goes_in_the_order_things_happened():
    lessons = taught(moved("out", "latch", 1, day=5), moved("in", "latch", 1, day=2))

    assert pieces(lessons, "latch") == []
    assert lessons.set_aside == ()


def test_more_off_than_there_was_is_told_and_never_below_nothing():
    lessons = taught(moved("out", "pipe-60", 9, "2.4 m"))

    assert pieces(lessons, "pipe-60") == [(4, 3.0)]
    assert lessons.set_aside == ("pile: 7 more pipe-60 went off than lay there",)


# ---- the whole way


def logged(folder: Path, *entries: Entry) -> None:
    with open_log(folder) as log:
        log.append([replace(each, seq=0) for each in entries], received="2026-05-12T10:00:00+00:00")


def test_the_log_of_a_site_changes_its_pages_and_says_why(tmp_path):
    folder = tmp_path / "plot"
    start_site(folder, "quinta", {})
    before = reckon_all(open_site(folder))
    mixed, cost = (told(answer, as_json=False) for answer in (mix_cards(folder, CardsAsked()), reckon_site(folder)))
    assert "What the log taught" not in mixed + cost

    logged(
        folder, *(bucket("18.1 kg") for _ in range(4)), bought("78.00"), moved("in", "pipe-60", 3, "3 m"),
        entry("moisture", item="sand", moisture="7 %"), entry("note", text="rain"),
    )  # fmt: skip
    site = open_site(folder)
    after = reckon_all(site)

    assert len(site.entries) == 7
    assert open_site(folder) is site
    assert site.plan.mixing == before_mixing(folder)
    assert after.costs.total != before.costs.total
    heavier, lighter = (counted.cards[0].charge.part("sand") for counted in (after, before))
    assert heavier.mass / heavier.loose > lighter.mass / lighter.loose
    assert after.gathered.lines != before.gathered.lines
    for answer in (mix_cards(folder, CardsAsked()), gather_site(folder, None), reckon_site(folder)):
        page = " ".join(told(answer, as_json=False).split())
        assert "What the log taught" in page
        assert "sand weighs" in page
    assert "last paid EUR 7.80" in " ".join(told(reckon_site(folder), as_json=False).split())

    page = " ".join(told(lessons_of(folder), as_json=False, width=200).split())
    assert "learned" in page
    assert "on the pile since its list" in page
    record = json.loads(told(lessons_of(folder), as_json=True))
    assert record["figures"][0]["figure"]["standing"] == "learned"
    assert {lesson["topic"] for lesson in record["lessons"]} == {"bucket weight", "moisture", "price"}


@pytest.mark.parametrize("name", ["seed-garden", "quinta"])
def test_no_figure_of_it_breaks_over_lines_at_eighty_columns(tmp_path, name):
    folder = tmp_path / "plot"
    start_site(folder, name, {})
    worked = [entry("hours", layer="footing", time=f"{each} h", people="2", done_length="3 m") for each in (5, 6, 7)]
    logged(folder, *(bucket(f"{18 + 0.3 * at} kg") for at in range(4)), *worked, bought("78.00"))
    lessons, text = open_site(folder).lessons, told(lessons_of(folder), as_json=False)

    assert len(lessons.lessons) >= 4
    for lesson in lessons.lessons:
        rows = [line for line in text.splitlines() if all(cell in line for cell in before_and_now(lesson, lessons))]
        assert rows, lesson.subject
        assert any(line.endswith(f"  {lesson.count}") for line in rows), "with how many entries"
    assert all(
        f"{100 * lesson.weight:.0f} % of it is this log's" in " ".join(text.split()) for lesson in lessons.lessons
    )


def before_mixing(folder: Path):
    return plan_of((folder / "plan.toml").read_text(encoding="utf-8")).mixing


def test_a_new_entry_is_seen_and_an_empty_log_teaches_nothing(tmp_path):
    folder = tmp_path / "plot"
    start_site(folder, "quinta", {})
    assert "teaches nothing yet" in " ".join(told(lessons_of(folder), as_json=False).split())
    assert not (folder / "log.sqlite").exists()

    first = bucket("18 kg")
    logged(folder, first)
    assert one(open_site(folder).lessons, "sand, bucket").count == 1
    logged(folder, bucket("18 kg"))
    assert one(open_site(folder).lessons, "sand, bucket").count == 2
    logged(folder, entry("withdrawn", corrects=first.id))
    assert one(open_site(folder).lessons, "sand, bucket").count == 1


def test_a_take_off_is_taught_line_by_line_and_left_alone_without_lessons():
    lessons = taught(*(bucket("18 kg") for _ in range(3)))
    quantities = reckon_all(Site(folder=Path(), plan=PLAN, prices=PRICES, pile=PILE)).quantities

    assert as_taught(quantities, taught()) == quantities
    changed = as_taught(quantities, lessons)
    assert [line.net for line in changed] == pytest.approx([line.net for line in quantities], nan_ok=True)
    assert any(new.kind is not old.kind for new, old in zip(changed, quantities, strict=True))
    assert taught_kind(kind("mixes", MORTAR), lessons.figures) is taught_kind(kind("mixes", MORTAR), lessons.figures)


@pytest.mark.parametrize("topic", Topic)
def test_every_topic_is_plain_words(topic):
    assert topic.value.replace(" ", "").isalpha()


# ---- what alike things say of each other


def test_a_mortar_that_was_never_measured_borrows_the_yield_of_one_that_was():
    def batch(made: str, day: int) -> Entry:
        return entry("batch", mix="mortar-O", amounts=[["cement", "25 kg"]], made=made, day=day)

    reckoned = charge_of(kind("mixes", "mortar-O"), PLAN.mixing)
    lead = next(part for part in reckoned.ingredients if part.part == "cement")
    short = f"{0.85 * reckoned.makes * 25 / lead.mass * 1000:.2f} L"
    lessons = taught(*(batch(short, day) for day in range(3, 9)))
    ratio = {
        name: taught_kind(kind("mixes", name), lessons.figures) for name in ("mortar-O", "mortar-S", "concrete-footing")
    }

    assert ratio["mortar-O"].value("yield_ratio") < ratio["mortar-S"].value("yield_ratio") < 1
    assert ratio["mortar-O"].figure("yield_ratio").standing is Standing.LEARNED
    assert ratio["mortar-S"].figure("yield_ratio").standing is Standing.PRACTICE
    assert any("no batch of mortar-S was measured" in note for note in ratio["mortar-S"].words["notes"])
    assert not ratio["concrete-footing"].has("yield_ratio")
    assert [lesson.subject for lesson in lessons.about(Topic.YIELD)] == ["mortar-O"]


def test_a_coat_that_was_never_measured_borrows_from_the_other_coats_of_the_plan():
    coats = {coat.kind.name: coat for b in PLAN.buildups.values() for coat in b.coats}
    first, *others = coats
    makes = charge_of(kind("mixes", coats[first].kind.word("mix")), PLAN.mixing).makes
    area = f"{makes / coats[first].thickness / 1.6:.3f} m2"
    lessons = taught(*(entry("coat", place="x", layer=first, area=area, batches="1", day=day) for day in range(3, 8)))
    waste = {each.kind: each.figure for each in lessons.figures if each.name == "waste"}

    assert others
    assert set(waste) == set(coats)
    before = coats[others[0]].kind.value("waste")
    assert before < waste[others[0]].value < waste[first].value
    assert waste[others[0]].standing is not Standing.LEARNED
