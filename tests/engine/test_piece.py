"""Pieces, seams and what a draft says: outlines that close, layers, lengths measured on the pieces, words."""

import pytest
from shapely.geometry import Polygon

from drafting.engine.curve import straight_down
from drafting.engine.errors import (
    DraftingError,
    ImpossibleMeasure,
    MissingMeasure,
    NoSolution,
    OpenOutline,
    UnknownChoice,
)
from drafting.engine.offset import Finish
from drafting.engine.path import Path
from drafting.engine.piece import Dart, Dimension, Edge, Piece
from drafting.engine.point import Point
from drafting.engine.report import Girth, Stretch, Warning_
from drafting.engine.seam import Seam
from drafting.engine.trace import Trace

from .bodies import inches
from .shapes import pairs


def band(name="band", width=200.0, slant=20.0) -> Piece:
    """A band on the fold, 100 deep, whose side is a straight-down curve that runs out by `slant`."""
    side = Path.of(straight_down(Point(width, 0), Point(width + slant, 100)))
    return Piece(
        name,
        "Band",
        (
            Edge("under-bust", Path.through(Point(0, 0), Point(width, 0)), 12.7),
            Edge("side", side, 25.4, Finish.LET_OUT),
            Edge("waist", Path.through(Point(width + slant, 100), Point(0, 100)), 12.7),
            Edge("fold", Path.through(Point(0, 100), Point(0, 0))),
        ),
        grain=(Point(60, 10), Point(60, 90)),
        on_fold=True,
        darts=(Dart(Point(50, 50), tuple(Path.through(Point(x, 0), Point(50, 50)) for x in (45, 55)), 10),),
        dimensions=(Dimension(Point(0, 0), Point(width, 0)),),
        seam_allowance=12.7,
    )


def test_the_net_is_an_unclosed_ring_in_the_order_of_the_edges():
    net = band().net
    assert (net[0], net[-1]) == (Point(0, 0), Point(0, 100))
    assert len(set(net)) == len(net)
    assert Polygon(pairs(net)).is_valid
    # 200 × 100, and half of 20 × 100: the side's curve is the same turned about its middle.
    assert Polygon(pairs(net)).area == pytest.approx(21000, rel=1e-4)


def test_the_cutting_line_adds_each_edges_allowance():
    outline = Polygon(pairs(band().cut_line))
    assert outline.is_valid
    assert outline.contains(Polygon(pairs(band().net)).buffer(-0.01))
    # The side is moved by the normals of its polyline, which miss the curve's own at its end by a few hundredths.
    assert outline.bounds == pytest.approx((0, -12.7, 220 + 25.4, 112.7), abs=0.05)


def test_an_outline_that_does_not_close_is_refused_by_edge_and_gap():
    edges = band().edges
    moved = Edge("waist", edges[2].path.moved(0, 3), 12.7)
    with pytest.raises(OpenOutline) as refusal:
        Piece("band", "Band", (edges[0], edges[1], moved, edges[3]), grain=(Point(0, 0), Point(0, 1)))
    assert (refusal.value.piece, refusal.value.edge, refusal.value.gap) == ("band", "waist", pytest.approx(3))


def test_the_last_edge_must_meet_the_first():
    edges = band().edges
    with pytest.raises(OpenOutline) as refusal:
        Piece("band", "Band", edges[:3], grain=(Point(0, 0), Point(0, 1)))
    assert refusal.value.gap == pytest.approx(100)


def test_edges_are_found_by_name():
    assert band().edge("side").allowance == 25.4
    assert band().has_edge("fold")
    assert not band().has_edge("hem")
    with pytest.raises(KeyError):
        band().edge("hem")


def test_where_the_plain_allowance_would_have_ended_is_kept_for_let_outs_only():
    (line,) = band().let_outs
    side = band().edge("side").path.polyline()
    assert len(line) == len(side)
    assert all(12.6 < p.distance(q) < 12.8 for p, q in zip(line, side, strict=True))
    assert min(p.x for p in line) > 200


def test_a_layer_has_the_shape_of_its_piece_under_another_name():
    lining = band().renamed("band lining", "Band, lining", of="band")
    assert (lining.name, lining.of) == ("band lining", "band")
    assert lining.cut_line == band().cut_line


def test_a_moved_piece_carries_everything_drawn_on_it():
    moved = band().mapped(lambda p: p + Point(1000, 50))
    assert all(p.is_at(q + Point(1000, 50), 1e-9) for p, q in zip(moved.net, band().net, strict=True))
    assert moved.grain == (Point(1060, 60), Point(1060, 140))
    assert moved.darts[0].point == Point(1050, 100)
    assert moved.darts[0].legs[0].start == Point(1045, 50)
    assert moved.dimensions[0].start == Point(1000, 50)
    assert moved.dimensions[0].value == 200


# Seams


def test_a_seam_tells_both_lengths_and_what_they_miss_beside_the_ease():
    pieces = {"band": band(), "skirt": band("skirt", width=203.0)}
    seam = Seam("waist", (("skirt", "waist"),), (("band", "waist"),), ease=2.5)
    assert seam.lengths(pieces) == pytest.approx((223, 220))
    assert seam.difference(pieces) == pytest.approx(0.5)


def test_a_side_of_a_seam_may_run_over_several_edges():
    pieces = {"band": band(), "skirt": band("skirt")}
    seam = Seam("round", (("band", "waist"), ("band", "under-bust")), (("skirt", "waist"),))
    assert seam.lengths(pieces) == pytest.approx((420, 220))
    assert seam.difference(pieces) == pytest.approx(200)


# What a draft says


def test_a_girth_is_its_stretches_round_the_body_and_the_gap():
    level = (Point(0, 50), Point(210, 50))
    bent = (Point(0, 0), Point(30, 40), Point(30, 100))
    girth = Girth("waist", 800, 10, (Stretch("band", level, "extent", 2), Stretch("back", bent, "length", 2)), gap=25.4)
    assert girth.finished == pytest.approx(2 * 210 + 2 * 110 + 25.4)
    assert Stretch("back", bent, "extent", 1).amount == 30


def test_a_warning_and_a_step_write_their_lengths():
    assert Warning_("code", "held to {0}, not {1}", (25.4, 50.8)).written(inches) == "held to 1 in, not 2 in"
    trace = Trace()
    trace.chalk("band", "Go {0} across", 88.9, marks="A B", at=(Point(0, 0),), why="half of {0}")
    (step,) = trace.steps
    assert step.written(inches) == ("Go 3 1/2 in across", "half of 3 1/2 in")
    assert step.marks == ("A", "B")


# What it refuses


@pytest.mark.parametrize(
    ("error", "sentence"),
    [
        (MissingMeasure(("under_bust",)), "Not measured yet: under bust. Take it, then draft again."),
        (
            ImpossibleMeasure("waist", 254.0, "Waist {value} is under {needed}.", needed=381.0),
            "Waist 10 in is under 15 in.",
        ),
        (
            UnknownChoice("garment.kind", "cape", ("skirt", "bodice")),
            "garment.kind: “cape” can't be drafted here. Choose skirt or bodice.",
        ),
        (
            UnknownChoice("yoke", "full", ("none",), why="A strapless top has none."),
            "yoke: “full” can't be drafted here. A strapless top has none. Choose none.",
        ),
        (
            NoSolution("truing move", 0.0, 25.4),
            "No truing move between 0 in and 1 in makes the two edges equal. Check the measures around it.",
        ),
    ],
)
def test_a_refusal_is_one_sentence_of_what_was_read_and_what_to_do(error, sentence):
    assert isinstance(error, DraftingError)
    assert error.sentence(inches) == sentence
