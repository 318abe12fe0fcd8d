"""The reference body's pieces are as they were last looked at: what moves a line on purpose rewrites them, and shows the diff."""

import re

import pytest

from drafting.engine.garments import KINDS
from tests.engine.reference_paths import FOLDER, number, reference, text_of

#: The last figure of a hundredth may differ between processors.
NEAR = 0.015
FIGURE = re.compile(r"-?\d+(?:\.\d+)?")


def test_each_kind_has_its_file_and_no_file_is_left_over():
    assert {path.stem for path in FOLDER.glob("*.txt")} == set(KINDS)


@pytest.mark.parametrize("kind", list(KINDS))
def test_the_reference_bodys_pieces_are_as_they_were(kind):
    kept, now = (FOLDER / f"{kind}.txt").read_text("utf-8").splitlines(), text_of(reference(kind)).splitlines()
    moved = [f"- {a}\n+ {b}" for a, b in zip(kept, now, strict=False) if not same(a, b)]
    advice = "If this is meant: python -m tests.engine.reference_paths, look at the pieces, and commit the diff."
    assert not moved and len(kept) == len(now), "\n".join([f"{kind}: {len(moved)} lines moved. {advice}", *moved[:10]])


def same(a: str, b: str) -> bool:
    """The same words, and figures that agree to the last hundredth."""
    if FIGURE.sub("#", a) != FIGURE.sub("#", b):
        return False
    return all(abs(float(x) - float(y)) < NEAR for x, y in zip(FIGURE.findall(a), FIGURE.findall(b), strict=True))


def test_a_hundredth_of_a_millimetre_shows_and_less_does_not():
    assert same("M1.01,2 L3,4  ; side, 12.7", "M1.02,2 L3,4  ; side, 12.7")
    assert not same("M1.01,2 L3,4  ; side, 12.7", "M1.03,2 L3,4  ; side, 12.7")
    assert not same("M1.01,2 L3,4  ; side, 12.7", "M1.01,2 L3,4  ; hem, 12.7")
    assert (number(-0.001), number(12.70), number(3.14159)) == ("0", "12.7", "3.14")
