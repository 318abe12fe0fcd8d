"""Which pieces a cloth is too narrow for: rectangles, by sums done by hand."""

import pytest

from drafting.cloth_brief import read_cloths
from drafting.cloth_width import across_grain, narrow_cloths, width_needed
from drafting.order_section import Section


def cloth(**changes):
    problems: list[str] = []
    given = {"name": "lawn", "for": ["shell"], "width": 1000} | changes
    (read,) = read_cloths(Section({"cloths": [given]}, "", "mm", problems))
    assert problems == []
    return read


def piece(width: float, height: float = 300, *, on_fold: bool = False, grain=((0, 0), (0, 100)), start: float = 0) -> dict:
    outline = [[start, 0], [start + width, 0], [start + width, height], [start, height]]
    return {
        "name": "front",
        "on_fold": on_fold,
        "grain": [list(point) for point in grain],
        "cut_line": outline,
        "cut": [{"cloth": "lawn", "role": "shell", "count": 1}],
    }


def test_a_piece_is_as_wide_as_it_lies_across_the_grain():
    assert across_grain(piece(400, start=50), piece(400, start=50)["cut_line"]) == pytest.approx(400)


def test_a_piece_on_the_fold_is_opened_out():
    assert across_grain(piece(400, on_fold=True), piece(400)["cut_line"]) == pytest.approx(800)


def test_a_slanting_grain_turns_the_piece():
    sideways = piece(400, 300, grain=((0, 0), (100, 0)))
    assert across_grain(sideways, sideways["cut_line"]) == pytest.approx(300)


@pytest.mark.parametrize(
    ("changes", "on_fold", "needed"),
    [
        ({}, False, 425.4),
        ({"selvedge": 0}, False, 400),
        ({"selvedge": 20}, False, 440),
        ({"layout": "open"}, True, 825.4),
        ({"layout": "folded"}, False, 825.4),
        ({"layout": "folded"}, True, 825.4),
    ],
)
def test_the_width_needed_counts_selvedges_and_the_fold(changes, on_fold, needed):
    """A folded cloth gives each piece half its width; a piece on the fold fills both halves."""
    front = piece(400, on_fold=on_fold)
    assert width_needed(front, front["cut_line"], cloth(**changes)) == pytest.approx(needed)


@pytest.mark.parametrize(("width", "told"), [(425.4, False), (425.0, True), (1000, False)])
def test_a_cloth_is_named_only_when_the_piece_does_not_fit(width, told):
    found = list(narrow_cloths([piece(400)], [cloth(width=width)], "mm"))
    assert [warning["code"] for warning in found] == ["cloth-too-narrow"] * told


def test_a_layers_own_cutting_line_is_the_one_that_counts():
    front = piece(400)
    front["cut"][0]["cut_line"] = piece(990)["cut_line"]
    (found,) = narrow_cloths([front], [cloth()], "mm")
    assert "front needs 1015" in found["text"]


def test_a_cut_of_a_cloth_that_is_not_in_the_order_is_passed_over():
    front = piece(400)
    front["cut"][0]["cloth"] = "outside cloth"
    assert list(narrow_cloths([front], [cloth(width=100)], "mm")) == []
