"""Plan against actual: reasons add up to the last coin, and each sort of trouble is told by its own name."""

from __future__ import annotations

import math
from datetime import UTC, date, datetime
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest

from days_jobs import plan
from half_built import THICK, half_built, write
from pinfold.actions.answers import told
from pinfold.actions.reckon_actuals import against_site, held_against
from pinfold.actions.reckon_forecast import forecast_site
from pinfold.actions.reckoning import reckon_site
from pinfold.actions.reckonings import reckon_all
from pinfold.actions.sites import open_site
from pinfold.logbook.entries import entry_of
from pinfold.plan.people import HOUR
from pinfold.reports.pages import Working
from pinfold.reports.reckon_actuals import hours_said
from pinfold.store.log import open_log
from pinfold.store.starting import from_sample
from pinfold.studies.actuals.against import actuals
from pinfold.studies.actuals.done import Done
from pinfold.studies.actuals.ladder import Rung, coin_reasons, reasons
from pinfold.studies.actuals.records import UNEXPLAINED
from pinfold.studies.costing import run_by_place
from pinfold.studies.days.durations import job_of
from pinfold.studies.days.progress import progress_of
from pinfold.studies.days.tasks import tasks_of
from pinfold.studies.forecasting.earned import earned

TODAY = date(2026, 7, 1)
NOW = datetime(2026, 7, 1, 8, tzinfo=UTC)
ZONE = ZoneInfo("Europe/Lisbon")


@pytest.fixture(scope="module", params=["quinta", "seed-garden"])
def sample(request, tmp_path_factory):
    folder = tmp_path_factory.mktemp("plots") / request.param
    from_sample(folder, request.param)
    return request.param, open_site(folder)


@pytest.fixture(scope="module")
def quinta(tmp_path_factory):
    folder = tmp_path_factory.mktemp("plots") / "quinta"
    from_sample(folder, "quinta")
    return open_site(folder)


def held(site, entries, today=TODAY):
    counted = reckon_all(site)
    job = job_of(tasks_of(site.layout, counted.quantities, counted.cards), site.plan.people)
    done = Done(job=job, left=progress_of(job, entries).left, runs=run_by_place(site.layout))
    return actuals(done, entries, site.plan, (counted.gathered, site.prices), today)


def entry(kind, number=1, day="2026-05-04", **fields):
    at = datetime.fromisoformat(f"{day}T09:00").replace(tzinfo=ZONE).isoformat()
    return entry_of({"id": f"{kind}-{number:06}", "kind": kind, "at": at, "who": "crew", "device": "phone",
                     "fields": fields})  # fmt: skip


def coat(number=1, **fields):
    told = {"place": "valley/1a", "face": "outer", "layer": "lime-first", "area": "4 m2", **fields}
    return entry("coat", number, **told)


def mix_row(found, name="lime-first", run="valley/1"):
    return next(row for row in found.mixes if row.coat == name and row.run == run)


def test_reasons_add_up_to_every_difference(sample):
    name, site = sample
    found = held(site, [entry_of(raw) for raw in half_built(name)])

    for row in found.hours:
        if row.took is not None:
            assert math.fsum(each.by for each in row.reasons) == pytest.approx(row.took - row.due, abs=1e-5)
    for row in found.mixes:
        if row.mixed is not None:
            assert math.fsum(each.by for each in row.reasons) == pytest.approx(row.mixed - row.due, abs=1e-9)
    for row in found.coins:
        assert sum(each.coins for each in row.reasons) == row.took - row.due
    assert sum(row.planned for row in found.coins) == reckon_all(site).costs.goods
    assert any(row.took != row.due for row in found.coins)


def test_all_hours_of_the_log_are_in_it(sample):
    name, site = sample
    entries = [entry_of(raw) for raw in half_built(name)]
    logged = math.fsum(e.number("time") * e.number("people") for e in entries if e.kind == "hours")
    found = held(site, entries)

    assert math.fsum(row.took or 0 for row in found.hours) + found.unplaced_time == pytest.approx(logged)


def test_a_coat_laid_thick_is_the_reason_for_more_mix(quinta):
    thick = mix_row(held(quinta, [coat(thickness="12.5 mm", batches="0.5")]))

    (reason,) = [each for each in thick.reasons if each.says == "coat laid thicker than planned"]
    assert reason.by == pytest.approx(thick.due * (THICK - 1))


def test_more_mix_than_thickness_and_yield_take_is_waste_and_else_not_explained(quinta):
    batch = entry("batch", mix="lime-plaster", batches="3", layer="coat", place="valley/1a")
    made = entry("batch", mix="lime-plaster", batches="3", layer="coat", place="valley/1a", made="60 L")
    dark = mix_row(held(quinta, [coat(), batch]))
    clear = mix_row(held(quinta, [coat(thickness="10 mm"), made]))

    assert [each.says for each in dark.reasons] == [UNEXPLAINED]
    assert clear.reasons[-1].says.startswith("waste")


def test_a_batch_thrown_away_counts_once(quinta):
    laid = coat(batches="1")
    batch = entry("batch", mix="lime-plaster", batches="2", thrown="1", layer="coat", place="valley/1a")
    row = mix_row(held(quinta, [laid, batch]))
    thrown = [each.by for each in row.reasons if each.says == "batches thrown away"]

    assert math.fsum(thrown) > 0
    assert math.fsum(each.by for each in row.reasons) == pytest.approx(row.mixed - row.due)


def test_what_rain_washed_off_is_not_done_twice_but_paid_twice(quinta):
    again = coat(2, area="2 m2", again="rain", batches="0.3")
    first = mix_row(held(quinta, [coat(batches="0.6")]))
    both = mix_row(held(quinta, [coat(batches="0.6"), again]))

    assert both.due == first.due
    (reason,) = [each for each in both.reasons if each.says == "done again, because of rain"]
    assert reason.by == pytest.approx(first.due / 2)


def test_hours_done_again_are_told_apart_from_slow_ones(quinta):
    place = {"layer": "coat", "place": "valley/1a", "people": "1"}
    found = held(quinta, [entry("hours", 1, time="5 h", done_area="4 m2", **place),
                          entry("hours", 2, time="2 h", again="rain", done_area="2 m2", **place)])  # fmt: skip
    (row,) = [row for row in found.hours if row.work == "coat" and row.run == "valley/1"]

    assert row.took == pytest.approx(7 * HOUR)
    assert ("done again, because of rain", pytest.approx(2 * HOUR)) in row.reasons
    assert row.due == held(quinta, [entry("hours", 1, time="5 h", done_area="4 m2", **place)]).hours[
        found.hours.index(row)].due  # fmt: skip


def test_prices_paid_above_the_list_are_told_to_the_coin(quinta):
    found = held(quinta, [entry("purchase", item="cement", packs="3", pack="25 kg", cost="17.00"),
                          entry("purchase", 2, item="portland-cement", packs="1", pack="50 kg", cost="10.40")])  # fmt: skip
    (cement,) = found.bought

    assert cement.item == "portland-cement"
    assert (cement.packs, cement.listed, cement.paid, cement.dearer) == (5.0, 2600, 2740, 140)


def test_what_is_done_without_hours_in_the_log_is_no_thrift():
    one = earned(budget=100.0, planned=50.0, done=40.0, told=10.0, spent=12.0)
    all_told = earned(budget=100.0, planned=50.0, done=40.0, told=40.0, spent=42.0)

    assert one.cost_index == pytest.approx(10 / 12), "not 40 over 12"
    assert (one.cost_difference, one.schedule_difference) == (-2.0, -10.0)
    assert one.as_planned == all_told.as_planned == 102.0
    assert one.index_to_complete == all_told.index_to_complete == pytest.approx(60 / 58)


def test_hours_that_do_not_say_what_was_done_are_in_the_end_and_not_in_the_index():
    plain = earned(budget=100.0, planned=50.0, done=40.0, told=40.0, spent=50.0)
    more = earned(budget=100.0, planned=50.0, done=40.0, told=40.0, spent=50.0, besides=7.0)

    assert (more.cost_index, more.cost_difference) == (plain.cost_index, plain.cost_difference)
    assert (plain.as_planned, more.as_planned) == (110.0, 117.0)
    assert more.by_both == pytest.approx(plain.by_both + 7.0)
    assert more.index_to_complete == pytest.approx(60 / 43)


def logged(folder, *entries):
    """The metric sample with some entries in its log."""
    from_sample(folder, "quinta")
    with open_log(folder) as log:
        log.append(list(entries), received="2026-07-01T00:00:00.000+00:00")
    return folder


def test_the_page_names_hours_that_do_not_say_what_was_done(tmp_path):
    folder = logged(
        tmp_path / "quinta",
        entry("hours", 1, time="6 h", layer="dig", place="valley", done_length="3 m"),
        entry("hours", 2, time="9 h", layer="press blocks", place="valley"),
        entry("hours", 3, time="2 h", layer="singing"),
    )
    found = forecast_site(folder, now=NOW).answer
    hours = found.record.hours

    assert (hours.spent, hours.besides) == (pytest.approx(6 * HOUR), pytest.approx(11 * HOUR))
    assert hours.cost_index == pytest.approx(hours.told / (6 * HOUR))
    assert "11.0 h of those worked do not say what" in told(found, as_json=False).replace("\n", " ")


def test_the_page_names_work_that_is_done_without_hours(tmp_path):
    folder = logged(
        tmp_path / "quinta", entry("hours", time="6 h", people="2", layer="lay", place="valley", done_area="1.2 m2")
    )
    found = forecast_site(folder, now=NOW).answer
    hours = found.record.hours

    assert hours.told < hours.earned
    assert hours.cost_index == pytest.approx(hours.told / hours.spent)
    assert "work that is done and has no hours in the log" in told(found, as_json=False).replace("\n", " ")


def test_without_any_price_goods_are_not_shown_and_no_sum_of_nothing(tmp_path):
    folder = tmp_path / "quinta"
    from_sample(folder, "quinta")
    (folder / "prices.toml").unlink()
    before = forecast_site(folder, now=NOW).answer
    with open_log(folder) as log:
        log.append([entry("purchase", item="portland-cement", packs="2", pack="25 kg", cost="10.00")],
                   received="2026-07-01T00:00:00.000+00:00")  # fmt: skip
    after = forecast_site(folder, now=NOW).answer

    assert (before.record.goods, before.record.to_pay, before.record.goods_to_come) == (None, None, None)
    assert "What it will cost is NOT SHOWN" in told(before, as_json=False)
    assert after.record.goods is not None
    assert f"Goods in all, without {after.record.unpriced} things that have no price" in " ".join(
        told(after, as_json=False).split()
    )


def test_what_is_left_over_and_lies_there_is_not_saved_a_second_time(tmp_path):
    bought = entry("purchase", item="portland-cement", packs="10", pack="25 kg", cost="52.00")
    left = {"item": "portland-cement", "packs": "8", "pack": "25 kg"}
    came = entry("pile", way="in", item="portland-cement", count="4")

    def goods(name, *entries):
        folder = logged(tmp_path / name, *entries)
        found = forecast_site(folder, now=NOW).answer.record
        return found.goods.likely, found.to_pay.likely

    plain, to_pay = goods("bought", bought)
    assert goods("left", bought, entry("leftover", **left)) == (plain, to_pay)
    assert goods("returned", bought, entry("leftover", worth="40.00", **left)) == (plain, pytest.approx(to_pay + 4000))
    assert goods("out", bought, entry("pile", way="out", item="pipe-60", count="4", length="3 m")) == (plain, to_pay)
    assert goods("found", bought, came)[0] < plain, "what was found and came onto the pile is saved"


def test_no_more_counts_as_done_than_was_planned_nor_as_told_than_is_done():
    """Rounding and an eager log may say more; then the rest would come to less than nothing."""
    more = earned(budget=100.0, planned=50.0, done=120.0, told=130.0, spent=80.0)

    assert (more.earned, more.told) == (100.0, 100.0)
    assert more.as_planned == pytest.approx(80.0)
    assert more.cost_index == pytest.approx(100.0 / 80.0)
    assert more.index_to_complete == pytest.approx(0.0)


def test_once_the_budget_is_spent_no_index_of_the_rest_reaches_it():
    over = earned(budget=100.0, planned=80.0, done=60.0, told=60.0, spent=70.0, besides=30.0)

    assert over.index_to_complete is None
    assert over.as_planned == pytest.approx(140.0)
    assert over.by_index == pytest.approx(100.0 * 70.0 / 60.0)


def test_the_working_of_a_forecast_is_in_hours_and_money_as_all_of_it_is(tmp_path):
    folder = tmp_path / "quinta"
    from_sample(folder, "quinta")
    write(folder, "quinta")
    answer = forecast_site(folder, now=NOW).answer
    found, page = answer.record, answer.page
    worked = {block.text: after for block, after in pairwise(page.blocks) if isinstance(after, Working)}
    hours, goods = worked["Hours of one person worked out"].steps, worked["Goods worked out, in EUR"].steps

    for steps, of, size in ((hours, found.hours, 3600.0), (goods, found.money, 100.0)):
        assert [step.formula for step in steps] == [step.formula for step in of.working]
        assert dict(steps[0].inputs)["spent"] == pytest.approx(of.spent / size)
        assert steps[0].number == pytest.approx(of.cost_difference / size)
        assert steps[3].number == pytest.approx(of.cost_index), "an index has no unit"


def test_the_cost_of_the_whole_plan_stays_whatever_is_left_over_or_taken_off_the_pile(tmp_path):
    bought = entry("purchase", item="portland-cement", packs="10", pack="25 kg", cost="52.00")
    left = entry("leftover", item="portland-cement", packs="8", pack="25 kg", worth="40.00")
    out = entry("pile", way="out", item="flat-stone", count="40")
    came = entry("pile", way="in", item="portland-cement", count="4")

    def costs(name, *entries):
        folder = logged(tmp_path / name, *entries)
        return reckon_site(folder).record.planned.total, reckon_all(open_site(folder)).costs.total

    planned, to_buy = costs("bought", bought)
    assert planned == to_buy
    assert costs("left", bought, left) == (planned, pytest.approx(to_buy - 8 * 520, abs=600)), "by whole packs"
    whole, then_to_buy = costs("out", bought, out)
    assert whole == planned < then_to_buy
    assert costs("found", bought, came)[0] < planned, "what was found and came onto the pile is saved"


def test_nothing_logged_is_nothing_held_against_the_plan(quinta):
    found = held(quinta, [])

    assert not any(row.took for row in found.hours)
    assert not found.bought
    assert all(row.due == 0 and row.took == 0 for row in found.coins)


def test_work_on_a_day_that_is_not_yet_is_pointed_out_and_the_rest_still_told(quinta):
    found = held(quinta, [coat(batches="1"), entry("hours", day="2026-08-01", time="3 h", layer="mesh")])

    assert any("an entry, hours of 2026-08-01, lies ahead of today" in text for text in found.missing)
    assert mix_row(found).mixed == 1


def test_what_is_told_of_a_side_is_told_of_its_runs(quinta):
    found = held(quinta, [
        entry("hours", 1, time="7 h", people="2", layer="dig", place="valley", done_length="18 m"),
        entry("batch", 1, mix="concrete-footing", layer="footing", place="valley", batches="30"),
        entry("coat", 1, place="valley", face="outer", layer="lime-first", area="8 m2", batches="2"),
        entry("hours", 2, time="4 h", layer="posts", place="valley", done_count="3"),
    ])  # fmt: skip
    rows = {(row.work, row.run): row for row in found.hours}
    mixes = {(row.layer, row.run): row for row in found.mixes}

    assert rows["dig", "valley/1"].took == pytest.approx(14 * HOUR)
    assert rows["dig", "lane/1"].took is None
    assert rows["posts", "valley/1"].took == pytest.approx(4 * HOUR)
    assert mixes["footing", "valley/1"].mixed == pytest.approx(30)
    assert mix_row(found).mixed == pytest.approx(2)


def test_work_done_because_of_what_came_after_it_is_named(tmp_path):
    folder = tmp_path / "quinta"
    from_sample(folder, "quinta")
    with open_log(folder) as log:
        log.append(
            [coat(), entry("hours", time="2 h", layer="coat", place="valley/1")], received="2026-05-04T12:00:00+00:00"
        )
    blocks = against_site(folder).page.blocks

    assert any("Taken as done, since work that comes after it" in getattr(block, "text", "") for block in blocks)
    assert "lay valley/1" in held_against(folder).actuals.implied


def test_an_unknown_word_for_work_belongs_to_no_work(quinta):
    assert held(quinta, [entry("hours", time="3 h", layer="singing")]).unplaced_time == 3 * HOUR


def test_a_thing_that_nobody_knows_is_named(quinta):
    assert any("moonstone" in text for text in held(quinta, [entry("purchase", item="moonstone", packs="1",
                                                                   cost="5.00")]).missing)  # fmt: skip


def test_rungs_add_up_whatever_they_are():
    assert math.fsum(each.by for each in reasons(10, [Rung("a", 12.5), Rung("b", 12.5), Rung("c", 7)])) == -3
    last, why = coin_reasons(100, [Rung("a", 100.4), Rung("b", 133.5), Rung("c", 99.7)])
    assert last == 100
    assert sum(each.coins for each in why) == 0


def test_both_samples_have_an_invented_log():
    for name in ("quinta", "seed-garden"):
        kinds = {raw["kind"] for raw in half_built(name)}
        assert {"hours", "batch", "coat", "purchase", "weather"} <= kinds
        assert plan(name).people.count


def test_where_the_log_cannot_be_read_nothing_is_said_to_be_in_it(tmp_path):
    folder = tmp_path / "quinta"
    from_sample(folder, "quinta")
    (folder / "log.sqlite").write_bytes(b"garbage" * 500)
    (text,) = [block.text for block in against_site(folder).page.blocks if "log" in getattr(block, "text", "")]

    assert text == "What was done is NOT SHOWN: the log cannot be read."


def test_hours_are_told_with_their_thousands_apart():
    assert [hours_said(hours * 3600.0) for hours in (0.25, 99.94, 1230.4, -1230.4)] == [
        "0.2 h", "99.9 h", "1\u00a0230 h", "-1\u00a0230 h",
    ]  # fmt: skip
