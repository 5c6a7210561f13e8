"""A layout under every check: what is asked piece by piece is what is asked at once."""

from __future__ import annotations

from importlib.resources import files

import pytest

from pinfold.store.planfile import plan_of
from pinfold.studies.layout.resolve import lay_out
from pinfold.studies.mending.weak import worst_by_owner
from pinfold.studies.stability.assess import assess
from pinfold.studies.stability.inquiry import TOPICS, Inquiry
from weak_plots import weak_text

SAMPLES = ("seed-garden", "quinta")
MORE = 'pushes = ["person", "goat"]\nseismic = 0.4\n'


def shipped(sample):
    return files("pinfold.store").joinpath(f"samples/{sample}/plan.toml").read_text(encoding="utf-8")


@pytest.fixture(params=[(sample, is_weak) for sample in SAMPLES for is_weak in (False, True)])
def layout(request):
    """A sample pushed at and shaken, or made weak."""
    sample, is_weak = request.param
    text = weak_text(sample) if is_weak else shipped(sample).replace("[place]", f"[place]\n{MORE}", 1)
    return lay_out(plan_of(text))


def test_topic_by_topic_the_same_is_found_as_at_once(layout):
    inquiry = Inquiry(layout=layout)

    by_topic = [finding for topic in TOPICS for finding in inquiry.on(topic)]

    assert sorted(map(repr, by_topic)) == sorted(map(repr, assess(layout)))


def test_no_two_topics_find_the_same_check_of_the_same_part(layout):
    inquiry = Inquiry(layout=layout)

    keys = [key for topic in TOPICS for key in worst_by_owner(inquiry.on(topic), layout)]

    assert len(keys) == len(set(keys))
