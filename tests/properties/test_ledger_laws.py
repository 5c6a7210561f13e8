"""Laws of the ledger: sums are exact in coins however lines are split, ordered, corrected, shared out or carried."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from ledgers import USES, books, entry
from pinfold.logbook.current import standing
from pinfold.plan.stock import NO_PRICES
from pinfold.store.ledger_csv import LedgerSheet, ledger_csv, ledger_rows
from pinfold.studies.costing import shared_out
from pinfold.studies.ledger.adding import ledger_of
from pinfold.studies.ledger.running import RunningLedger

PRICES = replace(NO_PRICES, currency="EUR", trip=731, hour=1799)
TODAY = date(2027, 1, 1)
ITEMS, PLACES = ("portland-cement", "sand", "gravel", "trowel"), ("", "south", "south/1", "gate", "nowhere")
COINS = st.integers(0, 10**7).map(lambda coins: f"{coins // 100}.{coins % 100:02}")
SHARED = {"layer": st.sampled_from(("", "mortar", "footing", "roof")), "place": st.sampled_from(PLACES)}


def ledger(found):
    return ledger_of(found, PRICES, USES, TODAY)


@st.composite
def fields(draw):
    kind = draw(st.sampled_from(("purchase", "leftover", "hours", "pile")))
    shared = {key: draw(values) for key, values in SHARED.items() if kind != "pile" or key == "place"}
    packs = str(draw(st.integers(1, 900)) / 10)
    own = {
        "purchase": lambda: {"item": draw(st.sampled_from(ITEMS)), "packs": packs, "cost": draw(COINS), **draw(extras)},
        "leftover": lambda: {"item": draw(st.sampled_from(ITEMS)), "packs": packs, "worth": draw(COINS)},
        "hours": lambda: {"time": f"{draw(st.integers(1, 1439))} min", "people": str(draw(st.integers(1, 9)))},
        "pile": lambda: {"way": draw(st.sampled_from(("in", "out"))), "item": draw(st.sampled_from(ITEMS)),
                         "worth": draw(COINS)},
    }[kind]()  # fmt: skip
    return kind, {**own, **shared}


extras = st.fixed_dictionaries(
    {}, optional={
        "haul": COINS, "trips": st.integers(0, 5).map(str), "shop": st.sampled_from(("yard", "mill")),
        "bill": st.sampled_from(("17", "18")), "bill_total": COINS, "currency": st.sampled_from(("USD", "eur", "GBP")),
    },
)  # fmt: skip
LISTS = st.lists(fields(), max_size=12)


def entries_of(listed):
    return [entry(number, kind, **said) for number, (kind, said) in enumerate(listed, start=1)]


@given(LISTS)
def test_shares_by_layer_and_by_run_add_up_to_the_whole_to_the_coin_and_second(listed):
    found = ledger(books(*entries_of(listed)))

    for shares in (found.by_layer, found.by_run):
        assert sum(share.spent for share in shares) == found.spent
        assert sum(share.own for share in shares) == found.own
        assert sum(share.seconds for share in shares) == found.seconds
    assert found.spent == found.goods + found.haul + found.reclaimed - found.back
    assert found.total == found.spent + found.own


@given(LISTS, st.randoms(use_true_random=False))
def test_the_order_that_entries_come_in_changes_nothing(listed, chance):
    entries = entries_of(listed)
    other = chance.sample(entries, len(entries))

    assert ledger(books(*other)) == ledger(books(*entries))


@given(LISTS, st.lists(st.tuples(st.integers(0, 30), st.booleans(), fields()), max_size=8))
def test_sums_kept_entry_by_entry_are_those_of_what_stands(listed, changes):
    entries, running = entries_of(listed), RunningLedger("EUR", 2)
    for each in entries:
        running.put(each)
    for at, (which, taken_back, (kind, said)) in enumerate(changes):
        before = standing(entries)
        if before:
            corrected = before[which % len(before)]
            number, kind, said = len(entries) + 1, *(("withdrawn", {}) if taken_back else (kind, said))
            entries.append(entry(number, kind, corrects=corrected.id, **said))
            running.drop(corrected.id)
            if not taken_back:
                running.put(entries[-1])
        if at % 2:
            running.found()  # asked in between

    assert ledger(running.found()) == ledger(books(*standing(entries)))


@given(st.integers(0, 10**9), st.lists(st.integers(1, 10**6), min_size=1, max_size=9))
def test_a_purchase_split_into_several_lines_costs_the_same(coins, weights):
    parts = shared_out(coins, [float(weight) for weight in weights])
    lines = [entry(at, cost=f"{part // 100}.{part % 100:02}") for at, part in enumerate(parts, start=1)]

    whole, split = (ledger(books(*each)) for each in ([entry(1, cost=f"{coins // 100}.{coins % 100:02}")], lines))
    assert (split.spent, split.by_layer, split.by_run) == (whole.spent, whole.by_layer, whole.by_run)


@given(st.integers(-(10**9), 10**9), st.lists(st.floats(0, 1e6), min_size=1, max_size=9))
def test_coins_are_shared_out_whole_below_zero_too_and_none_is_off_by_a_coin(coins, weights):
    parts, whole = shared_out(coins, weights), sum(map(Fraction, weights))

    assert sum(parts) == coins
    if whole > 0:
        assert all(
            abs(part - coins * Fraction(weight) / whole) < 2 for part, weight in zip(parts, weights, strict=True)
        )


@given(LISTS, st.sampled_from(",;\t"), st.booleans())
def test_written_as_csv_and_brought_in_elsewhere_it_is_the_same_ledger(listed, between, marked):
    entries = entries_of(listed)
    text = ledger_csv(entries)
    if between != "," and not any("," in str(each.typed) for each in entries):
        text = text.replace(",", between)
    rows = ledger_rows("\ufeff" * marked + text, sheet())

    assert [row.complaints for row in rows] == [()] * len(entries)
    brought = [replace(row.entry, seq=number) for number, row in enumerate(rows, start=1)]
    assert ledger(books(*brought)) == ledger(books(*entries))
    known = {each.id: each for each in entries}
    again = ledger_rows(text, sheet(known.get))
    assert [row.entry for row in again] == entries, "nothing is written a second time"


def sheet(there=lambda _: None):
    return LedgerSheet(
        name="ledger.csv", who="ana", device="pc", digits=2, there=there,
        at_of=lambda day: datetime(day.year, day.month, day.day, 12, tzinfo=UTC).isoformat(),
    )  # fmt: skip
