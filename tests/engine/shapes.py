"""Curves and polygons that Hypothesis draws for the engine's tests, and how it is to draw them."""

import math

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from drafting.engine.curve import Cubic, straight_down
from drafting.engine.path import Path
from drafting.engine.point import Point

# Derandomized: every run, on every machine, tries the same examples. Nothing is kept between runs.
repeatable = settings(
    derandomize=True, database=None, deadline=None, max_examples=120, suppress_health_check=[HealthCheck.too_slow]
)


def numbers(low: float, high: float):
    return st.floats(low, high, allow_nan=False, allow_infinity=False)


def points(size: float = 1000.0):
    return st.builds(Point, numbers(-size, size), numbers(-size, size))


@st.composite
def gentle_cubics(draw, *, smallest=20.0, largest=600.0):
    """Cubics as a cutter rules them: handles of a fifth to not quite half of the chord, within 45 degrees of it."""
    start, size, heading = draw(points()), draw(numbers(smallest, largest)), draw(numbers(-180, 180))
    chord = Point(size, 0.0).turned(heading)
    out = (chord * draw(numbers(0.2, 0.45))).turned(draw(numbers(-45, 45)))
    into = (chord * draw(numbers(0.2, 0.45))).turned(draw(numbers(-45, 45)))
    return Cubic(start, start + out, start + chord - into, start + chord)


@st.composite
def hard_cubics(draw):
    """Cubics with tighter bends than a pattern has: handles from a tenth of the chord, up to 80 degrees off it."""
    start, size, heading = draw(points()), draw(numbers(20, 300)), draw(numbers(-180, 180))
    chord = Point(size, 0.0).turned(heading)
    out = (chord * draw(numbers(0.1, 0.6))).turned(draw(numbers(-80, 80)))
    into = (chord * draw(numbers(0.1, 0.6))).turned(draw(numbers(-80, 80)))
    return Cubic(start, start + out, start + chord - into, start + chord)


@st.composite
def straight_downs(draw):
    """Straight-down curves that slant at most 60 degrees at their middle."""
    start, height, slant = draw(points()), draw(numbers(20, 1200)), draw(numbers(-60, 60))
    across = height * math.tan(math.radians(slant)) * 0.65
    return straight_down(start, start + Point(across, height))


@st.composite
def paths(draw):
    """A path of one to five strokes, lines and gentle curves, each starting where the last one ends."""
    at, strokes = draw(points(300)), []
    for _ in range(draw(st.integers(1, 5))):
        curve = draw(gentle_cubics(largest=200.0))
        curve = curve.mapped(lambda p, step=at - curve.start: p + step)
        path = Path.through(at, curve.end) if draw(st.booleans()) else Path.of(curve)
        strokes.extend(path.strokes)
        at = path.end
    return Path(tuple(strokes))


@st.composite
def convex_rings(draw, *, fewest=3, most=9, radius=(80.0, 600.0)):
    """Convex polygons, walked clockwise as drawn (y grows down): corners on an ellipse, no two of them close."""
    count = draw(st.integers(fewest, most))
    wide, high = draw(numbers(*radius)), draw(numbers(*radius))
    shares = [draw(numbers(1.0, 2.0)) for _ in range(count)]
    angle, ring = draw(numbers(0, 2 * math.pi)), []
    for share in shares:
        angle += 2 * math.pi * share / sum(shares)
        ring.append(Point(wide * math.cos(angle), high * math.sin(angle)))
    return tuple(ring)


def true_length(curve: Cubic, low: float = 0.0, high: float = 1.0) -> float:
    """Return the arc length by SciPy's adaptive quadrature of |B'(t)|, from the power form of the cubic."""
    s, o, i, e = curve.start, curve.out, curve.into, curve.end
    cx, bx, ax = 3 * (o.x - s.x), 6 * (s.x - 2 * o.x + i.x), 3 * (e.x - 3 * i.x + 3 * o.x - s.x)
    cy, by, ay = 3 * (o.y - s.y), 6 * (s.y - 2 * o.y + i.y), 3 * (e.y - 3 * i.y + 3 * o.y - s.y)

    def speed(t: float) -> float:
        return math.hypot((ax * t + bx) * t + cx, (ay * t + by) * t + cy)

    return quad(speed, low, high, epsabs=1e-9, epsrel=1e-12, limit=400)[0]


def pairs(ring):
    """Return a ring as plain tuples, as Shapely takes them."""
    return [(p.x, p.y) for p in ring]
