"""What of a pattern is printed at full size: layers, pieces, halves opened out; read back by other programs."""

import pytest
from shapely import LineString, Polygon

from drafting.paper import full_size as module
from drafting.paper.choice import Choice, NothingChosen
from drafting.paper.papers import paper_of
from drafting.paper.spread import DoesNotFit
from tests.paper.drafts import gown
from tests.paper.pressed import ABOUT, made, rings_of, warned  # noqa: F401 - a fixture of every test here

MM = 72 / 25.4


def count(choice):
    order, result = gown()
    return module.spread_of(order, result, paper_of("a0"), choice, module.heading(order, result, ABOUT), str).pieces


def test_layers_and_pieces_can_be_chosen():
    _, result = gown()
    assert len(count(Choice())) == sum(len(rings_of(result, piece["name"])) for piece in result["pieces"])
    assert {piece.lines.name for piece in count(Choice("lining"))} == {
        p["name"] for p in result["pieces"] if any(cut["role"] == "lining" for cut in p["cut"])
    }
    assert {piece.lines.name for piece in count(Choice("outside"))} == {p["name"] for p in result["pieces"] if not p["of"]}
    assert [piece.lines.name for piece in count(Choice(pieces=frozenset({"band"})))] == ["band"]
    with pytest.raises(NothingChosen, match="The pieces are centre cup"):
        count(Choice("wadding", frozenset({"band"})))


def test_without_allowances_the_cutting_line_is_the_sewing_line():
    _, result = gown()
    by_name = {piece["name"]: piece for piece in result["pieces"]}
    for piece in count(Choice(allowances=False)):
        drafted = by_name[piece.lines.name]
        mouths = sum(Polygon([*d["legs"][0], *d["legs"][1][::-1]]).area for d in drafted["darts"])
        area = Polygon(piece.lines.outline).area
        assert area == pytest.approx(Polygon(drafted["net"]).area + mouths, rel=1e-3)
        assert any("No allowance" in text for text in piece.texts)


def test_halves_opened_out_are_twice_the_half_and_symmetrical():
    _, result = gown()
    by_name = {piece["name"]: piece for piece in result["pieces"]}
    for piece in count(Choice(opened=True)):
        drafted, shape = by_name[piece.lines.name], Polygon(piece.lines.outline)
        assert shape.is_valid
        halves = [Polygon(ring).area for ring in rings_of(result, piece.lines.name)]
        assert shape.area in [pytest.approx(half * (2 if drafted["on_fold"] else 1), rel=1e-6) for half in halves]
        if drafted["on_fold"]:
            assert not piece.lines.fold
            assert "1 whole" in " ".join(piece.texts)
            middle = LineString(piece.lines.centre[0]).centroid.x
            mirrored = Polygon([(2 * middle - x, y) for x, y in piece.lines.outline])
            assert mirrored.symmetric_difference(shape).area < 1e-3 * shape.area


def test_an_opened_skirt_wider_than_the_roll_is_refused_with_what_to_use():
    with pytest.raises(DoesNotFit, match="Skirt front is 9.. mm wide.*Use a wider roll, or pages that are joined"):
        made("roll:600mm", choice=Choice(opened=True))


def test_a_long_flat_piece_lies_along_a_narrow_roll_and_is_not_mirrored():
    order, result = gown()
    choice = Choice(pieces=frozenset({"band"}), opened=True)
    wide, narrow = (
        module.spread_of(order, result, paper_of(f"roll:{width}mm"), choice, module.heading(order, result, ABOUT), str).pieces[0]
        for width in (914, 300)
    )
    (left, top, right, bottom), turned = Polygon(wide.lines.outline).bounds, Polygon(narrow.lines.outline).bounds
    assert right - left > 300 > turned[2] - turned[0] == pytest.approx(bottom - top)
    assert Polygon(narrow.lines.outline).exterior.is_ccw == Polygon(wide.lines.outline).exterior.is_ccw
    assert _run(narrow.lines.grain)[::-1] == pytest.approx(_run(wide.lines.grain))
    assert_label_inside(narrow)


def _run(line):
    (x0, y0), (x1, y1) = line[0], line[-1]
    return [abs(x1 - x0), abs(y1 - y0)]


def test_labels_lie_inside_their_pieces():
    for piece in count(Choice()):
        assert_label_inside(piece)


def assert_label_inside(piece):
    room = piece.room
    across, down = (room.height, room.width) if room.angle % 180 else (room.width, room.height)
    x, y = room.at
    corners = [(x + sx * across / 2, y + sy * down / 2) for sx in (-1, 1) for sy in (-1, 1)]
    assert Polygon(piece.lines.net).buffer(3).covers(Polygon(corners).convex_hull), piece.title


def test_bone_channels_stay_on_their_pieces_and_are_on_every_piece_that_they_cross():
    _, result = gown()
    crossed = {name for bone in result["bones"] for name in bone["pieces"]}
    assert crossed
    for piece in count(Choice()):
        on = Polygon(piece.lines.net).buffer(0.1)
        assert all(on.covers(LineString(line)) for line in piece.lines.bones), piece.title
        assert bool(piece.lines.bones) == (piece.lines.name in crossed), piece.title
