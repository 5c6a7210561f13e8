"""What a crack's width means: the published class widths, and what is said at their edges."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pinfold.errors import InputError
from pinfold.sources import Standing
from pinfold.studies.cracks.widths import CRACK_CLASSES, crack_words


def test_the_classes_part_at_the_published_widths():
    assert [each.most for each in CRACK_CLASSES] == [0.1e-3, 1e-3, 5e-3, 15e-3, 25e-3, None]
    assert all(each.standing is Standing.READ and each.words_standing is Standing.PRACTICE for each in CRACK_CLASSES)


@given(width=st.floats(0, 0.2), spread=st.floats(0, 0.01))
def test_every_width_has_one_class_and_a_spread_never_makes_it_better(width, spread):
    words = crack_words(width, spread=spread)

    assert words.usual.least <= width
    assert words.usual.most is None or width < words.usual.most
    assert words.worst.least >= words.usual.least


def test_a_width_near_an_edge_tells_both_classes():
    assert "may be slight" in crack_words(0.95e-3, spread=0.1e-3).says
    assert "may be" not in crack_words(0.5e-3, spread=0.1e-3).says


def test_no_width_is_said_to_be_safe():
    assert all("says nothing of whether the wall stands" in crack_words(each.least).says for each in CRACK_CLASSES)


@pytest.mark.parametrize(
    ("width", "spread"), [(-1e-3, 0), (float("nan"), 0), (float("inf"), 0), (1e-3, -1), (1e-3, float("nan"))]
)
def test_what_is_no_width_is_refused(width, spread):
    with pytest.raises(InputError):
        crack_words(width, spread=spread)
