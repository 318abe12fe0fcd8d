"""The picture of a pattern, read back by Pillow."""

import io
import os

import pytest
from PIL import Image

from drafting.paper.choice import Choice, NothingChosen
from drafting.paper.preview import LONGEST, as_png
from tests.paper.drafts import gown

ORDER, RESULT = gown()


def picture(**choice) -> Image.Image:
    found = as_png(ORDER, RESULT, choice=Choice(**choice))
    if os.environ.get("SHOTS"):
        with open(f"{os.environ['SHOTS']}/pattern.png", "wb") as file:
            file.write(found)
    image = Image.open(io.BytesIO(found), formats=["PNG"])
    image.load()
    return image


def test_it_is_a_small_picture_with_ink_on_white():
    image = picture()
    assert abs(max(image.size) - LONGEST) <= 1
    dark = sum(image.histogram()[:128])
    assert 0.002 < dark / (image.width * image.height) < 0.2
    assert image.getpixel((0, 0)) == 255


def test_one_piece_fills_its_own_picture():
    name = RESULT["pieces"][0]["name"]
    box = picture(pieces=frozenset({name})).point(lambda grey: 255 - grey).getbbox()
    assert box is not None and box[2] - box[0] > 300


def test_nothing_chosen_is_refused():
    with pytest.raises(NothingChosen):
        picture(pieces=frozenset({"no such piece"}))
