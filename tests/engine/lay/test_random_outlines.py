"""Random simple outlines: nothing overlaps, nothing hangs off, on-fold pieces lie on the fold; read off by Shapely."""

import math

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from drafting.engine.lay import LayPiece, plan
from tests.engine.lay.cloths import bounds, cloth, gives, overlap

RANDOM = settings(derandomize=True, deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])


@st.composite
def stars(draw, *, name="star", half=False):
    """A simple outline round a centre, hollow or full as it comes; a right half of one where `half`."""
    corners = draw(st.integers(3, 14))
    reaches = draw(st.lists(st.floats(25, 220), min_size=corners, max_size=corners))
    start, turn = (-math.pi / 2, math.pi) if half else (0.0, 2 * math.pi)
    steps = corners - 1 if half else corners
    points = [
        (reach * math.cos(start + turn * n / steps), reach * math.sin(start + turn * n / steps))
        for n, reach in enumerate(reaches)
    ]
    if half:
        points[0], points[-1] = (0.0, -reaches[0]), (0.0, reaches[-1])
    return tuple(points)


@st.composite
def sets_of_pieces(draw):
    pieces = []
    for number in range(draw(st.integers(1, 5))):
        half = draw(st.booleans())
        pieces.append(
            LayPiece(
                f"piece {number}",
                draw(stars(half=half)),
                count=draw(st.integers(1, 2)),
                on_fold=half,
                turns=draw(st.sampled_from([(0,), (0, 180)])),
                mirror=draw(st.sampled_from(["never", "pair"])),
            )
        )
    return tuple(pieces)


def check(lay, pieces):
    across = lay.cloth.usable if lay.opened_from is not None else lay.across
    left, low, right, high = bounds(lay)
    assert left >= -1e-6 and low >= -1e-6 and right <= across + 0.006 and high <= lay.length + 1e-6
    assert overlap(lay) < 0.05
    assert gives(lay) == {piece.name: piece.count for piece in pieces}
    assert lay.at_least <= lay.length + 1e-6
    assert 0 < lay.used <= 1 + 1e-9


@RANDOM
@given(sets_of_pieces(), st.sampled_from([450.0, 700.0, 1143.0]), st.booleans())
def test_an_open_lay_holds(pieces, width, one_way):
    check(plan(cloth(width, one_way=one_way), pieces, seconds=0.15), pieces)


@RANDOM
@given(sets_of_pieces(), st.sampled_from([900.0, 1143.0]))
def test_a_folded_lay_holds_and_its_on_fold_pieces_lie_on_the_fold(pieces, width):
    lay = plan(cloth(width, layout="folded"), pieces, seconds=0.15)
    check(lay, pieces)
    folded = {piece.name for piece in pieces if piece.on_fold}
    for placed in lay.placed:
        if placed.piece in folded:
            assert 0 <= min(x for x, _ in placed.outline) <= 0.01


@RANDOM
@given(sets_of_pieces(), st.floats(5, 60))
def test_a_gap_is_kept(pieces, gap):
    from shapely.geometry import Polygon

    lay = plan(cloth(1000.0, gap=gap), pieces, seconds=0.15)
    check(lay, pieces)
    shapes = [Polygon(placed.outline) for placed in lay.placed]
    for n, one in enumerate(shapes):
        assert all(one.distance(other) >= gap - 0.01 for other in shapes[n + 1 :])


@RANDOM
@given(sets_of_pieces(), st.sampled_from([60.0, 145.0]))
def test_a_matched_lay_holds(pieces, repeat):
    from dataclasses import replace

    matched = tuple(replace(piece, match=n % 2 == 0) for n, piece in enumerate(pieces))
    lay = plan(cloth(1143.0, layout="folded", repeat=repeat), matched, seconds=0.15)
    check(lay, pieces)
    for placed in lay.placed:
        piece = next(piece for piece in matched if piece.name == placed.piece)
        if piece.match:
            phase = (min(y for _, y in placed.outline) - min(y for _, y in piece.outline) - lay.print_start) / repeat
            assert phase == pytest.approx(round(phase), abs=1e-4)


@RANDOM
@given(sets_of_pieces())
def test_a_flawed_crosswise_or_best_lay_holds(pieces):
    from shapely.geometry import Polygon

    hole = ((300.0, 50.0), (500.0, 80.0), (420.0, 400.0))
    check(plan(cloth(1143.0, layout="crosswise"), pieces, seconds=0.15), pieces)
    lay = plan(cloth(1143.0, layout="best", flaws=(hole,)), pieces, seconds=0.2)
    check(lay, pieces)
    if lay.layout == "open":
        assert all(Polygon(placed.outline).intersection(Polygon(hole)).area < 0.05 for placed in lay.placed)
