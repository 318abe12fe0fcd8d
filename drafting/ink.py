"""Our own drawings inked straight into a PDF, in place of the press's own reading of SVG.

The press sets each letter of an SVG's text by itself, marks and all, and reads its paths number by number: that is half the
time of a drawing. Here a text is set whole, so that tone marks stand over their vowels, and a path's numbers are copied.
Only what our drawings are made of is known: paths of straight lines, rectangles, circles, text. A drawing that holds
anything else is left to the press.
"""

from __future__ import annotations

import math
import re
from base64 import b64decode
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Any
from xml.etree import ElementTree

DATA = "data:image/svg+xml;base64,"
SVG = "{http://www.w3.org/2000/svg}"
PX = 96 / 25.4
"""Pixels of CSS, the press's unit, to the millimetre."""
PART = re.compile(r"([MLZ])([-0-9. ]*)")
STRAIGHT = re.compile(r"(?:M[-0-9. ]+(?:L[-0-9. ]+)*Z?)*")
TOKEN = re.compile(r"[A-Za-z]|-?[0-9]*\.?[0-9]+")
TURN = re.compile(r"rotate\((-?[0-9.]+) (-?[0-9.]+) (-?[0-9.]+)\)")
COLOUR = re.compile(r"#(?:[0-9a-f]{3}|[0-9a-f]{6})")
OPERATORS = {"M": "m", "L": "l", "Z": "h"}
SHARES = {"start": 0.0, "middle": 0.5, "end": 1.0}
ROUND = 0.5522847498
"""How far a curve's handles reach, over the radius, so that four curves make a circle (from 4/3·tan(π/8))."""
SAYS_NOTHING = {"class", "data-piece", "shape-rendering"}
PAINT = {"fill", "stroke", "stroke-width", "stroke-dasharray", "stroke-linecap"}
WRITING = {"x", "y", "text-anchor", "font-size", "font-family", "font-weight", "fill", "stroke", "transform"}


class NotOurs(ValueError):
    """The drawing holds something that isn't known here."""


@dataclass(frozen=True, slots=True)
class Words:
    """A text of a drawing: how much of its width lies before x, by how much it is turned, clockwise, and about which spot."""

    said: str
    x: float
    y: float
    family: str
    size: float
    weight: int
    share: float
    turn: tuple[float, float, float]
    colour: str

    @classmethod
    def read(cls, mark: ElementTree.Element) -> Words:
        given = mark.attrib
        _only(given, WRITING)
        if given.get("stroke", "none") != "none" or len(mark):
            raise NotOurs("text")
        turned = TURN.fullmatch(given.get("transform", "rotate(0 0 0)"))
        if not turned:
            raise NotOurs(given["transform"])
        return cls(
            mark.text or "", float(given["x"]), float(given["y"]), given["font-family"], float(given["font-size"]),
            int(given.get("font-weight", 400)), SHARES[given.get("text-anchor", "start")], tuple(map(float, turned.groups())),
            _colour(given.get("fill", "#000"), "rg"),
        )  # fmt: skip


class Drawings(dict):
    """The press's store of pictures by address; it finds in it every drawing of ours as one of `Inked`."""

    def __init__(self, fonts: Any) -> None:
        super().__init__()
        self._fonts = fonts

    def __contains__(self, address: object) -> bool:
        if not super().__contains__(address) and isinstance(address, str) and address.startswith(DATA):
            try:
                self[address] = Inked(b64decode(address.removeprefix(DATA)), self._fonts)
            except NotOurs:
                return False
        return super().__contains__(address)


class Inked:
    """One drawing, as the press asks it of a picture: its size in pixels, and to draw itself with y downwards."""

    def __init__(self, svg: bytes, fonts: Any) -> None:
        """Raises NotOurs."""
        tree = ElementTree.fromstring(svg)
        _only(tree.attrib, {"width", "height", "viewBox"})
        try:
            self._size = tuple(float(tree.attrib[side].removesuffix("mm")) * PX for side in ("width", "height"))
            self._view = tuple(float(side) for side in tree.attrib["viewBox"].split())
            self._strokes, self._texts = _read(tree)
        except (KeyError, ValueError) as other:
            raise NotOurs(str(other)) from other
        self._fonts = fonts

    def get_intrinsic_size(self, _resolution: Any, _font_size: Any) -> tuple[float, float, float]:
        wide, high = self._size
        return wide, high, wide / high

    def draw(self, stream: Any, width: float, height: float, _style: Any) -> None:
        left, top, wide, high = self._view
        with stream.stacked():
            stream.transform(a=width / wide, d=height / high, e=-left * width / wide, f=-top * height / high)
            stream.stream.append(self._strokes)
            for text in self._texts:
                _write(stream, text, self._fonts)


def _read(tree: ElementTree.Element) -> tuple[str, list[Words]]:
    """Return the PDF operators of all lines and fillings, and the texts."""
    drawn, texts, last = ["4 M"], [], ""
    for mark in tree:
        kind, given = mark.tag.removeprefix(SVG), mark.attrib
        if kind == "title":
            continue
        if kind == "text":
            texts.append(Words.read(mark))
            continue
        paint, act = _paint(given)
        if paint != last:
            drawn.append(paint)
            last = paint
        drawn += [_shape(kind, given), act]
    return "\n".join(drawn), texts


def _only(given: dict[str, str], known: set[str]) -> None:
    strange = set(given) - known - SAYS_NOTHING
    if strange:
        raise NotOurs(", ".join(sorted(strange)))


def _paint(given: dict[str, str]) -> tuple[str, str]:
    """Return the operators that set colours and pen, and the one that then paints the shape."""
    fill, stroke = given.get("fill", "#000"), given.get("stroke", "none")
    state = []
    if fill != "none":
        state.append(_colour(fill, "rg"))
    if stroke != "none":
        ends = 1 if given.get("stroke-linecap", "butt") == "round" else 0
        width, dashes = float(given.get("stroke-width", "1")), given.get("stroke-dasharray", "")
        state.append(f"{_colour(stroke, 'RG')} {width:.6g} w {ends} J [{dashes}] 0 d")
    acts = {(True, True): "B", (True, False): "f", (False, True): "S", (False, False): "n"}
    return " ".join(state), acts[fill != "none", stroke != "none"]


def _colour(written: str, operator: str) -> str:
    if not COLOUR.fullmatch(written):
        raise NotOurs(written)
    digits = written[1:] if len(written) == 7 else "".join(digit * 2 for digit in written[1:])
    return " ".join(f"{int(digits[at : at + 2], 16) / 255:.3g}" for at in (0, 2, 4)) + f" {operator}"


def _shape(kind: str, given: dict[str, str]) -> str:
    if kind == "path":
        _only(given, PAINT | {"d"})
        data = given["d"]
        return PART.sub(_operator, data) if STRAIGHT.fullmatch(data) else "\n".join(_stepped(TOKEN.findall(data)))
    if kind == "rect":
        _only(given, PAINT | {"x", "y", "width", "height"})
        return " ".join(f"{float(given[name]):.6g}" for name in ("x", "y", "width", "height")) + " re"
    if kind == "circle":
        _only(given, PAINT | {"cx", "cy", "r"})
        return _circle(*(float(given[name]) for name in ("cx", "cy", "r")))
    raise NotOurs(kind)


def _operator(part: re.Match) -> str:
    letter, numbers = part.groups()
    return f"{numbers} {OPERATORS[letter]}\n"


def _stepped(tokens: list[str]) -> Iterator[str]:
    """Yield the operators of a path with steps along one axis or from the last point, as of a code or a rule."""
    x = y = 0.0
    start, letter, rest = (0.0, 0.0), "", iter(tokens)
    for token in rest:
        if token.isalpha():
            letter = token
            if letter not in "MmLlHhVvZz":
                raise NotOurs(f"path {letter}")
            if letter in "Zz":
                x, y = start
                yield "h"
            continue
        if letter in "HhVv":
            step = float(token)
            across, away = letter in "Hh", letter.islower()
            x, y = (step + x * away, y) if across else (x, step + y * away)
        elif letter in "MmLl":
            away = letter.islower()
            x, y = float(token) + x * away, float(next(rest)) + y * away
        else:
            raise NotOurs("path")
        yield f"{x:.7g} {y:.7g} {'m' if letter in 'Mm' else 'l'}"
        if letter in "Mm":
            start, letter = (x, y), "L" if letter == "M" else "l"


def _circle(x: float, y: float, r: float) -> str:
    bent = r * ROUND
    ways = (((1, 0), (0, 1)), ((0, 1), (-1, 0)), ((-1, 0), (0, -1)), ((0, -1), (1, 0)))
    quarters = []
    for (ax, ay), (bx, by) in ways:
        points = (ax * r + bx * bent, ay * r + by * bent, bx * r + ax * bent, by * r + ay * bent, bx * r, by * r)
        quarters.append(" ".join(f"{side + (x, y)[at % 2]:.7g}" for at, side in enumerate(points)) + " c")
    return "\n".join([f"{x + r:.7g} {y:.7g} m", *quarters, "h"])


@lru_cache(maxsize=256)
def _writing(family: str, weight: int, size: float, fonts: Any) -> Any:
    """Return the press's style of plain text in that font, `size` in the drawing's own unit."""
    from weasyprint.css.properties import INITIAL_VALUES
    from weasyprint.svg.text import Style

    style = Style(INITIAL_VALUES)
    style.font_config = fonts
    style.update(font_family=[family], font_style="normal", font_weight=weight, font_size=size, white_space="pre")
    return style


def _write(stream: Any, text: Words, fonts: Any) -> None:
    """Set the text's words as one line, about its anchor and turned as it says."""
    from weasyprint.draw.text import draw_first_line
    from weasyprint.matrix import Matrix
    from weasyprint.svg.text import TextBox
    from weasyprint.text.line_break import create_layout, line_size

    style = _writing(text.family, text.weight, text.size, fonts)
    layout = create_layout(text.said, style, None, None, 0)
    wide = line_size(layout.get_first_line()[0], style)[0] if text.share else 0.0
    degrees, about_x, about_y = text.turn
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    dx, dy = text.x - text.share * wide - about_x, text.y - about_y
    x, y = about_x + cos * dx - sin * dy, about_y + sin * dx + cos * dy
    stream.stream.append(text.colour)
    stream.begin_text()
    draw_first_line(stream, TextBox(layout, style), "none", "none", Matrix(cos, sin, sin, -cos, x, y))
    stream.end_text()
