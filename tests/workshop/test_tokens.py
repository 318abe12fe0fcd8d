"""The colours: each pair that pages set on one another keeps WCAG 2.2's contrast, by day and by night.

The formula is WCAG 2.2's "relative luminance" and "contrast ratio".
"""

import re

import pytest
from django.conf import settings

CSS = settings.BASE_DIR / "static" / "css"
ON_PAPER = ("print.css", "sheet.css", "paper.css", "money_paper.css", "ticket.css")  # black on white
TEXT, MARK = 4.5, 3.0
PAIRS = [
    *[(ink, ground, TEXT) for ink in ("ink", "ink-2", "chalk", "red", "green")
      for ground in ("table", "paper", "quiet")],
    ("ink", "pick", TEXT), ("ink-2", "pick", TEXT), ("chalk", "pick", TEXT), ("on-tape", "tape", TEXT),
    ("paper", "ink", TEXT),
    ("paper", "red", TEXT), ("on-navy", "navy", TEXT), ("edge", "paper", MARK), ("edge", "table", MARK),
    *[("ink", f"cloth-{cloth}", TEXT) for cloth in "abc"],
]  # fmt: skip


def tokens(dark: bool) -> dict[str, str]:
    text = (CSS / "tokens.css").read_text()
    day, night = text.split("@media (prefers-color-scheme: dark)")
    found = dict(re.findall(r"--([a-z0-9-]+): (#[0-9a-f]{6})", day))
    return found | dict(re.findall(r"--([a-z0-9-]+): (#[0-9a-f]{6})", night)) if dark else found


def luminance(colour: str) -> float:
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_formula_gives_the_standards_own_extremes():
    assert contrast("#ffffff", "#000000") == 21
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)  # widely published: just short of 4.5


@pytest.mark.parametrize("dark", [False, True], ids=["day", "night"])
def test_every_pair_has_the_contrast_it_needs(dark):
    colours = tokens(dark)
    weak = [
        (a, b, round(contrast(colours[a], colours[b]), 2))
        for a, b, least in PAIRS
        if contrast(colours[a], colours[b]) < least
    ]
    assert weak == []


def test_colours_are_named_in_the_tokens_and_nowhere_else():
    for sheet in CSS.glob("*.css"):
        text = re.sub(r"/\*.*?\*/", "", sheet.read_text(), flags=re.DOTALL)
        if sheet.name not in ("tokens.css", *ON_PAPER):
            assert re.findall(r"#[0-9a-fA-F]{3,8}\b(?![\w-]*[^;{]*\{)|rgb\(|hsl\(", text) == [], sheet.name


def test_yellow_is_only_ever_the_tape():
    """Rules that use the tape's yellow draw a tape, its inches, the pad's inch, or the tape on the figure."""
    tapes = re.compile(r"tape|inch|pad-part|figure|taken")
    strangers = []
    for sheet in CSS.glob("*.css"):
        text = re.sub(r"/\*.*?\*/", "", sheet.read_text(), flags=re.DOTALL)
        assert not re.search(r"\b(yellow|gold|orange|khaki)\b", text), sheet.name
        for selector, body in re.findall(r"([^{};]+)\{([^{}]*)\}", text):
            if "var(--tape" in body and not tapes.search(selector):
                strangers.append((sheet.name, selector.strip()))
    assert strangers == []


def test_every_token_that_a_sheet_uses_is_there():
    known = set(re.findall(r"(--[a-z0-9-]+):", (CSS / "tokens.css").read_text()))
    for sheet in CSS.glob("*.css"):
        text = sheet.read_text()
        own = set(re.findall(r"(--[a-z0-9-]+):", text))
        assert set(re.findall(r"var\((--[a-z0-9-]+)", text)) - known - own == set(), sheet.name


def test_the_styles_of_a_page_stay_small():
    import gzip

    frame = [CSS / f"{name}.css" for name in ("tokens", "base", "layout", "parts", "forms", "print")]
    assert len(gzip.compress(b"".join(path.read_bytes() for path in frame))) < 8_000
