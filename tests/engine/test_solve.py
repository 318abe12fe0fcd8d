"""The bracketing solver, against SciPy's Brent method."""

import math

import pytest
from hypothesis import assume, given
from scipy.optimize import brentq

from drafting.engine.curve import straight_down
from drafting.engine.errors import NoSolution
from drafting.engine.point import Point
from drafting.engine.solve import root
from drafting.engine.tolerance import SOLVED

from .shapes import numbers, repeatable

# Steep, flat-sided, wavy and one-sided ones, on brackets that put the root off the middle. All cross zero squarely.
FUNCTIONS = {
    "line": (lambda x: 3 * x - 1, -5, 10),
    "falling line": (lambda x: 2 - 7 * x, -5, 10),
    "square": (lambda x: x * x - 2, 0, 20),
    "cubic": (lambda x: x**3 - 2 * x - 5, 2, 3),
    "ninth power": (lambda x: x**9 - 0.5, 0, 3),
    "cosine": (lambda x: math.cos(x) - x, 0, 2),
    "exponential": (lambda x: math.exp(x) - 1000, 0, 20),
    "falling exponential": (lambda x: math.exp(-x) - 0.01, 0, 30),
    "logarithm": (lambda x: math.log(x) - 0.1, 0.01, 100),
    "arctangent": (lambda x: math.atan(x - 3.3), -100, 100),
    "tangent": (lambda x: math.tan(x) - 4, -1.5, 1.5),
    "steep step": (lambda x: math.tanh(50 * (x - 0.123)), -1, 5),
    "reciprocal": (lambda x: 1 / x - 0.02, 1, 400),
    "kepler": (lambda x: x - 0.9 * math.sin(x) - 1, 0, 4),
    "kink": (lambda x: (x - 1) if x < 1 else 100 * (x - 1), -10, 2),
    "sinking": (lambda x: 30 - x - 0.001 * x**3, 0, 60),
    "half cylinder": (lambda x: 400 - math.hypot(300, x), 0, 4000),
    "cliff": (lambda x: math.exp(50 * x) - 2, -1, 10),
    "root": (lambda x: math.sqrt(x) - 3, 0, 2000),
}


@pytest.mark.parametrize("name", FUNCTIONS)
def test_the_root_is_brents(name):
    f, low, high = FUNCTIONS[name]
    wanted = brentq(f, low, high, xtol=1e-13)
    slope = abs(f(wanted + 1e-6) - f(wanted - 1e-6)) / 2e-6
    # It stops when the bracket or the miss is below SOLVED, so a slope under 1 widens what x may miss.
    assert root(f, low, high, name=name) == pytest.approx(wanted, abs=2 * SOLVED / min(1, slope))


@pytest.mark.parametrize("name", FUNCTIONS)
def test_the_root_does_not_depend_on_which_end_is_named_first(name):
    f, low, high = FUNCTIONS[name]
    assert abs(f(root(f, high, low, name=name))) < max(SOLVED, 1e-4 * abs(f(high) - f(low)))
    assert root(f, high, low, name=name) == pytest.approx(root(f, low, high, name=name), abs=1e-4)


@pytest.mark.parametrize("name", FUNCTIONS)
def test_it_asks_for_few_values(name):
    f, low, high = FUNCTIONS[name]
    asked = []

    def counting(x):
        asked.append(x)
        return f(x)

    root(counting, low, high, name=name)
    # Every fourth step halves the bracket, so four times bisection's count is a bound for anything; smooth functions
    # take far fewer. A slope that jumps a hundredfold at the root, or values up to e⁵⁰⁰, are what needs the bound.
    bisections = math.ceil(math.log2((high - low) / SOLVED))
    assert len(asked) <= (4 * bisections + 2 if name in ("kink", "cliff") else 21)
    assert all(min(low, high) <= x <= max(low, high) for x in asked)


@repeatable
@given(numbers(-3, 3), numbers(-3, 3), numbers(-50, 50), numbers(0.1, 5))
def test_random_rising_cubics_have_brents_root(a, b, c, rise):
    def f(x):
        return ((abs(a) * x + b) * x + b * b / max(abs(a), 0.3) + rise) * x + c

    assume(f(-100) < 0 < f(100))
    found = root(f, -100, 100, name="x")
    assert found == pytest.approx(brentq(f, -100, 100, xtol=1e-12), abs=1e-5)


@repeatable
@given(numbers(30, 200), numbers(5, 60), numbers(1, 40))
def test_a_cup_seam_is_trued_to_brents_answer(depth, left, further):
    # The engine's own kind of question: by how much to raise a leg that slants more, until both are equally long.
    short = straight_down(Point(0, 0), Point(-left, depth)).length()

    def miss(raised):
        return straight_down(Point(0, 0), Point(left + further, depth - raised)).length() - short

    assume(miss(0) * miss(depth / 2) < 0)
    found = root(miss, 0, depth / 2, name="truing")
    assert found == pytest.approx(brentq(miss, 0, depth / 2, xtol=1e-12), abs=1e-5)
    assert abs(miss(found)) < 1e-6


def test_a_root_at_an_end_is_returned_as_it_is():
    assert root(lambda x: x, 0.0, 5.0, name="x") == 0.0
    assert root(lambda x: x - 5, 0.0, 5.0, name="x") == 5.0


def test_the_tolerance_may_be_widened():
    asked = []

    def f(x):
        asked.append(x)
        return math.exp(x) - 1000

    root(f, 0, 20, name="x", within=0.5)
    coarse = len(asked)
    root(f, 0, 20, name="x")
    assert coarse < len(asked) - coarse


def test_like_signs_at_both_ends_are_refused_by_name():
    with pytest.raises(NoSolution) as refusal:
        root(lambda x: x * x + 1, 25.4, 50.8, name="truing move", remedy="Look at the waist.")
    sentence = refusal.value.sentence(lambda mm: f"{mm / 25.4:g} in")
    assert sentence == "No truing move between 1 in and 2 in makes the two edges equal. Look at the waist."


def test_repeated_runs_agree_to_the_last_digit():
    f, low, high = FUNCTIONS["kepler"]
    assert root(f, low, high, name="x") == root(f, low, high, name="x")
