"""What the Draft page shows, made from the order file and the result alone; lengths in the order's own unit."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import partial
from typing import Any

from django.utils.safestring import SafeString, mark_safe

from drafting.fit_words import note_in_words
from drafting.laid_over_picture import laid_over_svg, laid_over_title, laid_over_words
from drafting.linework import KINDS as LINE_KINDS
from drafting.pictures import is_one_way, piece_svg
from drafting.piece_words import cut_words, group_of
from workshop.length import CM, INCH, print_length

GROUPS = {"top": "Top", "skirt": "Skirt", "trousers": "Trousers", "lining": "Lining", "stay": "Stay and wadding", "all": "All"}
LEVELS = {"bust": "Bust", "under_bust": "Under-bust", "waist": "Waist", "hip": "Hip", "chest": "Chest"}
UNIT_NAMES = {INCH: "inches", CM: "centimetres", "mm": "millimetres"}
SCALE_BAR = {INCH: ("5em", "5 inches"), CM: ("3.937em", "10 centimetres"), "mm": ("3.937em", "100 millimetres")}
"""The bar under the pieces, where 1 em is an inch of cloth, and what is written by it: five parts of an inch or 2 cm."""


@dataclass(frozen=True, slots=True)
class PieceShown:
    name: str
    heading: str
    cut: str
    svg: SafeString


@dataclass(frozen=True, slots=True)
class GroupLink:
    key: str
    title: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class GirthRow:
    level: str
    body: str
    ease: str
    finished: str
    meets: bool | None
    wadding: str


@dataclass(frozen=True, slots=True)
class SeamRow:
    name: str
    one: str
    other: str
    differ: str
    note: str
    meets: bool


@dataclass(frozen=True, slots=True)
class StepRow:
    number: int
    piece: str
    text: str
    why: str
    marks: str


@dataclass(frozen=True, slots=True)
class FailedCheck:
    name: str
    figure: str


@dataclass(frozen=True, slots=True)
class KeyLine:
    word: str
    width: str
    dashes: str
    round_ends: bool


KEY = tuple(
    KeyLine(kind.word, f"{kind.screen:g}", " ".join(f"{dash * 4:g}" for dash in kind.dashes) or "none", kind.round_ends)
    for name, kind in LINE_KINDS.items()
    if name != "dimension"
)
"""The lines that the pieces on this page are drawn with, as linework.py draws them."""


@dataclass(frozen=True)
class DraftPage:
    client: str
    measured_on: date
    summary: str
    unit: str
    unit_sign: str
    groups: tuple[GroupLink, ...]
    group_title: str
    pieces: tuple[PieceShown, ...]
    bar_width: str
    bar_words: str
    girths: tuple[GirthRow, ...]
    seams: tuple[SeamRow, ...]
    steps: tuple[tuple[str, tuple[StepRow, ...]], ...]
    warnings: tuple[str, ...]
    drawn_in: tuple[str, ...]
    failed: tuple[FailedCheck, ...]
    toile_only: bool
    cautions: tuple[str, ...]
    key_lines: tuple[KeyLine, ...] = KEY

    @property
    def all_seams_meet(self) -> bool:
        return all(seam.meets for seam in self.seams)


def draft_page(order_file: dict[str, Any], result: dict[str, Any], *, group: str | None = None) -> DraftPage:
    """The page for one group of pieces (the first group that has any, where none is asked for)."""
    unit = order_file["units"]
    fmt = partial(print_length, unit=unit)
    by_group = {key: [p for p in result["pieces"] if key == "all" or key in group_of(p)] for key in GROUPS}
    shown = group if group and by_group[group] else next(key for key in GROUPS if by_group[key])
    bar_width, bar_words = SCALE_BAR[unit]
    return DraftPage(
        client=order_file["client"],
        measured_on=date.fromisoformat(order_file["measured_on"]),
        summary=result.get("garment", {}).get("summary", ""),
        unit=UNIT_NAMES[unit],
        unit_sign=unit,
        groups=tuple(GroupLink(key, title, key == shown) for key, title in GROUPS.items() if by_group[key]),
        group_title=GROUPS[shown],
        pieces=(*_pieces(order_file, result, by_group[shown], fmt), *(_laid_over(result, fmt) if shown in ("top", "all") else ())),
        bar_width=bar_width,
        bar_words=bar_words,
        girths=tuple(_girths(result, fmt)),
        seams=tuple(_seams(result, unit)),
        steps=tuple(_steps(result)),
        warnings=tuple(warning["text"] for warning in result["warnings"]),
        drawn_in=tuple(note_in_words(note, fmt) for note in result.get("fit_notes", ()) if note["drawn"]),
        failed=tuple(_failed(result, unit)),
        toile_only=result.get("toile_only", False),
        cautions=tuple(result.get("cautions", ())),
    )


def _pieces(order_file: dict[str, Any], result: dict[str, Any], pieces: list[dict[str, Any]], fmt: Any) -> Iterable[PieceShown]:
    napped = {cloth["name"] for cloth in order_file["cloths"] if cloth.get("one_way")}
    for piece in pieces:
        title = piece.get("title") or piece["name"].capitalize()
        number = piece.get("number")
        yield PieceShown(
            name=piece["name"],
            heading=f"{number} {title}" if number else title,
            cut=cut_words(piece),
            svg=mark_safe(  # noqa: S308 - linework.py escapes every text that it draws
                piece_svg(piece, result, scale=1.0, for_paper=False, fmt=fmt, one_way=is_one_way(piece, napped))
            ),
        )


def _laid_over(result: dict[str, Any], fmt: Any) -> Iterable[PieceShown]:
    """The sleeve's cap over the armholes, after the pieces."""
    for one in result.get("laid_over", ()):
        yield PieceShown(
            name=f"laid over {one['name']}",
            heading=laid_over_title(one),
            cut=laid_over_words(one, fmt).capitalize(),
            svg=mark_safe(laid_over_svg(one, scale=1.0, for_paper=False, fmt=fmt)),  # noqa: S308 - linework.py escapes every text
        )


HELD = ("bust", "under_bust", "waist", "hip")
"""The levels that a draft must meet; a chest line is reported, and may lie looser."""
GIRTH_WITHIN_MM = 1.27
"""A finished girth is right to 0.05 in, under half of what a tape can be read to. Drafting.md section 5."""


def _girths(result: dict[str, Any], fmt: Any) -> Iterable[GirthRow]:
    for girth in result["girths"]:
        level, wadding = girth["level"], girth.get("wadding") or 0.0  # wadding is a part of the ease
        held = level in HELD
        off = girth["finished"] - girth["body"] - girth["ease"]
        yield GirthRow(
            level=LEVELS.get(level, level.replace("_", " ").capitalize()),
            body=fmt(girth["body"]),
            ease=fmt(girth["ease"]),
            finished=fmt(girth["finished"]),
            meets=abs(off) <= GIRTH_WITHIN_MM if held else None,
            wadding=fmt(wadding) if wadding else "",
        )


SEWN_WITHIN_MM = 0.5
"""Mated seams agree to this: less than a thread's width of cloth. Drafting.md section 5, tolerances."""


def _seams(result: dict[str, Any], unit: str) -> Iterable[SeamRow]:
    for seam in result["seams"]:
        off = seam["length_a"] - seam["length_b"] - seam["ease"]
        meets = abs(off) <= SEWN_WITHIN_MM
        eased = abs(seam["ease"]) > SEWN_WITHIN_MM
        yield SeamRow(
            name=seam["name"],
            one=print_length(seam["length_a"], unit, step=16),
            other=print_length(seam["length_b"], unit, step=16),
            differ="0" if meets else print_length(off, unit, step=16, signed=True),
            note=_eased(seam["ease"], unit) if eased else "",
            meets=meets,
        )


def _eased(ease: float, unit: str) -> str:
    longer = "one side" if ease > 0 else "the other"
    return f"{longer} is {print_length(abs(ease), unit, step=16)} longer, eased in"


def _steps(result: dict[str, Any]) -> Iterable[tuple[str, tuple[StepRow, ...]]]:
    by_piece: dict[str, list[StepRow]] = {}
    for step in result["steps"]:
        row = StepRow(step["number"], step["piece"], step["text"], step.get("why", ""), "|".join(step["marks"]))
        by_piece.setdefault(step["piece"], []).append(row)
    return ((piece, tuple(rows)) for piece, rows in by_piece.items())


def _failed(result: dict[str, Any], unit: str) -> Iterable[FailedCheck]:
    for check in result["checks"]:
        if not check["pass"]:
            in_mm = check["unit"] == "mm"
            figure = print_length(check["figure"], unit, step=16, with_unit=True) if in_mm else f"{check['figure']:.3g}"
            yield FailedCheck(check["check"], f"differs {figure}" if in_mm else f"comes to {figure} {check['unit']}")
