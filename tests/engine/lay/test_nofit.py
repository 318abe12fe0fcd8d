"""No-fit tables against Shapely: at every step across, what is barred overlaps and what is free only touches."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.affinity import translate
from shapely.geometry import Polygon

from drafting.engine.lay import LayCloth, LayPiece
from drafting.engine.lay.nofit import NoFit, forbidden
from drafting.engine.lay.outline import convex_parts, inwards, outwards
from drafting.engine.lay.shapes import chains_of
from drafting.engine.lay.things import task_for


def star(reaches, turn=0.0):
    steps = len(reaches)
    return np.array(
        [
            (r * np.cos(2 * np.pi * n / steps + turn), r * np.sin(2 * np.pi * n / steps + turn))
            for n, r in enumerate(reaches)
        ]
    )


STARS = st.lists(st.floats(30, 200), min_size=3, max_size=11)


@settings(derandomize=True, deadline=None, max_examples=60)
@given(STARS, STARS)
def test_places_are_barred_exactly_where_the_outlines_overlap(one, two):
    a, b = star(one), star(two, 0.4)
    shape_a, shape_b = Polygon(a), Polygon(b)
    step = 17.0
    first, low, high, _ = forbidden(chains_of(convex_parts(a)), chains_of(convex_parts(b)), step)
    for row in range(0, len(low), 3):
        across = (first + row) * step
        full = (low[row] < high[row]).all()  # with a third interval, a gap is counted as taken: always safe
        for start, end in zip(low[row], high[row], strict=True):
            if start >= end:
                continue
            for at in (start, end):
                assert translate(shape_b, across, at).intersection(shape_a).area < 1e-3
            middle = translate(shape_b, across, (start + end) / 2)
            assert full or middle.intersection(shape_a).area > 0 or end - start < 0.1
        outside = translate(shape_b, across, high[row].max() + 5)
        assert outside.intersection(shape_a).area < 1e-6


@settings(derandomize=True, deadline=None, max_examples=80)
@given(STARS)
def test_convex_parts_make_up_the_outline(reaches):
    ring = star(reaches)
    parts = [Polygon(part) for part in convex_parts(ring)]
    assert abs(sum(part.area for part in parts) - Polygon(ring).area) < 1e-6 * Polygon(ring).area
    assert all(part.convex_hull.area - part.area < 1e-6 for part in parts)


@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.lists(st.floats(150, 200), min_size=40, max_size=120), st.floats(0.2, 20))
def test_a_simpler_outline_covers_the_true_one(reaches, tolerance):
    ring = star(reaches)
    simple = Polygon(outwards(ring, tolerance))
    assert simple.is_valid and len(simple.exterior.coords) <= 57
    assert Polygon(ring).difference(simple).area < 1e-6 * simple.length + 1e-9


def test_a_smooth_curve_keeps_close_to_its_line():
    # A quarter disc of 200 mm in 80 points: at a chalk line's width of 0.8 mm it needs no 24 of them.
    turns = np.linspace(0, np.pi / 2, 80)
    ring = np.array([(0, 0), *zip(200 * np.cos(turns), 200 * np.sin(turns), strict=True)])
    simple = outwards(ring, 0.8)
    assert len(simple) <= 24
    assert Polygon(simple).hausdorff_distance(Polygon(ring)) < 1.7


def wavy(points, waves, deep):
    turn = np.linspace(0, 2 * np.pi, points, endpoint=False)
    reach = 200 + deep * np.sin(waves * turn)
    return np.stack([reach * np.cos(turn), 1.7 * reach * np.sin(turn)], axis=1)


@pytest.mark.parametrize(("waves", "deep"), [(1, 0), (40, 10), (2000, 5)])
def test_outlines_of_very_many_points_are_covered_by_few_and_cover_few(waves, deep):
    ring = wavy(20_000, waves, deep)
    true, outer, inner = Polygon(ring), Polygon(outwards(ring, 0.8)), Polygon(inwards(ring, 400))
    assert true.difference(outer).area < 1e-6 and inner.difference(true).area < 1e-6
    assert len(outer.exterior.coords) <= 57 and len(inner.exterior.coords) <= 401
    assert outer.area < 1.3 * true.area and inner.area > 0.5 * true.area


def test_a_round_outline_of_very_many_points_keeps_close_to_its_line():
    ring = wavy(20_000, 1, 0)
    assert Polygon(outwards(ring, 0.8)).hausdorff_distance(Polygon(ring)) < 4


@pytest.mark.parametrize("layout", ["folded", "open"])
def test_a_flipped_pair_bars_what_its_own_table_would(layout):
    """Turned by 180° or mirrored, a pair's table is taken from another's; each is compared with one made for it alone."""
    pieces = tuple(
        LayPiece(f"star {n}", tuple(map(tuple, star(reaches))), count=2, mirror="pair")
        for n, reaches in enumerate([(90, 150, 60, 120, 170), (110, 40, 130, 75)])
    )
    task = task_for(LayCloth(width=900, layout=layout, one_way=False), pieces, layout)
    nofit = NoFit(list(task.shapes), task.step)
    flips = {shape.flip for shape in task.shapes}
    assert len(flips) == 4 if layout == "folded" else len(flips) > 1
    for a, one in enumerate(task.shapes):
        for b, two in enumerate(task.shapes):
            nofit.need(a, b)
            first, low, high, depth = forbidden(one.chains, two.chains, task.step)
            stored_first, count, start = nofit.blocks[:, a, b].tolist()
            rows = nofit.pool[:, start : start + count]
            assert (stored_first, count) == (first, len(depth))
            begins, ends = (rows[:2] - rows[2:4]).min(axis=0), np.where(rows[2:4] > 0, rows[:2] + rows[2:4], -1e9).max(axis=0)
            assert np.allclose(begins, low.min(axis=1), atol=0.01) and np.allclose(ends, high.max(axis=1), atol=0.01)
            assert np.allclose(rows[4], depth, atol=0.01)
