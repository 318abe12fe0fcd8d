"""The lines of pattern drawings: one language for phone, desk and paper.

Widths and dashes are millimetres on paper and pixels on a screen. On paper they are divided by the drawing's scale,
since the printer's SVG scales its strokes; on a screen `vector-effect` keeps them.
"""

from __future__ import annotations

import math
from base64 import b64encode
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from html import escape
from unicodedata import category

from drafting.polyline import XY, Polyline, bounds, thinned


@dataclass(frozen=True, slots=True)
class LineKind:
    """How one kind of line looks: widths in mm and px; dashes in mm (a screen's are four times that, in px)."""

    name: str
    word: str
    paper: float
    screen: float
    dashes: tuple[float, ...] = ()
    round_ends: bool = False


KINDS = {
    kind.name: kind
    for kind in (
        LineKind("cut", "cut line", 0.5, 2),
        LineKind("sew", "sewing line, dart", 0.25, 1, (1.6, 0.8)),
        LineKind("fold", "on the fold", 0.35, 1.6, (4.0, 0.9, 1.1, 0.9)),
        LineKind("grain", "grain", 0.25, 1),
        LineKind("notch", "notch: 1 front, 2 back", 0.5, 2),
        LineKind("let-out", "let-out", 0.25, 1, (0.6, 0.6)),
        LineKind("bone", "bone channel", 0.25, 1, (2.4, 0.6, 0.6, 0.6, 0.6, 0.6)),
        LineKind("mark", "centre line, buttonhole, button", 0.25, 1),
        LineKind("level", "body level", 0.18, 1, (0.18, 0.7), round_ends=True),
        LineKind("dimension", "dimension", 0.18, 0.75),
    )
}

PAPER_FONT = "Sheet Sans"
"""The family that static/css/sheet.css gives to the bundled Noto Sans."""
PAPER_TEXT = 2.35
"""Height of figures and words inside a drawing on paper, mm (6.7 pt)."""
SCREEN_TEXT = 25.4
"""The same on a screen, in mm of cloth: as 1 em is an inch there, the text is as tall as the page's own."""
THIN_WITHIN = 0.03
"""How far, in mm on paper, a drawn curve may stray from the true one: a fifth of the finest line."""


TURNING = "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
"""Marks that turn the direction of all text after them."""


def number(value: float) -> str:
    """Write a coordinate: three decimals at most, a point whatever the language, no negative nothing."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def clean(text: object) -> str:
    """Return text without what loses or scrambles a drawing: control characters, half characters, turned-about runs."""
    return "".join(
        mark for mark in str(text) if mark in "\t\n" or not (category(mark) in ("Cc", "Cs", "Cn") or mark in TURNING)
    )


def safe(text: object) -> str:
    """Return text fit to stand in SVG and HTML, quotes too."""
    return escape(clean(text), quote=True)


class Linework:
    """Gathers the marks of one drawing and the box round them; coordinates in mm of cloth.

    `scale` is paper over cloth (0.125 for ⅛). On a screen it only sets the drawing's size, as 1 em to the inch.
    """

    def __init__(self, *, scale: float, for_paper: bool) -> None:
        self.scale, self.for_paper = scale, for_paper
        self._marks: list[str] = []
        self._seen: list[XY] = []

    def on_paper(self, mm: float) -> float:
        """Return the length of cloth that shows as `mm` on paper (on a screen as four px a mm, at 19 px an inch)."""
        return mm / self.scale if self.for_paper else mm * 4 * 25.4 / 19

    @property
    def text_height(self) -> float:
        return self.on_paper(PAPER_TEXT) if self.for_paper else SCREEN_TEXT

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom of all that was drawn so far."""
        return bounds(self._seen)

    def style(self, name: str, *, dashed: bool = True) -> str:
        """Return the stroke attributes of a kind of line."""
        kind = KINDS[name]
        if self.for_paper:
            width, dashes, keeps = kind.paper / self.scale, [dash / self.scale for dash in kind.dashes], ""
        else:
            width, dashes, keeps = (
                kind.screen,
                [dash * 4 for dash in kind.dashes],
                ' vector-effect="non-scaling-stroke"',
            )
        broken = f' stroke-dasharray="{" ".join(number(dash) for dash in dashes)}"' if dashes and dashed else ""
        ends = ' stroke-linecap="round"' if kind.round_ends else ""
        colour = "#000" if self.for_paper else "currentColor"
        look = f'fill="none" stroke="{colour}" stroke-width="{number(width)}"'
        return f'class="line line-{name}" {look}{broken}{ends}{keeps}'

    def path_data(self, lines: Iterable[Polyline], *, closing: bool = False) -> str:
        """Return the `d` of some polylines, thinned on paper to what a printer can show; takes them into the box."""
        parts = []
        for line in lines:
            self._seen += line
            points = thinned(line, THIN_WITHIN / self.scale) if self.for_paper else line
            parts.append("M" + "L".join(f"{number(x)} {number(y)}" for x, y in points) + ("Z" if closing else ""))
        return "".join(parts)

    def draw(self, name: str, lines: Iterable[Polyline], *, closing: bool = False) -> None:
        """Draw polylines as one kind of line."""
        data = self.path_data([line for line in lines if len(line) > 1], closing=closing)
        if data:
            self._marks.append(f'<path {self.style(name)} d="{data}"/>')

    def ground(self, ring: Polyline, role: str) -> None:
        """Fill a ring with its cloth's colour; paper stays white."""
        if not self.for_paper:
            self._marks.append(
                f'<path class="ground ground-{safe(role)}" fill="none" d="{self.path_data([ring], closing=True)}"/>'
            )

    def ring(self, centre: XY, *, radius: float = 0.7) -> None:
        """Draw a small ring (`radius` in mm on paper), as at a dart's point."""
        x, y, reach = number(centre[0]), number(centre[1]), number(self.on_paper(radius))
        self._marks.append(f'<circle {self.style("sew", dashed=False)} cx="{x}" cy="{y}" r="{reach}"/>')

    def solid(self, corners: Polyline) -> None:
        """Fill a small shape in ink, as an arrow's head."""
        colour = "#000" if self.for_paper else "currentColor"
        self._marks.append(f'<path class="solid" fill="{colour}" d="{self.path_data([corners], closing=True)}"/>')

    def words(
        self, text: str, at: XY, *, anchor: str = "middle", angle: float = 0.0, bold: bool = False, size: float = 1.0
    ) -> None:
        """Write text (`size` times the usual height), its middle line at `at`, turned clockwise by `angle` degrees."""
        height = self.text_height * size
        turn = f' transform="rotate({number(angle)} {number(at[0])} {number(at[1])})"' if angle else ""
        weight = ' font-weight="700"' if bold else ""
        colour = "#000" if self.for_paper else "currentColor"
        family = f' font-family="{PAPER_FONT}"' if self.for_paper else ""
        self._marks.append(
            f'<text class="words" x="{number(at[0])}" y="{number(at[1] + 0.36 * height)}" text-anchor="{anchor}"'
            f' font-size="{number(height)}"{family}{weight} fill="{colour}" stroke="none"{turn}>{safe(text)}</text>'
        )
        self._seen += word_box(text, at, height, anchor=anchor, angle=angle)

    def raw(self, mark: str) -> None:
        """Add a mark that is already safe SVG."""
        self._marks.append(mark)

    def svg(self, *, title: str, attributes: Mapping[str, str] | None = None, edge: float = 0.4) -> str:
        """Return the whole drawing with a title and `edge` mm of paper round it; sized in mm, on a screen in em."""
        left, top, right, bottom = self.box
        rim = self.on_paper(edge)
        width, height = right - left + 2 * rim, bottom - top + 2 * rim
        if self.for_paper:
            size = f'width="{number(width * self.scale)}mm" height="{number(height * self.scale)}mm"'
        else:
            em = self.scale / 25.4
            size = f'width="{number(width * em)}em" height="{number(height * em)}em" role="group"'
        more = "".join(f' {name}="{safe(value)}"' for name, value in (attributes or {}).items())
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" {size} viewBox="{number(left - rim)} {number(top - rim)}'
            f' {number(width)} {number(height)}"{more}><title>{safe(title)}</title>{"".join(self._marks)}</svg>'
        )


def as_image(svg: str, words: str) -> str:
    """Return the drawing as an image of data:, for paper; it prints a tenth faster than markup in the page."""
    return f'<img alt="{safe(words)}" src="data:image/svg+xml;base64,{b64encode(svg.encode()).decode()}">'


def word_box(text: str, at: XY, height: float, *, anchor: str, angle: float) -> list[XY]:
    """Return four corners that surely hold the text turned about `at`, by the width of a broad letter."""
    wide, half = 0.57 * height * len(text), 0.5 * height
    before = {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
    cos, sin = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    corners = ((-before, -half), (wide - before, -half), (wide - before, half), (-before, half))
    return [(at[0] + x * cos - y * sin, at[1] + x * sin + y * cos) for x, y in corners]
