"""Our drawings, inked by ourselves, against the press's own reading of SVG and its setting of text."""

import unicodedata

import numpy as np
import pypdfium2
import pytest

from drafting import pdf
from drafting.ink import DATA, Drawings
from drafting.linework import PAPER_FONT, Linework, as_image, safe

STROKES = (
    '<path class="line" fill="none" stroke="#000" stroke-width="0.5" d="M5 5L40 8.5L38 30Z"/>'
    '<path fill="none" stroke="#000" stroke-width="0.4" stroke-dasharray="2 1" stroke-linecap="round" d="M5 40h30v10M20 40l5 -6m5 0H60V35z"/>'
    '<path fill="#e4e4e4" stroke="#888" stroke-width="0.3" d="M50 5L70 5L60 20Z"/>'
    '<circle cx="60" cy="45" r="4" fill="#fff" stroke="#000" stroke-width="0.3"/><rect x="45" y="25" width="6" height="3.5"/>'
)
YORUBA = unicodedata.normalize("NFC", "Ẹ̀kọ́ ọ̀nà Ṣẹ̀gun")


def drawing(marks: str) -> str:
    return f'<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="60mm" viewBox="0 0 80 60"><title>A drawing</title>{marks}</svg>'


def written(words: str, more: str = "") -> str:
    return f'<text x="40" y="30" font-size="7" font-family="{PAPER_FONT}" {more}>{safe(words)}</text>'


def seen(page: str) -> np.ndarray:
    """Return the pressed page as grey pixels, ten to the millimetre; its foot left out."""
    document = pypdfium2.PdfDocument(pdf.press(f"<html><body>{page}</body></html>", paper="A4"))
    return np.asarray(document[0].render(scale=254 / 72, grayscale=True).to_numpy()).squeeze()[:2000].astype(int)


def of_ink(grey: np.ndarray) -> np.ndarray:
    """Return what is not white, with nothing round it."""
    rows, columns = np.nonzero(grey < 128)
    return grey[rows.min() : rows.max() + 1, columns.min() : columns.max() + 1]


def test_lines_and_text_look_as_the_press_reads_them(monkeypatch):
    turned = written("15⅜", 'text-anchor="middle" font-weight="700" transform="rotate(-40 30 30)"')
    page = as_image(drawing(STROKES + turned + written("20½", 'text-anchor="end"')), "")
    inked = seen(page)
    monkeypatch.setattr(pdf, "Drawings", lambda fonts: {})
    read = seen(page)
    assert (read < 128).sum() > 5000
    assert (abs(inked - read) > 128).sum() < 60  # letters are set a hair nearer or farther


def test_a_tone_mark_in_a_drawing_stands_as_in_a_sentence():
    sentence = of_ink(seen(f'<p style="font-size: 7mm">{YORUBA}</p>'))
    in_drawing = of_ink(seen(as_image(drawing(written(YORUBA, 'text-anchor="middle"')), "")))
    assert np.allclose(in_drawing.shape, sentence.shape, atol=1)
    high, wide = (min(sides) for sides in zip(in_drawing.shape, sentence.shape))
    assert (abs(in_drawing[:high, :wide] - sentence[:high, :wide]) > 128).mean() < 0.05


def test_what_our_lines_are_drawn_with_is_all_known():
    sketch = Linework(scale=0.125, for_paper=True)
    for name in ("cut", "sew", "level", "fold"):
        sketch.draw(name, [[(0, 0), (80, 8), (90, 60)]])
    sketch.ring((20, 20))
    sketch.solid([(0, 0), (4, 1), (4, -1)])
    sketch.words("let-out 1¼", (40, 40), angle=30, bold=True)
    address = as_image(sketch.svg(title="A piece"), "").split('"')[3]
    assert address.startswith(DATA) and address in Drawings(None)


@pytest.mark.parametrize("mark", ['<ellipse cx="4" cy="4" rx="2" ry="1"/>', '<path d="M0 0C1 1 2 2 3 3"/>', '<path d="M0 0L1 1" opacity="0.5"/>',
                                  '<text x="1" y="1" font-size="3" font-family="Sheet Sans" transform="scale(2)">12</text>'])
def test_a_mark_that_is_not_known_is_left_to_the_press(mark):
    assert as_image(drawing(mark), "").split('"')[3] not in Drawings(None)
