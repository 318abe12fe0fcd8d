"""The second engine, where its package is installed: its lays hold too, and its faults stay in its own process."""

import time

import pytest
from shapely.geometry import Polygon

from drafting.engine.lay import LayPiece, plan
from drafting.engine.lay import second as second_engine
from drafting.engine.lay.clock import Clock
from drafting.engine.lay.place import Table
from drafting.engine.lay.second import Second, may_help, places_of
from drafting.engine.lay.solve import go_on
from drafting.engine.lay.things import task_for
from tests.engine.lay.cloths import bounds, cloth, gives, overlap, rectangle, triangle

needs_package = pytest.mark.skipif(
    not may_help(task_for(cloth(), (rectangle("r", 9, 9, count=40),), "open"), 9), reason="spyrrow is not installed"
)


def many():
    return tuple(
        triangle(f"t{n}", 120 + 23 * n, 200 + 31 * n, count=6, mirror="pair" if n % 2 else "never") for n in range(7)
    )


def lying_of(task, seconds):
    run = Second(task, seconds, seed=1)
    run.reader.join(60)
    return run, run.end()


@needs_package
def test_its_lay_is_laid_back_where_it_put_the_pieces():
    task = task_for(cloth(800), many(), "open")
    run, lying = lying_of(task, 0.8)
    assert sorted(number for number, *_ in lying) == list(range(len(task.things)))
    places = places_of(task, lying)
    assert places.length == pytest.approx(run.best["length"], abs=0.1)
    rings = [
        task.shapes[thing.ways[way].shape].ring + [x, y]
        for thing, way, x, y in zip(task.things, places.way, places.x, places.y, strict=True)
    ]
    assert min(ring.min() for ring in rings) > -0.02 and max(ring[:, 0].max() for ring in rings) < 800.02
    outlines = [Polygon(ring) for ring in rings]
    assert all(one.intersection(two).area < 1 for n, one in enumerate(outlines) for two in outlines[:n])


@needs_package
def test_it_ends_when_its_seconds_of_cpu_are_used_and_tells_of_them():
    run, _ = lying_of(task_for(cloth(800), many(), "open"), 0.6)
    assert run.child.returncode == 0 and 0.6 <= run.cpu < 2


@needs_package
def test_with_both_engines_a_lay_of_many_pieces_holds(monkeypatch):
    monkeypatch.setattr(second_engine, "FROM_SECONDS", 1.0)
    lay = plan(cloth(800), many(), seconds=1.5)
    assert gives(lay) == {f"t{n}": 6 for n in range(7)}
    left, low, right, high = bounds(lay)
    assert left > -0.01 and low > -0.01 and right < 800.01 and high <= lay.length + 1e-6
    assert overlap(lay) < 1.0  # 0.01 mm along a metre at most
    assert lay.engine in ("own", "second", "both")


@needs_package
def test_our_own_search_goes_on_from_its_lay():
    task = task_for(cloth(800), many(), "open")
    start = places_of(task, lying_of(task, 0.5)[1])
    found = go_on(Table(task), start, Clock(1.0, wall=False), until=1.0, seed=1, target=None)
    assert found is None or found.length < start.length
    shapes = [task.shapes[thing.ways[way].shape] for thing, way in zip(task.things, start.way, strict=True)]
    low = min(y + shape.low for y, shape in zip(start.y, shapes, strict=True))
    assert low > -0.1 and max(y + shape.high for y, shape in zip(start.y, shapes, strict=True)) < start.length + 0.1


@needs_package
def test_a_panic_of_the_package_ends_its_own_process_only():
    task = task_for(cloth(800), (LayPiece("whole width", ((0, 0), (800, 0), (800, 300), (0, 300)), count=40),), "open")
    object.__setattr__(task, "across", 700.0)  # wider than its strip: it panics, outside of Exception
    assert lying_of(task, 1.0)[1] is None


@needs_package
def test_it_is_ended_when_time_is_up():
    run = Second(task_for(cloth(800), many(), "open"), 30.0, seed=1)
    begun = time.monotonic()
    run.run(Clock(0.5, wall=True), 0.5)
    run.end()
    assert time.monotonic() - begun < 5
    assert run.child.poll() is not None


def test_without_the_package_a_lay_is_made_all_the_same(monkeypatch):
    monkeypatch.setattr(second_engine.importlib.util, "find_spec", lambda name: None)
    assert not may_help(task_for(cloth(800), many(), "open"), 9)
    lay = plan(cloth(800), many(), seconds=1.0)
    assert lay.engine == "own" and sum(gives(lay).values()) == 42
