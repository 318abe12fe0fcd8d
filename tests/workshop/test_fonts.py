"""The bundled fonts hold what the workshop writes, and their licences lie beside them."""

import pytest
from django.conf import settings
from fontTools.ttLib import TTFont

from workshop.length import INCH, print_length
from workshop.money import CURRENCIES

FONTS = settings.BASE_DIR / "static" / "fonts"
NOTO = [f"NotoSans-{weight}.{kind}" for weight in ("Regular", "Bold") for kind in ("ttf", "woff2")]

#: Sentences with every letter of the languages that workshops asked about (from memory).
LETTERS = (
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789 "
    "ẸẹỌọṢṣÀàÁáÈèÉéÌìÍíÒòÓóÙùÚúŃńǸǹ ƁɓƊɗƘƙƳƴ ßÄÖÜäöü çœæÆŒ ãõÃÕ ñ¿¡ "
    "ăâđêôơưĂÂĐÊÔƠƯ ạảấầẩẫậắằẳẵặ åøÅØ łŁśŚżŻ řčžěů ğışŞİ őű țș"
)
SIGNS = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⅟⁄⁰¹²³⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉−×÷·°“”‘’–—…→←✓▸′″\u00a0"


@pytest.mark.parametrize("name", NOTO)
def test_noto_has_every_letter_fraction_and_sign(name):
    have = TTFont(FONTS / name).getBestCmap()
    written = LETTERS + SIGNS + "".join(c.sign for c in CURRENCIES.values()) + "\u0300\u0301\u0323"
    written += "".join(print_length(n * 1.5875, INCH, step=16, with_unit=True) for n in range(1, 16))
    assert [c for c in sorted(set(written)) if ord(c) not in have] == []


@pytest.mark.parametrize("name", NOTO)
def test_noto_keeps_its_figures_one_width_and_its_features(name):
    font = TTFont(FONTS / name)
    cmap, widths = font.getBestCmap(), font["hmtx"]
    assert len({widths[cmap[ord(figure)]][0] for figure in "0123456789−+"}) == 1
    features = {record.FeatureTag for record in font["GSUB"].table.FeatureList.FeatureRecord}
    assert {"frac", "ccmp"} <= features
    assert "mark" in {record.FeatureTag for record in font["GPOS"].table.FeatureList.FeatureRecord}


@pytest.mark.parametrize("name", ["Besley-SemiBold.ttf", "Besley-SemiBold.woff2"])
def test_besley_has_the_letters_of_headings(name):
    have = TTFont(FONTS / name).getBestCmap()
    assert [c for c in "ABCXYZabcxyz0123456789 .,-éèçüñ’&" if ord(c) not in have] == []


@pytest.mark.parametrize("name", ["NotoSans-OFL.txt", "Besley-OFL.txt"])
def test_each_font_has_its_licence_beside_it(name):
    text = (FONTS / name).read_text(encoding="utf-8")
    assert text.startswith("Copyright")
    assert "SIL OPEN FONT LICENSE Version 1.1" in text


def test_what_a_browser_loads_stays_small():
    assert sum(path.stat().st_size for path in FONTS.glob("*.woff2")) < 160_000
