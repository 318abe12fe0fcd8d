"""The second engine, where its package is installed: its lays hold too, and its faults stay in its own process."""

import time

import pytest

from drafting.engine.lay import LayPiece, plan
from drafting.engine.lay import second as second_engine
from drafting.engine.lay.second import Second, may_help
from drafting.engine.lay.things import task_for
from tests.engine.lay.cloths import bounds, cloth, gives, overlap, rectangle, triangle

needs_package = pytest.mark.skipif(
    not may_help(task_for(cloth(), (rectangle("r", 9, 9, count=40),), "open"), 9, 0), reason="spyrrow is not installed"
)


def many():
    return tuple(
        triangle(f"t{n}", 120 + 23 * n, 200 + 31 * n, count=6, mirror="pair" if n % 2 else "never") for n in range(7)
    )


@needs_package
def test_its_lay_is_laid_back_where_it_put_the_pieces():
    task = task_for(cloth(800), many(), "open")
    lying = Second(task, 1.0, seed=1).end(wait=5)
    assert sorted(number for number, *_ in lying) == list(range(len(task.things)))
    from drafting.engine.lay.planner import _placed_by_second

    placed = _placed_by_second(task, lying)
    xs = [x for one in placed for x, _ in one.outline]
    assert min(xs) > -0.02 and max(xs) < 800.02


@needs_package
def test_with_both_engines_a_lay_of_many_pieces_holds():
    lay = plan(cloth(800), many(), seconds=4.0)
    assert gives(lay) == {f"t{n}": 6 for n in range(7)}
    left, low, right, high = bounds(lay)
    assert left > -0.01 and low > -0.01 and right < 800.01 and high <= lay.length + 1e-6
    assert overlap(lay) < 1.0  # 0.01 mm along a metre at most
    assert lay.engine in ("own", "second")


@needs_package
def test_a_panic_of_the_package_ends_its_own_process_only():
    task = task_for(cloth(800), (LayPiece("whole width", ((0, 0), (800, 0), (800, 300), (0, 300)), count=40),), "open")
    object.__setattr__(task, "across", 700.0)  # wider than its strip: it panics, outside of Exception
    assert Second(task, 1.0, seed=1).end(wait=5) is None


@needs_package
def test_it_is_ended_when_time_is_up():
    run = Second(task_for(cloth(800), many(), "open"), 30.0, seed=1)
    begun = time.monotonic()
    run.end(wait=1.5)
    assert time.monotonic() - begun < 3
    assert run.child.poll() is not None


def test_without_the_package_a_lay_is_made_all_the_same(monkeypatch):
    monkeypatch.setattr(second_engine.importlib.util, "find_spec", lambda name: None)
    assert not may_help(task_for(cloth(800), many(), "open"), 9, 0)
    lay = plan(cloth(800), many(), seconds=1.0)
    assert lay.engine == "own" and sum(gives(lay).values()) == 42
