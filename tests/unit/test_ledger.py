"""The ledger by hand: what entries cost, what is shared out over what, what is pointed out."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from ledgers import USES, books, entry
from pinfold.actions.answers import told
from pinfold.actions.reckoning import reckon_site
from pinfold.actions.sites import open_site, start_site
from pinfold.actions.taking import take_entries
from pinfold.errors import InvalidPlan
from pinfold.logbook.ahead import ahead
from pinfold.logbook.entries import entry_of
from pinfold.plan.place import Mixing
from pinfold.plan.stock import NO_PRICES
from pinfold.reports.html import html_of
from pinfold.reports.pages import Page
from pinfold.reports.reckon_ledger import point_told, pointed_out, so_far, spent_sentence
from pinfold.store.prices import prices_of
from pinfold.studies.ledger.adding import ledger_of, worth_of
from pinfold.studies.ledger.bills import slips
from pinfold.studies.ledger.records import Abroad, PointSort
from pinfold.studies.ledger.running import RunningLedger
from pinfold.studies.lessons.leftovers import left_over
from pinfold.studies.lessons.paid import paid_for_pack
from pinfold.units import System, decimals_of

PRICES = replace(NO_PRICES, currency="EUR", trip=500, hour=1250)
TODAY = date(2026, 6, 1)
MIXING = Mixing(batch=0.06, bucket=0.01, bag=25.0, lime_bag=20.0, sand_bulking=None)


def ledger(*entries, prices=PRICES):
    return ledger_of(books(*entries), prices, USES, TODAY)


def only(found):
    assert len(found.points) == 1
    return found.points[0]


def bill(*costs, total, **rest):
    """A bill of things at some costs; its total stands on the first of them."""
    things = ("portland-cement", "sand", "gravel", "hydrated-lime", "brick")
    return [
        entry(at + 1, item=things[at], cost=cost, shop="yard", bill="17", **({"bill_total": total} if at == 0 else {}),
              **rest)
        for at, cost in enumerate(costs)
    ]  # fmt: skip


def test_goods_delivery_trips_leftovers_and_the_pile_make_what_was_spent():
    found = ledger(
        entry(1, cost="100.00", tax="8.00", haul="12.00", trips="3"), entry(2, item="sand", cost="40.00", trips="2"),
        entry(3, "leftover", worth="15.00"), entry(4, "leftover", item="sand"),
        entry(5, "pile", way="out", worth="7.50"), entry(6, "pile", way="in", worth="2.50"), entry(7, "pile"),
    )  # fmt: skip

    assert (found.goods, found.tax, found.haul) == (14000, 800, 1200 + 2 * 500)
    assert (found.back, found.reclaimed) == (1750, 750)
    assert found.spent == 14000 + 2200 - 1750 + 750
    assert found.own == 0
    assert found.uncosted == 0
    assert found.points == ()


def test_own_hours_count_for_all_who_worked_at_what_the_price_list_says_or_at_nothing():
    worked = entry(1, "hours", time="7.5 h", people="2", layer="mortar", place="south/1")

    assert ledger(worked).own == 15 * 1250
    free = ledger(worked, prices=replace(PRICES, hour=0))
    assert (free.own, free.total, free.seconds) == (0, 0, 15 * 3600)
    assert "counted at nothing" in spent_sentence(free, System.METRIC)


def test_a_half_coin_of_work_is_rounded_up():
    assert worth_of(1800, 25) == 13
    assert worth_of(1799, 25) == 12


def test_trips_without_a_cost_in_the_price_list_are_told_and_not_counted():
    found = ledger(entry(1, trips="2"), prices=replace(PRICES, trip=None))

    assert (found.haul, found.uncosted) == (0, 2)
    assert any("2 trips to the shop" in block.text for block in so_far(found, System.US) if hasattr(block, "text"))


def test_what_is_told_of_an_entry_goes_before_what_the_plan_uses_a_thing_for():
    anywhere, layer = ledger(entry(1, cost="0.06")), ledger(entry(1, cost="0.06", layer="mortar"))
    place = ledger(entry(1, cost="0.06", place="south"))

    assert {share.name: share.spent for share in anywhere.by_layer} == {"footing": 3, "mortar": 3}
    assert {share.name: share.spent for share in anywhere.by_run} == {"south/1": 4, "east/1": 2}
    assert {share.name: share.spent for share in layer.by_layer} == {"mortar": 6}
    assert {share.name: share.spent for share in layer.by_run} == {"south/1": 2, "east/1": 4}
    assert {share.name: share.spent for share in place.by_layer} == {"footing": 5, "mortar": 1}


def test_what_the_plan_does_not_use_belongs_to_the_layer_and_run_that_are_told_or_to_no_one():
    assert [(share.name, share.length) for share in ledger(entry(1, item="trowel")).by_run] == [("shared", None)]
    of_layer = ledger(entry(1, item="trowel", cost="0.10", layer="mortar")).by_run
    assert {share.name: share.spent for share in of_layer} == {"south/1": 6, "east/1": 4}, "by length"
    assert [share.name for share in ledger(entry(1, item="trowel", place="nowhere")).by_run] == ["shared"]


def test_cost_per_length_is_of_the_run_and_of_the_whole_enclosure():
    found = ledger(entry(1, cost="24.00", place="south/1"))

    assert found.by_run[0].per_meter == 200
    assert found.per_meter == 120


@pytest.mark.parametrize("total", ["37.30", "35.30"], ids=["delivery on it", "delivery apart"])
def test_a_bill_may_have_the_delivery_on_it_or_not(total):
    first, *others = bill("12.40", "22.90", total=total)
    carried = entry(3, item="gravel", cost="0.00", haul="2.00", shop="Yard", bill="17")

    assert ledger(first, *others, carried).points == ()


@pytest.mark.parametrize(
    ("entries", "off", "likely"),
    [
        (bill("12.40", "22.90", total="38.12", tax="1.41"), 282, "tax left out of the lines"),
        (bill("12.40", "22.90", total="33.89", tax="1.41"), -141, "a discount"),
        (bill("12.40", "22.90", total="32.48", tax="1.41"), -282, "tax counted twice"),
        (bill("12.40", "229.00", total="40.30", haul="2.50"), -20610, "slipped digit in entry 2"),
        (bill("12.40", "22.90", total="38.13"), 283, "it would be 8.0\u00a0%"),
        (bill("12.40", "22.90", "5.00", total="35.30"), -500, "entry 3 too many"),
        (bill("12.40", "22.90", total="39.80"), 450, "tax left out"),
        (bill("12.40", "22.90", total="44.30"), 900, "slipped digit in entry 1"),
        (bill("12.40", "229.00", total="35.30"), -20610, "slipped digit in entry 2"),
        (bill("12.40", "22.90", total="75.30"), 4000, "a missing line"),
        (bill("12.40", "22.90", total="34.30"), -100, "a discount"),
    ],
)
def test_a_bill_that_does_not_add_up_is_pointed_out_with_what_it_may_come_of(entries, off, likely):
    found = ledger(*entries)
    point = only(found)

    assert (point.sort, point.coins) == (PointSort.BILL, off)
    assert likely in " ".join(point.likely)
    said = point_told(point, found)
    assert said.startswith("Bill 17 of yard: its lines come to")
    assert f"entries {', '.join(str(at + 1) for at in range(len(entries)))}" in said


@pytest.mark.parametrize(
    ("entries", "likely"),
    [
        (bill("12.40", "229.00", total="38.12", tax="1.41"), "tax left out of the lines, and a slipped digit in entry 2"),
        ([*bill("12.40", "229.00", total="35.30"), entry(3, item="sand", cost="229.00", shop="yard", bill="17")],
         "entry 2 too many, or twice, and a slipped digit in entry 3"),
        ([*bill("12.40", "229.00", total="35.30"), entry(3, item="gravel", cost="0", haul="9.00", shop="yard", bill="17")],
         "a slipped digit in entry 2, the delivery apart"),
    ],
    ids=["tax and a slip", "a line twice and a slip", "delivery apart and a slip"],
)  # fmt: skip
def test_both_faults_of_a_bill_are_told(entries, likely):
    point = next(point for point in ledger(*entries).points if point.sort is PointSort.BILL)

    assert likely in point.likely[0]


@pytest.mark.parametrize(("total", "taxed"), [("102.99", False), ("103.00", True), ("127.00", True), ("127.01", False)])
def test_a_difference_is_taken_for_tax_within_the_taxes_there_are(total, taxed):
    point = only(ledger(*bill("46.60", "53.40", total=total)))

    assert point.likely == (
        (f"tax left out of the lines: it would be {total[1:3].lstrip('0')}.0\u00a0%",) * taxed + ("a missing line",)
    )


def test_three_reasons_are_told_at_most():
    lines = [entry(at, item=item, shop="yard", bill="17", bill_total="30.00")
             for at, item in enumerate(("sand", "gravel", "brick", "portland-cement"), start=1)]  # fmt: skip

    assert only(ledger(*lines)).likely == tuple(f"entry {at} too many, or twice" for at in (1, 2, 3))


def test_two_slips_would_explain_anything_and_explain_nothing():
    point = only(ledger(*bill("21.40", "29.20", total="35.30")))

    assert point.likely == ("a discount, or a line of another bill",)
    one_more = only(ledger(*bill("21.40", "22.90", "5.00", total="35.30")))
    assert one_more.likely == point.likely, "nor does a slip with a line that is there once"


def test_a_bill_in_another_currency_is_held_against_its_own_tax_and_delivery():
    abroad = {"currency": "USD", "rate": "0.5", "shop": "yard", "bill": "17"}
    for total, taxed in (("20.00", False), ("25.00", False), ("28.00", True)):
        lines = [entry(1, cost="20.00", tax="3.00", haul="5.00", bill_total=total, **abroad)]
        likely = [point.likely[0] for point in ledger(*lines).points]
        assert likely == (["tax left out of the lines"] if taxed else [])


def test_lines_of_one_bill_that_say_different_totals_or_currencies_are_told():
    one, two = entry(1, shop="yard", bill="17", bill_total="20.00"), entry(2, item="sand", shop="yard", bill="17")
    other = replace(two, values={**two.values, "bill_total": 2100})
    abroad = replace(two, values={**two.values, "currency": "USD", "rate": 0.9})
    both = replace(other, values={**other.values, "currency": "USD", "rate": 0.9})
    neither = replace(one, values={**one.values, "bill_total": 1900})

    assert "say different totals and come to one of them" in only(ledger(one, other)).says
    assert "say different totals and come to none of them" in only(ledger(neither, other)).says
    assert "different currencies" in only(ledger(one, abroad)).says
    assert "say different totals and are in different currencies" in only(ledger(one, both)).says


def test_without_a_number_the_lines_of_a_shop_and_day_are_one_bill():
    one = entry(1, cost="4.00", shop="yard", bill_total="9.00")
    assert ledger(one, entry(2, item="sand", cost="5.00", shop="yard")).points == ()
    assert "the bill of 2026-05-03 of yard" in only(ledger(one)).says


@pytest.mark.parametrize(
    ("coins", "meant", "slip"),
    [(1423, 1243, True), (1490, 149, True), (149, 1490, True), (1490, 1590, False), (1423, 2413, False), (0, 900, False),
     (1423, 1423, False), (1234, 1324, True), (1234, 123, False), (14235, 12435, True), (150, 105, True), (105, 15, False)],
)  # fmt: skip
def test_a_slip_is_two_neighbors_swapped_or_the_point_one_place_over(coins, meant, slip):
    assert (meant in slips(coins)) is slip


def test_a_purchase_logged_twice_is_pointed_out_and_counted():
    twice = [entry(number, shop="yard", bill="17") for number in (1, 2)]
    found = ledger(*twice, entry(3, shop="yard", bill="18"), entry(4, shop="yard", bill="17", day="2026-05-04"))
    point = only(found)

    assert (point.sort, point.lines, point.coins) == (PointSort.TWICE, (1, 2), 1000)
    assert found.goods == 4000, "nothing is dropped"
    assert "written down twice" in point_told(point, found)


def test_money_of_another_currency_has_the_decimals_of_its_own():
    """A place that counts in whole coins may still pay 12.50 of another's; the printed digits of ISO 4217."""
    whole = replace(PRICES, currency="JPY", digits=0)

    def paid(digits=0, **fields):
        raw = sent("purchase", item="portland-cement", packs="1", **fields)
        return replace(entry_of(raw, digits=digits), seq=1)

    def told(each, prices=whole):
        running = RunningLedger(prices.currency, prices.digits)
        running.put(each)
        return ledger_of(running.found(), prices, USES, TODAY)

    apart, rated = told(paid(cost="12.50", currency="usd")), told(paid(cost="12.50", currency="USD", rate="150"))
    other = told(paid(2, cost="1875", currency="JPY", rate="0.006"), PRICES)
    (point,) = apart.points

    assert apart.abroad == (Abroad("USD", 1250, 1),)
    assert "USD 12.50" in point_told(point, apart).replace("\u00a0", " ")
    assert (rated.goods, other.goods) == (1875, 1125)
    assert paid_for_pack(paid(cost="12.50", currency="USD", rate="150"), "sand", whole, MIXING, Counter()).coins == 1875
    assert told(paid(cost="3", currency="JPY")).goods == 3
    with pytest.raises(InvalidPlan, match="at most 0 decimals"):
        paid(2, cost="1875.5", currency="JPY")
    with pytest.raises(InvalidPlan, match="at most 0 decimals"):
        paid(cost="12.50", currency="shells")
    assert [decimals_of(code, 1) for code in ("EUR", "kwd", "CLF", "JPY", "shells", "")] == [2, 3, 4, 0, 1, 1]


def test_money_that_names_the_currency_of_the_site_counts_in_its_coins_whatever_decimals_the_site_has():
    fine = replace(PRICES, digits=3)
    running = RunningLedger(fine.currency, fine.digits)
    running.put(entry(1, cost="12.50", haul="2.00", tax="1.00", currency="EUR", bill_total="14.50"))
    found = ledger_of(running.found(), fine, USES, TODAY)

    assert (found.goods, found.haul, found.tax, found.points) == (12500, 2000, 1000, ())
    assert (found.lines[0].paid, found.lines[0].paid_haul, found.lines[0].bill_total) == (14500, 2000, 14500)


def test_what_belongs_to_no_run_comes_last_and_has_no_length():
    found = ledger(entry(1, item="a hired mixer", cost="9.00"), entry(2))

    assert [share.name for share in found.by_run] == ["south/1", "east/1", "shared"]
    assert [share.length for share in found.by_run] == [12.0, 8.0, None]
    assert [share.name for share in found.by_layer][-1] == "shared"
    assert found.by_layer[-1].length is None
    assert found.by_layer[0].length == 20.0


def test_what_is_written_down_today_is_not_ahead():
    assert ledger(entry(1, day=TODAY.isoformat())).points == ()
    assert only(ledger(entry(1, day="2026-06-02"))).sort is PointSort.AHEAD


def test_a_line_tells_what_was_written_in_words_that_the_plan_has():
    moved, long, own, hired, dug = (
        books(each).lines[0]
        for each in (
            entry(1, "pile", item="brick"), entry(2, "pile", item="#4", length="3 m"), entry(3, currency="eur"),
            entry(4, item="a hired mixer"), entry(5, "hours", layer="digging"),
        )
    )  # fmt: skip

    assert (moved.amount, moved.pack) == (1.0, ""), "one where no number is told"
    assert long.pack == "3 m"
    assert own.currency == "", "the site's own, whatever the size of its letters"
    assert hired.what == "a hired mixer", "as written where the price list has no such thing"
    assert dug.layer == "trench"


def test_money_of_another_currency_is_kept_apart_unless_its_rate_is_told():
    found = ledger(entry(1, cost="20.00", haul="5.00", currency="usd"), entry(2, currency="eur"))
    rated = ledger(entry(1, cost="20.00", haul="5.01", currency="USD", rate="0.915"))

    assert found.spent == 1000
    assert [(each.currency, each.coins, each.number) for each in found.abroad] == [("USD", 2500, 1)]
    assert only(found).sort is PointSort.CURRENCY
    assert "usd" in point_told(only(found), found).casefold()
    assert (rated.goods, rated.haul, rated.abroad, rated.points) == (1830, 458, (), ())


def test_days_still_to_come_amounts_below_zero_and_more_back_than_bought_are_told_in_old_logs():
    early, minus = entry(1, day="2026-06-02"), entry(2, "leftover")
    minus = replace(minus, values={**minus.values, "packs": -1.0})

    assert (only(ledger(early)).sort, ledger(early).spent) == (PointSort.AHEAD, 1000)
    assert only(ledger(minus)).sort is PointSort.BELOW
    assert ledger(entry(1, "leftover", packs="0")).points == ()
    over = only(ledger(entry(1, packs="2"), entry(2, "leftover", packs="2.5")))
    assert (over.sort, over.says) == (PointSort.OVER, "portland-cement: 2.5 packs left over, 2 bought")
    assert ledger(entry(1, packs="2"), entry(2, "leftover", packs="2")).points == ()
    paid_back = only(ledger(entry(1, item="sand"), entry(2, "leftover", packs="2", worth="9.00")))
    assert (paid_back.sort, paid_back.says) == (PointSort.OVER, "portland-cement: 2 packs left over, none bought")
    assert ledger(entry(1, item="sand"), entry(2, "leftover", packs="2")).points == (), "bought before the log began"


def test_hours_at_a_layer_by_whichever_word_stand_in_one_row_with_its_goods():
    words = ("wall", "lay", "laying", "walling")
    worked = [entry(number, "hours", layer=word, place="south/1") for number, word in enumerate(words, start=1)]
    found = ledger(*worked, entry(9, item="trowel", layer="wall", place="south/1", cost="5.00"))
    (row,) = found.by_layer

    assert (row.name, row.spent, row.seconds) == ("wall", 500, 4 * 3600)
    assert [line.what for line in found.lines[:4]] == ["wall", "lay", "lay", "lay"]


def test_an_empty_ledger_says_how_to_begin():
    (begin,) = so_far(ledger(), System.US)

    assert "pinfold log add purchase" in begin.text
    assert "pinfold" not in begin.on_screen


def test_on_a_screen_what_is_pointed_out_leads_to_its_entries_and_names_no_command():
    found = ledger(
        *bill("12.40", "22.90", total="75.30"), entry(3, item="gravel", currency="GBP"),
        *(entry(number, item="brick", day="2026-06-02") for number in range(4, 24)),
    )  # fmt: skip
    _, *points = pointed_out(found)
    page = html_of(Page(title="", blocks=tuple(points)), System.METRIC)

    assert page.count("pinfold") == 0
    assert '<a href="/log/2">entry 2</a>, <a href="/log/new/purchase">a purchase more</a>' in page
    assert '<a href="/log/3">entry 3</a>' in page
    assert "(20 of them)" in page
    assert all("'pinfold log" in point.text for point in points), "paper and terminal have commands"


@pytest.fixture
def plot(tmp_path):
    start_site(tmp_path, "seed-garden", {})
    return tmp_path


def sent(kind, at="2026-05-03T14:20+02:00", number=1, **fields):
    return {"id": f"sent-{number:05}", "kind": kind, "at": at, "who": "ana", "device": "pc", "fields": fields}


@pytest.mark.parametrize(
    ("raw", "place", "says"),
    [
        (sent("hours", at="2199-05-03T14:20+02:00", time="3 h"), "at", "2199-05-03 is still to come"),
        (sent("purchase", at="2199-05-03T14:20Z", item="sand", packs="1", cost="1"), "at", "is the year right"),
        (sent("leftover", item="sand", packs="-1"), "packs", "'-1' cannot be; from 0 to 100 000 is wanted"),
        (sent("leftover", item="sand", packs="1", worth="-3"), "worth", "money from 0 up"),
        (sent("purchase", item="sand", packs="1", cost="1", tax="2"), "tax", "more than what was paid"),
        (sent("purchase", item="sand", packs="1", cost="1", rate="2"), "rate", "currency"),
        (sent("purchase", item="sand", packs="1", cost="1", currency="US dollars"), "currency", "at most 8"),
    ],
)
def test_what_cannot_be_is_refused_at_the_door_of_the_log(plot, raw, place, says):
    taken = take_entries(plot, [raw])[0]

    assert (taken.state, [wrong.place for wrong in taken.complaints]) == ("wrong", [place])
    assert says in taken.complaints[0].message.replace("\u00a0", " ")


def test_a_day_is_that_of_where_it_happened():
    late = entry_of(sent("hours", at="2026-05-04T01:00+14:00", time="1 h"))

    assert ahead(late, datetime(2026, 5, 3, 11, 30, tzinfo=UTC)) is None
    assert ahead(late, datetime(2026, 5, 3, 9, 30, tzinfo=UTC)) is not None


def test_reckon_follows_corrections_and_what_is_taken_back_and_the_pile_has_what_was_left(plot):
    take_entries(plot, [sent("purchase", item="sand", packs="2", cost="42.00"),
                        sent("leftover", number=2, item="portland-cement", packs="1.5", pack="100 lb", worth="9")])  # fmt: skip
    before = reckon_site(plot)
    take_entries(plot, [{**sent("purchase", number=3, item="sand", packs="2", cost="24.00"), "corrects": "sent-00001"},
                        {**sent("withdrawn", number=4), "corrects": "sent-00002"}])  # fmt: skip
    after = reckon_site(plot)

    assert (before.record.so_far.spent, after.record.so_far.spent) == (3300, 2400)
    text = told(before, as_json=False)
    assert "what it will cost" in text
    assert "USD\u00a033.00 spent so far" in text
    assert '"spent": 2400' in told(after, as_json=True)


def test_what_was_left_over_lies_on_the_pile(plot):
    listed = prices_of('format = 1\ncurrency = "EUR"\n[price."#4"]\npack = "20 ft"\ncost = "1"\n')
    left = [entry(1, "leftover", packs="1.5", pack="40 kg"), entry(2, "leftover", item="#4", packs="2.5"),
            entry(3, "leftover", item="block-8-hollow", packs="12"), entry(4, "leftover", item="magic"),
            entry(5, "leftover", item="sand", packs="1", pack="a heap")]  # fmt: skip
    found = left_over(left, listed, open_site(plot).plan.mixing)

    assert [(piece.item, piece.count, piece.amount and round(piece.amount), piece.length and round(piece.length, 3))
            for piece in found.pile] == [
        ("portland-cement", 1, 60, None), ("#4", 2, None, 6.096), ("#4", 1, None, 3.048), ("block-8-hollow", 12, None, None),
    ]  # fmt: skip
    assert set(found.set_aside) == {
        "leftover: nothing called 'magic' is known", "leftover of sand: a pack of 'a heap' cannot be read",
    }  # fmt: skip
