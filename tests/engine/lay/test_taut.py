"""A lay pulled taut: answers that can be worked by hand."""

import numpy as np
import pytest
from shapely.geometry import Polygon

from drafting.engine.lay import LayCloth, LayPiece
from drafting.engine.lay.place import Places
from drafting.engine.lay.taut import pulled_taut
from drafting.engine.lay.things import task_for
from tests.engine.lay.cloths import rectangle, triangle


def lying(task, at):
    """The things of a task in their first way, reference points at `at`."""
    x, y = np.array(at, float).T
    high = [task.shapes[thing.ways[0].shape].high for thing in task.things]
    count = len(task.things)
    return Places(np.zeros(count, np.int32), np.zeros(count, np.int32), y, float((y + high).max()), x=x)


def open_task(pieces, width=400, **more):
    return task_for(LayCloth(width=width, selvedge=0, layout="open", one_way=True, **more), pieces, "open")


def outlines(task, places):
    return [
        Polygon(task.shapes[thing.ways[way].shape].ring + [x, y])
        for thing, way, x, y in zip(task.things, places.way, places.across(task.step), places.y, strict=True)
    ]


def test_two_rectangles_one_behind_the_other_come_to_touch_at_the_cloths_beginning():
    task = open_task((rectangle("a", 300, 100), rectangle("b", 300, 150)))
    taut = pulled_taut(task, lying(task, [(0, 30), (50, 140)]))
    assert taut.length == pytest.approx(250, abs=0.1)


def test_two_triangles_slide_along_each_other_till_the_cloth_is_full():
    """Right triangles of 200 by 200 on a cloth of 300, one on the other's slant: moved 100 across, one is 100 further back.

    The lower lies at the left edge. The upper, turned, may stand 100 to the right: its slant then lies 100 lower.
    """
    lower = LayPiece("lower", ((0, 0), (200, 0), (0, 200)))
    upper = LayPiece("upper", ((200, 0), (200, 200), (0, 200)))
    task = open_task((lower, upper), width=300)
    taut = pulled_taut(task, lying(task, [(0, 0), (0, 10)]))
    assert taut.length == pytest.approx(200, abs=0.1)
    one, two = outlines(task, taut)
    assert one.intersection(two).area < 1


def test_pieces_on_the_fold_stay_on_it():
    pieces = (rectangle("fold", 100, 200, on_fold=True), rectangle("beside", 150, 200, count=2, mirror="pair"))
    task = task_for(LayCloth(width=600, selvedge=0, layout="folded", one_way=True), pieces, "folded")
    taut = pulled_taut(task, lying(task, [(0, 40), (120, 90)]))
    assert taut.x[0] == 0 and taut.length == pytest.approx(200, abs=0.1)


def test_a_flaw_is_not_moved_over():
    flaw = ((0, 50), (400, 50), (400, 60), (0, 60))
    task = open_task((rectangle("a", 200, 100), rectangle("b", 150, 30)), flaws=(flaw,))
    taut = pulled_taut(task, lying(task, [(0, 90), (210, 70)]))
    assert taut.length == pytest.approx(160, abs=0.1) and taut.y.min() >= 60 - 0.01


def test_pieces_that_meet_the_print_stay_on_it():
    pieces = (rectangle("a", 200, 100, match=True), rectangle("b", 200, 100))
    task = open_task(pieces, repeat=70)
    taut = pulled_taut(task, lying(task, [(0, 70), (200, 120)]))
    assert taut is not None and taut.y[0] == 70 and taut.length == pytest.approx(170, abs=0.1)


def test_the_gap_is_kept():
    task = open_task((rectangle("a", 300, 100), rectangle("b", 300, 100)), gap=8)
    taut = pulled_taut(task, lying(task, [(0, 0), (0, 140)]))
    assert taut.length == pytest.approx(208, abs=0.1)


def test_a_lay_without_slack_is_left_as_it_is():
    task = open_task((rectangle("a", 400, 100), rectangle("b", 400, 100)))
    assert pulled_taut(task, lying(task, [(0, 0), (0, 100)])) is None


def test_outlines_of_many_hollows_do_not_overlap_afterwards():
    waves = tuple((x, 20 * np.sin(x / 9)) for x in np.linspace(0, 200, 60))
    piece = LayPiece("waves", (*waves, (200, 160), (0, 160)), count=4)
    task = open_task((piece, triangle("t", 120, 200)), width=460)
    taut = pulled_taut(task, lying(task, [(0, 30), (230, 40), (0, 260), (230, 280), (0, 500)]))
    shapes = outlines(task, taut)
    assert all(one.intersection(two).area < 0.5 for n, one in enumerate(shapes) for two in shapes[:n])
