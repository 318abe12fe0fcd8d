"""Drawings of lays, on the screen and as a file: turned by a quarter, never mirrored."""

import re

import pytest
from django.conf import settings
from shapely.geometry import Polygon

from drafting.lay_picture import lay_svg
from orders.cloth.lay_drawing import lay_drawing, sizes_of

FLAG = [[0.0, 0.0], [240.0, 0.0], [0.0, 600.0]]


def lay(**changes) -> dict:
    placed = {"piece": "flag", "outline": FLAG, "mirrored": False, "turned": 0, "layers": 1, "gives": 1}
    given = {"cloth": "canvas", "width": 500.0, "usable": 480.0, "layout": "open", "length": 600.0, "one_way": True, "placed": [placed]}
    return given | changes


def screen(entry):
    return lay_drawing(entry, {}, "in", told="a flag")


def a_file(entry):
    return lay_svg(entry, "in")


def rings(svg: str) -> list[list[tuple[float, float]]]:
    closed = re.findall(r' d="M([\d.]+ [\d.]+(?:L[\d.]+ [\d.]+){2,})Z"', svg)
    return [[tuple(map(float, point.split())) for point in ring.split("L")] for ring in closed]


@pytest.mark.parametrize("draw", [screen, a_file])
@pytest.mark.parametrize("layout", ["open", "folded"])
def test_a_three_cornered_piece_keeps_its_hand(draw, layout):
    """Walked in the lay's order, x to the right and y down as a pattern is drawn, the flag turns one way; so on the drawing."""
    [ring] = rings(draw(lay(layout=layout)))
    drawn_down = Polygon(FLAG).exterior.is_ccw
    assert Polygon(ring).exterior.is_ccw == drawn_down
    # By hand: 480 across are there, the edge that is counted from lies low.
    assert set(ring) == {(0.0, 480.0), (0.0, 240.0), (600.0, 480.0)}


@pytest.mark.parametrize("draw", [screen, a_file])
def test_a_flaw_is_where_it_was_told(draw):
    flaw = [[400.0, 100.0], [480.0, 100.0], [480.0, 200.0], [400.0, 200.0]]
    assert set(rings(draw(lay(blocked=[flaw])))[0]) == {(100.0, 80.0), (100.0, 0.0), (200.0, 0.0), (200.0, 80.0)}


@pytest.mark.parametrize("draw", [screen, a_file])
def test_the_fold_is_named_at_its_own_edge(draw):
    svg = draw(lay(layout="folded"))
    heights = {word: float(y) for y, word in re.findall(r'<text[^>]* y="(-?[\d.]+)"[^>]*>(fold|selvedges)<', svg)}
    assert heights["fold"] > 480 > heights["selvedges"]


@pytest.mark.parametrize(("length", "zoom"), [(900.0, "near"), (2000.0, "far"), (2500.0, "long")])
def test_a_lay_too_long_for_a_desk_has_a_name_of_its_own_for_the_style_sheet(length, zoom):
    assert sizes_of(lay(length=length)).zoom == zoom
    assert f".lay-{zoom}" in (settings.BASE_DIR / "static/css/lay.css").read_text()
