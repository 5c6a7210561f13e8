"""Lessons carried to another site folder: what goes, what stays, that nothing counts twice, and a file that is bad."""

from __future__ import annotations

import json
import shutil

import pytest

from pinfold.actions.answers import told
from pinfold.actions.carrying import carry_here, start_with_lessons
from pinfold.actions.reckon_lessons import lessons_of
from pinfold.actions.sites import open_site, start_site
from pinfold.cli import main
from pinfold.errors import InputError, InvalidPlan, NewerFileError, NotFoundError
from pinfold.logbook.entries import entry_of
from pinfold.sources import Standing
from pinfold.store.lessons_file import lessons_of as read_file
from pinfold.store.lessons_file import lessons_text
from pinfold.store.log import open_log
from pinfold.studies.lessons.records import Topic

NOW = "2025-05-03T12:20:00+00:00"


def entry(number: int, kind: str, **fields):
    raw = {"id": f"entry-{number:06}", "kind": kind, "at": f"2025-04-{number % 28 + 1:02}T10:00+02:00", "who": "Ana",
           "device": "pc", "fields": fields}  # fmt: skip
    return entry_of(raw)


def batch(number: int, made: str):
    amounts = [["water", "12 L"], ["sand", "30 L"], ["hydraulic-lime", "10 L"]]
    return entry(number, "batch", mix="lime-plaster", made=made, amounts=amounts, place="granny's corner")


def log_of(folder, *entries):
    with open_log(folder) as log:
        log.append(list(entries), received=NOW)


@pytest.fixture
def there(tmp_path):
    """A site with a log that has something to give."""
    folder = tmp_path / "there"
    start_site(folder, "quinta", {})
    log_of(
        folder, *(batch(number, f"{30 + number} L") for number in range(1, 5)),
        entry(11, "bucket", item="portland-cement", measure="bucket", mass="16.2 kg"),
        entry(12, "bucket", item="sand", measure="bucket", mass="18 kg"),
        entry(13, "hours", time="4 h", people="2", layer="coat", done_area="10 m2"),
        entry(14, "hours", time="4 h", people="2", layer="granny's corner", done_area="10 m2"),
        entry(15, "purchase", item="quicklime", packs="2", cost="30.00", pack="5 kg", shop="Old Tom"),
    )  # fmt: skip
    return folder


def carried(folder, there, *going):
    return start_with_lessons(folder, "quinta", {}, [there], going)


def one(folder, topic):
    return next(lesson for lesson in open_site(folder).lessons.lessons if lesson.topic is topic)


def test_a_site_starts_with_the_lessons_of_another_wider_than_they_were(there, tmp_path):
    started = carried(tmp_path / "here", there)
    was, now = one(there, Topic.YIELD), one(tmp_path / "here", Topic.YIELD)

    assert started.written[-1].name == "lessons.toml"
    assert now.count == 0
    assert now.prior.shipped.value == was.prior.value
    assert was.prior.value < now.value < was.value
    assert was.spread < now.spread < was.prior.spread
    assert "learned at Quinta, 4 entries" in now.told
    figures = {(each.kind, each.name): each.figure for each in open_site(tmp_path / "here").lessons.figures}
    assert figures["lime-plaster", "yield_ratio"].value == now.value
    assert figures["lime-plaster", "yield_ratio"].standing is Standing.LEARNED


def test_own_entries_go_over_what_was_carried(there, tmp_path):
    here = tmp_path / "here"
    carried(here, there)
    before = one(here, Topic.YIELD)
    log_of(here, *(batch(100 + number, "26 L") for number in range(6)))
    after = one(here, Topic.YIELD)

    assert after.count == 6
    assert after.value < before.value
    assert after.spread < before.spread
    assert after.prior.shipped is not None


def test_nothing_of_anybody_s_words_goes_along_and_what_stays_is_told(there, tmp_path):
    started = carried(tmp_path / "here", there)
    text = (tmp_path / "here" / "lessons.toml").read_text(encoding="utf-8")

    for word in ("granny", "Tom", "Ana", "entry-0"):
        assert word not in text
    said = "\n".join(started.told)
    assert "sand, loose: from another pit" in said
    assert "words of yours do not go along" in said
    assert {each.subject for each in open_site(tmp_path / "here").lessons.about(Topic.PACE)} == {"coat"}


def test_sand_of_the_same_pit_goes_along_where_it_is_asked_for(there, tmp_path):
    carried(tmp_path / "here", there, "sand")
    lessons = open_site(tmp_path / "here").lessons.lessons

    assert [lesson.subject for lesson in lessons] == ["sand, loose"]
    with pytest.raises(InputError, match="'sans' found; any of binders, sand"):
        carried(tmp_path / "other", there, "sans")
    assert not (tmp_path / "other").exists()


def test_by_way_of_another_place_and_straight_it_counts_once(there, tmp_path):
    middle, straight, both = (tmp_path / name for name in ("middle", "straight", "both"))
    carried(middle, there)
    carried(straight, there)
    start_with_lessons(both, "quinta", {}, [middle, there])

    assert (both / "lessons.toml").read_text() == (straight / "lessons.toml").read_text()
    again = carry_here(both, [there, middle])
    assert (both / "lessons.toml").read_text() == (straight / "lessons.toml").read_text()
    assert again.written == (both / "lessons.toml",)


def test_a_log_that_grew_since_takes_the_place_of_what_was_carried_of_it(there, tmp_path):
    here = tmp_path / "here"
    carried(here, there)
    log_of(there, batch(5, "35 L"))
    carry_here(here, [there])
    found = open_site(here).carried

    assert len(found.sites) == 1
    assert {each.count for each in found.sites[0].figures if each.topic == "yield"} == {5}


def test_two_places_are_both_told_and_make_it_surer(there, tmp_path):
    second, both, first = (tmp_path / name for name in ("second", "both", "first"))
    start_site(second, "quinta", {})
    log_of(second, *(batch(200 + number, "30 L") for number in range(4)))
    start_with_lessons(both, "quinta", {}, [there, second])
    carried(first, there)

    assert one(both, Topic.YIELD).spread < one(first, Topic.YIELD).spread


def test_a_copied_folder_does_not_learn_its_own_entries_again(there, tmp_path):
    copy = tmp_path / "copy"
    shutil.copytree(there, copy)
    carry_here(copy, [there])

    assert one(copy, Topic.YIELD).value == one(there, Topic.YIELD).value
    assert "entries of it are in this log too" in open_site(copy).lessons.carried_told[0]


def test_how_alike_places_are_can_be_written_otherwise(there, tmp_path):
    here = tmp_path / "here"
    carried(here, there)
    file = here / "lessons.toml"
    file.write_text(file.read_text().replace('alike = "50 %"', 'alike = "100 %"'))
    same = one(here, Topic.YIELD)
    file.write_text(file.read_text().replace('alike = "100 %"', 'alike = "0 %"'))

    assert same.value == pytest.approx(one(there, Topic.YIELD).value, rel=1e-5)
    assert same.spread == pytest.approx(one(there, Topic.YIELD).spread, rel=1e-5)
    assert open_site(here).lessons.is_empty


def test_prices_of_another_currency_do_not_count_and_it_is_told(there, tmp_path):
    started = start_with_lessons(tmp_path / "here", "seed-garden", {}, [there])

    assert any("are in EUR, here it is USD: they do not count" in line for line in started.told)
    assert "quicklime" not in open_site(tmp_path / "here").lessons.prices.by_item


def test_a_price_paid_elsewhere_counts_where_none_is_known(there, tmp_path):
    carried(tmp_path / "here", there)

    assert open_site(tmp_path / "here").lessons.prices.by_item["quicklime"].cost == 1500


def test_a_log_with_nothing_to_give_is_told(tmp_path):
    start_site(tmp_path / "empty", "quinta", {})
    started = carried(tmp_path / "here", tmp_path / "empty")

    assert started.told == ("Quinta: its log has nothing to give yet",)
    assert open_site(tmp_path / "here").lessons.is_empty


def test_a_folder_that_is_no_site_stops_before_anything_is_written(tmp_path):
    with pytest.raises(NotFoundError):
        carried(tmp_path / "here", tmp_path / "nowhere")
    assert not (tmp_path / "here").exists()


def test_its_own_folder_is_refused(there):
    with pytest.raises(InputError, match="a plot's own log teaches it already"):
        carry_here(there, [there])


# ---- the file


def test_the_file_is_read_back_as_it_was_written(there, tmp_path):
    carried(tmp_path / "here", there)
    text = (tmp_path / "here" / "lessons.toml").read_text(encoding="utf-8")

    assert lessons_text(read_file(text)) == text


def test_a_later_format_is_told_as_such():
    with pytest.raises(NewerFileError, match="of format 2; this pinfold reads format 1"):
        read_file("format = 2\n")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("format = 1\n[[site]\n", "not readable as TOML"),
        ("", "write format = 1 on top"),
        ('format = 1\nalike = "120 %"\n', "alike: '120 %' is out of bounds"),
        ('format = 1\nsite = "x"\n', "site: a list of tables is wanted"),
        ('format = 1\n[[site]]\nname = "x"\nmarks = ["zz"]\n', "marks: the marks of the entries"),
        ('format = 1\n[[site]]\nname = "x"\nmarks = ["0123456789ab"]\n[[site.figure]]\ntopic = "luck"\n', "topic"),
        ('format = 1\n[[site]]\nname = "x"\nmarks = ["0123456789ab"]\n[[site.price]]\nof = "gold"\n', "no item pinfold"),
        ("format = 1\nsites = 3\n", "sites"),
    ],
)  # fmt: skip
def test_a_damaged_file_is_told_with_its_place(text, said):
    with pytest.raises(InvalidPlan) as refused:
        read_file(text)
    assert said in str(refused.value)


def test_all_complaints_come_at_once(there, tmp_path):
    carried(tmp_path / "here", there)
    file = tmp_path / "here" / "lessons.toml"
    file.write_text(file.read_text().replace('per = "m2"', 'per = "acre"').replace("entries = 4", "entries = -4"))
    with pytest.raises(InvalidPlan) as refused:
        open_site(tmp_path / "here")

    assert len(refused.value.problems) == 2


# ---- the doors


def test_new_carries_lessons_from_another_folder(there, tmp_path, capsys):
    status = main(["new", str(tmp_path / "here"), "--sample", "quinta", "--lessons-from", str(there), "--no-ask"])
    said = capsys.readouterr().out

    assert status == 0
    assert "from Quinta goes along: " in said
    assert main(["reckon", "carry", "--site", str(tmp_path / "here"), str(there), "--carry", "yields"]) == 0


def test_lessons_tell_what_was_most_wrong_and_what_it_changes(there):
    record = json.loads(told(lessons_of(there), as_json=True))
    text = told(lessons_of(there), as_json=False)

    moved = [each["moved"] for each in record["wrong"] if each["moved"] is not None]
    assert len(moved) >= 2
    assert moved == sorted(moved, reverse=True)
    assert any(each["lesson"]["subject"] == "portland-cement, loose" and each["money"] for each in record["wrong"])
    assert "What was most wrong" in text
