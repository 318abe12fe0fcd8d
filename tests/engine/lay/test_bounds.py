"""Lower bounds: worked by hand, and held against every lay that the planner finds for random rectangles."""

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon

from drafting.engine.lay import plan
from drafting.engine.lay.bounds import area_bound, chords, least_chord, line_bound, longest_piece
from drafting.engine.lay.things import task_for
from tests.engine.lay.cloths import cloth, half_front, rectangle, triangle


def task(pieces, width=1000.0, layout="open"):
    return task_for(cloth(width, layout=layout), tuple(pieces), layout)


def test_the_area_bound_is_area_over_width_with_every_layer_counted():
    assert area_bound(task([rectangle("a", 200, 300, count=4)])) == pytest.approx(240)
    assert area_bound(task([rectangle("a", 200, 300, count=4, mirror="pair")], layout="folded")) == pytest.approx(240)


def test_the_longest_piece_lies_the_way_in_which_it_is_shortest():
    assert longest_piece(task([rectangle("belt", 100, 900, turns=(0, 90))])) == pytest.approx(100)


def test_pieces_wider_than_half_the_cloth_add_up_along_the_middle():
    assert line_bound(task([rectangle("a", 600, 300), rectangle("b", 501, 200)])) == pytest.approx(500)
    assert line_bound(task([rectangle("a", 500, 300), rectangle("b", 500, 200)])) == pytest.approx(0)


def test_pieces_on_the_fold_add_up_along_the_fold():
    fronts = [half_front("one", 200, 400), half_front("two", 300, 250)]
    assert line_bound(task(fronts, layout="folded")) == pytest.approx(650, abs=1e-3)


def test_a_free_piece_counts_with_its_least_chord_at_any_place_across():
    # A triangle 600 wide and 900 long has 400 mm to spare on 1,000. The level just over 400 cuts it between its own 0 and 400,
    # where it is 900·(1 − 400/600) = 300 long at least.
    assert line_bound(task([triangle("godet", 600, 900, turns=(0,))])) == pytest.approx(300, abs=1e-3)


@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.lists(st.floats(20, 200), min_size=4, max_size=12), st.floats(0.01, 0.99), st.floats(0.01, 0.99))
def test_the_least_chord_is_the_least_of_many_cuts(reaches, one, two):
    """Against cuts made by Shapely at 200 levels."""
    steps = len(reaches)
    ring = np.array(
        [(r * np.cos(2 * np.pi * n / steps), r * np.sin(2 * np.pi * n / steps)) for n, r in enumerate(reaches)]
    )
    shape = Polygon(ring)
    low, high = sorted(ring[:, 0].min() + share * np.ptp(ring[:, 0]) for share in (one, two))
    exact = least_chord(*chords(ring), np.array([low]), np.array([high]))[0]
    cuts = [shape.intersection(LineString([(x, -500), (x, 500)])).length for x in np.linspace(low, high, 200)]
    assert exact <= min(cuts) + 1e-6
    assert exact >= min(cuts) - 0.12 * max(max(cuts), 1) - (high - low) / 10


@settings(derandomize=True, deadline=None, max_examples=15, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.lists(st.tuples(st.floats(50, 400), st.floats(50, 500)), min_size=1, max_size=7),
    st.sampled_from(["open", "folded"]),
)
def test_no_lay_is_shorter_than_its_bound(sizes, layout):
    pieces = tuple(rectangle(f"r{n}", *size, count=2, mirror="pair") for n, size in enumerate(sizes))
    lay = plan(cloth(900, layout=layout), pieces, seconds=0.15)
    assert lay.length >= lay.at_least - 1e-6
