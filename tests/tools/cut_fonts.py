"""Cuts the bundled fonts. Not a test: run by hand when the sources change.

    python tests/tools/cut_fonts.py FOLDER_OF_NOTO_TTF BESLEY_WOFF2

Sources: Debian's fonts-noto-core (whole files; the cuts on the web lack the eighths) and the latin
600 file of the npm package @fontsource/besley 5.3.0. Both are under the SIL Open Font License 1.1.
Noto Sans has no minus, arrows or check mark, so a few signs of our own are drawn in.
"""

import sys
from pathlib import Path

from fontTools import subset
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont

OUT = Path(__file__).resolve().parents[2] / "static" / "fonts"

#: Latin and its extensions with the letters of Hausa, Yoruba, Vietnamese; marks; punctuation; super-
#: and subscript figures; currency signs; letterlike signs; every vulgar fraction and the fraction slash.
KEPT = [
    (0x20, 0x7E), (0xA0, 0x24F), (0x250, 0x2AF), (0x2B0, 0x2FF), (0x300, 0x36F), (0x1E00, 0x1EFF), (0x2000, 0x206F),
    (0x2070, 0x209F), (0x20A0, 0x20C0), (0x2100, 0x2126), (0x2150, 0x215F), (0x2189, 0x2189), (0xFB00, 0xFB04),
    (0xFFFD, 0xFFFD),
]  # fmt: skip


def strokes(weight: int, x: int, up: int) -> dict[int, tuple[str, int, list[list[tuple[int, int]]]]]:
    """Code point -> name, advance, contours (clockwise) in units of 1000 an em."""
    half, mid = weight // 2, up
    bar = [(x, mid - half), (x, mid + half), (572 - x, mid + half), (572 - x, mid - half)]
    shaft = [(60, mid - half), (60, mid + half), (800, mid + half), (800, mid - half)]
    right = [
        (860, mid),
        (640, mid + 220),
        (640 - weight, mid + 220 - half),
        (860 - weight * 2, mid),
        (640 - weight, mid - 220 + half),
        (640, mid - 220),
    ]
    left = [(920 - px, py) for px, py in reversed(right)]
    flipped = [(920 - px, py) for px, py in reversed(shaft)]
    w = round(weight * 0.8)
    check = [(70, 330), (70 + w, 330 + w), (260, 140 + 2 * w), (620, 640 + w), (620 + w, 640), (260, 110)]
    pointer = [(90, 90), (90, 610), (470, 350)]
    return {
        0x2212: ("minus", 572, [bar]),
        0x2192: ("arrowright", 920, [shaft, right]),
        0x2190: ("arrowleft", 920, [flipped, left]),
        0x2713: ("checkmark", 720, [check]),
        0x25B8: ("pointerright", 540, [pointer]),
    }


BOX = {
    0x2610: ("ballotbox", 1640, [
        [(0, -160), (0, 1020), (1180, 1020), (1180, -160)], [(115, -45), (1065, -45), (1065, 905), (115, 905)],
    ]),
}  # fmt: skip
"""To tick on paper, 3.6 mm where the text is 8.6 pt: as a letter it is printed ten times faster than as a box of the page."""


def signs_for(font: TTFont, weight: int) -> dict:
    """Our signs at the height of the font's own plus."""
    plus = font["glyf"][font.getBestCmap()[0x2B]]
    scale = font["head"].unitsPerEm / 1000
    return strokes(weight, round(plus.xMin / scale), round((plus.yMin + plus.yMax) / 2 / scale))


def draw_in(font: TTFont, signs: dict) -> None:
    scale = font["head"].unitsPerEm / 1000
    for code, (name, advance, contours) in signs.items():
        pen = TTGlyphPen(None)
        for contour in contours:
            pen.moveTo(tuple(round(v * scale) for v in contour[0]))
            for point in contour[1:]:
                pen.lineTo(tuple(round(v * scale) for v in point))
            pen.closePath()
        glyph = pen.glyph()
        glyph.recalcBounds(font["glyf"])
        font["glyf"][name] = glyph
        font["hmtx"][name] = (round(advance * scale), glyph.xMin)
        for table in font["cmap"].tables:
            if table.isUnicode():
                table.cmap[code] = name
    font.setGlyphOrder(font["glyf"].glyphOrder)


def cut(source: Path, name: str, weight: int) -> None:
    options = subset.Options(
        layout_features=["*"], notdef_outline=True, name_IDs=["*"], glyph_names=True, hinting=False
    )
    font = subset.load_font(str(source), options)
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=[code for low, high in KEPT for code in range(low, high + 1)])
    cutter.subset(font)
    draw_in(font, signs_for(font, weight))
    save(font, name)
    add_box(name)


def add_box(name: str) -> None:
    """Adds the box to the file for print alone."""
    font = TTFont(OUT / f"{name}.ttf", recalcTimestamp=False)
    draw_in(font, BOX)
    font.save(OUT / f"{name}.ttf")


def save(font: TTFont, name: str) -> None:
    font.flavor = "woff2"
    font.save(OUT / f"{name}.woff2")
    font.flavor = None
    font.save(OUT / f"{name}.ttf")


if __name__ == "__main__":
    noto, besley = Path(sys.argv[1]), Path(sys.argv[2])
    cut(noto / "NotoSans-Regular.ttf", "NotoSans-Regular", 66)
    cut(noto / "NotoSans-Bold.ttf", "NotoSans-Bold", 122)
    save(TTFont(besley), "Besley-SemiBold")
