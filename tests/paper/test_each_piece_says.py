"""Of every kind of garment, each piece at full size says what it is, how many, of which cloth, its grain and its neighbours."""

import re
from functools import cache

import pytest
from shapely import LineString, Polygon

from drafting.brief import read_brief
from drafting.drawing import draw
from drafting.paper.about import heading
from drafting.paper.choice import Choice
from drafting.paper.full_size import full_size
from drafting.paper.papers import paper_of
from drafting.paper.sheet_drawing import SheetDrawing
from drafting.paper.spread import spread_of
from tests.drafting.orders import example
from tests.paper.pressed import ABOUT, warned  # noqa: F401
from tests.pdf_text import letters_of_pages

ARMS = {"upper_arm": "12 1/2", "elbow": 11, "wrist": "6 1/4", "sleeve_length": 23, "shoulder_to_elbow": "13 1/2"}
GARMENTS = {
    "gown": {"kind": "bustier-gown", "skirt": {"kind": "a-line", "length": 30}, "closure": "back-zip", "lined": True},
    "dress": {"kind": "fitted-dress", "darts": "princess-shoulder", "sleeve": {"kind": "set-in"}, "skirt": {"kind": "straight", "length": 26}, "lined": True},
    "blouse": {"kind": "blouse", "collar": "stand", "facing": "separate", "closure": "buttons", "sleeve": {"kind": "puff"}, "lined": False},
    "corset": {"kind": "corset", "fit": "corset", "panels": 4, "closure": "back-lacing", "lined": True},
    "skirt": {"kind": "skirt", "skirt": {"kind": "mermaid", "gores": 6, "length": 40}, "lined": True},
    "trousers": {"kind": "trousers", "closure": "front-zip"},
}
LONG_ENOUGH = 60.0
"""Millimetres of an edge that surely hold a neighbour's number in 3.2 mm letters."""


@cache
def drafted(name):
    plain = {key: value for key, value in example().items() if key not in ("cloths", "fit_notes", "notes")}
    measures = plain["measures"] | ARMS | {"body_rise": "10 1/2", "inside_leg": 30, "height": 66, "knee": 14, "waist_to_knee": 23}
    cloths = [{"name": "moss crêpe", "for": ["shell"], "width": 55}, {"name": "lawn", "for": ["lining"], "width": 44},
              {"name": "woven fusible", "for": ["stay"], "width": 36}, {"name": "batting", "for": ["wadding"], "width": 60}]  # fmt: skip
    brief = read_brief(plain | {"measures": measures, "garment": GARMENTS[name], "cloths": cloths})
    return brief.as_order_file(), draw(brief)


def count_of(piece, cut):
    if piece["on_fold"]:
        return f"{cut['count']} on the fold"
    return f"{cut['count'] // 2} pair" if cut["count"] % 2 == 0 else f"{cut['count']} piece"


def is_said(said, piece):
    """Whether an edge says that it goes to that piece: by its title, first or last of several, or by its number."""
    title, number = piece["title"], piece["number"]
    return re.search(rf"(to|,|and) {re.escape(title)}\b", said) or re.search(rf"to (lining |outside )?([\d, ]+ and )?{number}\b", said)


@pytest.mark.parametrize("name", GARMENTS)
def test_what_it_is_how_many_of_which_cloth_and_its_neighbours(name):
    order, result = drafted(name)
    said = " ".join(letters_of_pages(full_size(order, result, paper=paper_of("roll:914mm"), about=ABOUT)))
    pieces = {piece["name"]: piece for piece in result["pieces"]}
    for piece in pieces.values():
        assert f"{piece['number']} {piece['title']} " in said
        for cut in piece["cut"]:
            assert re.search(rf"{cut['cloth'].capitalize()}( \(\w+\))?: {count_of(piece, cut)}", said), (piece["name"], cut)
    for seam in result["seams"]:
        ends = [{place["piece"] for place in seam[side]} for side in "ab"]
        if ends[0] != ends[1] and min(seam["length_a"], seam["length_b"]) > LONG_ENOUGH:
            assert all(any(is_said(said, pieces[other]) for other in end) for end in ends), seam["name"]


@pytest.mark.parametrize("name", GARMENTS)
def test_each_grain_lies_on_its_piece_and_runs_along_the_sheet_where_the_draft_has_it_so(name):
    order, result = drafted(name)
    placed = spread_of(order, result, paper_of("roll:914mm"), Choice(), heading(order, result, ABOUT), str).pieces
    assert {piece.number for piece in placed} == {str(piece["number"]) for piece in result["pieces"]}
    by_name = {piece["name"]: piece for piece in result["pieces"]}
    for piece in placed:
        drawing = SheetDrawing()
        drawing.add(piece.lines, one_way=False)
        (x0, y0), (x1, y1) = piece.lines.grain[0], piece.lines.grain[-1]
        (a0, b0), (a1, b1) = by_name[piece.lines.name]["grain"][0], by_name[piece.lines.name]["grain"][-1]
        assert drawing.svg("").count("line-grain") == 1
        assert Polygon(piece.lines.outline).buffer(0.1).contains(LineString(piece.lines.grain)), piece.title
        assert abs(x1 - x0) == pytest.approx(abs(a1 - a0), abs=0.001) and abs(y1 - y0) == pytest.approx(abs(b1 - b0), abs=0.001)
