"""Read a lay file: one cloth and the outlines to lay on it, every problem named by its key."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from drafting.cloth_brief import HALF_INCH_MM
from drafting.engine.errors import DraftingError
from drafting.engine.lay import LAYOUTS, LayCloth, LayPiece
from drafting.engine.lay.cloth import EIGHTH_YARD, MOST_SHRINK, TEN_CM
from drafting.order_section import Section, shown
from workshop.length import MM_PER, print_length

FILE = ("name", "units", "cloth", "pieces", "source", "best_published_density")
CLOTH = (
    "name",
    "width",
    "selvedge",
    "layout",
    "one_way",
    "repeat",
    "repeat_across",
    "match",
    "gap",
    "length",
    "flaws",
    "shrink",
)
PIECE = ("name", "outline", "count", "on_fold", "turns", "mirror", "motif", "singly")
UNITS = ("in", "cm", "mm")
MOST_PIECES, MOST_POINTS, MOST_COUNT = 2000, 20_000, 2000
MOST_SHOWN = 20


class LayFileError(ValueError):
    """A lay file that can't be laid: `problems`, one sentence each."""

    def __init__(self, problems: list[str]) -> None:
        self.problems = problems
        more = len(problems) - MOST_SHOWN
        super().__init__("\n".join([*problems[:MOST_SHOWN], *([f"and {more} more."] if more > 0 else [])]))


@dataclass(frozen=True, slots=True)
class LayFile:
    name: str
    units: str
    cloth: LayCloth
    pieces: tuple[LayPiece, ...]


def fmt_in(unit: str) -> Callable[[float], str]:
    """Lengths written in the file's unit, with it."""
    return lambda mm: print_length(mm, unit, with_unit=True)


def read_lay_file(data: Any) -> LayFile:
    """The cloth and the pieces of a lay file's JSON; raises LayFileError with every problem."""
    if not isinstance(data, dict):
        raise LayFileError([f"I read {shown(data)}. A lay file is one JSON object, from {{ to }}."])
    problems: list[str] = []
    file = Section(data, "", "mm", problems)
    file.only(FILE)
    file.unit = file.choice("units", UNITS, required=True) or "mm"
    name = file.text("name", "a name for the lay") or "lay"
    section = file.section("cloth", "an object with a width", required=True)
    match: list[str] = []
    cloth = _cloth(section, file.unit, match) if section else None
    pieces = _pieces(file, match)
    if not problems and cloth and not data["cloth"].get("layout"):
        layout = "folded" if any(piece.on_fold for piece in pieces) else "best"
        cloth = LayCloth(**{key: getattr(cloth, key) for key in cloth.__slots__} | {"layout": layout})
    if problems or cloth is None:
        raise LayFileError(problems)
    return LayFile(name, file.unit, cloth, tuple(pieces))


def _cloth(section: Section, unit: str, match: list[str]) -> LayCloth | None:
    section.only(CLOTH)
    before = len(section.problems)
    width = section.length("width", "the cloth's width", required=True, above_nothing=True)
    lengths = {
        key: section.length(key, f"the cloth's {key.replace('_', ' ')}")
        for key in ("selvedge", "repeat", "repeat_across", "gap")
    }
    length = None
    if section.data.get("length") is not None:
        length = section.length("length", "the cloth on hand", above_nothing=True)
    for n, name in enumerate(section.items("match", "a list of piece names"), 1):
        if read := section.text_of(f"match[{n}]", name, "a piece's name", longest=100):
            match.append(read)
    flaws = []
    for n, flaw in enumerate(section.items("flaws", "a list of outlines"), 1):
        if outline := _outline(section, f"flaws[{n}]", flaw):
            flaws.append(outline)
    shrink = section.number("shrink", "a share such as 0.03 for 3 in 100", lambda n: 0 <= n <= MOST_SHRINK)
    layout = section.choice("layout", LAYOUTS, default="best")
    one_way = section.flag("one_way", default=False)
    name = section.text("name", "the cloth's name") or "cloth"
    if len(section.problems) > before or width is None:
        return None
    mm = {key: float(value.mm) if value else 0.0 for key, value in lengths.items()}
    if lengths["selvedge"] is None:
        mm["selvedge"] = float(HALF_INCH_MM)
    try:
        return LayCloth(
            width=float(width.mm),
            layout=layout,
            one_way=one_way,
            length=float(length.mm) if length else None,
            flaws=tuple(flaws),
            shrink=float(shrink or 0),
            name=name,
            step=EIGHTH_YARD if unit == "in" else TEN_CM,
            **mm,
        )
    except DraftingError as bad:
        section.problems.append(f"{getattr(bad, 'key', 'cloth')}: {bad.sentence(fmt_in(unit))}")
        return None


def _pieces(file: Section, match: list[str]) -> list[LayPiece]:
    given = file.data.get("pieces")
    if not isinstance(given, list) or not given:
        file.note("pieces", f"I read {shown(given)}. Give a list of pieces, each with a name and an outline.")
        return []
    if len(given) > MOST_PIECES:
        file.note(
            "pieces", f"{len(given)} pieces; at most {MOST_PIECES} are laid at once. Divide them over several lays."
        )
        return []
    pieces: list[LayPiece] = []
    names: set[str] = set()
    for n, value in enumerate(given, 1):
        section = file.inside(f"pieces[{n}]", value, "an object with a name and an outline")
        piece = _piece(section, match, file.unit) if section else None
        if piece and piece.name in names:
            section.note("name", f"{shown(piece.name)} is the name of an earlier piece. Give each its own.")
        if piece:
            names.add(piece.name)
            pieces.append(piece)
    for name in match:
        if name not in names and not file.problems:
            file.note("cloth.match", f"{shown(name)} is none of the pieces.")
    if sum(piece.count for piece in pieces) > MOST_COUNT:
        file.note(
            "pieces",
            f"{sum(p.count for p in pieces)} pieces in all; at most {MOST_COUNT} are laid at once. "
            "Divide them over several lays.",
        )
    return pieces


def _piece(section: Section, match: list[str], unit: str) -> LayPiece | None:
    section.only(PIECE)
    before = len(section.problems)
    name = section.text("name", "the piece's name", required=True)
    outline = (
        _outline(section, "outline", section.data.get("outline"))
        if section.need("outline", "the outline, [[x, y], …]")
        else None
    )
    wanted = f"a whole number from 1 to {MOST_COUNT}"
    count = section.number("count", wanted, lambda n: n == int(n) and 1 <= n <= MOST_COUNT)
    turns = section.data.get("turns", [0, 180])
    if not isinstance(turns, list) or not turns or not all(_is_number(turn) for turn in turns) or len(turns) > 36:
        section.note("turns", f"I read {shown(turns)}. Give a list of angles it may lie at, such as [0, 180].")
    motif = section.data.get("motif")
    point = _points(section, "motif", [motif]) if motif is not None else None
    mirror = section.choice("mirror", ("never", "pair"), default="never")
    on_fold, singly = section.flag("on_fold", default=False), section.flag("singly", default=False)
    if len(section.problems) > before or not name or not outline:
        return None
    try:
        return LayPiece(
            name,
            outline,
            int(count or 1),
            on_fold,
            tuple(turns),
            mirror,
            match=name in match,
            motif=point[0] if point else None,
            singly=singly,
        )
    except DraftingError as bad:
        section.note(getattr(bad, "key", "outline"), bad.sentence(fmt_in(unit)))
        return None


def _outline(section: Section, key: str, value: Any) -> tuple[tuple[float, float], ...] | None:
    if not isinstance(value, list) or not 3 <= len(value) <= MOST_POINTS:
        what = f"{len(value)} points" if isinstance(value, list) else shown(value)
        section.note(key, f"I read {what}. Give an outline of 3 to {MOST_POINTS:,} points, [[x, y], …].")
        return None
    points = _points(section, key, value)
    return tuple(points) if points else None


def _points(section: Section, key: str, value: list[Any]) -> list[tuple[float, float]] | None:
    scale = float(MM_PER[section.unit])
    points = []
    for n, point in enumerate(value, 1):
        if not isinstance(point, list) or len(point) != 2:
            section.note(f"{key}[{n}]", f"I read {shown(point)}. Give a point as [across, along].")
            return None
        read = []
        for figure in point:
            if _is_number(figure):
                read.append(figure * scale)
            elif length := section.length_of(f"{key}[{n}]", figure, "a length", signed=True):
                read.append(float(length.mm))
            else:
                return None
        points.append((read[0], read[1]))
    return points


def _is_number(value: Any) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool) and abs(value) < 1e9 and math.isfinite(value)
