"""Which pages a sheet is cut into. The grid's sums are done by hand here."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point, box, union_all

from drafting.paper.papers import PAPERS, UnknownPaper, paper_of, papers_of
from drafting.paper.tiles import Grid, kept_tiles, tile_name

A4 = PAPERS["a4"]


@pytest.mark.parametrize(
    ("key", "width", "length"),
    # ISO 216: A4, A3, A0. ANSI/ASME Y14.1: A is 8½ × 11 in. Legal, 8½ × 14 in: common practice in the United States.
    [("a4", 210, 297), ("a3", 297, 420), ("a0", 841, 1189), ("letter", 8.5 * 25.4, 11 * 25.4), ("legal", 8.5 * 25.4, 14 * 25.4)],
)
def test_papers_have_their_standards_size(key, width, length):
    assert (PAPERS[key].width, PAPERS[key].length) == pytest.approx((width, length))


@pytest.mark.parametrize(("text", "width"), [("roll:914mm", 914), ("roll:36in", 914.4), ("ROLL: 91.4 cm", 914), ("roll:900", 900)])
def test_a_roll_is_named_by_its_width(text, width):
    assert paper_of(text).width == pytest.approx(width)
    assert paper_of(text).is_roll


@pytest.mark.parametrize("text", ["", "a7", "roll", "roll:", "roll:x", "roll:-3", "roll:10mm", "roll:9m", "a4;a3"])
def test_a_paper_that_there_is_not_is_refused_with_those_that_there_are(text):
    with pytest.raises(UnknownPaper, match="roll|250 mm"):
        papers_of(text)


def test_a_list_of_papers_is_read_once_each():
    assert [paper.key for paper in papers_of("a4, letter,A4,roll:36in,")] == ["a4", "letter", "roll:914.4mm"]


def test_pages_step_by_the_printed_width_less_the_overlap():
    # A4 less 10 mm each side is 190 × 277; less 10 mm of overlap the step is 180 × 267.
    grid = Grid(A4, 1500, 1230)
    assert (grid.columns, grid.rows) == (9, 5)
    assert Grid(A4, 190, 277).columns == Grid(A4, 190, 277).rows == 1
    assert Grid(A4, 190.1, 277.1).columns == Grid(A4, 190.1, 277.1).rows == 2


def test_a_page_inside_a_piece_is_kept_and_a_blank_one_is_left_out():
    grid = Grid(A4, 180 * 6 + 10, 267 * 4 + 10)
    names = {tile.name for tile in kept_tiles(grid, [box(100, 100, 180 * 3 - 20, 267 * 3 - 20)])}
    assert names == {"A1", "A2", "A3", "B1", "B2", "B3", "C1", "C2", "C3"}  # B2 holds no line


def test_a_page_that_another_shows_wholly_is_left_out():
    # The piece ends within the overlap: the left 10 mm of the second page, which the first page shows too.
    grid = Grid(A4, 180 * 3, 200)
    assert [tile.name for tile in kept_tiles(grid, [box(20, 20, 178, 150), box(380, 20, 390, 30)])] == ["A1", "A3"]


def test_neighbours_are_named_only_where_they_are_printed():
    tiles = {tile.name: tile for tile in kept_tiles(Grid(A4, 540, 540), [box(20, 20, 300, 100), box(20, 100, 60, 500)])}
    assert set(tiles) == {"A1", "A2", "B1"}
    assert (tiles["A1"].after, tiles["A1"].below, tiles["A1"].before, tiles["A1"].above) == ("A2", "B1", "", "")
    assert (tiles["A2"].before, tiles["A2"].below) == ("A1", "")


def test_rows_are_letters_that_go_on_after_z():
    assert [tile_name(row, 0) for row in (0, 25, 26, 51, 52)] == ["A1", "Z1", "AA1", "AZ1", "BA1"]


@given(st.lists(st.tuples(st.floats(0, 900), st.floats(0, 900), st.floats(1, 300), st.floats(1, 300)), min_size=1, max_size=6))
def test_every_spot_of_every_piece_is_on_a_kept_page(pieces):
    shapes = [box(x, y, x + w, y + h) for x, y, w, h in pieces]
    grid = Grid(A4, max(s.bounds[2] for s in shapes), max(s.bounds[3] for s in shapes))
    tiles = kept_tiles(grid, shapes)
    shown = union_all([box(t.left, t.top, t.left + 190, t.top + 277) for t in tiles]).buffer(1e-6)
    assert all(shown.covers(shape) for shape in shapes)
    assert all(shown.covers(Point(s.bounds[0], s.bounds[1])) for s in shapes)
