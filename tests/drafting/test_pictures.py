"""The drawing of one piece: what it shows is where the result says, at the scale and widths that look.md asks for."""

import math
import re
import xml.etree.ElementTree as ElementTree
from functools import partial

import pytest
import shapely
from django.utils import translation
from shapely import LinearRing, LineString, Point

from drafting.linework import KINDS
from drafting.pictures import piece_svg, pieces_svg
from tests.drafting.sample_result import IN, sample_result
from workshop.length import print_length

SVG = "{http://www.w3.org/2000/svg}"
inch = partial(print_length, unit="in")


@pytest.fixture
def result():
    return sample_result()


def drawn(result, name, *, scale=1 / 8, for_paper=True, **more):
    piece = next(piece for piece in result["pieces"] if piece["name"] == name)
    return piece, ElementTree.fromstring(piece_svg(piece, result, scale=scale, for_paper=for_paper, fmt=inch, **more))


def lines(svg, kind):
    """Return the polylines drawn as one kind of line, as Shapely sees them."""
    found = []
    for path in svg.iter(f"{SVG}path"):
        if f"line-{kind}" in path.get("class", "").split():
            for run in path.get("d").split("M")[1:]:
                points = [tuple(map(float, pair.split())) for pair in run.rstrip("Z").split("L")]
                found.append(LineString([*points, points[0]] if run.endswith("Z") else points))
    return found


def words(svg):
    return [text.text for text in svg.iter(f"{SVG}text")]


def text_box(text):
    """Return where the text's letters stand, turned as it is; digits of Noto Sans are 0.57 em wide, letters less."""
    x, y, height = (float(text.get(key)) for key in ("x", "y", "font-size"))
    wide = 0.52 * height * len(text.text)
    left = {"start": x, "middle": x - wide / 2, "end": x - wide}[text.get("text-anchor")]
    box = shapely.box(left, y - 0.75 * height, left + wide, y)
    turn = re.match(r"rotate\((\S+) (\S+) (\S+)\)", text.get("transform", ""))
    return shapely.affinity.rotate(box, float(turn[1]), origin=(float(turn[2]), float(turn[3]))) if turn else box


@pytest.mark.parametrize("scale", [1 / 8, 1 / 16, 1 / 10])
@pytest.mark.parametrize("kind", ["cut", "sew", "grain", "dimension", "let-out"])
def test_a_line_is_as_wide_on_paper_as_its_kind_says_at_any_scale(result, scale, kind):
    _, svg = drawn(result, "side cup", scale=scale)
    widths = {float(p.get("stroke-width")) for p in svg.iter(f"{SVG}path") if f"line-{kind}" in p.get("class", "")}
    assert len(widths) == 1
    assert widths.pop() * scale == pytest.approx(KINDS[kind].paper, abs=0.001)


def test_the_drawing_is_as_large_on_paper_as_its_scale_says(result):
    _, svg = drawn(result, "band")
    box = [float(number) for number in svg.get("viewBox").split()]
    assert float(svg.get("width").removesuffix("mm")) == pytest.approx(box[2] / 8, abs=0.002)
    assert float(svg.get("height").removesuffix("mm")) == pytest.approx(box[3] / 8, abs=0.002)


def test_thinning_for_paper_moves_no_line_by_more_than_a_thirtieth_of_a_millimetre_of_paper(result):
    piece, svg = drawn(result, "side cup")
    shown = lines(svg, "cut")[0]
    true = LinearRing(piece["cut_line"])
    assert shapely.hausdorff_distance(true, shown, densify=0.05) / 8 < 0.03 + 0.001
    assert len(shown.coords) < len(true.coords)


def test_no_cutting_line_is_drawn_along_the_fold_and_the_fold_line_reaches_the_cut_ends(result):
    piece, svg = drawn(result, "centre cup")
    fold = LineString([(0, -1e4), (0, 1e4)])
    assert all(line.intersection(fold.buffer(0.01)).length < 0.1 for line in lines(svg, "cut"))
    (shown,) = lines(svg, "fold")
    ys = [y for x, y in piece["cut_line"] if abs(x) < 0.01]
    assert shown.bounds == pytest.approx((0, min(ys), 0, max(ys)), abs=0.01)
    assert "on the fold" in words(svg)


def test_a_notch_runs_from_the_sewing_line_to_the_cutting_line_single_in_front_double_at_the_back(result):
    for name, strokes in (("centre cup", 1), ("side cup", 1 + 2), ("back", 2)):
        piece, svg = drawn(result, name)
        net, cut = LinearRing(piece["net"]), LinearRing(piece["cut_line"])
        found = lines(svg, "notch")
        assert len(found) == strokes
        for stroke in found:
            start, end = Point(stroke.coords[0]), Point(stroke.coords[-1])
            assert net.distance(start) < 0.01
            assert cut.distance(end) < 0.01


def test_a_notch_stands_where_its_distance_along_the_edge_says(result):
    piece, svg = drawn(result, "centre cup")
    edge = next(edge for edge in piece["edges"] if edge["name"] == "cup seam")
    at = LineString(edge["line"]).interpolate(piece["notches"][0]["at"])
    assert Point(lines(svg, "notch")[0].coords[0]).distance(at) < 0.01


def test_a_ring_stands_at_each_dart_point_and_the_legs_are_sewing_lines(result):
    piece, svg = drawn(result, "back")
    (ring,) = svg.iter(f"{SVG}circle")
    point = piece["darts"][0]["point"]
    assert (float(ring.get("cx")), float(ring.get("cy"))) == pytest.approx(point, abs=0.001)
    sewn = shapely.union_all(lines(svg, "sew"))
    for leg in piece["darts"][0]["legs"]:
        assert all(sewn.distance(Point(p)) < 0.25 for p in leg)


@pytest.mark.parametrize(
    "name", ["centre cup", "side cup", "band", "back", "skirt front", "skirt back", "modesty panel"]
)
def test_each_dimension_line_is_as_long_as_its_figure_and_lies_outside_the_piece(result, name):
    piece, svg = drawn(result, name)
    longest = [line for line in lines(svg, "dimension") if line.length > 5 * IN / 8]
    whole = shapely.Polygon(piece["cut_line"])
    for dim in piece["dims"]:
        assert inch(dim["value"]) in words(svg)
        reached = [
            line
            for line in longest
            if line.length == pytest.approx(dim["value"], abs=1.0) and not line.intersects(whole)
        ]
        assert reached, f"{name}: no line of {dim['value']:.1f} mm outside the piece"


def test_words_and_figures_of_a_drawing_lie_neither_on_each_other_nor_on_the_cutting_line(result):
    for piece in result["pieces"]:
        _, svg = drawn(result, piece["name"])
        boxes = []
        for text in svg.iter(f"{SVG}text"):
            boxes.append(text_box(text))
        for n, box in enumerate(boxes):
            assert not any(box.intersects(other) for other in boxes[n + 1 :]), piece["name"]
            assert not any(box.intersects(line) for line in lines(svg, "cut")), piece["name"]


def test_slanting_and_level_dimensions_of_one_edge_do_not_cross(result):
    piece = next(piece for piece in result["pieces"] if piece["name"] == "skirt front")
    piece["dims"] = [
        {"from": (0, 400), "to": (160, 385), "value": math.hypot(160, 15)},
        {"from": (0, 600), "to": (270, 598), "value": 270.0},
    ]
    _, svg = drawn(result, "skirt front", scale=1 / 16)
    slanting, level = (
        next(line for line in lines(svg, "dimension") if line.length == pytest.approx(long, abs=1))
        for long in (160.7, 270)
    )
    assert slanting.distance(level) > 2.35 * 16


def test_let_out_is_written_with_its_amount_and_its_line_drawn(result):
    piece, svg = drawn(result, "side cup")
    assert "let-out 1" in words(svg)
    assert len(lines(svg, "let-out")) == len(piece["let_out"]) == 1


def test_bones_are_drawn_from_end_to_end_and_levels_as_the_girths_were_measured(result):
    _, svg = drawn(result, "band")
    (bone,) = [line for line in lines(svg, "bone") if line.coords[0][0] > 0]
    (folded,) = [line for line in lines(svg, "bone") if line.coords[0][0] == 0]
    assert folded.length == pytest.approx(2.6 * IN, abs=0.01)
    assert bone.length == pytest.approx(2.6 * IN, abs=0.01)
    _, svg = drawn(result, "centre cup")
    assert [line.length for line in lines(svg, "level")] == pytest.approx([3.5 * IN], abs=0.01)


def test_a_channel_that_runs_on_into_the_next_piece_stops_at_the_sewing_line(result):
    result["bones"] = [
        {"piece": "centre cup", "pieces": ["centre cup", "band"], "from": (0, 7.5 * IN), "to": (0, 15.9 * IN)}
    ]
    for name in ("centre cup", "band"):
        piece, svg = drawn(result, name)
        (channel,) = lines(svg, "bone")
        ys = [y for _, y in piece["net"]]
        assert channel.bounds == pytest.approx((0, min(ys), 0, max(ys)), abs=0.01)


def test_the_drawing_holds_all_of_its_words(result):
    for piece in result["pieces"]:
        for scale in (1 / 8, 1 / 16):
            _, svg = drawn(result, piece["name"], scale=scale)
            left, top, wide, high = (float(number) for number in svg.get("viewBox").split())
            for text in svg.iter(f"{SVG}text"):
                assert shapely.box(left, top, left + wide, top + high).contains(text_box(text)), text.text


def test_grain_has_an_arrow_at_each_end_and_one_on_one_way_cloth(result):
    _, svg = drawn(result, "side cup")
    assert sum(p.get("class") == "solid" for p in svg.iter(f"{SVG}path")) == 2
    piece, svg = drawn(result, "side cup", one_way=True)
    (head,) = [p.get("d") for p in svg.iter(f"{SVG}path") if p.get("class") == "solid"]
    tip = tuple(map(float, head[1:].split("L")[0].split()))
    assert tip == pytest.approx(min(piece["grain"], key=lambda point: point[1]), abs=0.001)


def test_on_a_screen_every_edge_takes_focus_and_says_its_name_and_length(result):
    piece, svg = drawn(result, "back", scale=1, for_paper=False)
    touched = [path for path in svg.iter(f"{SVG}path") if path.get("data-edge")]
    assert [path.get("data-edge") for path in touched] == [edge["name"] for edge in piece["edges"]]
    for path, edge in zip(touched, piece["edges"], strict=True):
        length = inch(sum(math.dist(a, b) for a, b in zip(edge["line"], edge["line"][1:])))
        assert path.get("tabindex") == "0"
        assert path.get("data-length") == length
        assert length in path.get("aria-label")
        assert path.get("vector-effect") == "non-scaling-stroke"
    assert svg.get("width").endswith("em")


def test_hostile_names_stay_text(result):
    piece = result["pieces"][0]
    piece["title"] = 'cup"><script>alert(1)</script>\x00\x1b & <img src=file:///etc/passwd>'
    piece["name"] = '"><b onmouseover=x>'
    for for_paper in (True, False):
        text = piece_svg(piece, result, scale=1, for_paper=for_paper)
        svg = ElementTree.fromstring(text)
        assert {element.tag.removeprefix(SVG) for element in svg.iter()} <= {"svg", "title", "path", "circle", "text"}
        assert svg.get("data-piece") == '"><b onmouseover=x>'


def test_numbers_keep_their_point_in_every_language(result):
    with translation.override("fr"):
        for text in pieces_svg(result, scale=1 / 8, for_paper=True, fmt=inch).values():
            for attribute in re.findall(
                r' (?:d|viewBox|stroke-width|stroke-dasharray|x|y|cx|font-size)="([^"]*)"', text
            ):
                assert not re.search(r"[,e]|nan|None", attribute)


def test_a_piece_that_brings_no_dimensions_is_measured_across_and_down(result):
    piece = result["pieces"][2]
    piece["dims"] = []
    _, svg = drawn(result, "band")
    assert {"8", "2⅝"} <= set(words(svg))
