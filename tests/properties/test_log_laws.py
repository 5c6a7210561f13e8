"""Laws of the log: what goes in comes out, sending again or in another order changes nothing, corrections replace."""

from __future__ import annotations

import math
import tempfile
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from pinfold.errors import InvalidPlan
from pinfold.logbook.current import standing
from pinfold.logbook.entries import Entry, entry_of, raw_of
from pinfold.logbook.kinds import WITHDRAWN, Field, Sort, entry_kinds
from pinfold.store.log import open_log
from pinfold.store.log_backup import backup, restore
from pinfold.store.log_check import check
from pinfold.store.log_csv import csv_of, rows_of

NOW = "2026-05-03T12:20:00+00:00"
TEXT = st.text(
    st.characters(exclude_categories=("C", "Z"), include_characters=" \n\t=+-@;,'\"½°"), min_size=1, max_size=40
)
NAME = st.text(st.characters(exclude_categories=("C", "Z")), min_size=1, max_size=40)
ITEM = st.text(st.characters(exclude_categories=("C", "Z"), exclude_characters="=;"), min_size=1, max_size=40)
AMOUNT = st.builds(
    lambda number, unit: f"{number} {unit}",
    st.integers(1, 999), st.sampled_from(("bucket", "bags", "L", "kg", "lb", "gal", "shovels", "ft3", "barrow")),
)  # fmt: skip
UNITS = {  # text for a quantity: kind of quantity, its unit, what one of it is in SI, what nothing of it is in SI
    "length": (("m", 1, 0), ("mm", 1e-3, 0), ("ft", 0.3048, 0)), "area": (("m2", 1, 0), ("ft2", 0.09290304, 0)),
    "volume": (("L", 1e-3, 0), ("m3", 1, 0)), "mass": (("kg", 1, 0), ("lb", 0.45359237, 0)),
    "density": (("kg/m3", 1, 0), ("lb/ft3", 16.01846337, 0)), "temperature": (("°C", 1, 0), ("°F", 5 / 9, -160 / 9)),
    "time": (("h", 3600, 0), ("min", 60, 0), ("day", 86400, 0)), "speed": (("m/s", 1, 0), ("mph", 0.44704, 0)),
    "pressure or stress": (("MPa", 1e6, 0), ("psi", 6894.757, 0)), "plain number": (("", 1, 0), ("%", 0.01, 0)),
    "angle": (("deg", math.pi / 180, 0),),
}  # fmt: skip


@st.composite
def quantity(draw, field: Field):
    symbol, factor, zero = draw(st.sampled_from(UNITS[field.unit.kind]))
    wanted = field.low + (field.high - field.low) * draw(st.floats(0.001, 0.999))
    return f"{(wanted - zero) / factor:.9f} {symbol}".strip()


def typed(field: Field):
    if field.sort is Sort.QUANTITY:
        return quantity(field)
    if field.sort is Sort.COUNT:
        return st.integers(int(field.low), int(field.high)).map(str)
    if field.sort is Sort.MONEY:
        return st.decimals(0, 10**6, places=2).map(lambda money: f"{money:.2f}")
    if field.sort is Sort.CHOICE:
        return st.sampled_from(field.choices)
    if field.sort is Sort.AMOUNTS:
        return st.lists(
            st.lists(ITEM, min_size=1, max_size=1).flatmap(lambda one: AMOUNT.map(lambda text: [one[0], text])),
            max_size=5,
        )
    return TEXT.filter(lambda text: text.strip()).map(lambda text: text.replace("\r", "").strip()[: field.longest])


@st.composite
def entries(draw, *, most=8):
    """Entries of all kinds that need no photo, some of them corrections of others, of none, or of each other."""
    number = draw(st.integers(0, most))
    names = [f"entry-{place:04}" for place in range(number)]
    made = []
    for name in names:
        kind = draw(st.sampled_from([kind for kind in entry_kinds().values() if kind.name != "photo"]))
        seen = draw(st.sampled_from([way for way in kind.ways if len(way) == 1] or [()]))
        fields = {
            field.key: draw(typed(field))
            for field in kind.fields
            if field.sort is not Sort.PHOTO
            and (field.needed or field.key in seen or (not kind.ways and draw(st.booleans())))
        }
        others = ["", "gone-entry", *(other for other in names if other != name)]
        corrects = draw(st.sampled_from(others[1:] if kind.name == WITHDRAWN else others))
        at = f"2026-05-{draw(st.integers(1, 28)):02}T14:20{draw(st.sampled_from(('Z', '+02:00', '-05:30')))}"
        head = {"id": name, "kind": kind.name, "at": at, "who": draw(NAME), "device": "phone", "corrects": corrects}
        made.append(agreeing(head, fields))
    return made


def agreeing(head, fields):
    """The entry, without those of its fields that are each good and do not go with the others."""
    try:
        return entry_of({**head, "fields": fields})
    except InvalidPlan as wrong:
        apart = {problem.place for problem in wrong.problems}
        assert apart & set(fields)
        return agreeing(head, {key: text for key, text in fields.items() if key not in apart})


def plain(entry: Entry):
    return raw_of(entry), dict(entry.values)


def faults(folder):
    """What the log's own check tells, corrections of what was never sent aside."""
    return [told for told in check(folder) if "gone-entry" not in told]


def in_a_log(work):
    with tempfile.TemporaryDirectory() as folder, open_log(Path(folder)) as log:
        return work(log)


@settings(max_examples=40)
@given(entries())
def test_what_goes_in_comes_out_and_the_log_checks(sent):
    def work(log):
        log.append(sent, received=NOW)
        assert [plain(entry) for entry in log.entries(newest_first=False)] == [plain(entry) for entry in sent]
        assert faults(log.folder) == []

    in_a_log(work)


@settings(max_examples=40)
@given(entries(), st.data())
def test_sending_again_in_any_order_and_in_any_parts_changes_nothing(sent, data):
    again = data.draw(st.permutations([*sent, *sent]))
    size = data.draw(st.integers(1, 5))

    def work(log):
        log.append(sent, received=NOW)
        before, tip = log.entries(), log.tip()
        for start in range(0, len(again), size):
            told = log.append(again[start : start + size], received="later")
            assert {receipt.outcome for receipt in told} == {"known"}
        assert (log.entries(), log.tip()) == (before, tip)

    in_a_log(work)


@settings(max_examples=40)
@given(entries(), st.data())
def test_the_log_notes_what_stands_as_it_is_worked_out_from_all_entries_in_whatever_order_they_come(sent, data):
    order = data.draw(st.permutations(sent))

    def work(log):
        for entry in order:
            log.append([entry], received=NOW)
        everything = log.entries()
        assert {entry.id for entry in log.entries(standing=True)} == {entry.id for entry in standing(everything)}
        assert log.count(standing=True) == len(standing(everything))
        for entry in everything:
            history = log.history(entry.id)
            assert entry in history
            assert len(standing(history)) <= 1

    in_a_log(work)


@given(entries())
def test_what_stands_are_some_of_the_entries_none_taken_back_in_the_order_of_time(sent):
    placed = [Entry(**{**vars(entry), "seq": seq}) for seq, entry in enumerate(sent, start=1)]
    kept = standing(placed)

    assert {entry.id for entry in kept} <= {entry.id for entry in placed}
    assert all(entry.kind != WITHDRAWN for entry in kept)
    assert [(entry.when, entry.seq) for entry in kept] == sorted((entry.when, entry.seq) for entry in kept)
    untouched = {e.id for e in placed if not e.corrects} - {e.corrects for e in placed}
    assert untouched <= {entry.id for entry in kept}
    assert standing(reversed(placed)) == kept
    assert standing(kept) == kept or any(entry.corrects for entry in kept)


@settings(max_examples=40)
@given(entries())
def test_csv_out_and_in_again_is_the_same(sent):
    rows = rows_of(csv_of(sent), name="log.csv", who="me", device="pc")

    assert [row.complaints for row in rows if row.complaints] == []
    assert [plain(row.entry) for row in rows] == [plain(entry) for entry in sent]


@settings(max_examples=20)
@given(entries(), entries())
def test_a_backup_brought_back_over_any_log_adds_what_is_missing_and_nothing_else(saved, there):
    def work(log):
        log.append(saved, received=NOW)
        file = log.folder / "b.pinfold-log"
        if saved:
            backup(log.folder, file)
        other = log.folder / "other"
        other.mkdir()
        with open_log(other) as copy:
            copy.append(there, received=NOW)
            before = copy.entries()
            if saved:
                restored = restore(file, other)
                assert restored.new + restored.known + len(restored.conflicts) == len(saved)
            assert copy.entries()[-len(before) :] == before or not before
            assert {entry.id for entry in copy.entries()} == {entry.id for entry in (*saved, *there)}
        assert faults(other) == []

    in_a_log(work)
