"""What to set when the test square is off. The answers are done by hand: true ÷ measured."""

from decimal import Decimal

import pytest

from drafting.paper.test_square import percentage, percentage_words
from workshop.length import CM, INCH


@pytest.mark.parametrize(
    ("written", "unit", "scale", "right"),
    [
        ("9.8", CM, "102.0", False),  # 100 / 98
        ("10", CM, "100.0", True),
        ("10,05", CM, "99.5", True),
        ("10.2 cm", CM, "98.0", False),  # 100 / 102
        ("4", INCH, "100.0", True),
        ("3 7/8", INCH, "103.2", False),  # 4 / 3.875
        ("4 1/8", INCH, "97.0", False),  # 4 / 4.125
    ],
)
def test_the_scale_is_the_true_side_over_the_measured_one(written, unit, scale, right):
    assert percentage(written, unit) == (Decimal(scale), right)


@pytest.mark.parametrize(("written", "said"), [("9.8", "Set the scale to 102.0 %"), ("10", "10 is right"), ("0", "should be 10 cm"), ("99", "should be 10 cm"), ("x", "can't read “x”")])
def test_the_answer_is_a_sentence(written, said):
    assert said in percentage_words(written, CM)
